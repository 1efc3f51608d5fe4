"""Points, lines and bands against one axis, with marks on it and where lines cross."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tui.widgets.axes import (
    Frame,
    draw_axes,
    draw_x_labels,
    label_width,
    most_ticks,
    number_labels,
    round_ends,
)
from tui.widgets.canvas import Canvas, Chart, Ink
from tui.widgets.ghost import sparse_row

GLYPHS = ("●", "◇", "▲", "□")
HEAD, FOOT = 2, 3
TIE = "✖"


@dataclass(frozen=True, slots=True)
class Series:
    """One package: points, a line through them, its band, and it in words.

    `tested` holds the ends of what was tested: beyond them the line is drawn thin.
    """

    name: str
    points: tuple[tuple[float, float], ...]
    line: tuple[tuple[float, float], ...] = ()
    band: tuple[tuple[float, float, float], ...] = ()
    tested: tuple[float, float] = (0.0, 0.0)
    words: str = ""


@dataclass(frozen=True, slots=True)
class Mark:
    """A place on the horizontal axis, or where lines cross if it has a height."""

    x: float
    text: str
    words: str
    y: float | None = None


@dataclass(frozen=True, slots=True)
class Level:
    """A height across the picture: what a zone has, or what is tried there."""

    y: float
    text: str
    is_before: bool = False


class DuWind(Chart):
    """Uniformity against wind of one package or two."""

    series: tuple[Series, ...] = ()
    marks: tuple[Mark, ...] = ()
    levels: tuple[Level, ...] = ()
    unit = ""
    nothing = "no test of a package in a known wind"

    def show(
        self,
        series: Sequence[Series],
        marks: Sequence[Mark] = (),
        unit: str = "",
        nothing: str = nothing,
    ) -> None:
        """Take other packages, or say why there are none."""
        self.series, self.marks = tuple(series), tuple(marks)
        self.unit, self.nothing = unit, nothing
        self._repaint()

    def across(self, levels: Sequence[Level]) -> None:
        """Take other heights across the picture."""
        self.levels = tuple(levels)
        self._repaint()

    def words(self) -> Sequence[str]:
        said = [one.words for one in self.series]
        told = [one.words for one in self.marks]
        return [*(said or [self.nothing]), *told, *(o.text for o in self.levels)]

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        if not any(one.points for one in self.series):
            canvas.write_lines(self.words(), ink.muted)
            return
        frame = self._frame(canvas)
        for i, one in enumerate(self.series):
            _band(canvas, ink, frame, one, i)
        draw_axes(canvas, ink, frame)
        draw_x_labels(canvas, ink, frame, number_labels(frame))
        x = canvas.width - len(self.unit)
        canvas.write(x, frame.bottom + 3, self.unit, ink.muted)
        for mark in self.marks:
            _mark(canvas, ink, frame, mark)
        self._lines(canvas, ink, frame)
        for mark in self.marks:
            _tie(canvas, ink, frame, mark)
        for level in self.levels:
            _level(canvas, ink, frame, level)

    def _lines(self, canvas: Canvas, ink: Ink, frame: Frame) -> None:
        """Lines, the points upon them, and the names with their signs."""
        looks = tuple(zip(GLYPHS, (ink.accent, ink.text, ink.muted, ink.alarm),
                          strict=True))  # fmt: skip
        drawn = list(zip(self.series, looks, strict=False))
        for one, (_, colour) in drawn:
            _line(canvas, frame, one, colour)
        at = 0
        for one, (sign, colour) in drawn:
            for x, y in one.points:
                canvas.write(frame.cell_x(x), frame.cell_y(y), sign, colour)
            canvas.write(at, 0, f"{sign} {one.name}", colour)
            at += len(one.name) + 5

    def _frame(self, canvas: Canvas) -> Frame:
        points = [at for one in self.series for at in (*one.points, *one.line)]
        ys = [y for _, y in points]
        ys += [y for one in self.series for _, low, high in one.band
               for y in (low, high)]  # fmt: skip
        ys += [one.y for one in self.levels]
        height, width = canvas.height - HEAD - FOOT - 1, canvas.width
        low, high = round_ends(max(0.0, min(ys) - 0.01), min(1.0, max(ys) + 0.01),
                               most_ticks(height))  # fmt: skip
        # a tie far outside the tested winds is said, not drawn
        xs = [x for x, _ in points] + [one.x for one in self.marks if one.y is None]
        left = label_width(low, high, height)
        x_low, x_high = round_ends(0.0, max(xs) * 1.02, max(2, width // 8))
        return Frame(left, HEAD, width - left, height, x_low, x_high, low, high)


def _band(canvas: Canvas, ink: Ink, frame: Frame, one: Series, i: int) -> None:
    """Cells between both ends at the middle of each column; never none of them."""
    if not one.band:
        return
    shade = ink.shade(0.12) if i == 0 else ink.veil or ink.pale
    both = ink.shade(0.34)
    for x, low, high in _by_column(frame, one.band):
        top, bottom = frame.cell_y(high), frame.cell_y(low)
        for y in range(max(top, frame.top), min(bottom, frame.bottom) + 1):
            canvas.fill(x, y, (1, 1), both if canvas.back(x, y) else shade)


def _by_column(
    frame: Frame, band: Sequence[tuple[float, float, float]]
) -> list[tuple[int, float, float]]:
    """Ends of a band for each column of cells, on straight lines between its points."""
    found: list[tuple[int, float, float]] = []
    for (x0, low0, high0), (x1, low1, high1) in pairwise(band):
        first, last = frame.cell_x(x0), frame.cell_x(x1)
        for x in range(first, last + 1):
            part = (x - first) / (last - first) if last > first else 0.0
            if not found or found[-1][0] < x:
                found.append(
                    (x, low0 + part * (low1 - low0), high0 + part * (high1 - high0))
                )
    return found


def _line(canvas: Canvas, frame: Frame, one: Series, colour: str) -> None:
    """The line whole where it was tested, dotted where it is drawn on."""
    low, high = one.tested
    inside = [at for at in one.line if low - 1e-9 <= at[0] <= high + 1e-9]
    frame.line(canvas, inside, colour)
    for i, at in enumerate(one.line):
        if at not in inside and i % 2 == 0:
            frame.line(canvas, [at], colour)


def _mark(canvas: Canvas, ink: Ink, frame: Frame, mark: Mark) -> None:
    """A place on the axis: a dotted line up, its text above."""
    if mark.y is not None or not frame.x_low <= mark.x <= frame.x_high:
        return
    x, text = frame.cell_x(mark.x), mark.text
    canvas.dotted_column(x, frame.top, frame.height, ink.alarm)
    canvas.write(x, frame.bottom + 1, "▼", ink.alarm)
    at = min(max(frame.left, x - len(text) // 2), canvas.width - len(text))
    canvas.write(at, 1, text, ink.alarm)


def _level(canvas: Canvas, ink: Ink, frame: Frame, level: Level) -> None:
    """A row across, sparse where it is of before, with its text at the right end."""
    colour = ink.text if level.is_before else ink.accent
    if level.is_before:
        sparse_row(canvas, frame, level.y, colour)
    else:
        row = frame.dot_y(level.y) / 4
        canvas.dotted_row(frame.left, row, frame.width, colour)
    y = max(frame.top, frame.cell_y(level.y) - 1)
    canvas.write(canvas.width - len(level.text), y, level.text, colour)


def _tie(canvas: Canvas, ink: Ink, frame: Frame, mark: Mark) -> None:
    """Where lines cross, its text where nothing stands; outside it is only said."""
    if mark.y is None or not frame.holds(mark.x, mark.y):
        return
    x, y, size = frame.cell_x(mark.x), frame.cell_y(mark.y), len(mark.text)
    canvas.write(x, y, TIE, ink.alarm)
    places = [(at, row) for row in (y - 1, y + 1, y - 2, y + 2)
              for at in (x + 2, x - size - 1)]  # fmt: skip
    for at, row in places:
        is_inside = frame.left <= at and at + size <= canvas.width
        if not (is_inside and frame.top <= row <= frame.bottom):
            continue
        if all(not canvas.sign(one, row) for one in range(at, at + size)):
            canvas.write(at, row, mark.text, ink.alarm)
            return
