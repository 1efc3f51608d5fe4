"""The line on top of every screen, and a prompt for one value."""

from dataclasses import dataclass
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from tui.widgets.words import Words


class TopBar(Horizontal):
    """Where we are on the left, when and in which units on the right."""

    DEFAULT_CSS = """
    TopBar { height: 1; background: $surface; color: $foreground; padding: 0 1; }
    TopBar .where {
        width: 1fr; text-style: bold; color: $primary;
        text-wrap: nowrap; text-overflow: ellipsis;
    }
    TopBar .when { width: auto; padding-left: 2; color: $text-muted; }
    """

    def compose(self) -> ComposeResult:
        yield Words(classes="where")
        yield Words(classes="when")

    async def on_click(self) -> None:
        """Offer with the mouse what the keys offer."""
        await self.run_action("app.command_palette")

    def show(self, where: str, when: str) -> None:
        """Write both ends."""
        self.query_one(".where", Static).update(where)
        self.query_one(".when", Static).update(when)


class Prompt(Input):
    """One line that asks for one value; enter gives it, escape leaves."""

    DEFAULT_CSS = """
    Prompt { display: none; height: 1; border: none; padding: 0 1; }
    Prompt.asking { display: block; }
    Prompt:focus { border: none; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Leave")]

    @dataclass
    class Given(Message):
        """Somebody gave a value for what was asked."""

        what: str
        text: str

    what = ""
    _before: Widget | None = None  # what had the keys

    def on_mount(self) -> None:
        self.disabled = True

    def ask(self, what: str, hint: str, value: str = "") -> None:
        """Show the line and take the keys; what stands there can be typed on."""
        self.what = what
        self._before = self.screen.focused
        self.value = value
        self.placeholder = hint
        self.disabled = False
        self.add_class("asking")
        self.focus()

    def action_leave(self) -> None:
        self.remove_class("asking")
        self.disabled = True  # keys belong to the screen again
        self.screen.set_focus(self._before)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.action_leave()
        self.post_message(self.Given(self.what, event.value))
