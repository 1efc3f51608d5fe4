"""A page in, what it says out: its tables, its pictures and all of it as text.

Every part is written in full, also what is scrolled away, cut to a column, or not in
front on a narrow terminal.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import cast

from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import OptionList, Static

from tui.taking import Table, aligned, whole_text
from tui.widgets.bars import TopBar
from tui.widgets.canvas import Chart
from tui.widgets.sheet import Sheet
from tui.widgets.what_if_line import WhatIfLine
from tui.widgets.work_line import WorkLine
from tui.widgets.zone_table import ZoneTable

LEFT_OUT = (WorkLine,)  # it is about the moment, not about the site
OF_KEYS = {"tabs", "tried", "keys"}  # ids of lines that only name keys
FACES = {"ZonesScreen": "zones", "ZoneScreen": "zone", "FindingsScreen": "findings"}


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture of a page, its heading, and its part of a file name."""

    chart: Chart
    title: str
    name: str


def page_name(screen: Screen[object]) -> str:
    """Name of a page for a file."""
    kind = type(screen).__name__
    return FACES.get(kind, kind.removesuffix("Screen").lower())


def page_table(screen: Screen[object]) -> Table | None:
    """The table of a page, each cell in full; None where there is none."""
    own: Table | None = getattr(screen, "whole_table", None)
    if own is not None:
        return own
    for table in screen.query(ZoneTable):
        if table.whole.rows:
            return table.whole
    return None


def _prompt(listed: OptionList, at: int) -> str:
    return plain_text(listed.get_option_at_index(at).prompt).strip()


def page_pictures(screen: Screen[object]) -> tuple[Picture, ...]:
    """Pictures of a page that there are, with their headings."""
    found = []
    for chart in screen.query(Chart):
        pane = chart.parent
        titles = list(pane.query(".title")) if isinstance(pane, Widget) else []
        kind = type(chart).__name__
        named = pane.id if titles and isinstance(pane, Widget) and pane.id else ""
        title = plain_text(cast(Static, titles[0]).content) if titles else ""
        title = title.removesuffix("│").strip() or _head(screen)
        found.append(Picture(chart, title or _spaced(kind), named))
    return tuple(found)


def _head(screen: Screen[object]) -> str:
    """First words of the line on top of a page of one picture."""
    heads = [one for one in screen.query("#head") if isinstance(one, Static)]
    said = plain_text(heads[0].content) if heads else ""
    return said.strip().partition("   ")[0]


def _spaced(name: str) -> str:
    return "".join(f" {one.lower()}" if one.isupper() else one for one in name).strip()


def page_text(screen: Screen[object]) -> str:
    """All that a page says, from top to bottom."""
    return whole_text(list(_parts(screen)))


def _parts(widget: Widget) -> Iterator[str]:
    for child in widget.children:
        if isinstance(child, LEFT_OUT) or child.id in OF_KEYS:
            continue
        if child.has_class("note"):
            continue  # the words of the picture above hold it
        said = _said(child)
        if said is None:
            yield from _parts(child)
        else:
            yield said


def _said(child: Widget) -> str | None:
    """All that one part of a page says; None where its own parts say it."""
    if isinstance(child, TopBar):
        return "   ".join(plain_text(one.content) for one in child.query(Static))
    if isinstance(child, Sheet):
        return child.text
    if isinstance(child, ZoneTable):
        return aligned(child.whole) if child.whole.rows else ""
    if isinstance(child, Chart):
        return "\n".join(child.words())
    if isinstance(child, OptionList):
        return "\n\n".join(_prompt(child, i) for i in range(child.option_count))
    if isinstance(child, WhatIfLine) and not child.has_class("some"):
        return ""
    return plain_text(child.content) if isinstance(child, Static) else None


def plain_text(shown: object) -> str:
    """Letters of what a line shows, without its colours."""
    if isinstance(shown, Content):
        return shown.plain
    return str(shown)
