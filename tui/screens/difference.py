"""A file that was edited here and changed on disk: both sides, and the choice."""

from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from tui.screens.base import WIDE

if TYPE_CHECKING:
    from scheduler.files.folder_edits import Conflict

COLOURS = {"+": "$text-success", "-": "$text-error", "@": "$foreground 60%"}


class DifferenceScreen(ModalScreen[str]):
    """What somebody else changed on one side, what was edited here on the other."""

    CSS_PATH = "difference.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("t", "answer('t')", "Take theirs"),
        Binding("m", "answer('m')", "Mine on top"),
        Binding("escape", "answer('')", "Leave"),
        Binding("down", "scroll(1)", show=False),
        Binding("up", "scroll(-1)", show=False),
    ]

    def __init__(self, conflict: "Conflict", more: int) -> None:
        super().__init__()
        self._conflict, self._more = conflict, more

    def compose(self) -> ComposeResult:
        one = self._conflict
        more = f", and so were {self._more} more" if self._more else ""
        yield Static(
            Content.assemble(
                (f"{one.file} ", "bold $primary"),
                f"was changed on disk while it was edited here{more}. ",
                ("Nothing is written yet.", "$foreground 60%"),
            ),
            id="head",
        )
        with Horizontal(id="sides"):
            for name, words, lines in (
                ("theirs", "on disk now", one.their_lines),
                ("mine", "edited here", one.my_lines),
            ):
                with VerticalScroll(id=name):
                    yield Static(_side(words, lines), markup=False)
        yield Static(
            Content.assemble(
                ("t", "bold $primary"),
                " take theirs, drop mine    ",
                ("m", "bold $primary"),
                " mine on top of theirs    ",
                ("esc", "bold $primary"),
                " leave it for now",
            ),
            id="answers",
        )

    def on_mount(self) -> None:
        self.set_class(self.app.size.width < WIDE, "narrow")
        self.query_one("#theirs").focus()

    def action_answer(self, key: str) -> None:
        self.dismiss(key)

    def action_scroll(self, by: int) -> None:
        for one in self.query(VerticalScroll):
            one.scroll_relative(y=3 * by, animate=False)


def _side(words: str, lines: tuple[str, ...]) -> Content:
    parts: list[str | tuple[str, str]] = [(f"{words}\n", "bold")]
    for line in lines[2:]:  # behind the names of both sides
        colour = COLOURS.get(line[:1], "")
        parts.append((f"{line}\n", colour) if colour else f"{line}\n")
    return Content.assemble(*parts)
