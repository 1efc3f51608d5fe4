"""What the command palette lists: every page, and every key of the page in front."""

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from textual.app import SystemCommand
from textual.screen import Screen

from tui.pages import ENTRIES
from tui.screens.help import KEYS, subject_keys, subject_of

if TYPE_CHECKING:
    from tui.way import Way

# how the help writes a key, and how Textual does
PRESSED = {
    "↑": "up", "↓": "down", "←": "left", "→": "right", "-": "minus", "+": "plus",
    "esc": "escape", "$": "dollar_sign", "?": "question_mark", "/": "slash",
    "[": "left_square_bracket", "]": "right_square_bracket", "page": "pagedown",
    "arrows": "right", "digits": "", "del": "delete",
}  # fmt: skip


def page_commands(app: "Way", screen: Screen[object]) -> Iterator[SystemCommand]:
    """Every page of the path, opened with the zone of the page in front."""
    zone = getattr(screen, "zone_here", "")
    for one in ENTRIES:
        name = one.name[0].upper() + one.name[1:]
        about = (
            f"{one.purpose}   {one.key.replace(',', ' ').replace('dollar_sign', '$')}"
        )
        yield SystemCommand(name, about, partial(app.open_page, one.page, zone))


def key_commands(app: "Way", screen: Screen[object]) -> Iterator[SystemCommand]:
    """Every key of the page in front, as its help words it."""
    for keys, does in (*subject_keys(subject_of(screen)), *dict(KEYS)["everywhere"]):
        first = keys.replace("page keys", "page").split()[0]
        press = PRESSED.get(first, first.lower() if len(first) > 1 else first)
        if press:
            title = does[0].upper() + does[1:]
            yield SystemCommand(title, f"key {keys}", partial(app.simulate_key, press))
