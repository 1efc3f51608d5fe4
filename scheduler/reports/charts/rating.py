"""A fraction with its range and named bands in, a marked scale out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.reports.charts.svg import (
    LIGHT,
    MIDDLE,
    SIZE,
    SMALL,
    WIDTH,
    Drawing,
    fitted,
)
from scheduler.reports.paper import Column, Picture, Table

LEFT, RIGHT = 14.0, 14.0
TOP, BAR = 34.0, 24.0


@dataclass(frozen=True, slots=True)
class Band:
    """A named part of the scale, from its low end up to the next."""

    name: str
    low: float
    high: float


def rating_scale(
    title: str, value: float, ends: tuple[float, float] | None, bands: Sequence[Band]
) -> Picture:
    """Where a fraction lies among bands, with its range where there is one."""
    low, high = bands[0].low, bands[-1].high

    def place(one: float) -> float:
        part = (min(high, max(low, one)) - low) / (high - low)
        return LEFT + part * (WIDTH - LEFT - RIGHT)

    drawing = Drawing(TOP + BAR + 22)
    for i, band in enumerate(bands):
        left, right = place(band.low), place(band.high)
        fill = (MIDDLE, LIGHT, "white")[min(i, 2)]
        drawing.rect((left, TOP), (right - left, BAR), fill)
        middle = (left + right) / 2
        words = fitted(band.name, right - left - 2, SMALL)
        drawing.text((middle, TOP + BAR / 2 + SMALL / 3), words, SMALL, "middle")
        drawing.text((left, TOP + BAR + 13), f"{band.low:.2f}", SMALL, "middle")
    drawing.text((place(high), TOP + BAR + 13), f"{high:.2f}", SMALL, "middle")
    at = place(value)
    drawing.area(((at, TOP - 1), (at - 6, TOP - 12), (at + 6, TOP - 12)), "black")
    drawing.text((at, TOP - 18), f"{value:.2f}", SIZE + 2, "middle", is_bold=True)
    if ends is not None:
        for end in ends:
            drawing.line((place(end), TOP - 12), (place(end), TOP - 1))
        drawing.line((place(ends[0]), TOP - 6), (place(ends[1]), TOP - 6), 1.6)
    found = next(
        (one for one in bands if one.low <= value < one.high),
        bands[-1] if value >= high else bands[0],
    )
    says = f"{value:.2f} lies in “{found.name}”"
    says += f", range {ends[0]:.2f}–{ends[1]:.2f}." if ends else "."
    how = "The line beside the wedge is the range." if ends else ""
    columns = (Column("", 3), Column("from", 1, is_number=True),
               Column("to", 1, is_number=True), Column("", 2))  # fmt: skip
    rows = tuple(
        (
            one.name, f"{one.low:.2f}", f"{one.high:.2f}",
            f"<- {value:.2f}" if one is found else "",
        )
        for one in bands
    )  # fmt: skip
    table = Table(columns, rows, is_filled=True)
    return drawing.picture(title, says, (table,), how)
