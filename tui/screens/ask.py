"""A question with two or three answers, each on its own key."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.screen import ModalScreen
from textual.widgets import Static


class AskScreen(ModalScreen[str]):
    """Asks, and gives back the key of the answer; escape gives back nothing."""

    CSS_PATH = "ask.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "answer('')", "Stay")]

    def __init__(self, question: str, answers: dict[str, str], stay: str) -> None:
        super().__init__()
        self._question, self._answers, self._stay = question, answers, stay

    def compose(self) -> ComposeResult:
        parts: list[str | tuple[str, str]] = []
        for key, does in self._answers.items():
            parts += [(f"{key}", "bold $primary"), f" {does}    "]
        parts += [("esc", "bold $primary"), f" {self._stay}"]
        with Vertical(id="box"):
            yield Static(self._question, id="question", markup=False)
            yield Static(Content.assemble(*parts), id="answers")

    def on_key(self, event: Key) -> None:
        if event.key in self._answers:
            event.stop()
            self.dismiss(event.key)

    def action_answer(self, key: str) -> None:
        self.dismiss(key)
