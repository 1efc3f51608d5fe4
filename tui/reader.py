"""How the dashboard is read: its colours, words in place of pictures, taking away.

What does not depend on the site stands here, below the app that knows one.
"""

import io
import re
from collections.abc import Iterable, Sequence
from functools import partial
from pathlib import Path
from typing import ClassVar

from textual import events, on
from textual.app import SystemCommand
from textual.binding import Binding, BindingType
from textual.filter import LineFilter
from textual.reactive import var
from textual.screen import Screen

from tui.painting import Painting
from tui.screens.page_text import (
    Picture,
    page_name,
    page_pictures,
    page_table,
    page_text,
)
from tui.screens.take_away import Take, TakeAwayScreen, takes
from tui.taking import aligned, claimed, file_name, tabbed
from tui.themes import FACES, OWN, next_face
from tui.widgets.ascii_lines import face_filters
from tui.widgets.canvas import ascii_only, plain
from tui.widgets.picture_svg import PAPER, picture_svg
from tui.widgets.work_line import WorkLine

TAKEN = "taken"
PICTURE_CELLS = (110, 32)  # least size of a picture that is saved
SAID = {"dark": "light words on dark", "light": "dark words on light",
        "contrast": "black and white and one colour, nothing dimmed"}  # fmt: skip


