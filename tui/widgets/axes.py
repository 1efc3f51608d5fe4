"""Two axes of a picture: where a value lies in cells, round ticks, their labels."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tui.widgets.canvas import Canvas, Ink


def round_ticks(low: float, high: float, most: int) -> tuple[list[float], int]:
    """Round numbers from low to high, at most so many, and the digits they need."""
    span = high - low
    if not span > 0 or most < 2:
        return [low], 0
    power = 10.0 ** math.floor(math.log10(span / most))
    step = next(
        one * power
        for one in (1, 2, 2.5, 5, 10, 20)
        if span / (one * power) <= most + 1e-9
    )
    digits = max(0, -math.floor(math.log10(step) + 1e-9))
    if abs(step * 10**digits - round(step * 10**digits)) > 1e-9:
        digits += 1  # a step of 2.5 or 0.25
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    return [one * step for one in range(first, last + 1)], digits


def round_ends(low: float, high: float, most: int) -> tuple[float, float]:
    """Ends moved outward to the ticks around them; always apart, as an axis needs."""
    if not high > low:
        high = low + 1.0  # one value only, or a calm day
    ticks, _ = round_ticks(low, high, most)
    step = ticks[1] - ticks[0] if len(ticks) > 1 else high - low
    return (
        math.floor(low / step + 1e-9) * step,
        math.ceil(high / step - 1e-9) * step,
    )


@dataclass(frozen=True, slots=True)
class Frame:
    """Where values lie on a canvas: the plot's cells and the values at its ends.

    The plot holds the cells from `left` to `left + width - 1` and `top` to `bottom`;
    the vertical axis stands in the column before it, the horizontal one below.
    """

    left: int
    top: int
    width: int
    height: int
    x_low: float
    x_high: float
    y_low: float
    y_high: float

    @property
    def bottom(self) -> int:
        """Last row of the plot."""
        return self.top + self.height - 1

    def dot_x(self, value: float) -> int:
        """Column of dots of a value."""
        part = (value - self.x_low) / (self.x_high - self.x_low)
        return 2 * self.left + round(part * (2 * self.width - 1))

    def dot_y(self, value: float) -> int:
        """Row of dots of a value, counted from the top of the canvas.

        The lowest value lies on the axis, below the last row of dots, and is drawn on
        that row: so ticks lie as far apart as their values, and level with bars.
        """
        part = (self.y_high - value) / (self.y_high - self.y_low)
        dots = 4 * self.height
        row = round(part * dots)
        return 4 * self.top + row - (row == dots)

    def cell_x(self, value: float) -> int:
        """Column of cells of a value."""
        return self.dot_x(value) // 2

    def cell_y(self, value: float) -> int:
        """Row of cells of a value."""
        return self.dot_y(value) // 4

    def holds(self, x: float, y: float) -> bool:
        """Whether a place lies within the ends."""
        return self.x_low <= x <= self.x_high and self.y_low <= y <= self.y_high

    def line(
        self, canvas: Canvas, points: Sequence[tuple[float, float]], colour: str
    ) -> None:
        """Draw a line of dots through places; what lies outside is dropped."""
        dots = [(self.dot_x(x), self.dot_y(y)) for x, y in points]
        for (x0, y0), (x1, y1) in pairwise(dots):
            n = max(abs(x1 - x0), abs(y1 - y0), 1)
            for i in range(n + 1):
                self.dot(
                    canvas, x0 + round(i * (x1 - x0) / n),
                    y0 + round(i * (y1 - y0) / n), colour,
                )  # fmt: skip
        if len(dots) == 1:
            self.dot(canvas, *dots[0], colour)

    def dot(self, canvas: Canvas, x: int, y: int, colour: str) -> None:
        """Set one dot, if it lies within the plot."""
        if (
            2 * self.left <= x < 2 * (self.left + self.width)
            and 4 * self.top <= y <= 4 * self.bottom + 3
        ):
            canvas.dot(x, y, colour)


def most_ticks(height: int) -> int:
    """How many labels a vertical axis of so many rows carries at most."""
    return max(2, min(height // 2, 8))


def label_width(low: float, high: float, height: int) -> int:
    """Cells that the labels of a vertical axis need, the tick included."""
    ticks, digits = round_ticks(low, high, most_ticks(height))
    return max(len(f"{one:.{digits}f}") for one in ticks) + 2


def draw_axes(canvas: Canvas, ink: Ink, frame: Frame) -> None:
    """Both axis lines, and the ticks of the vertical one with round labels."""
    axis = frame.left - 1
    for y in range(frame.top, frame.bottom + 1):
        canvas.write(axis, y, "│", ink.muted)
    canvas.write(axis, frame.bottom + 1, "└" + "─" * frame.width, ink.muted)
    ticks, digits = round_ticks(frame.y_low, frame.y_high, most_ticks(frame.height))
    for value in ticks:
        text, y = f"{value:.{digits}f}", frame.cell_y(value)
        if value - frame.y_low < 1e-9 * (frame.y_high - frame.y_low):
            y = frame.bottom + 1  # the lowest stands on the axis below
        else:
            canvas.write(axis, y, "┤", ink.muted)
        canvas.write(axis - len(text), y, text, ink.muted)


def draw_x_labels(
    canvas: Canvas, ink: Ink, frame: Frame, labels: Sequence[tuple[float, str]]
) -> None:
    """Ticks and labels below the horizontal axis; those that would touch are left."""
    free = frame.left - 1
    for value, text in labels:
        x = frame.cell_x(value)
        start = min(max(frame.left - 1, x - len(text) // 2), canvas.width - len(text))
        if start < free:
            continue
        canvas.write(x, frame.bottom + 1, "┴", ink.muted)
        canvas.write(start, frame.bottom + 2, text, ink.muted)
        free = start + len(text) + 1


def number_labels(frame: Frame) -> list[tuple[float, str]]:
    """Round labels of the horizontal axis."""
    most = max(2, frame.width // 8)
    ticks, digits = round_ticks(frame.x_low, frame.x_high, most)
    return [(one, f"{one:.{digits}f}") for one in ticks]
