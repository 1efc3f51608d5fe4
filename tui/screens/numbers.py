"""Which number of a page to explain: a list of all of them, the main ones first."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from scheduler.trace import Trace
from scheduler.units import System
from tui.screens import wording


class NumbersScreen(ModalScreen[Trace | None]):
    """Enter or a click picks a number; escape leaves the one that was shown."""

    CSS_PATH = "numbers.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,n,q", "dismiss(None)", "Back"),
        Binding("j", "cursor('down')", show=False),
        Binding("k", "cursor('up')", show=False),
    ]

    def __init__(self, numbers: tuple[Trace, ...], units: System) -> None:
        super().__init__()
        self._numbers = numbers
        self._units = units

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static("Which number?", id="heading", markup=False)
            entries = [_entry(one, self._units) for one in self._numbers]
            yield OptionList(*(Option(one) for one in entries), markup=False)
            yield Static("↑ ↓ enter explains it, esc goes back", id="keys")

    def on_mount(self) -> None:
        self.query_one(OptionList).focus()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(self._numbers[event.option_index])

    def action_cursor(self, how: str) -> None:
        getattr(self.query_one(OptionList), f"action_cursor_{how}")()


def _entry(trace: Trace, units: System) -> Content:
    return Content.assemble(
        f"{wording.trace_name(trace)}  ",
        (wording.trace_value(trace, units, in_chain=False), "bold"),
        (f"  {trace.formula}", "$text-muted"),
    )
