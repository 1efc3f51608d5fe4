"""A form that is checked while it is typed; what it would do stands below."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Button, Input, Static, TextArea

KEYS = "enter next, then on    tab ⇧tab move    ctrl+s done    esc back"
Texts = dict[str, str]


@dataclass(frozen=True, slots=True)
class Blank:
    """One field: its name, an example, what stands in it, whether it has many lines."""

    name: str
    example: str
    text: str = ""
    is_long: bool = False


@dataclass(frozen=True, slots=True)
class Checked:
    """What a form comes to: what is wrong by field, and what is said below."""

    wrong: Texts = field(default_factory=dict)
    said: str = ""


class FillingScreen(ModalScreen[Texts | None]):
    """Gives back the texts when all of them are understood."""

    CSS_PATH = "filling.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "Back"),
        Binding("ctrl+s", "done", "Done"),
        Binding("down", "app.focus_next", show=False),
        Binding("up", "app.focus_previous", show=False),
    ]

    def __init__(
        self, title: str, blanks: tuple[Blank, ...], check: Callable[[Texts], Checked]
    ) -> None:
        super().__init__()
        self._title, self._blanks, self._check = title, blanks, check
        self._touched: set[str] = set()

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static(self._title, id="heading", markup=False)
            for one in self._blanks:
                kind = "long" if one.is_long else "field"
                with Horizontal(classes=kind):
                    yield Static(one.name, classes="name", markup=False)
                    yield _entry(one)
            with VerticalScroll(id="below", can_focus=False):
                yield Static("", id="said", markup=False)
            with Horizontal(id="buttons"):
                yield Button("Done", id="done", compact=True)
                yield Button("Back", id="back", compact=True)
            yield Static(KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        self._look()

    @property
    def texts(self) -> Texts:
        """What stands in the fields."""
        found = {}
        for one in self._blanks:
            widget = self.query_one(f"#{_id(one)}")
            assert isinstance(widget, Input | TextArea), "composed above"
            found[one.name] = widget.value if isinstance(widget, Input) else widget.text
        return found

    def on_input_changed(self, event: Input.Changed) -> None:
        self._touch(event.input.id)

    def on_text_area_changed(self, event: TextArea.Changed) -> None:
        self._touch(event.text_area.id)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        if event.input.id == _id(self._blanks[-1]):
            self.action_done()
        else:
            self.focus_next()

    def on_button_pressed(self, event: Button.Pressed) -> None:
        self.action_done() if event.button.id == "done" else self.action_leave()

    def _touch(self, which: str | None) -> None:
        one = next((one for one in self._blanks if _id(one) == which), None)
        if one is not None and self.texts[one.name] != one.text:
            self._touched.add(one.name)
        self._look()

    def _look(self) -> Checked:
        """Say what is wrong with what was typed, else what it comes to."""
        found = self._check(self.texts)
        wrong = [name for name in found.wrong if name in self._touched]
        below = self.query_one("#said", Static)
        below.set_class(bool(wrong), "wrong")
        below.update(
            "\n".join(f"✖ {name}: {found.wrong[name]}" for name in wrong) or found.said
        )
        return found

    def action_leave(self) -> None:
        self.dismiss(None)

    def action_done(self) -> None:
        self._touched = {one.name for one in self._blanks}
        found = self._look()
        if not found.wrong:
            self.dismiss(self.texts)
            return
        first = next((b for b in self._blanks if b.name in found.wrong), None)
        if first is not None:
            self.query_one(f"#{_id(first)}").focus()


def _id(one: Blank) -> str:
    return one.name.replace(" ", "-")


def _entry(one: Blank) -> Input | TextArea:
    if one.is_long:
        return TextArea(one.text, id=_id(one), placeholder=one.example, compact=True)
    return Input(one.text, placeholder=one.example, id=_id(one))