class Reader(Painting):
    """An app whose pages can be read in other ways, and taken away."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+e", "take_away", "Take away", show=False),
        Binding("ctrl+t,f4", "colours", "Colours", show=False),
        Binding("escape", "leave_work", "Leave the work", show=False, priority=True),
    ]

    in_words: var[bool] = var(False)

    def __init__(self) -> None:
        super().__init__()
        for theme in OWN:
            self.register_theme(theme)
        self.take_to: Path | None = None  # None: the downloads, else where we are
        self.look(None)

    def look(self, face: str | None, *, in_words: bool = False) -> None:
        """Begin with a face, and with pictures or words."""
        self.theme = FACES[face or "dark"]
        self.set_reactive(Reader.in_words, in_words)
        if in_words:
            self.animation_level = "none"

    def get_line_filters(self) -> Sequence[LineFilter]:
        """Filters of every painted line: what a face or a console asks for."""
        return [*face_filters(self.theme), *super().get_line_filters()]

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        yield from super().get_system_commands(screen)
        about = "Table, picture or page as text or SVG (ctrl+e)"
        yield SystemCommand("Take away", about, self.action_take_away)
        for name, about, action in (
            ("Explain", "Where the numbers of this page come from (e)", "explain"),
            ("Words", "Say the pictures of this page in words (x)", "words"),
        ):
            if (act := getattr(screen, f"action_{action}", None)) is not None:
                yield SystemCommand(name, about, act)
        for face, said in SAID.items():
            yield SystemCommand(f"Colours: {face}", said, partial(self.put_on, face))
        off = "Pictures again" if self.in_words else "Every picture in words"
        yield SystemCommand("Screen reader", off, self.action_in_words)

    # --- how it looks ---------------------------------------------------------
    def put_on(self, face: str) -> None:
        """Draw in the colours of a face."""
        self.theme = FACES[face]

    def action_colours(self) -> None:
        """Go on to the next face, and say which it is."""
        face = next_face(self.theme)
        self.put_on(face)
        self.notify(f"Colours: {face}, {SAID[face]}", timeout=3)

    def action_in_words(self) -> None:
        """Say every picture in words from now on, or draw them again."""
        self.in_words = not self.in_words
        self.animation_level = "none" if self.in_words else "full"

    # --- work that takes long -------------------------------------------------
    def _shown_work(self) -> WorkLine | None:
        found = self.screen.query(WorkLine) if self.screen_stack else ()
        return next((one for one in found if one.is_shown), None)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer to leave only work that is named on the screen."""
        if action == "leave_work":
            return self._shown_work() is not None
        return super().check_action(action, parameters)

    def action_leave_work(self) -> None:
        if line := self._shown_work():
            line.leave()

    # --- taking away ----------------------------------------------------------
    def taken_of(self) -> tuple[str, str, str]:
        """Site, zone and day that the name of a file begins and ends with."""
        return ("", "", "")

    def action_take_away(self) -> None:
        """Offer what there is to take from the page in front."""
        screen = self.screen
        if isinstance(screen, TakeAwayScreen):
            return
        there_is = takes(
            page_pictures(screen), has_table=page_table(screen) is not None
        )
        self.push_screen(TakeAwayScreen(there_is), partial(self._take, screen))

    def _take(self, screen: Screen[object], take: Take | None) -> None:
        if take is None:
            return
        if take.what == "screen":
            self.call_after_refresh(self._take_screen, screen)
        elif take.picture is not None:
            drawing = self._drawing(take.picture)
            self._save_taken(screen, drawing, take.picture.name or "picture", "svg")
        else:
            self._take_text(screen, take.what)

    def _take_text(self, screen: Screen[object], what: str) -> None:
        table = page_table(screen)
        if what == "page" or table is None:
            text, ending = page_text(screen), "txt"
        elif what == "tabbed":
            text, ending = tabbed(table) + "\n", "tsv"
        else:
            text, ending = aligned(table) + "\n", "txt"
        text = plain(text) if ascii_only() else text
        self.copy_to_clipboard(text)
        self._save_taken(screen, text, "" if what == "page" else "table", ending)

    def _drawing(self, picture: Picture) -> str:
        chart = picture.chart
        width, height = (
            max(least, now)
            for least, now in zip(PICTURE_CELLS, chart.size, strict=True)
        )
        canvas = chart.drawn_on(width, height, PAPER)
        return picture_svg(canvas, picture.title, chart.words())

    def _take_screen(self, screen: Screen[object]) -> None:
        title = " ".join(one for one in self.taken_of() if one) or self.title
        svg = self.export_screenshot(title=title)
        # what Textual writes fetches a font; any even-spaced one will do
        svg = re.sub(r"<!--.*?-->", "", svg, flags=re.DOTALL)
        svg = re.sub(r"@font-face\s*\{[^}]*\}", "", svg)
        svg = re.sub(r"font-family:\s*Fira Code\s*,?\s*", "font-family: ", svg)
        self._save_taken(screen, svg, "screen", "svg")

    def _save_taken(
        self, screen: Screen[object], text: str, part: str, ending: str
    ) -> None:
        site, zone, day = self.taken_of()
        named = f"zone {zone}" if zone else ""
        name = file_name((site, named, page_name(screen), part, day), ending)
        folder = None
        if not self.is_web:
            try:
                path = claimed(self._folder_to_take_to(), name)
            except OSError as problem:
                self.notify(f"Not saved: {problem}", severity="error", markup=False)
                return
            folder, name = path.parent, path.name
        self.deliver_text(
            io.StringIO(text),
            save_directory=folder,
            save_filename=name,
            encoding="utf-8",
            mime_type="image/svg+xml" if ending == "svg" else "text/plain",
            name=f"{TAKEN} {name}",
        )

    def _folder_to_take_to(self) -> Path:
        downloads = Path.home() / "Downloads"
        return self.take_to or (downloads if downloads.is_dir() else Path.cwd())

    @on(events.DeliveryComplete)
    def _say_saved(self, event: events.DeliveryComplete) -> None:
        if (event.name or "").startswith(TAKEN):
            where = event.path or (event.name or "").removeprefix(TAKEN).strip()
            self.notify(f"Saved: {where}", markup=False, timeout=10)

    @on(events.DeliveryFailed)
    def _say_not_saved(self, event: events.DeliveryFailed) -> None:
        if (event.name or "").startswith(TAKEN):
            said = f"Not saved: {event.exception}"
            self.notify(said, severity="error", markup=False, timeout=30)
