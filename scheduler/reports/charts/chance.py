"""Chances along a price in, the curve of the chance that it pays out."""

from __future__ import annotations

from dataclasses import dataclass

from scheduler.reports.charts.axis import across, scale, upward
from scheduler.reports.charts.svg import SMALL, WIDTH, Drawing, text_width
from scheduler.reports.paper import Column, Picture, Table

LEFT, RIGHT, TOP, HIGH, FOOT = 40.0, 20.0, 26.0, 120.0, 42.0
ROWS = 9
EVEN_CHANCE, EVEN = 0.5, "even chance, 50 %"


@dataclass(frozen=True, slots=True)
class ChanceCurve:
    """Chance that a change pays, along something that moves it.

    Attributes
    ----------
    at, chance : tuple of float
        The curve; chances 0 to 1.
    label : str
        What runs along the foot, with its unit.
    marks : tuple of (str, float)
        Places to name, such as today's price.
    """

    at: tuple[float, ...]
    chance: tuple[float, ...]
    label: str
    marks: tuple[tuple[str, float], ...] = ()


def chance_it_pays(title: str, says: str, curve: ChanceCurve) -> Picture:
    """The curve between never and surely, even chances as a broken line."""
    drawing = Drawing(TOP + HIGH + FOOT)
    floor = TOP + HIGH
    places = [*curve.at, *(at for _, at in curve.marks)]
    along = scale(places, (LEFT, WIDTH - RIGHT))
    up = scale([0.0, 100.0], (floor, TOP), most=5)
    line = [
        (along(x), up(100.0 * y)) for x, y in zip(curve.at, curve.chance, strict=True)
    ]
    drawing.line((LEFT, up(50.0)), (WIDTH - RIGHT, up(50.0)), 0.8, "5 3")
    # at the side where the curve, which rises to the right, is far from it
    is_left = curve.chance[0] < EVEN_CHANCE
    end = (LEFT + 4, up(50.0) - 4) if is_left else (WIDTH - RIGHT - 4, up(50.0) + 12)
    drawing.text(end, EVEN, SMALL, "start" if is_left else "end")
    drawing.path(line, 2)
    for name, at in curve.marks:
        x = along(at)
        drawing.line((x, TOP), (x, floor), 1.2, "2 3")
        is_left = x + text_width(name, SMALL) > WIDTH - RIGHT
        place = (x - 4 if is_left else x + 4, TOP + SMALL)
        drawing.text(place, name, SMALL, "end" if is_left else "start")
    across(drawing, along, floor, curve.label)
    upward(drawing, up, LEFT, "chance that it pays, %")
    step = max(1, -(-len(curve.at) // ROWS))
    kept = sorted({*range(0, len(curve.at), step), len(curve.at) - 1})
    columns = (
        Column(curve.label, 3, is_number=True),
        Column("chance", 1, is_number=True),
    )
    rows = tuple((f"{curve.at[i]:.4g}", f"{curve.chance[i]:.0%}") for i in kept)
    table = Table(columns, rows, is_filled=True)
    return drawing.picture(title, says, (table,))
