"""The first page in a terminal: gives the folder of a site, or nothing."""

from collections.abc import Sequence
from pathlib import Path

from textual.app import App
from textual.filter import LineFilter

from tui.screens.help import HelpScreen
from tui.screens.welcome import WelcomeScreen
from tui.themes import FACES, OWN
from tui.widgets.ascii_lines import face_filters


class WelcomeApp(App[Path]):
    """Asks until there is a site to open, or the user leaves."""

    TITLE = "lowquarter"
    CSS_PATH = "app.tcss"

    def __init__(self, why: str = "", face: str | None = None) -> None:
        super().__init__()
        for theme in OWN:
            self.register_theme(theme)
        self.theme = FACES[face or "dark"]
        self._why = why

    def get_line_filters(self) -> Sequence[LineFilter]:
        """Filters of every painted line: what a face or a console asks for."""
        return [*face_filters(self.theme), *super().get_line_filters()]

    def on_mount(self) -> None:
        self.push_screen(WelcomeScreen(self._why))

    def action_help(self) -> None:
        self.push_screen(HelpScreen())


def welcome(why: str = "", *, face: str | None = None) -> Path | None:
    """Show the first page; the folder that was made or chosen."""
    return WelcomeApp(why, face).run()
