"""What is said once about a run: date, can, minutes, grid."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from tui.draft import Setup
from tui.setup_text import FIELDS, read_setup

KEYS = "enter next, then on    tab ⇧tab move    ctrl+s done    esc leave"


class RunFormScreen(ModalScreen[Setup | None]):
    """Fields one below another; enter moves on, and from the last one it is done."""

    CSS_PATH = "run_form.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "Leave"),
        Binding("ctrl+s", "done", "Done"),
        Binding("down", "app.focus_next", show=False),
        Binding("up", "app.focus_previous", show=False),
    ]

    def __init__(
        self, title: str, texts: dict[str, str], *, before: Setup | None = None
    ) -> None:
        super().__init__()
        self._title, self._texts, self._before = title, texts, before

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static(self._title, id="heading", markup=False)
            for name, words, example in FIELDS:
                with Horizontal(classes="field"):
                    yield Static(words, classes="name", markup=False)
                    text = self._texts.get(name, "")
                    yield Input(text, placeholder=example, id=name)
            yield Static("", id="wrong", markup=False)
            yield Static(KEYS, id="keys", markup=False)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        if event.input.id == FIELDS[-1][0]:
            self.action_done()
        else:
            self.focus_next()

    def action_leave(self) -> None:
        self.dismiss(None)

    def action_done(self) -> None:
        texts = {name: self.query_one(f"#{name}", Input).value for name, *_ in FIELDS}
        setup, wrong = read_setup(texts, before=self._before)
        if setup is not None:
            self.dismiss(setup)
            return
        name = next(name for name, *_ in FIELDS if name in wrong)
        words = next(words for one, words, _ in FIELDS if one == name)
        self.query_one("#wrong", Static).update(f"✖ {words}: {wrong[name]}")
        self.query_one(f"#{name}", Input).focus()
