"""The pictures of a zone: cans as they stood, one watering to scale, the days.

Each chart knows numbers and ready-made texts, not what they mean: every number is
computed by the engine and every label written by the screen.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tui.widgets.canvas import Canvas, Chart, Ink
from tui.widgets.ghost import END, blocks

SPRINKLER = "⊕"
MUST_SAY = 2  # lines of a legend that cans may not crowd out


@dataclass(frozen=True, slots=True)
class CanCell:
    """One place of the can map: its size for shading, what is printed, its mark."""

    value: float | None
    text: str
    mark: str = " "


@dataclass(frozen=True, slots=True)
class CanGrid:
    """A can map: heads of columns and rows, the cells, and the legend.

    `sprinklers` are (row, column) in can places, the first can at (0, 0).
    """

    columns: tuple[str, ...]
    rows: tuple[str, ...]
    cells: tuple[tuple[CanCell, ...], ...]
    legend: tuple[str, ...] = ()
    sprinklers: tuple[tuple[float, float], ...] = ()
    unit: str = ""

    @property
    def text_width(self) -> int:
        """Columns that the widest cell needs, mark and gap included."""
        printed = [len(one.text) for row in self.cells for one in row]
        return max([*printed, *(len(head) for head in self.columns), 1]) + 2


@dataclass(frozen=True, slots=True)
class CycleLine:
    """One watering to scale: cycles of a length with soaks between, in minutes."""

    cycles: int
    cycle_minutes: int
    soak_minutes: int
    facts: tuple[str, ...] = ()
    days: tuple[tuple[str, str, str], ...] = ()
    before: "CycleLine | None" = None  # what is tried

    @property
    def minutes(self) -> int:
        """From the first start to the last end."""
        step = self.cycle_minutes + self.soak_minutes
        return max(1, step * self.cycles - self.soak_minutes)


@dataclass(frozen=True, slots=True)
class DayBars:
    """Bars by day against one line: values, texts, and marks below the days."""

    values: tuple[float, ...]
    texts: tuple[str, ...]
    days: tuple[str, ...]
    marks: tuple[str, ...]
    line: float | None
    line_text: str
    facts: tuple[str, ...] = ()
    unit: str = ""
    before: tuple[float, ...] = ()
    before_words: str = ""
    line_before: float | None = None


class CanMap(Chart):
    """Readings where the cans stood, shaded from dry (pale) to wet."""

    grid: CanGrid | None = None
    nothing = "no can test of this zone"

    def __init__(self, most: tuple[int, int] = (9, 3)) -> None:
        super().__init__()
        self.most = most  # columns and rows of one can

    def show(self, grid: CanGrid | None, nothing: str = nothing) -> None:
        """Take another grid, or say why there is none."""
        self.grid, self.nothing = grid, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        if self.grid is None:
            return [self.nothing]
        rows = zip(self.grid.rows, self.grid.cells, strict=True)
        said = [
            f"{head}: " + " ".join((one.mark + one.text).strip() for one in row)
            for head, row in rows
        ]
        ends = f"{self.grid.columns[0]} to {self.grid.columns[-1]}"
        head = f"Rows of cans in {self.grid.unit}, columns {ends}"
        return [*([head] if self.grid.unit else []), *said, *self.grid.legend]

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        if self.grid is None:
            canvas.write(0, 0, self.nothing, ink.muted)
            return
        grid, head = self.grid, max(len(one) for one in self.grid.rows) + 1
        wide, high, foot = _pitches(canvas, grid, head, self.most)
        if wide < grid.text_width or high < 1:
            canvas.write_lines(self.words(), ink.text)
            return
        for i, name in enumerate(grid.columns):
            canvas.write(head + i * wide + (wide - len(name)) // 2, 0, name, ink.muted)
        for j, row in enumerate(grid.cells):
            top = 1 + j * high
            middle = top + (high - 1) // 2
            canvas.write(0, middle, grid.rows[j].rjust(head - 1), ink.muted)
            for i, cell in enumerate(row):
                _can(canvas, ink, (head + i * wide, top, wide, high), cell, grid)
        for row_place, column_place in grid.sprinklers:
            _sprinkler(canvas, ink, (head, wide, high), (row_place, column_place), grid)
        for k, line in enumerate(grid.legend[:foot]):
            canvas.write(0, 1 + high * len(grid.cells) + k, line, ink.muted)


def _pitches(
    canvas: Canvas, grid: CanGrid, head: int, most: tuple[int, int]
) -> tuple[int, int, int]:
    """Whole-cell pitch of the cans, and the lines left for the legend."""
    side = canvas.width - head - bool(grid.sprinklers)
    wide = min(most[0], side // max(1, len(grid.columns)))
    n_rows, room = max(1, len(grid.rows)), canvas.height - 1
    foot = min(MUST_SAY, len(grid.legend))
    high = min(most[1], (room - foot) // n_rows)
    if high < 1:  # rather no legend than no cans
        return wide, room // n_rows, 0
    return wide, high, min(len(grid.legend), room - high * n_rows)


def _can(
    canvas: Canvas,
    ink: Ink,
    box: tuple[int, int, int, int],
    cell: CanCell,
    grid: CanGrid,
) -> None:
    x, y, wide, high = box
    colour = ink.text
    known = [one.value for row in grid.cells for one in row if one.value is not None]
    if cell.value is not None:
        low, top = min(known), max(known)
        back = ink.shade((cell.value - low) / (top - low) if top > low else 0.5)
        canvas.fill(x, y, (wide, high), back)
        colour = ink.on(back)
    printed = cell.mark + cell.text
    # numbers of one column end under each other, whatever their mark
    right = x + (wide + grid.text_width - 1) // 2
    canvas.write(right - len(printed), y + (high - 1) // 2, printed, colour)


def _sprinkler(
    canvas: Canvas,
    ink: Ink,
    pitch: tuple[int, int, int],
    at: tuple[float, float],
    grid: CanGrid,
) -> None:
    """A head between the cans, or beside them; one far outside is not drawn."""
    left, wide, high = pitch
    row, column = at
    if not (-1 <= row <= len(grid.rows) and -1 <= column <= len(grid.columns)):
        return
    x = left - 1 if column < 0 else left + round((column + 0.5) * wide)
    y = 1 + round((row + 0.5) * high)
    y = min(max(1, y), high * len(grid.rows))
    back = canvas.back(x, y)
    canvas.write(x, y, SPRINKLER, ink.on(back) if back else ink.alarm)


class CycleBars(Chart):
    """One watering drawn to scale, and the nights of the week it runs on."""

    watering: CycleLine | None = None
    nothing = "no watering this week"

    def show(self, watering: CycleLine | None, nothing: str = nothing) -> None:
        """Take another watering, or say why there is none."""
        self.watering, self.nothing = watering, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        if self.watering is None:
            return [self.nothing]
        one = self.watering
        nights = [f"{day} {text}" for day, _, text in one.days if text]
        said = [*one.facts, ", ".join(nights)]
        if one.before is not None:
            old = one.before
            told = [f"{day} {text}" for day, _, text in old.days if text]
            said.append(f"Before: {', '.join(old.facts)}; {', '.join(told) or 'none'}.")
        return said

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        if self.watering is None:
            canvas.write(0, 0, self.nothing, ink.muted)
            return
        one = self.watering
        y = 0
        for fact in one.facts:
            canvas.write(0, y, fact, ink.text)
            y += 1
        rows = len(one.facts) + 9 + (one.before is not None)
        deep = 2 if canvas.height >= rows else 1
        _cycles(canvas, ink, (y + 1, deep), one)
        below = y + deep + 4 + (one.before is not None)
        pitch = max(4, min(10, canvas.width // max(1, len(one.days))))
        for i, (day, date, text) in enumerate(one.days):
            x = i * pitch
            canvas.write(x, below, day[: pitch - 1], ink.muted)
            canvas.write(x, below + 1, date[: pitch - 1], ink.muted)
            colour = ink.accent if text else ink.muted
            canvas.write(x, below + 2, (text or "–")[: pitch - 1], colour)


def _cycles(canvas: Canvas, ink: Ink, rows: tuple[int, int], one: CycleLine) -> None:
    top, deep = rows
    step = one.cycle_minutes + one.soak_minutes
    old = one.before
    total = max(one.minutes, old.minutes if old is not None else 1)
    wide = canvas.width - 6
    scale = wide / total
    canvas.fill(0, top, (wide, deep), ink.pale)
    for i in range(one.cycles):
        start = round(i * step * scale)
        for row in range(deep):
            canvas.bar_right(start, top + row, one.cycle_minutes * scale, ink.accent)
    axis = top + deep
    if old is not None:
        at = old.cycle_minutes + old.soak_minutes
        spans = [
            (round(i * at * scale), max(1, round(old.cycle_minutes * scale)))
            for i in range(old.cycles)
        ]
        blocks(canvas, [axis], spans, ink.text)
        axis += 1
    for minute in _ticks(total, wide):
        x = round(minute * scale)
        canvas.write(x, axis, "│", ink.muted)
        canvas.write(x, axis + 1, f"{minute} min" if minute == 0 else f"{minute}",
                     ink.muted)  # fmt: skip


def _ticks(total: int, wide: int) -> list[int]:
    """Round minutes along an axis, at least ten cells apart."""
    for step in (1, 2, 5, 10, 15, 20, 30, 60, 120, 240):
        if step * wide >= 10 * total:
            return list(range(0, total + 1, step))
    return [0]


class DepletionBars(Chart):
    """Bars by day with the allowed line across them."""

    bars: DayBars | None = None
    nothing = "no balance is kept for this zone"

    def show(self, bars: DayBars | None, nothing: str = nothing) -> None:
        """Take other bars, or say why there are none."""
        self.bars, self.nothing = bars, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        if self.bars is None:
            return [self.nothing]
        days = zip(self.bars.days, self.bars.texts, self.bars.marks, strict=True)
        said = ", ".join(f"{day} {text} {mark}".rstrip() for day, text, mark in days)
        told = [*self.bars.facts, f"{said} {self.bars.unit}", self.bars.line_text]
        if self.bars.before_words:
            told.append(self.bars.before_words)
        return told

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        if self.bars is None:
            canvas.write(0, 0, self.nothing, ink.muted)
            return
        one, y = self.bars, 0
        for fact in one.facts:
            canvas.write(0, y, fact, ink.text)
            y += 1
        top, bottom = y + 1, canvas.height - 3
        rows = bottom - top + 1
        limits = (one.line or 0.0, one.line_before or 0.0)
        sizes = [v for v in (*one.values, *one.before, *limits) if math.isfinite(v)]
        full = max(sizes, default=0.0) or 1.0
        tall = max(1, rows - 1)
        room = canvas.width - (len(one.line_text) + 2 if one.line is not None else 0)
        pitch = max(4, min(9, room // max(1, len(one.values))))
        if one.line is not None:
            at = bottom + 1 - tall * one.line / full
            canvas.dotted_row(0, at, pitch * len(one.values), ink.alarm)
            canvas.write(pitch * len(one.values) + 1, min(bottom, round(4 * at) // 4),
                         one.line_text, ink.alarm)  # fmt: skip
        for i, value in enumerate(one.values):
            x, wide = i * pitch, max(2, pitch - 3)
            colour = _over(ink, value, one.line)
            touched = 0
            if math.isfinite(value) and value > 0:
                touched = canvas.bar_up(x + 1, bottom, (wide, tall * value / full),
                                        colour)  # fmt: skip
            label = one.texts[i]
            canvas.write(x + 1 + max(0, (wide - len(label)) // 2), bottom - touched,
                         label, colour)  # fmt: skip
            if one.before and math.isfinite(one.before[i]):
                high = max(0, round(tall * one.before[i] / full) - 1)
                canvas.write(x, bottom - high, END, ink.text)
            canvas.write(x + 1, bottom + 1, one.days[i][: pitch - 1], ink.muted)
            canvas.write(x + 1, bottom + 2, one.marks[i][: pitch - 1], ink.accent)


def _over(ink: Ink, value: float, line: float | None) -> str:
    return ink.alarm if line is not None and value > line else ink.accent
