"""Where a number came from: the chain from the cans to the minutes."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from scheduler.trace import Trace
from scheduler.units import System
from tui.screens import wording
from tui.screens.numbers import NumbersScreen
from tui.tried import ARROW
from tui.widgets.sheet import Paragraph, Sheet


class ExplainScreen(ModalScreen[None]):
    """Every number that one result rests on, inputs before results."""

    CSS_PATH = "explain.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,e,q", "app.pop_screen", "Back"),
        Binding("j", "scroll(1)", "Down", show=False),
        Binding("k", "scroll(-1)", "Up", show=False),
        Binding("n", "another", "Another number", show=False),
    ]

    def __init__(
        self,
        title: str,
        trace: Trace,
        units: System,
        numbers: tuple[Trace, ...] = (),
        *,
        before: Trace | None = None,
    ) -> None:
        super().__init__()
        self._numbers = numbers or tuple(trace.chain())[::-1]
        self._heading = title
        self._trace = trace
        self._units = units
        # numbers without what is tried, by name
        self._before = {one.name: one for one in before.chain()} if before else {}

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static(self._heading, id="heading", markup=False)
            yield Static(_asked(self._trace, self._units), id="asked", markup=False)
            yield Sheet(self._chain(), id="chain")
            keys = f"n another of {len(self._numbers)} numbers, ↑ ↓ page keys move"
            yield Static(f"{keys}, esc goes back", id="keys", markup=False)

    def _chain(self) -> list[Paragraph]:
        """Every number with its reason below it."""
        told = []
        for i, trace in enumerate(self._trace.chain(), 1):
            was = before_text(self._before.get(trace.name), trace, self._units)
            told.append(Paragraph(_result(i, trace, self._units, was)))
            told.append(Paragraph(_reason(trace), indent=4, below=1))
        return told

    def on_mount(self) -> None:
        self.query_one("#chain").focus()

    def action_another(self) -> None:
        """Pick another number of the page."""
        self.app.push_screen(NumbersScreen(self._numbers, self._units), self._go_on)

    async def _go_on(self, picked: Trace | None) -> None:
        if picked is not None:
            self._trace = picked
            await self.recompose()
            self.query_one("#chain").focus()

    def action_scroll(self, by: int) -> None:
        self.query_one("#chain").scroll_relative(y=2 * by, animate=False)


def before_text(before: Trace | None, now: Trace, units: System) -> str:
    """What a number was before what is tried; empty where it is the same."""
    if before is None:
        return ""
    was = wording.trace_value(before, units)
    return "" if was == wording.trace_value(now, units) else was + ARROW


def _result(i: int, trace: Trace, units: System, was: str) -> Content:
    return Content.assemble(
        (f"{i:>2}  ", "$foreground 60%"),
        (f"{wording.trace_name(trace)}  ", "bold"),
        (was, "$foreground 60%"),
        (wording.trace_value(trace, units), "bold $primary"),
    )


def _asked(trace: Trace, units: System) -> Content:
    """The number that was asked for, in one line above what it rests on.

    Several numbers that are explained together stand beside each other.
    """
    if trace.value is None and trace.inputs:
        parts: list[str | tuple[str, str]] = []
        for one in trace.inputs:
            parts += [(f"{wording.trace_name(one)}  ", "bold")]
            parts += [
                (
                    f"{wording.trace_value(one, units, in_chain=False)}   ",
                    "bold $primary",
                )
            ]
        return Content.assemble(*parts)
    return Content.assemble(
        (f"{wording.trace_name(trace)}  ", "bold"),
        (wording.trace_value(trace, units, in_chain=False), "bold $primary"),
        (f"  {trace.formula}", "$text-muted"),
    )


def _reason(trace: Trace) -> Content:
    said = [f"\nfrom: {trace.source}", f"\n{trace.note}" if trace.note else ""]
    return Content.assemble(trace.formula, ("".join(said), "$foreground 60%"))
