"""Two bands of bars over the same days, such as ETo above and rain below."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tui.widgets.axes import Frame, draw_axes, label_width, most_ticks, round_ends
from tui.widgets.canvas import Canvas, Chart, Ink

LOWER_PART = 3  # the lower band takes one row of so many
LEAST_ROWS = 2
WIDEST = 5


@dataclass(frozen=True, slots=True)
class DayColumns:
    """What two bands show; everything has one entry a day.

    Attributes
    ----------
    upper, lower : tuple of float
        Sizes of the bars; NaN draws none.
    signs : tuple of str
        One character below each bar of the upper band.
    days : tuple of str
        At most two characters below each day.
    today : int
        First day that is not behind.
    heads : tuple of str
        What stands above the upper and the lower band.
    words : tuple of str
        The picture in sentences.
    """

    upper: tuple[float, ...]
    lower: tuple[float, ...]
    signs: tuple[str, ...]
    days: tuple[str, ...]
    today: int
    heads: tuple[str, str]
    words: tuple[str, ...]


class DayBands(Chart):
    """Bars by day in two bands, with a line between what was and what comes."""

    columns: DayColumns | None = None
    nothing = "no weather is known"

    def show(self, columns: DayColumns | None, nothing: str = nothing) -> None:
        """Take other days, or say why there are none."""
        self.columns, self.nothing = columns, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        return [self.nothing] if self.columns is None else self.columns.words

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        one = self.columns
        if one is None:
            canvas.write_lines(self.words(), ink.muted)
            return
        rows = canvas.height - 5  # two heads, two axes, the days
        low = max(LEAST_ROWS, rows // LOWER_PART)
        tops = (1, canvas.height - 2 - low)
        high = tops[1] - 4
        ends = (_top(one.upper, high), _top(one.lower, low))
        left = max(label_width(0.0, ends[0], high), label_width(0.0, ends[1], low))
        pitch = max(2, min(WIDEST, (canvas.width - left + 1) // max(1, len(one.days))))
        size = (left, pitch * len(one.days))
        upper = Frame(size[0], tops[0], size[1], high, 0.0, 1.0, 0.0, ends[0])
        lower = Frame(size[0], tops[1], size[1], low, 0.0, 1.0, 0.0, ends[1])
        for frame, values, head in zip(
            (upper, lower), (one.upper, one.lower), one.heads, strict=True
        ):
            canvas.write(0, frame.top - 1, head, ink.muted)
            draw_axes(canvas, ink, frame)
            _bars(canvas, ink, frame, (values, pitch, one.today))
        for i, sign in enumerate(one.signs):
            canvas.write(left + i * pitch, upper.bottom + 2, sign[:pitch], ink.text)
        _days(canvas, ink, lower, (one, pitch))


def _top(values: tuple[float, ...], height: int) -> float:
    known = [one for one in values if math.isfinite(one)]
    highest = max(known, default=0.0)
    return round_ends(0.0, highest, most_ticks(height))[1] if highest > 0 else 1.0


def _bars(
    canvas: Canvas, ink: Ink, frame: Frame, what: tuple[tuple[float, ...], int, int]
) -> None:
    values, pitch, today = what
    wide = max(1, pitch - 1)
    for i, value in enumerate(values):
        if math.isfinite(value) and value > 0:
            tall = frame.height * value / frame.y_high
            colour = ink.accent if i < today else ink.muted
            size = (wide, min(tall, float(frame.height)))
            canvas.bar_up(frame.left + i * pitch, frame.bottom, size, colour)
    if 0 < today < len(values):
        x = frame.left + today * pitch - 1
        canvas.dotted_column(x, frame.top, frame.height, ink.alarm)


def _days(canvas: Canvas, ink: Ink, frame: Frame, what: tuple[DayColumns, int]) -> None:
    one, pitch = what
    every = 1 if pitch > 2 else 2
    for i in range(0, len(one.days), every):
        colour = ink.text if i == one.today else ink.muted
        canvas.write(frame.left + i * pitch, frame.bottom + 2, one.days[i], colour)
