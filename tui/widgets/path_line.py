"""The path: the pages in the order water flows, the present one marked; clicks go."""

from dataclasses import dataclass

from rich.cells import cell_len
from textual.content import Content
from textual.events import Click
from textual.message import Message

from tui.pages import ENTRIES, Entry
from tui.widgets.words import Words

LOW = 30  # rows below which pictures need the line more
KEYED, PLAIN = " › ", " "


class PathLine(Words):
    """One line; hidden where there is no room for it."""

    DEFAULT_CSS = """
    PathLine { height: 1; display: none; padding: 0 1; color: $text-muted; }
    PathLine.fits { display: block; }
    """

    @dataclass
    class Chosen(Message):
        """Somebody clicked on a page."""

        page: str

    def __init__(self) -> None:
        super().__init__()
        self._spans: list[tuple[int, int, str]] = []

    def show(self, page: str, zone: str, size: tuple[int, int]) -> None:
        """Write the path with a page marked, and the zone that is carried along."""
        width, height = size
        room = width - 2
        parts, spans = _path(page, with_keys=True)
        if _end(spans) > room:
            parts, spans = _path(page, with_keys=False)
        self._spans = spans
        self.set_class(bool(page) and height >= LOW and _end(spans) <= room, "fits")
        said = f"zone {zone}" if zone else ""
        gap = room - _end(spans) - cell_len(said)
        if said and gap >= len(KEYED):
            parts.append(" " * gap + said)
        self.update(Content.assemble(*parts))

    @property
    def pages_at(self) -> dict[str, int]:
        """Where each page stands in the line, for a click on it."""
        return {page: first for first, _, page in self._spans}

    def on_click(self, event: Click) -> None:
        at = event.get_content_offset(self)
        for first, last, page in self._spans:
            if at is not None and first <= at.x < last:
                self.post_message(self.Chosen(page))


def _end(spans: list[tuple[int, int, str]]) -> int:
    return spans[-1][1]


def _path(
    page: str, *, with_keys: bool
) -> tuple[list[str | tuple[str, str]], list[tuple[int, int, str]]]:
    """Parts of the line, and the columns that each page takes."""
    parts: list[str | tuple[str, str]] = []
    spans, at = [], 0
    for i, one in enumerate(ENTRIES):
        if i:
            between = KEYED if with_keys else PLAIN
            parts.append(between)
            at += len(between)
        key = f"{_key(one)} " if with_keys else ""
        style = "bold reverse" if one.page == page else ""
        if key:
            parts.append((key, "$primary"))
        parts.append((one.word, style))
        spans.append((at, at + len(key) + len(one.word), one.page))
        at = spans[-1][1]
    return parts, spans


def _key(one: Entry) -> str:
    return "↵" if one.face == "enter" else one.face
