"""Keys, what the screens show, and the usual cautions."""

from collections.abc import Iterable
from textwrap import wrap
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.screen import ModalScreen, Screen

from scheduler.reports.cautions import CAUTIONS, DEFER
from tui.pages import entry_of, page_of
from tui.screens.page_help import PAGES, SOURCES
from tui.widgets.sheet import Paragraph, Sheet

KEYS = (
    ("everywhere", (
        ("[ ]", "the page before or the next one, in the order water flows"),
        ("? F1", "this help"),
        ("F2", "the zones"),
        ("f F3", "findings: everything wrong, worst first"),
        ("u", "US units or metric"),
        ("e", "explain the numbers of a page: formula and source; n another one"),
        ("x", "on a page of pictures: say them in words"),
        ("ctrl+e", "take away: a table, a picture or the page, as text or SVG"),
        ("ctrl+t F4", "colours: dark, light, black and white with one colour"),
        ("esc", "leave what takes long; what is shown stays"),
        ("T", "what is tried, before → after: keep it or drop it"),
        ("g", "what the files of the folder say, and the place to change it"),
        ("ctrl+z ctrl+y", "undo and redo what-ifs and edits, in one order"),
        ("ctrl+s", "save edited files, after a list of what is written"),
        ("ctrl+r", "read the folder again"),
        ("ctrl+p", "every command, also by a click on the top line"),
        ("q ctrl+q", "quit; edits not saved are asked about, what-ifs are not kept"),
    )),
    ("the first page, where there is no site", (
        ("n d i o", "new site, demo, import readings, open a folder"),
        ("1 to 9", "a folder opened lately"),
    )),
    ("findings", (
        ("enter", "the zone that it is about"),
        ("↑ ↓ j k", "another finding"),
        ("esc", "back to where you were"),
    )),
    ("zones", (
        ("↑ ↓ j k", "choose a zone"),
        ("enter", "open it"),
        ("space", "the week's changes, zone after zone: accept, issue"),
        ("/", "find: id, name, plant, package, valve, findings; changed, stop, "
              "warning, planned, off; du<0.6 min>20 change rate need nights; -word"),
        ("o", "another order; or click on a head. First: needing eyes"),
        ("esc", "show all zones again"),
        ("J K", "scroll what stands beside the table; or shift with ↓ ↑"),
        ("t", "its tests, from any page that keeps t free: look, type one in"),
    )),
    ("the weekly walk", (
        ("space", "accept this zone and go on; again takes it back"),
        ("a", "accept all but the odd: stops, changes of more than half"),
        ("i", "issue the week; stop findings ask why it shall pass"),
        ("enter", "look at the zone"),
        ("↑ ↓ j k", "another zone"),
        ("esc", "back; what was accepted stays accepted"),
    )),
    ("one zone", (
        ("esc", "back to the zones"),
        ("↑ ↓ n p", "previous or next zone"),
        ("v tab", "next picture, on a narrow terminal"),
        ("1 2 3 4 5", "try another run-time rule"),
        ("k  d", "try another Kc, other days"),
        ("r", "next run of the can test"),
        ("e", "explain: from the cans to the minutes"),
        ("t", "its tests"),
        ("page keys", "scroll the findings"),
    )),
    ("tests of a zone", (
        ("enter", "open a run, or go on with one that was never saved"),
        ("n", "type a new test in"),
        ("r", "another run on the same grid"),
        ("d", "drop what was typed and never saved"),
        ("← →", "previous or next zone"),
    )),
    ("typing a test in", (
        ("digits , ½", "a reading; a blank place is not zero, a zero is kept"),
        ("- k l o", "no reading, knocked, leaf, overflow"),
        ("enter arrows", "next can in the order you walk; any can"),
        ("space del", "clear the can; backspace edits it"),
        ("s", "walk every other row back, or no longer"),
        ("x", "leave a can out, with the reason; again takes it back"),
        ("e", "date, can, minutes, wind, grid"),
        ("ctrl+z ctrl+y", "undo and redo, entry by entry"),
        ("v", "result and findings alone, on a narrow terminal"),
        ("ctrl+s", "save; the week is planned anew"),
        ("esc", "leave; what is not saved is asked about"),
    )),
)  # fmt: skip


def subject_keys(subject: str) -> tuple[tuple[str, str], ...]:
    """Keys of a page with what they do; none where the help has no such page."""
    return next((keys for name, keys in (*KEYS, *PAGES) if name == subject), ())


WIDEST, SIDES = 96, 5  # columns of the sheet, as in the style sheet; its edges
KEY, SUBJECT = 14, 16  # columns of a key, and of a subject
MIN_ROOM = 20


def subject_of(screen: Screen[Any]) -> str:
    """Under which name the help tells of a page; empty where it does not."""
    page = page_of(type(screen))
    return entry_of(page).name if page else getattr(screen, "help_subject", "")


class HelpScreen(ModalScreen[None]):
    """Keys first, those of the page in front before all; cautions below."""

    CSS_PATH = "help.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,question_mark,f1,q", "app.pop_screen", "Back"),
    ]

    def compose(self) -> ComposeResult:
        self._room = room = min(WIDEST, self.app.size.width) - SIDES
        here = subject_of(self.app.screen_stack[-2])
        pages = sorted((*KEYS, *PAGES), key=lambda one: one[0] != here)
        parts = (
            *(_entries(name, KEY, keys, room) for name, keys in pages),
            _entries("what is drawn", SUBJECT, SOURCES, room),
            _entries("cautions", SUBJECT, CAUTIONS, room),
            Content(DEFER),
        )
        yield Sheet([Paragraph(one, below=1) for one in parts], id="sheet")

    def on_mount(self) -> None:
        self.query_one("#sheet").focus()

    async def on_resize(self) -> None:
        if min(WIDEST, self.app.size.width) - SIDES != self._room:
            await self.recompose()
            self.query_one("#sheet").focus()


def _entries(
    head: str, lead: int, entries: Iterable[tuple[str, str]], room: int
) -> Content:
    """Names and what is said of each, in lines that begin where the first one did."""
    parts: list[str | tuple[str, str]] = [(head, "bold $primary")]
    for name, says in entries:
        lines = wrap(says, max(MIN_ROOM, room - lead - 2)) or [""]
        parts += [(f"\n  {name:<{lead}}", "bold")]
        parts.append(f"\n{'':<{lead + 2}}".join(lines))
    return Content.assemble(*parts)
