"""What a result becomes when one thing changes in, bars about the result out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from scheduler.reports.charts.axis import across, scale
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

LEFT, RIGHT, ROW, BAR, TOP, FOOT = 150.0, 8.0, 32.0, 15.0, 22.0, 42.0
HOW = "Hatched: the low value of what is on the left; grey: the high one."


@dataclass(frozen=True, slots=True)
class Swing:
    """One thing that is not sure: its ends in words, and the results there."""

    name: str
    at_low: str
    at_high: str
    low: float
    high: float


def tornado(
    title: str,
    says: str,
    result: float,
    swings: Sequence[Swing],
    written: tuple[str, Callable[[float], str]],
) -> Picture:
    """Widest swing on top; hatched where the input is low, grey where it is high.

    Parameters
    ----------
    title, says : str
        What it shows, and how to read it.
    result : float
        The result when nothing changes.
    swings : sequence of Swing
        In any order.
    written : (str, callable)
        Name of the scale with its unit, and what writes one number.

    Returns
    -------
    Picture
        With a table of the same numbers.
    """
    label, shown = written
    ordered = sorted(swings, key=lambda one: -abs(one.high - one.low))
    drawing = Drawing(TOP + ROW * len(ordered) + FOOT)
    values = [result, *(end for one in ordered for end in (one.low, one.high))]
    room = max(
        (
            text_width(word, SMALL)
            for one in ordered
            for word in (one.at_low, one.at_high)
        ),
        default=0.0,
    )
    axis = scale(values, (LEFT + room + 8, WIDTH - RIGHT - room - 8))
    middle, foot = axis(result), TOP + ROW * len(ordered)
    for i, one in enumerate(ordered):
        y = TOP + ROW * (i + 0.5)
        at = (LEFT - 8, y + SIZE / 3)
        drawing.text(at, fitted(one.name, LEFT - 8), SIZE, "end")
        _end(drawing, (middle, axis(one.low)), y, one.at_low, is_low=True)
        _end(drawing, (middle, axis(one.high)), y, one.at_high, is_low=False)
    drawing.line((middle, TOP), (middle, foot), 2)
    drawing.text((middle, TOP - 6), shown(result), SIZE, "middle", is_bold=True)
    across(drawing, axis, foot, label)
    columns = (
        Column("", 3),
        Column("low", 1.6),
        Column("gives", 1.4, is_number=True),
        Column("high", 1.6),
        Column("gives", 1.4, is_number=True),
    )
    rows = tuple(
        (one.name, one.at_low, shown(one.low), one.at_high, shown(one.high))
        for one in ordered
    )
    table = Table(columns, rows, is_filled=True)
    return drawing.picture(title, says, (table,), HOW)


def _end(
    drawing: Drawing, ends: tuple[float, float], y: float, word: str, *, is_low: bool
) -> None:
    """One side of a swing with the value of the input at its end."""
    middle, end = ends
    # both ends on one side of the result: the low one is drawn above the high one
    top = y - BAR / 2 if is_low else y
    corner, size = (min(middle, end), top), (abs(end - middle), BAR / 2)
    if is_low:
        drawing.hatched(corner, size)
    else:
        drawing.rect(corner, size, LIGHT)
    is_left = end < middle
    base = y - 1 if is_low else y + BAR / 2 + 2
    at = (end - 4 if is_left else end + 4, base)
    drawing.text(at, word, SMALL, "end" if is_left else "start")
