"""Wind by the clock: the trace of a logger, limits across it, windows behind it."""

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

HEAD, FOOT = 1, 2
HOUR = 60
GAP = 2  # cells before a text that are free
STEPS = (10, 15, 30, 60, 120, 180, 240, 360)


@dataclass(frozen=True, slots=True)
class Shaded:
    """A window of minutes behind the trace, its label, and it in words."""

    label: str
    start: float
    length: float
    words: str
    is_chosen: bool = False


@dataclass(frozen=True, slots=True)
class WindTrace:
    """Rows of a day: minutes, values and gusts; limits as values with labels."""

    minutes: tuple[float, ...]
    interval: float
    values: tuple[float, ...]
    gusts: tuple[float, ...]
    limits: tuple[tuple[float, str], ...]
    words: tuple[str, ...] = ()


class WindDay(Chart):
    """Wind of one day with the windows of its runs shaded."""

    trace: WindTrace | None = None
    windows: tuple[Shaded, ...] = ()
    legend = ""
    nothing = "no wind"

    def show(
        self,
        trace: WindTrace | None,
        windows: Sequence[Shaded],
        legend: str = "",
        nothing: str = nothing,
    ) -> None:
        """Take another day, or say why there is none."""
        self.trace, self.windows = trace, tuple(windows)
        self.legend, self.nothing = legend, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        if self.trace is None:
            return [self.nothing, *(one.words for one in self.windows)]
        limits = [text for _, text in self.trace.limits]
        return [*self.trace.words, *(one.words for one in self.windows), *limits]

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        if self.trace is None:
            canvas.write_lines(self.words(), ink.muted)
            return
        frame = self._frame(canvas, self.trace)
        for window in self.windows:
            _window(canvas, ink, frame, window)
        draw_axes(canvas, ink, frame)
        draw_x_labels(canvas, ink, frame, _clock_labels(frame))
        canvas.write(0, 0, self.legend, ink.muted)
        for window in sorted(self.windows, key=lambda one: not one.is_chosen):
            _under(canvas, ink, frame, window)
        _rows(canvas, ink, frame, self.trace)
        for limit in self.trace.limits:
            _limit(canvas, ink, frame, limit)

    def _frame(self, canvas: Canvas, trace: WindTrace) -> Frame:
        height = canvas.height - HEAD - FOOT
        known = [one for one in (*trace.values, *trace.gusts) if math.isfinite(one)]
        highest = max([*known, *(value for value, _ in trace.limits)], default=1.0)
        _, top = round_ends(0.0, highest, most_ticks(height))
        left = label_width(0.0, top, height)
        begin, end = self._ends(trace)
        return Frame(left, HEAD, canvas.width - left, height, begin, end, 0.0, top)

    def _ends(self, trace: WindTrace) -> tuple[float, float]:
        """Whole hours around the rows and the windows."""
        starts = [trace.minutes[0], *(one.start for one in self.windows)]
        ends = [trace.minutes[-1] + trace.interval]
        ends += [one.start + one.length for one in self.windows]
        return (
            math.floor(min(starts) / HOUR) * HOUR,
            math.ceil(max(ends) / HOUR) * HOUR,
        )


def _rows(canvas: Canvas, ink: Ink, frame: Frame, trace: WindTrace) -> None:
    """Limits below gusts below the trace: where they meet the last one is seen."""
    for value, _ in trace.limits:
        canvas.dotted_row(frame.left, frame.dot_y(value) / 4, frame.width, ink.alarm)
    for minute, gust in zip(trace.minutes, trace.gusts, strict=True):
        if math.isfinite(gust):
            frame.line(canvas, [(minute + trace.interval / 2, gust)], ink.muted)
    for piece in _pieces(trace):
        frame.line(canvas, piece, ink.text)


def _pieces(trace: WindTrace) -> list[list[tuple[float, float]]]:
    """The trace in pieces that no gap interrupts."""
    pieces: list[list[tuple[float, float]]] = []
    last = -math.inf
    for minute, value in zip(trace.minutes, trace.values, strict=True):
        if minute - last > 1.5 * trace.interval:
            pieces.append([])
        pieces[-1].append((minute + trace.interval / 2, value))
        last = minute
    return pieces


def _columns(frame: Frame, window: Shaded) -> tuple[int, int]:
    """First column of a window and how many; at least one."""
    first = max(frame.left, frame.cell_x(window.start))
    last = min(frame.left + frame.width - 1, frame.cell_x(window.start + window.length))
    return first, max(1, last - first + 1)


def _window(canvas: Canvas, ink: Ink, frame: Frame, window: Shaded) -> None:
    first, wide = _columns(frame, window)
    shade = ink.shade(0.28) if window.is_chosen else ink.shade(0.05)
    canvas.fill(first, frame.top, (wide, frame.height), shade)


def _under(canvas: Canvas, ink: Ink, frame: Frame, window: Shaded) -> None:
    """A bar on the axis and the label on top, for those who see no shade."""
    first, wide = _columns(frame, window)
    canvas.write(first, frame.bottom + 1, "━" * wide, ink.accent)
    label = window.label
    at = first + (wide - len(label)) // 2 if len(label) <= wide else first
    around = range(max(0, at - 1), min(canvas.width, at + len(label) + 1))
    if not any(canvas.sign(x, frame.top) not in ("", "│", "┤") for x in around):
        canvas.write(at, frame.top, label, ink.text)


def _limit(canvas: Canvas, ink: Ink, frame: Frame, limit: tuple[float, str]) -> None:
    value, text = limit
    row = frame.dot_y(value)
    at = max(frame.left, canvas.width - len(text))
    for y in (row // 4 - 1, row // 4 + 1):
        is_free = frame.top <= y <= frame.bottom and not any(
            canvas.glyph(x, y).strip()
            for x in range(max(frame.left, at - GAP), canvas.width)
        )
        if is_free:
            break
    canvas.write(at, y, text, ink.alarm)  # its glyphs cover dots of a full day


def _clock_labels(frame: Frame) -> list[tuple[float, str]]:
    span = frame.x_high - frame.x_low
    step = next((one for one in STEPS if span / one * 8 <= frame.width), STEPS[-1])
    first = math.ceil(frame.x_low / step)
    last = math.floor(frame.x_high / step)
    return [
        (one * step, f"{int(one * step) // 60 % 24:02d}:{int(one * step) % 60:02d}")
        for one in range(first, last + 1)
    ]
