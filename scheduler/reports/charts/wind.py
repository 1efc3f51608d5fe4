"""Runs and their line of DU against wind in, points with the line and its band out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.reports.charts.axis import Scale, across, scale, upward
from scheduler.reports.charts.svg import LIGHT, SMALL, WIDTH, Drawing, text_width
from scheduler.reports.paper import Column, Picture, Table

LEFT, RIGHT, TOP, HIGH, FOOT = 40.0, 20.0, 26.0, 100.0, 38.0


@dataclass(frozen=True, slots=True)
class WindPicture:
    """DU against wind, in the unit of wind that is shown.

    Attributes
    ----------
    names : tuple of str
        Runs.
    wind, du : tuple of float
        Of each run.
    line_wind, line_du : tuple of float
        The line; empty where none can be drawn.
    low, high : tuple of float
        Ends of its range along the line; empty with too few days.
    usual : float or None
        Wind of the irrigation hours.
    unit : str
        Unit of wind.
    says : str
        What the line rests on.
    """

    names: tuple[str, ...]
    wind: tuple[float, ...]
    du: tuple[float, ...]
    line_wind: tuple[float, ...]
    line_du: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    usual: float | None
    unit: str
    says: str


def du_against_wind(title: str, seen: WindPicture) -> Picture:
    """Runs as rings, the line, its range as a grey band, the usual wind upright."""
    drawing = Drawing(TOP + HIGH + FOOT)
    floor = TOP + HIGH
    known = [] if seen.usual is None else [seen.usual]
    along = scale(
        [*seen.wind, *seen.line_wind, *known], (LEFT, WIDTH - RIGHT), from_zero=True
    )
    up = scale([*seen.du, *seen.line_du, *seen.low, *seen.high], (floor, TOP), most=5)
    _band(drawing, seen, along, up)
    if seen.line_du:
        line = [
            (along(x), up(y)) for x, y in zip(seen.line_wind, seen.line_du, strict=True)
        ]
        drawing.path(line, 1.6)
    if seen.usual is not None:
        _usual(drawing, along(seen.usual), floor)
    for x, y in zip(seen.wind, seen.du, strict=True):
        drawing.circle((along(x), up(y)), 4)
    across(drawing, along, floor, f"wind during the run, {seen.unit}")
    upward(drawing, up, LEFT, "DU low quarter")
    return drawing.picture(title, seen.says, _tables(seen))


def _band(drawing: Drawing, seen: WindPicture, along: Scale, up: Scale) -> None:
    if not seen.low:
        return
    lower = [(along(x), up(y)) for x, y in zip(seen.line_wind, seen.low, strict=True)]
    upper = [(along(x), up(y)) for x, y in zip(seen.line_wind, seen.high, strict=True)]
    drawing.area([*lower, *reversed(upper)], LIGHT)
    drawing.path(lower, 0.8, "4 3")
    drawing.path(upper, 0.8, "4 3")


def _usual(drawing: Drawing, x: float, floor: float) -> None:
    drawing.line((x, TOP), (x, floor), 1.2, "2 3")
    words = "wind you water in"
    is_left = x + text_width(words, SMALL) > WIDTH - RIGHT
    at = (x - 4 if is_left else x + 4, TOP - 3)
    drawing.text(at, words, SMALL, "end" if is_left else "start")


def _tables(seen: WindPicture) -> tuple[Table, ...]:
    columns = (
        Column("run", 3),
        Column(f"wind, {seen.unit}", 1.5, is_number=True),
        Column("DU", 1, is_number=True),
    )
    rows = tuple(
        (name, f"{x:.1f}", f"{y:.2f}")
        for name, x, y in zip(seen.names, seen.wind, seen.du, strict=True)
    )
    tables = [Table(columns, rows, is_filled=True)]
    if seen.line_du:
        tables.append(Table(*_ends(seen), is_filled=True))
    return tuple(tables)


def _ends(
    seen: WindPicture,
) -> tuple[tuple[Column, ...], tuple[tuple[str, ...], ...]]:
    """The line at its ends and in the middle."""
    places: Sequence[int] = (0, len(seen.line_du) // 2, len(seen.line_du) - 1)
    columns = (
        Column(f"wind, {seen.unit}", 1.5, is_number=True),
        Column("DU on the line", 1.5, is_number=True),
        Column("range", 2.5),
    )
    rows = tuple(
        (
            f"{seen.line_wind[i]:.1f}",
            f"{seen.line_du[i]:.2f}",
            f"{seen.low[i]:.2f}–{seen.high[i]:.2f}" if seen.low else "not known",
        )
        for i in places
    )
    return columns, rows
