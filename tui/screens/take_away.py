"""What can be taken away from a page: a short list, picked by its digit or its row."""

from dataclasses import dataclass
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from tui.screens.page_text import Picture


@dataclass(frozen=True, slots=True)
class Take:
    """One thing to take: which, and the picture where it is one."""

    what: str
    said: str
    picture: Picture | None = None


def takes(pictures: tuple[Picture, ...], *, has_table: bool) -> tuple[Take, ...]:
    """What there is to take from a page, tables first."""
    found = []
    if has_table:
        found.append(Take("aligned", "this table as text, in columns"))
        found.append(Take("tabbed", "this table for a spreadsheet, with tabs"))
    found.append(Take("page", "this page as text"))
    for one in pictures:
        found.append(Take("picture", f"picture (SVG): {one.title}", one))
    found.append(Take("screen", "the screen as it looks (SVG)"))
    return tuple(found)


class TakeAwayScreen(ModalScreen[Take | None]):
    """Digits or enter take; escape leaves."""

    CSS_PATH = "take_away.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,ctrl+e,q", "dismiss(None)", "Back"),
        Binding("j", "cursor('down')", show=False),
        Binding("k", "cursor('up')", show=False),
        *(Binding(str(i), f"take({i})", show=False) for i in range(1, 10)),
    ]

    def __init__(self, there_is: tuple[Take, ...]) -> None:
        super().__init__()
        self._takes = there_is

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static("Take away", id="heading", markup=False)
            listed = [f"{i}  {one.said}" for i, one in enumerate(self._takes, 1)]
            yield OptionList(*(Option(one) for one in listed), markup=False)
            about = "Text goes to the clipboard too, where the terminal carries it."
            yield Static(f"{about}\nesc goes back", id="keys", markup=False)

    def on_mount(self) -> None:
        self.query_one(OptionList).focus()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(self._takes[event.option_index])

    def action_take(self, number: int) -> None:
        if number <= len(self._takes):
            self.dismiss(self._takes[number - 1])

    def action_cursor(self, how: str) -> None:
        getattr(self.query_one(OptionList), f"action_cursor_{how}")()
