"""Pairs of bars by interval: what was expected, in parts, beside what was measured."""

from collections.abc import Sequence
from dataclasses import dataclass

from tui.widgets.axes import label_width, most_ticks, round_ends, round_ticks
from tui.widgets.canvas import Canvas, Chart, Ink

HEAD, FOOT = 2, 3
PITCH, LEAST_PITCH = 11, 7
APART = ("▒", "░")  # glyphs of the parts that stand apart, from the bottom


@dataclass(frozen=True, slots=True)
class BarPair:
    """One interval.

    Attributes
    ----------
    expected : float
        What was expected, without the parts that stand apart.
    apart : tuple of float
        Those parts, in the order of the legend.
    measured : float or None
        None where it is not known.
    top, foot, note : str
        Above the bars, and the two lines below them.
    is_off : bool
        The two differ by too much.
    """

    expected: float
    apart: tuple[float, ...]
    measured: float | None
    top: str
    foot: str
    note: str = ""
    is_off: bool = False

    @property
    def tallest(self) -> float:
        """The longer of the two bars."""
        return max(self.expected + sum(self.apart), self.measured or 0.0)


@dataclass(frozen=True, slots=True)
class BarPairs:
    """What a picture of pairs shows; `legend` goes around the glyphs of the bars."""

    pairs: tuple[BarPair, ...]
    legend: tuple[str, str, str, str]
    words: tuple[str, ...]


class PairedBars(Chart):
    """The newest intervals that have room, oldest first."""

    found: BarPairs | None = None
    nothing = "no two readings"

    def show(self, found: BarPairs | None, nothing: str = nothing) -> None:
        """Take other bars, or say why there are none."""
        self.found, self.nothing = found, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        return [self.nothing] if self.found is None else self.found.words

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        found = self.found
        if found is None:
            canvas.write_lines([self.nothing], ink.muted)
            return
        rows = canvas.height - HEAD - FOOT
        tallest = max(one.tallest for one in found.pairs)
        _, full = round_ends(0.0, tallest or 1.0, most_ticks(rows))
        left = label_width(0.0, full, rows)
        room = canvas.width - left + 1  # the last one needs no gap
        most = max(1, room // LEAST_PITCH)
        pairs = found.pairs[-most:]
        pitch = min(PITCH, room // len(pairs))
        bottom = HEAD + rows - 1
        _legend(canvas, ink, found.legend)
        _scale(canvas, ink, (left - 1, bottom, rows), full)
        for i, one in enumerate(pairs):
            x = left + i * pitch
            wide = max(2, (pitch - 2) // 2)
            scale = rows / full
            touched = _stack(canvas, ink, (x, bottom, wide), one, scale)
            if one.measured is None:
                canvas.write(x + wide, bottom, "?", ink.alarm)
            else:
                size = wide, one.measured * scale
                beside = canvas.bar_up(x + wide, bottom, size, ink.accent)
                touched = max(touched, beside)
            colour = ink.alarm if one.is_off else ink.text
            canvas.write(x, max(1, bottom - touched), one.top[:pitch], colour)
            canvas.write(x, bottom + 2, one.foot[: pitch - 1], ink.muted)
            canvas.write(x, bottom + 3, one.note[: pitch - 1], ink.muted)


def _stack(
    canvas: Canvas, ink: Ink, at: tuple[int, int, int], one: BarPair, scale: float
) -> int:
    """The expected bar, and above it the parts that stand apart; rows they touch."""
    x, bottom, wide = at
    touched = canvas.bar_up(x, bottom, (wide, one.expected * scale), ink.muted)
    floor = one.expected
    for glyph, part in zip(APART, one.apart, strict=False):
        low, high = round(floor * scale), round((floor + part) * scale)
        for row in range(low, high):
            canvas.write(x, bottom - row, glyph * wide, ink.alarm)
            touched = max(touched, row + 1)
        floor += part
    return touched


def _legend(canvas: Canvas, ink: Ink, words: tuple[str, str, str, str]) -> None:
    """Names of the parts, each behind its glyph."""
    x = 0
    glyphs = ("█", "█", *APART)
    for glyph, word, colour in zip(
        glyphs, words, (ink.muted, ink.accent, ink.alarm, ink.alarm), strict=True
    ):
        canvas.write(x, 0, glyph, colour)
        canvas.write(x + 2, 0, word, ink.muted)
        x += len(word) + 4


def _scale(canvas: Canvas, ink: Ink, at: tuple[int, int, int], full: float) -> None:
    axis, bottom, rows = at
    for y in range(bottom - rows + 1, bottom + 1):
        canvas.write(axis, y, "│", ink.muted)
    canvas.write(axis, bottom + 1, "└" + "─" * (canvas.width - axis - 1), ink.muted)
    ticks, digits = round_ticks(0.0, full, most_ticks(rows))
    for value in ticks:
        text = f"{value:.{digits}f}"
        y = bottom + 1 - round(value / full * rows)
        if value > 0:
            canvas.write(axis, y, "┤", ink.muted)
        canvas.write(axis - len(text), y, text, ink.muted)
