"""Named amounts in, bars side by side on one scale out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.reports.charts.axis import scale
from scheduler.reports.charts.svg import (
    LIGHT,
    SIZE,
    WIDTH,
    Drawing,
    fitted,
    text_width,
)
from scheduler.reports.paper import Column, Picture, Table

LEFT, ROW, BAR, TOP = 150.0, 24.0, 14.0, 6.0


@dataclass(frozen=True, slots=True)
class Bar:
    """One amount: its name, the number, and how it is written; None is not known."""

    name: str
    value: float | None
    shown: str
    is_marked: bool = False


def bars(title: str, says: str, amounts: Sequence[Bar]) -> Picture:
    """One bar an amount, its number written at the end; an unknown one says so."""
    drawing = Drawing(TOP + ROW * max(1, len(amounts)) + 6)
    room = max((text_width(one.shown) for one in amounts), default=0.0) + 10
    known = [one.value for one in amounts if one.value is not None]
    has_below = any(value < 0 for value in known)
    start = LEFT + (room if has_below else 0.0)
    axis = scale([0.0, *known], (start, WIDTH - room), from_zero=True)
    zero = axis(0.0)
    for i, one in enumerate(amounts):
        y = TOP + ROW * (i + 0.5)
        at = (LEFT - 8, y + SIZE / 3)
        drawing.text(at, fitted(one.name, LEFT - 8), SIZE, "end", is_bold=one.is_marked)
        if one.value is None:
            drawing.text((zero + 6, y + SIZE / 3), one.shown)
            continue
        end = axis(one.value)
        corner, size = (min(zero, end), y - BAR / 2), (abs(end - zero), BAR)
        if one.is_marked:
            drawing.hatched(corner, size)
        else:
            drawing.rect(corner, size, LIGHT)
        is_below = one.value < 0
        place = (end - 5 if is_below else max(end, zero + 2) + 5, y + SIZE / 3)
        drawing.text(place, one.shown, SIZE, "end" if is_below else "start")
    drawing.line((zero, TOP), (zero, TOP + ROW * len(amounts)), 1.4)
    columns = (Column("", 4), Column("", 2, is_number=True))
    rows = tuple(
        (one.name + (" *" if one.is_marked else ""), one.shown) for one in amounts
    )
    table = Table(columns, rows, is_filled=True)
    return drawing.picture(title, says, (table,))
