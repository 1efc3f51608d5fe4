"""Cans as they stood in, a map with values, dry places, heads, north and wind out."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from scheduler.reports.charts.svg import (
    LIGHT,
    SIZE,
    SMALL,
    WIDTH,
    Drawing,
    fitted,
    text_width,
)
from scheduler.reports.paper import Column, Picture, Table

Look = Literal["", "driest", "wettest", "out", "none"]
# Room at the left for names of rows, at the right for north and wind.
LEFT, RIGHT, TOP = 24.0, 92.0, 20.0
MOST_CELL, LEAST_CELL = 62.0, 24.0
# Rows are as high as a page allows, and never too low for a number.
MOST_HIGH, LEAST_HIGH, ROOM_HIGH = 30.0, 15.0, 390.0
GAP = 22.0
# Heads may stand this far outside the cans, in cans.
BEYOND = 0.5
ARROW = 22.0
LEGEND = 26.0


@dataclass(frozen=True, slots=True)
class Can:
    """One place: what was read there, and what it is among the others."""

    value: str
    look: Look = ""


@dataclass(frozen=True, slots=True)
class CanMapLook:
    """A map of cans, as seen from above with the first row at the top.

    Attributes
    ----------
    cans : tuple of tuple of Can
        Row by row.
    row_names, column_names : tuple of str
        Names along the edges; empty where the cans have none.
    unit : str
        Unit of the values.
    heads : tuple of (row, column)
        Heads in can places, the first can standing at (0, 0).
    up_deg : float or None
        Compass bearing that points up the page; None where nobody wrote it down.
    wind_from_deg : float or None
        Where the wind came from.
    wind : str
        The wind in words.
    notes : tuple of str
        What the codes mean, and the like.
    """

    cans: tuple[tuple[Can, ...], ...]
    row_names: tuple[str, ...]
    column_names: tuple[str, ...]
    unit: str
    heads: tuple[tuple[float, float], ...] = ()
    up_deg: float | None = None
    wind_from_deg: float | None = None
    wind: str = ""
    notes: tuple[str, ...] = ()


def can_map(title: str, look: CanMapLook) -> Picture:
    """The cans as they stood: values, driest and wettest quarter, heads, arrows."""
    says = _says(look)
    return _drawing(look).picture(title, says, tuple(_tables(look)))


def marked(can: Can) -> str:
    """A value as plain characters show it: * driest, + wettest, () left out."""
    if can.look == "out":
        return f"({can.value})"
    return can.value + {"driest": "*", "wettest": "+"}.get(can.look, " ")


def _says(look: CanMapLook) -> str:
    looks = {can.look for row in look.cans for can in row}
    parts = [f"{look.unit}, seen from above" if look.unit else "Seen from above"]
    parts += ["driest quarter *"] * ("driest" in looks)
    parts += ["wettest quarter +"] * ("wettest" in looks)
    parts += ["( ) left out with a reason"] * ("out" in looks)
    if look.up_deg is None:
        parts.append("north was not written down")
    else:
        parts.append(f"{_compass(look.up_deg)} is up")
    if look.wind:
        parts.append(look.wind)
    if not look.heads:
        parts.append("heads were not written down")
    return "; ".join([*parts, *look.notes]) + "."


def _compass(bearing_deg: float) -> str:
    names = ("north", "north-east", "east", "south-east", "south", "south-west", "west",
             "north-west")  # fmt: skip
    return names[round(bearing_deg / 45.0) % 8]


# --- the same in characters --------------------------------------------------


def _tables(look: CanMapLook) -> Iterator[Table]:
    wide = max(3, *(len(marked(can)) for row in look.cans for can in row))
    across = max(1, (WIDTH_TEXT - 4) // (wide + 1))
    n_columns = len(look.cans[0])
    for start in range(0, n_columns, across):
        part = slice(start, start + across)
        named = look.column_names or tuple(str(i + 1) for i in range(n_columns))
        heads = [f"{name} " for name in named[part]]
        names = look.row_names or tuple(str(i + 1) for i in range(len(look.cans)))
        yield Table(
            (Column("", 0.8), *(Column(head, 1, is_number=True) for head in heads)),
            tuple(
                (name, *(marked(can) for can in row[part]))
                for name, row in zip(names, look.cans, strict=True)
            ),
            is_filled=True,
        )


WIDTH_TEXT = 72


# --- the drawing -------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Cells:
    """Measures of the cells on paper, and the first column of each band."""

    wide: float
    high: float
    size: float
    margin: float
    starts: tuple[int, ...]
    across: int
    n_rows: int

    @property
    def band_high(self) -> float:
        return self.n_rows * self.high + 2 * self.margin

    def corner(self, row: float, column: float) -> tuple[float, float]:
        """Upper left corner of a place."""
        band = max(0, min(int(column + BEYOND) // self.across, len(self.starts) - 1))
        top = TOP + band * (self.band_high + GAP) + self.margin
        left = LEFT + self.margin
        return (
            left + (column - self.starts[band]) * self.wide,
            top + row * self.high,
        )


def _cells(look: CanMapLook) -> _Cells:
    longest = max(len(_written(can)) for row in look.cans for can in row)
    n_rows, n_columns = len(look.cans), len(look.cans[0])
    least = max(LEAST_CELL, text_width("0" * longest, SMALL) + 6)
    room = WIDTH - LEFT - RIGHT - 2 * (MOST_HIGH / 2 + 6)
    across = min(n_columns, max(1, int(room / least)))
    n_bands = math.ceil(n_columns / across)
    across = math.ceil(n_columns / n_bands)
    wide = min(MOST_CELL, room / across)
    high = min(MOST_HIGH, max(LEAST_HIGH, ROOM_HIGH / (n_rows * n_bands)))
    is_tight = wide < text_width("0" * longest, SIZE + 1) + 6 or high < 20
    size = SMALL if is_tight else SIZE + 1
    starts = tuple(range(0, n_columns, across))
    margin = high / 2 + 6 if look.heads else 2.0
    return _Cells(wide, high, size, margin, starts, across, n_rows)


def _written(can: Can) -> str:
    return f"({can.value})" if can.look == "out" else can.value


def _drawing(look: CanMapLook) -> Drawing:
    cells = _cells(look)
    n_bands = len(cells.starts)
    foot = TOP + n_bands * (cells.band_high + GAP) - GAP
    drawing = Drawing(max(foot + LEGEND, 150.0))
    for i, row in enumerate(look.cans):
        for j, can in enumerate(row):
            _cell(drawing, cells, (i, j), can)
    _names(drawing, cells, look)
    for row_at, column_at in look.heads:
        x, y = cells.corner(row_at, column_at)
        _head(drawing, (x + cells.wide / 2, y + cells.high / 2))
    _arrows(drawing, look)
    _legend(drawing, look, foot + LEGEND - 8)
    return drawing


def _cell(drawing: Drawing, cells: _Cells, at: tuple[int, int], can: Can) -> None:
    corner, size = cells.corner(*at), (cells.wide, cells.high)
    if can.look == "driest":
        drawing.hatched(corner, size, 1.0)
        drawing.rect((corner[0] + 1.5, corner[1] + 1.5), (size[0] - 3, size[1] - 3),
                     "none", 2.0)  # fmt: skip
    elif can.look == "wettest":
        drawing.rect(corner, size, LIGHT)
    else:
        drawing.rect(corner, size)
    middle = corner[0] + cells.wide / 2
    text = _written(can)
    base = corner[1] + cells.high / 2 + cells.size / 3
    if can.look == "driest":
        drawing.label((middle, base), text, cells.size, is_bold=True)
    else:
        drawing.text((middle, base), text, cells.size, "middle")


def _names(drawing: Drawing, cells: _Cells, look: CanMapLook) -> None:
    for j, name in enumerate(look.column_names):
        x, y = cells.corner(0, j)
        at = (x + cells.wide / 2, y - cells.margin - 4)
        drawing.text(at, fitted(name, cells.wide), SMALL, "middle")
    for start in cells.starts:
        for i, name in enumerate(look.row_names):
            x, y = cells.corner(i, start)
            at = (x - cells.margin - 4, y + cells.high / 2 + SMALL / 3)
            drawing.text(at, fitted(name, LEFT), SMALL, "end")


def _head(drawing: Drawing, at: tuple[float, float]) -> None:
    x, y = at
    drawing.circle(at, 6)
    drawing.line((x - 6, y), (x + 6, y))
    drawing.line((x, y - 6), (x, y + 6))


def _arrows(drawing: Drawing, look: CanMapLook) -> None:
    """North, and the wind as it blew; nothing where the bearing is not known."""
    x = WIDTH - RIGHT / 2 + 8
    if look.up_deg is None:
        drawing.text((x, TOP + 14), "north not", SMALL, "middle")
        drawing.text((x, TOP + 27), "written down", SMALL, "middle")
        return
    _arrow(drawing, (x, TOP + ARROW + 14), -look.up_deg, "N")
    if look.wind_from_deg is not None:
        to = look.wind_from_deg + 180.0 - look.up_deg
        centre = (x, TOP + 3 * ARROW + 28)
        _arrow(drawing, centre, to, "", weight=2.2)
        drawing.text((x, centre[1] + ARROW + 12), "wind", SMALL, "middle")


def _arrow(
    drawing: Drawing,
    centre: tuple[float, float],
    turn_deg: float,
    name: str,
    weight: float = 1.2,
) -> None:
    """An arrow that points up, turned clockwise."""
    turn = math.radians(turn_deg)
    ahead = (math.sin(turn), -math.cos(turn))
    aside = (math.cos(turn), math.sin(turn))

    def place(along: float, across: float = 0.0) -> tuple[float, float]:
        return (
            centre[0] + along * ahead[0] + across * aside[0],
            centre[1] + along * ahead[1] + across * aside[1],
        )

    drawing.line(place(-ARROW), place(ARROW - 8), weight)
    drawing.area((place(ARROW), place(ARROW - 10, 5), place(ARROW - 10, -5)), "black")
    if name:
        x, y = place(ARROW + 9)
        drawing.text((x, y + SIZE / 3), name, SIZE, "middle", is_bold=True)


def _legend(drawing: Drawing, look: CanMapLook, y: float) -> None:
    looks = {can.look for row in look.cans for can in row}
    x = LEFT
    entries: Sequence[tuple[str, str]] = [
        *([("driest", "driest quarter")] if "driest" in looks else []),
        *([("wettest", "wettest quarter")] if "wettest" in looks else []),
        *([("head", "head")] if look.heads else []),
        *([("out", "( ) left out")] if "out" in looks else []),
    ]
    for kind, words in entries:
        if kind == "driest":
            drawing.hatched((x, y - 10), (18, 12), 2.0)
        elif kind == "wettest":
            drawing.rect((x, y - 10), (18, 12), LIGHT)
        elif kind == "head":
            _head(drawing, (x + 10, y - 4))
        x += 24 if kind != "out" else 0
        drawing.text((x, y), words, SIZE)
        x += text_width(words) + 20
    drawing.text((WIDTH, y), look.unit, SIZE, "end")
