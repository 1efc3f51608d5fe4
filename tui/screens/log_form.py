"""A small form for one entry of the log: the lines stand below before enter writes."""

from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from tui.log_entry import TITLES, LogForm, Wrong

if TYPE_CHECKING:
    from scheduler.files.log_writing import TypedLine

KEYS = "enter next, then writes    tab ⇧tab ↑ ↓ move    esc leave"
MOST_LINES = 6


class LogFormScreen(ModalScreen["tuple[TypedLine, ...] | None"]):
    """Fields to fill; enter goes on, shows what it will write, and writes it."""

    CSS_PATH = "log_form.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "Leave"),
        Binding("down", "app.focus_next", show=False),
        Binding("up", "app.focus_previous", show=False),
    ]

    def __init__(self, form: LogForm) -> None:
        super().__init__()
        self._form = form
        self._ready: tuple[TypedLine, ...] = ()

    def compose(self) -> ComposeResult:
        title = f"Record {TITLES[self._form.what]}"
        zone = "" if self._form.what == "meter" else f", {self._form.zone}"
        with Vertical(id="sheet"):
            yield Static(f"{title}{zone}", id="heading", markup=False)
            for one in self._form.fields:
                with Horizontal(classes="field"):
                    yield Static(one.words, classes="name", markup=False)
                    text = self._form.filled.get(one.cell, "")
                    yield Input(text, placeholder=one.example, id=one.cell)
            yield Static("", id="lines", markup=False)
            yield Static(KEYS, id="keys", markup=False)

    @property
    def _texts(self) -> dict[str, str]:
        return {
            one.cell: self.query_one(f"#{one.cell}", Input).value
            for one in self._form.fields
        }

    def on_input_changed(self, event: Input.Changed) -> None:
        """What was shown is not what stands there any more."""
        event.stop()
        self._ready = ()
        lines, wrong = self._form.lines(self._texts)
        if wrong is None:
            self._show(lines, "will be written to log.csv:")
        else:
            self.query_one("#lines", Static).update("")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        if self._ready:
            self.dismiss(self._ready)
            return
        cells = [one.cell for one in self._form.fields if one.is_asked]
        at = cells.index(event.input.id or "") if event.input.id in cells else -1
        if 0 <= at < len(cells) - 1:
            self.query_one(f"#{cells[at + 1]}", Input).focus()
            return
        lines, wrong = self._form.lines(self._texts)
        if wrong is not None:
            self._refuse(wrong)
            return
        self._ready = lines
        self._show(lines, "enter writes to log.csv, esc does not:")

    def action_leave(self) -> None:
        self.dismiss(None)

    def _refuse(self, wrong: Wrong) -> None:
        fields = {one.cell: one.words for one in self._form.fields}
        words = fields.get(wrong.cell, wrong.cell)
        self.query_one("#lines", Static).update(
            Content.assemble((f"✖ {words}: {wrong.text}", "$text-error"))
        )
        if wrong.cell in fields:
            self.query_one(f"#{wrong.cell}", Input).focus()

    def _show(self, lines: "tuple[TypedLine, ...]", head: str) -> None:
        """The lines as they will stand, without the moment of entry."""
        texts = [one.text("").rstrip(",") for one in lines]
        more = len(texts) - MOST_LINES
        shown = (
            texts if more <= 0 else [*texts[: MOST_LINES - 1], f"and {more + 1} more"]
        )
        warning = self._form.warning(self._texts)
        self.query_one("#lines", Static).update(
            Content.assemble(
                (f"▲ {warning}\n" if warning else "", "$text-warning"),
                (f"{head}\n", "bold" if self._ready else "$foreground 60%"),
                "\n".join(shown),
            )
        )
