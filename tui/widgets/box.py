"""Catches of each run as a box: whiskers, quartiles, median, and a low mark."""

from collections.abc import Sequence
from dataclasses import dataclass

from tui.widgets.axes import Frame, draw_axes, label_width, most_ticks, round_ends
from tui.widgets.canvas import Canvas, Chart, Ink

MIDDLE, LOW_MARK = "━", "▾"
HEAD, FOOT = 1, 4  # rows above the plot; below it the axis and three lines of labels
WIDEST = 7


@dataclass(frozen=True, slots=True)
class Box:
    """One run: five numbers, a mark, ready texts, and the lines below it."""

    low: float
    quarter: float
    middle: float
    three_quarters: float
    high: float
    mark: float
    middle_text: str
    mark_text: str
    labels: tuple[str, ...]
    words: str
    is_chosen: bool = False


class BoxPlot(Chart):
    """Boxes side by side from zero up."""

    boxes: tuple[Box, ...] = ()
    legend = ""
    nothing = "no can test"

    def show(
        self, boxes: Sequence[Box], legend: str = "", nothing: str = nothing
    ) -> None:
        """Take other boxes, or say why there are none."""
        self.boxes, self.legend, self.nothing = tuple(boxes), legend, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        if not self.boxes:
            return [self.nothing]
        return [*(one.words for one in self.boxes), self.legend]

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        if not self.boxes:
            canvas.write_lines([self.nothing], ink.muted)
            return
        height = canvas.height - HEAD - FOOT
        _, top = round_ends(
            0.0, max(one.high for one in self.boxes), most_ticks(height)
        )
        left = label_width(0.0, top, height)
        n, width = len(self.boxes), canvas.width - left
        pitch = width // n
        if pitch < max(len(one.middle_text) for one in self.boxes) + 4:
            canvas.write_lines(self.words(), ink.text)
            return
        frame = Frame(left, HEAD, width, height, 0.0, 1.0, 0.0, top)
        draw_axes(canvas, ink, frame)
        canvas.write(0, 0, self.legend, ink.muted)
        pitch = min(pitch, 22)
        start = left + (width - pitch * n) // 2
        for i, one in enumerate(self.boxes):
            _box(canvas, ink, frame, (start + i * pitch, pitch), one)


def _box(
    canvas: Canvas, ink: Ink, frame: Frame, place: tuple[int, int], one: Box
) -> None:
    x, pitch = place
    wide = min(WIDEST, max(1, pitch // 2 - 1)) | 1
    # the numbers stand to the right of the box, so both are centred together
    side = max(len(one.middle_text), len(one.mark_text) + 2) + 1
    begin = x + max(0, (pitch - wide - side) // 2)
    centre = begin + wide // 2
    high, low = frame.cell_y(one.high), frame.cell_y(one.low)
    for y in range(high, low + 1):
        canvas.write(centre, y, "│", ink.muted)
    canvas.write(centre, high, "┬", ink.muted)
    canvas.write(centre, low, "┴", ink.muted)
    colour = ink.accent if one.is_chosen else ink.shade(0.55)
    top, bottom = frame.cell_y(one.three_quarters), frame.cell_y(one.quarter)
    for y in range(top, bottom + 1):  # whole cells: whiskers must meet the box
        canvas.fill(begin, y, (wide, 1), colour)
        canvas.write(begin, y, "█" * wide, colour)
    middle, mark = frame.cell_y(one.middle), frame.cell_y(one.mark)
    canvas.fill(begin, middle, (wide, 1), colour)
    canvas.write(begin, middle, MIDDLE * wide, ink.on(colour))
    canvas.write(begin + wide + 1, middle, one.middle_text, ink.text)
    mark += mark == middle  # never on top of each other
    canvas.write(begin + wide + 1, mark, f"{LOW_MARK} {one.mark_text}", ink.alarm)
    for i, label in enumerate(one.labels):
        at = max(frame.left, centre - len(label) // 2)
        shade = ink.text if one.is_chosen and not i else ink.muted
        canvas.write(at, frame.bottom + 2 + i, label[:pitch], shade)
