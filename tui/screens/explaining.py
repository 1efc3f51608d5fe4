"""What every page with numbers shares: the key that explains them."""

from typing import TYPE_CHECKING, Any

from tui.screens.explain import ExplainScreen

if TYPE_CHECKING:
    from textual.screen import Screen

    from scheduler.trace import Trace
    from tui.session import Session

NOTHING = "There is no number to explain here yet."


def explain_numbers(
    screen: "Screen[Any]",
    session: "Session | None",
    title: str,
    numbers: "tuple[Trace, ...]",
    *,
    before: "Trace | None" = None,
) -> None:
    """Open the first number of a page; a key there goes on to the others."""
    if session is None or not numbers:
        screen.notify(NOTHING, severity="warning")
        return
    units = session.units
    page = ExplainScreen(title, numbers[0], units, numbers, before=before)
    screen.app.push_screen(page)
