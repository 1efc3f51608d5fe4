"""Depletion of each quarter by day in, a line a quarter against the allowed out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass

from scheduler.reports.charts.axis import Scale, scale, upward
from scheduler.reports.charts.svg import SIZE, SMALL, WIDTH, Drawing
from scheduler.reports.paper import Column, Picture, Table
from scheduler.said import day_text

LEFT, RIGHT, TOP, HIGH, FOOT = 40.0, 70.0, 26.0, 140.0, 30.0
# Each line is told by its breaks and by its name at its end.
DASHES = ("", "7 3", "4 2 1 2", "1.5 2.5")
QUARTERS = ("driest", "second", "third", "wettest")
WEIGHTS = (2.2, 1.2, 1.2, 1.4)
ROWS = 14


@dataclass(frozen=True, slots=True)
class Depletion:
    """How far each quarter lay below full, day by day, in the unit that is shown.

    Attributes
    ----------
    days : tuple of date
        Days.
    quarters : tuple of 4 tuples of float
        Driest to wettest, one number a day.
    allowed : float or None
        Below which plants begin to suffer.
    unit : str
        Unit of depth.
    """

    days: tuple[dt.date, ...]
    quarters: tuple[tuple[float, ...], ...]
    allowed: float | None
    unit: str


def season_depletion(
    title: str, says: str, season: Depletion, shown: Callable[[float], str]
) -> Picture:
    """Water missing in each quarter; dry is down, stress below the broken line."""
    drawing = Drawing(TOP + HIGH + FOOT)
    floor = TOP + HIGH
    known = [] if season.allowed is None else [season.allowed]
    values = [0.0, *known, *(one for line in season.quarters for one in line)]
    # full stands at the top, as the water table of a root zone does
    down = scale(values, (TOP, floor), from_zero=True)
    n_days = max(1, len(season.days) - 1)
    along = Scale(0.0, float(n_days), LEFT, WIDTH - RIGHT, ())
    for k, line in enumerate(season.quarters):
        places = [(along(i), down(value)) for i, value in enumerate(line)]
        drawing.path(places, WEIGHTS[k], DASHES[k])
    if season.allowed is not None:
        y = down(season.allowed)
        drawing.line((LEFT, y), (WIDTH - RIGHT, y), 1, "9 4")
    _names(drawing, season, down)
    _months(drawing, season, along, floor)
    upward(drawing, down, LEFT, f"water missing, {season.unit} (full at the top)")
    return drawing.picture(title, says, (_table(season, shown),))


def _names(drawing: Drawing, season: Depletion, down: Scale) -> None:
    """Names at the right end, moved apart where lines end close together."""
    ends = [
        (down(line[-1]), name)
        for line, name in zip(season.quarters, QUARTERS, strict=True)
    ]
    if season.allowed is not None:
        ends.append((down(season.allowed), "allowed"))
    at = float("-inf")
    for y, name in sorted(ends):
        at = max(y, at + SMALL + 1)
        drawing.text((WIDTH - RIGHT + 5, at + SMALL / 3), name, SMALL)


def _months(drawing: Drawing, season: Depletion, along: Scale, floor: float) -> None:
    drawing.line((LEFT, floor), (WIDTH - RIGHT, floor))
    for i, day in enumerate(season.days):
        if day.day == 1 or i == 0:
            x = along(i)
            drawing.line((x, floor), (x, floor + 4))
            if day.day <= 20:
                drawing.text((x, floor + 4 + SIZE), day_text(day), SMALL)


def _table(season: Depletion, shown: Callable[[float], str]) -> Table:
    """Every so many days, as plain characters cannot show each."""
    step = max(1, -(-len(season.days) // ROWS))
    columns = (
        Column("day", 1.5, is_number=True),
        *(Column(name, 1, is_number=True) for name in QUARTERS),
        Column("allowed", 1, is_number=True),
    )
    limit = "–" if season.allowed is None else shown(season.allowed)
    rows = tuple(
        (day_text(day), *(shown(line[i]) for line in season.quarters), limit)
        for i, day in enumerate(season.days)
        if i % step == 0 or i == len(season.days) - 1
    )
    return Table(columns, rows, is_filled=True)
