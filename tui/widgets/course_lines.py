"""Named lines over days against a limit, each with its name at its end."""

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
from tui.widgets.ghost import END, LEVEL, sign_line, sparse_row
from tui.widgets.middle import write_middle

HEAD, FOOT = 1, 2


@dataclass(frozen=True, slots=True)
class NamedLine:
    """One line with a value a day."""

    name: str
    values: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class CourseDays:
    """What a picture of days shows.

    Attributes
    ----------
    main : NamedLine
        The line that matters.
    others : tuple of NamedLine
        Lines beside it.
    limit : float
        Drawn across; a line above it is in trouble.
    today : int
        First day that is not behind.
    marks : tuple of int
        Days that carry a mark on the foot.
    labels : tuple of (day, text)
        Of the horizontal axis.
    head : str
        What stands above.
    words : tuple of str
        The picture in sentences.
    before : tuple of NamedLine
        Lines as they were before what is tried.
    limit_before : float or None
        The limit then, where it was another one.
    """

    main: NamedLine
    others: tuple[NamedLine, ...]
    limit: float
    today: int
    marks: tuple[int, ...]
    labels: tuple[tuple[int, str], ...]
    head: str
    words: tuple[str, ...]
    before: tuple[NamedLine, ...] = ()
    limit_before: float | None = None


class CourseLines(Chart):
    """Lines over days, named where they end."""

    course: CourseDays | None = None
    nothing = "no balance is kept for this zone"

    def show(self, course: CourseDays | None, nothing: str = nothing) -> None:
        """Take other days, or say why there are none."""
        self.course, self.nothing = course, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        return [self.nothing] if self.course is None else self.course.words

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        one = self.course
        if one is None:
            write_middle(canvas, self.nothing, ink.muted)
            return
        every = (*one.before, *one.others, one.main)
        height = canvas.height - HEAD - FOOT
        known = [v for line in every for v in line.values if math.isfinite(v)]
        limits = [one.limit, one.limit_before or 0.0]
        _, top = round_ends(0.0, max([*known, *limits]), most_ticks(height))
        left = label_width(0.0, top, height)
        margin = 1 + max(len(line.name) for line in every)
        width = canvas.width - left - margin
        last = max(len(one.main.values) - 1, 1)
        frame = Frame(left, HEAD, width, height, 0.0, last, 0.0, top)
        signs = zip((LEVEL, END), one.before, strict=False)
        told = [f"{sign} {line.name}" for sign, line in signs]
        head = "  ".join([*told, one.head])
        canvas.write(0, 0, head, ink.muted)
        draw_axes(canvas, ink, frame)
        draw_x_labels(canvas, ink, frame, [(float(d), text) for d, text in one.labels])
        if one.today > 0:
            x = frame.cell_x(one.today)
            canvas.dotted_column(x, frame.top, frame.height, ink.muted)
        row = frame.dot_y(one.limit) / 4
        canvas.dotted_row(frame.left, row, frame.width, ink.alarm)
        if one.limit_before is not None:
            sparse_row(canvas, frame, one.limit_before, ink.alarm)
        for line in (*one.others, one.main):
            colour = ink.accent if line is one.main else ink.muted
            frame.line(canvas, list(enumerate(line.values)), colour)
        for line, sign in zip(one.before, (LEVEL, END), strict=False):
            sign_line(canvas, frame, line.values, (sign, ink.text))
        for day in one.marks:
            canvas.write(frame.cell_x(day), frame.bottom + 1, "┷", ink.accent)
        _names(canvas, ink, frame, one)


def _names(canvas: Canvas, ink: Ink, frame: Frame, one: CourseDays) -> None:
    """Names beside the ends of the lines, moved apart where they would touch."""
    ends = [(line.values[-1], line.name, ink.muted) for line in one.others]
    ends.append((one.main.values[-1], one.main.name, ink.accent))
    ends.append((one.limit, "allowed", ink.alarm))
    ends.sort(key=lambda end: -round(end[0], 2))
    free = frame.top
    for i, (value, name, colour) in enumerate(ends):
        below = len(ends) - 1 - i  # names that still need a row each
        y = min(max(free, frame.cell_y(value)), frame.bottom - below)
        canvas.write(frame.left + frame.width + 1, y, name, colour)
        free = y + 1
