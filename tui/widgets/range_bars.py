"""A few named bars under each other, each with its text, and sentences below."""

from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import wrap

from tui.widgets.canvas import Canvas, Chart, Ink
from tui.widgets.ghost import BAR_LEGEND, end_right
from tui.widgets.middle import write_middle


@dataclass(frozen=True, slots=True)
class RangeRow:
    """One bar: its name, its size, what is written beside it."""

    name: str
    value: float
    text: str
    is_main: bool = False
    was: float | None = None  # its size before what is tried


@dataclass(frozen=True, slots=True)
class RangeRows:
    """Bars from the least to the most, and what must be said below them."""

    rows: tuple[RangeRow, ...]
    facts: tuple[str, ...]


class RangeBars(Chart):
    """Bars to the right on one scale."""

    range: RangeRows | None = None
    nothing = "no week is planned for this zone"

    def show(self, rows: RangeRows | None, nothing: str = nothing) -> None:
        """Take other bars, or say why there are none."""
        self.range, self.nothing = rows, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        if self.range is None:
            return [self.nothing]
        said = [f"{one.name}: {one.text}" for one in self.range.rows]
        return [*said, *self.range.facts]

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        if self.range is None:
            write_middle(canvas, self.nothing, ink.muted)
            return
        rows = self.range.rows
        left = 1 + max((len(one.name) for one in rows), default=0)
        room = canvas.width - left - 2 - max((len(one.text) for one in rows), default=0)
        full = max((max(one.value, one.was or 0.0) for one in rows), default=0.0) or 1.0
        y = 0
        if any(one.was is not None for one in rows):
            canvas.write(left, y, BAR_LEGEND, ink.muted)
            y += 1
        for one in rows:
            colour = ink.accent if one.is_main else ink.muted
            name = ink.text if one.is_main else ink.muted
            canvas.write(0, y, one.name, name)
            touched = 0
            if one.value > 0:
                length = max(room, 1) * one.value / full
                touched = canvas.bar_right(left, y, length, colour)
            beside = touched
            if one.was is not None:
                end_right(canvas, ink, (left, y, max(room, 1)), one.was / full)
                beside = max(touched, round(max(room, 1) * one.was / full))
            canvas.write(left + beside + 1, y, one.text, name)
            y += 1
        y += bool(rows)
        for fact in self.range.facts:
            for line in wrap(fact, max(8, canvas.width), subsequent_indent="  "):
                canvas.write(0, y, line, ink.text)
                y += 1
