"""Factors over the weeks, each in a panel of its own: a line within its range."""

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

HEAD, FOOT, GAP = 1, 2, 3
MARK = "▴"


@dataclass(frozen=True, slots=True)
class Drifting:
    """One factor by day with its range."""

    title: str
    days: tuple[float, ...]
    values: tuple[float, ...]
    lows: tuple[float, ...]
    highs: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class DriftPanels:
    """What a picture of drifts shows: panels with one scale, and marks on their foot.

    Attributes
    ----------
    line : float
        Drawn across: nothing to correct.
    marks : tuple of float
        Days on which something was seen.
    labels : tuple of (day, text)
        Of the horizontal axes.
    """

    panels: tuple[Drifting, ...]
    line: float
    marks: tuple[float, ...]
    labels: tuple[tuple[float, str], ...]
    words: tuple[str, ...]


class DriftBands(Chart):
    """Panels side by side."""

    found: DriftPanels | None = None
    nothing = "nothing was learned"

    def show(self, found: DriftPanels | None, nothing: str = nothing) -> None:
        """Take other factors, or say why there are none."""
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
        least = min(found.line, *(min(one.lows) for one in found.panels))
        most = max(found.line, *(max(one.highs) for one in found.panels))
        low, high = round_ends(least, most, most_ticks(height))
        left = label_width(low, high, height)
        n = len(found.panels)
        wide = (canvas.width - GAP * (n - 1)) // n
        for i, panel in enumerate(found.panels):
            x = i * (wide + GAP)
            ends = panel.days[0], max(panel.days[-1], panel.days[0] + 1)
            frame = Frame(x + left, HEAD, wide - left, height, *ends, low, high)
            _panel(canvas, ink, frame, panel, found)
            canvas.write(x, 0, panel.title[:wide], ink.text)


def _panel(
    canvas: Canvas, ink: Ink, frame: Frame, panel: Drifting, found: DriftPanels
) -> None:
    for x in range(frame.left, frame.left + frame.width):
        part = (x - frame.left + 0.5) / frame.width
        day = frame.x_low + part * (frame.x_high - frame.x_low)
        top = frame.cell_y(_between(panel.days, panel.highs, day))
        bottom = frame.cell_y(_between(panel.days, panel.lows, day))
        canvas.fill(x, top, (1, bottom - top + 1), ink.pale)
    draw_axes(canvas, ink, frame)
    labels = [one for one in found.labels if frame.x_low <= one[0] <= frame.x_high]
    _labels(canvas, ink, frame, labels)
    row = frame.dot_y(found.line) / 4
    canvas.dotted_row(frame.left, row, frame.width, ink.muted)
    points = list(zip(panel.days, panel.values, strict=True))
    frame.line(canvas, points, ink.accent)
    for day in found.marks:
        if frame.x_low <= day <= frame.x_high:
            canvas.write(frame.cell_x(day), frame.bottom + 1, MARK, ink.accent)


def _labels(
    canvas: Canvas, ink: Ink, frame: Frame, labels: Sequence[tuple[float, str]]
) -> None:
    """Labels of one panel, which may not run into the next one."""
    right = frame.left + frame.width
    kept = [one for one in labels if frame.cell_x(one[0]) + len(one[1]) // 2 < right]
    draw_x_labels(canvas, ink, frame, kept)


def _between(days: Sequence[float], values: Sequence[float], day: float) -> float:
    """Value at a day, straight between those around it."""
    for i in range(1, len(days)):
        if day <= days[i]:
            part = (day - days[i - 1]) / (days[i] - days[i - 1])
            return values[i - 1] + min(1.0, max(0.0, part)) * (
                values[i] - values[i - 1]
            )
    return values[-1]
