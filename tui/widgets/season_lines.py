"""Lines over the days of a year, a limit across them, marks along the foot."""

import math
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
from tui.widgets.ghost import LEVEL, LINE_LEGEND, sign_line, sparse_row

HEAD, FOOT = 1, 2


@dataclass(frozen=True, slots=True)
class YearLines:
    """What a picture of a year shows; all lines have a value a day.

    Attributes
    ----------
    main, other : tuple of float
        The line that matters, and one to hold beside it.
    limit : float or None
        Drawn across; a line above it is in trouble.
    marks : tuple of int
        Days that carry a mark on the foot.
    labels : tuple of (day, text)
        Of the horizontal axis.
    words : tuple of str
        The picture in sentences.
    today : int or None
        A day that is marked by a line down the picture.
    before : tuple of float
        The line that matters, before what is tried; empty where nothing is.
    limit_before : float or None
        The limit then, where it was another one.
    """

    main: tuple[float, ...]
    other: tuple[float, ...]
    limit: float | None
    marks: tuple[int, ...]
    labels: tuple[tuple[int, str], ...]
    legend: str
    words: tuple[str, ...]
    today: int | None = None
    before: tuple[float, ...] = ()
    limit_before: float | None = None


class SeasonLines(Chart):
    """Two lines of a year against a limit."""

    year: YearLines | None = None
    nothing = "no season"

    def show(self, year: YearLines | None, nothing: str = nothing) -> None:
        """Take another year, or say why there is none."""
        self.year, self.nothing = year, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        return [self.nothing] if self.year is None else self.year.words

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        year = self.year
        if year is None:
            canvas.write_lines(self.words(), ink.muted)
            return
        height = canvas.height - HEAD - FOOT
        known = [
            one for one in (*year.main, *year.other, *year.before) if math.isfinite(one)
        ]
        limits = (year.limit or 0.0, year.limit_before or 0.0)
        highest = max([*known, *limits, 1.0])
        _, top = round_ends(0.0, highest, most_ticks(height))
        left = label_width(0.0, top, height)
        days = max(len(year.main), 2)
        frame = Frame(left, HEAD, canvas.width - left, height, 0.0, days, 0.0, top)
        draw_axes(canvas, ink, frame)
        draw_x_labels(canvas, ink, frame, [(float(d), t) for d, t in year.labels])
        legend = f"{LINE_LEGEND}; {year.legend}" if year.before else year.legend
        canvas.write(0, 0, legend, ink.muted)
        if year.limit is not None:
            row = frame.dot_y(year.limit) / 4
            canvas.dotted_row(frame.left, row, frame.width, ink.alarm)
        if year.today is not None:
            x = frame.cell_x(year.today)
            canvas.dotted_column(x, frame.top, frame.height, ink.alarm)
            canvas.write(x, frame.bottom + 1, "▲", ink.alarm)
        if year.limit_before is not None:
            sparse_row(canvas, frame, year.limit_before, ink.alarm)
        frame.line(canvas, list(enumerate(year.other)), ink.muted)
        frame.line(canvas, list(enumerate(year.main)), ink.accent)
        sign_line(canvas, frame, year.before, (LEVEL, ink.text))
        for day in year.marks:
            canvas.write(frame.cell_x(day), frame.bottom + 1, "┷", ink.accent)
