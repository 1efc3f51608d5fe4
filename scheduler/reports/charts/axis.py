"""Numbers and room on paper in, places on paper and round marks out."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from scheduler.reports.charts.svg import SIZE, SMALL

if TYPE_CHECKING:
    from scheduler.reports.charts.svg import Drawing

STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
TICK = 4.0
# Numbers nearer to each other than this part of them are drawn as one.
SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Scale:
    """Where a number stands between two ends on paper.

    Attributes
    ----------
    low, high : float
        Numbers at the ends.
    start, end : float
        Their places on paper.
    marks : tuple of float
        Round numbers between the ends.
    """

    low: float
    high: float
    start: float
    end: float
    marks: tuple[float, ...]

    def __call__(self, value: float) -> float:
        """Place of a number on paper."""
        part = (value - self.low) / (self.high - self.low)
        return self.start + part * (self.end - self.start)

    def label(self, mark: float) -> str:
        """A mark with as many digits as the step between marks needs."""
        step = self.marks[1] - self.marks[0] if len(self.marks) > 1 else 1.0
        digits = next(
            (n for n in range(7) if abs(round(step, n) - step) < step * 1e-6), 6
        )
        return f"{mark + 0.0:,.{digits}f}"


def round_marks(low: float, high: float, most: int = 6) -> tuple[float, ...]:
    """Round numbers from the last at or below `low` to the first at or above `high`.

    Examples
    --------
    >>> round_marks(0.0, 71.0)
    (0.0, 20.0, 40.0, 60.0, 80.0)
    >>> round_marks(3.0, 3.0, most=2)
    (3.0, 3.5, 4.0)
    """
    if not high - low > SAME * max(1.0, abs(low), abs(high)):
        high = low + 1.0
    rough = (high - low) / max(1, most)
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(one * power for one in STEPS if one * power >= rough * (1 - 1e-9))
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return tuple(round(i * step, 12) for i in range(first, max(last, first + 1) + 1))


def scale(
    values: Iterable[float],
    ends: tuple[float, float],
    *,
    from_zero: bool = False,
    most: int = 6,
) -> Scale:
    """A scale with round ends that holds every finite number."""
    known = [one for one in values if math.isfinite(one)] or [0.0, 1.0]
    low = min(0.0, *known) if from_zero else min(known)
    marks = round_marks(low, max(known), most)
    return Scale(marks[0], marks[-1], *ends, marks)


def across(drawing: Drawing, scale: Scale, y: float, label: str) -> None:
    """An axis along the foot of a chart, with its name under it."""
    drawing.line((scale.start, y), (scale.end, y))
    for mark in scale.marks:
        x = scale(mark)
        drawing.line((x, y), (x, y + TICK))
        drawing.text((x, y + TICK + SMALL), scale.label(mark), SMALL, "middle")
    middle = (scale.start + scale.end) / 2
    drawing.text((middle, y + TICK + SMALL + SIZE + 3), label, SIZE, "middle")


def upward(drawing: Drawing, scale: Scale, x: float, label: str) -> None:
    """An axis up the left side of a chart, its name above it."""
    drawing.line((x, scale.start), (x, scale.end))
    for mark in scale.marks:
        y = scale(mark)
        drawing.line((x - TICK, y), (x, y))
        drawing.text((x - TICK - 2, y + SMALL / 3), scale.label(mark), SMALL, "end")
    drawing.text((0, min(scale.start, scale.end) - SIZE), label, SIZE)
