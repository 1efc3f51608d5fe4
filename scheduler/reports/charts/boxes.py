"""Five numbers of each run in, a box a run on one scale out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from scheduler.reports.charts.axis import across, scale
from scheduler.reports.charts.svg import LIGHT, SIZE, WIDTH, Drawing, fitted
from scheduler.reports.paper import Column, Picture, Table

LEFT, RIGHT = 118.0, 14.0
ROW, BOX = 34.0, 16.0
TOP, FOOT = 8.0, 40.0
HOW = (
    "Each box holds the middle half of the cans; the line in it is the middle can, the "
    "whiskers reach the driest and the wettest. The ring is the mean, the black wedge "
    "the mean of the driest quarter: the nearer they are, the more even."
)
HEADS = ("driest can", "quarter", "middle", "three quarters", "wettest can", "mean",
         "driest quarter's mean")  # fmt: skip


@dataclass(frozen=True, slots=True)
class RunBox:
    """One run: its name, and five numbers, mean, and the mean of its driest quarter."""

    name: str
    low: float
    quarter: float
    middle: float
    three_quarters: float
    high: float
    mean: float
    driest_quarter_mean: float


def run_boxes(
    title: str, runs: Sequence[RunBox], unit: str, shown: Callable[[float], str]
) -> Picture:
    """A box a run: whiskers to the driest and wettest can, mean, driest quarter.

    Parameters
    ----------
    title : str
        What it shows.
    runs : sequence of RunBox
        In the unit that is shown.
    unit : str
        That unit.
    shown : callable
        Writes one number.

    Returns
    -------
    Picture
        With a table of the same numbers.
    """
    drawing = Drawing(TOP + ROW * len(runs) + FOOT)
    ends = (LEFT, WIDTH - RIGHT)
    axis = scale([end for one in runs for end in (one.low, one.high)], ends,
                 from_zero=True)  # fmt: skip
    for i, one in enumerate(runs):
        y = TOP + ROW * (i + 0.5)
        drawing.text((LEFT - 8, y + SIZE / 3), fitted(one.name, LEFT - 8), SIZE, "end")
        drawing.line((axis(one.low), y), (axis(one.high), y))
        for end in (one.low, one.high):
            drawing.line((axis(end), y - BOX / 3), (axis(end), y + BOX / 3))
        left, right = axis(one.quarter), axis(one.three_quarters)
        drawing.rect((left, y - BOX / 2), (right - left, BOX), LIGHT)
        middle = axis(one.middle)
        drawing.line((middle, y - BOX / 2), (middle, y + BOX / 2), 2.2)
        drawing.circle((axis(one.mean), y), 3.5)
        dry = axis(one.driest_quarter_mean)
        top = y + BOX / 2 + 1
        drawing.area(((dry, top), (dry - 5, top + 9), (dry + 5, top + 9)), "black")
    across(drawing, axis, TOP + ROW * len(runs) + 4, unit)
    columns = (
        Column("run", 1.6),
        *(Column(head, 1.3, is_number=True) for head in HEADS),
    )
    rows = tuple(
        (
            one.name,
            *(
                shown(value)
                for value in (
                    one.low, one.quarter, one.middle, one.three_quarters, one.high,
                    one.mean, one.driest_quarter_mean,
                )
            ),
        )
        for one in runs
    )  # fmt: skip
    says = f"Depth, {unit}."
    table = Table(columns, rows, is_filled=True)
    return drawing.picture(title, says, (table,), HOW)
