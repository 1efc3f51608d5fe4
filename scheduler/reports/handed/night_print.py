"""A night sheet in; plain characters of 80 columns, or a page to print, out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from textwrap import wrap

from scheduler.reports.handed.lanes import lanes_svg, lanes_text
from scheduler.reports.handed.night_sheet import NightPart, NightSheet
from scheduler.reports.page import page
from scheduler.reports.pdf import typeset
from scheduler.reports.text import WIDTH

MOST_WIDE = 36
SVG = 'xmlns="http://www.w3.org/2000/svg"'


def night_page(sheet: NightSheet) -> str:
    """The sheet as a printable page; lanes are drawn, and listed beside it."""
    return page("night_sheet.html", sheet=sheet, drawn=_drawn(sheet))


def night_pdf(sheet: NightSheet) -> bytes:
    """The sheet as PDF, with the same drawings."""
    # a drawing that stands alone has to name its language
    drawn = [one.replace("<svg ", f"<svg {SVG} ", 1) for one in _drawn(sheet)]
    values = {"sheet": asdict(sheet), "drawn": drawn}
    return typeset("night_sheet.typ", values)


def _drawn(sheet: NightSheet) -> list[str]:
    return [lanes_svg(one.picture, f"hatch{i}") for i, one in enumerate(sheet.parts, 1)]


def night_sheet_text(sheet: NightSheet) -> str:
    """The sheet in plain characters."""
    lines = [*_head(sheet)]
    for one in sheet.parts:
        lines += ["", *_part(one)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _head(sheet: NightSheet) -> Iterator[str]:
    yield from wrap(f"NIGHT SHEET  {sheet.site}", WIDTH)
    yield f"{sheet.week}, made {sheet.made}"
    if sheet.pump:
        yield f"The pump gives {sheet.pump}."
    for one in sheet.told:
        yield from wrap(one, WIDTH)


def _part(one: NightPart) -> Iterator[str]:
    yield "=" * WIDTH
    yield from wrap(f"{one.title}  {one.hours}", WIDTH)
    yield from lanes_text(one.picture)
    yield ""
    wide = min(max([6, *(len(row.zones) for row in one.rows)]), MOST_WIDE)
    yield f"{'open':<11}  {'valves':<{wide}}  flow"
    for row in one.rows:
        line = f"{row.hours}  {row.zones:<{wide}}  {row.flow}"
        yield from (
            wrap(line, WIDTH, subsequent_indent=" " * 13)
            if len(line) > WIDTH
            else (line,)
        )
    for note in one.notes:
        yield from wrap(note, WIDTH)
