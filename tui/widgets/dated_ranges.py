"""Measurements by date: each with its range and its least one, a band to lie in."""

from collections.abc import Sequence
from dataclasses import dataclass

from tui.widgets.axes import (
    Frame,
    draw_axes,
    draw_x_labels,
    label_width,
    most_ticks,
    round_ends,
)
from tui.widgets.canvas import Canvas, Chart, Ink

HEAD, FOOT = 1, 2
COUNTS, VOID, LEAST = "●", "○", "▾"


@dataclass(frozen=True, slots=True)
class Dated:
    """One measurement: its day, value, range, and the least of what it is made of."""

    day: float
    label: str
    value: float
    low: float
    high: float
    least: float
    texts: tuple[str, str]
    counts: bool = True


@dataclass(frozen=True, slots=True)
class DatedRanges:
    """What a picture of dated ranges shows.

    Attributes
    ----------
    points : tuple of Dated
        By day; one at least.
    days : tuple of float and float
        Ends of the horizontal axis.
    band : tuple of float and float
        Where values should lie.
    line : float
        What is aimed at.
    """

    points: tuple[Dated, ...]
    days: tuple[float, float]
    band: tuple[float, float]
    line: float
    legend: str
    words: tuple[str, ...]


class RangesByDate(Chart):
    """Whiskers by date over a shaded band."""

    found: DatedRanges | None = None
    nothing = "nothing was measured"

    def show(self, found: DatedRanges | None, nothing: str = nothing) -> None:
        """Take other measurements, or say why there are none."""
        self.found, self.nothing = found, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        return [self.nothing] if self.found is None else self.found.words

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        found = self.found
        if found is None:
            canvas.write_lines([self.nothing], ink.muted)
            return
        height = canvas.height - HEAD - FOOT
        highest = max(*(one.high for one in found.points), found.band[1], found.line)
        _, top = round_ends(0.0, highest, most_ticks(height))
        left = label_width(0.0, top, height)
        frame = Frame(left, HEAD, canvas.width - left, height, *found.days, 0.0, top)
        high, low = (frame.cell_y(one) for one in reversed(found.band))
        canvas.fill(frame.left, high, (frame.width, low - high + 1), ink.veil)
        draw_axes(canvas, ink, frame)
        labels = [(one.day, one.label) for one in found.points]
        draw_x_labels(canvas, ink, frame, labels)
        canvas.write(0, 0, found.legend, ink.muted)
        row = frame.dot_y(found.line) / 4
        canvas.dotted_row(frame.left, row, frame.width, ink.alarm)
        for one in found.points:
            _whisker(canvas, ink, frame, one)


def _whisker(canvas: Canvas, ink: Ink, frame: Frame, one: Dated) -> None:
    x = frame.cell_x(one.day)
    top, bottom = frame.cell_y(one.high), frame.cell_y(one.low)
    for y in range(top, bottom + 1):
        canvas.write(x, y, "│", ink.text)
    if bottom > top:
        canvas.write(x, top, "┬", ink.text)
        canvas.write(x, bottom, "┴", ink.text)
    at = frame.cell_y(one.value)
    canvas.write(x, at, COUNTS if one.counts else VOID, ink.accent)
    least = max(at + 1, frame.cell_y(one.least))
    if least <= frame.bottom:
        canvas.write(x, least, LEAST, ink.alarm)
    for y, text in zip((at, least), one.texts, strict=True):
        start = x + 2
        if start + len(text) > canvas.width:
            start = x - 1 - len(text)
        is_free = all(not canvas.sign(start + i, y) for i in range(-1, len(text) + 1))
        if is_free and y <= frame.bottom:
            # dots of the line would show through plain spaces
            canvas.write(start, y, text.replace(" ", "\u00a0"), ink.text)
