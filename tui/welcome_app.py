"""The first page in a terminal: gives the folder of a site, or nothing."""

from collections.abc import Sequence
from pathlib import Path

from textual.app import App
from textual.filter import LineFilter

from tui.screens.help import HelpScreen
from tui.screens.welcome import WelcomeScreen
from tui.widgets.ascii_lines import AsciiFilter
from tui.widgets.canvas import ascii_only


class WelcomeApp(App[Path]):
    """Asks until there is a site to open, or the user leaves."""

    TITLE = "lowquarter"
    CSS_PATH = "app.tcss"

    def __init__(self, why: str = "") -> None:
        super().__init__()
        self._why = why

    def get_line_filters(self) -> Sequence[LineFilter]:
        """Filters of every painted line; plain ASCII where that is asked for."""
        own = [AsciiFilter()] if ascii_only() else []
        return [*super().get_line_filters(), *own]

    def on_mount(self) -> None:
        self.push_screen(WelcomeScreen(self._why))

    def action_help(self) -> None:
        self.push_screen(HelpScreen())


def welcome(why: str = "") -> Path | None:
    """Show the first page; the folder that was made or chosen."""
    return WelcomeApp(why).run()
