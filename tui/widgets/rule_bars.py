"""The run-time rules side by side, with a bar for what each quarter gets."""

from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import wrap

from tui.widgets.canvas import Canvas, Chart, Ink
from tui.widgets.ghost import END, end_right

NARROWEST = 9  # columns a rule needs for a short bar and its percent


@dataclass(frozen=True, slots=True)
class RuleColumn:
    """One run-time rule: its key and name, texts below, and its bars.

    `before` is the same rule without what is tried; `was_chosen` marks the former one.
    """

    key: str
    name: str
    is_chosen: bool
    facts: tuple[str, ...]
    bars: tuple[float, ...]
    bar_texts: tuple[str, ...]
    footing: tuple[str, ...] = ()
    before: "RuleColumn | None" = None  # what is tried in
    was_chosen: bool = False


@dataclass(frozen=True, slots=True)
class _Bar:
    """Where a bar ends and the need stands, as parts of the lane."""

    part: float
    need: float
    colour: str


class RuleBars(Chart):
    """The rules side by side: facts above, one bar for each quarter below."""

    columns: tuple[RuleColumn, ...] = ()
    rows: tuple[str, ...] = ()
    need = 1.0
    nothing = "no run-time rule for this zone"

    def show(
        self,
        columns: tuple[RuleColumn, ...],
        rows: tuple[str, ...],
        nothing: str = nothing,
    ) -> None:
        """Take other columns; `rows` names the facts, the bars and the footing."""
        self.columns, self.rows, self.nothing = columns, rows, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        if not self.columns:
            return [self.nothing]
        return [
            f"{one.key} {one.name}{_said(one)}: "
            + ", ".join(
                f"{name} {text}"
                for name, text in zip(self.rows, _texts(one), strict=False)
            )
            for one in self.columns
        ]

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        if not self.columns:
            canvas.write(0, 0, self.nothing, ink.muted)
            return
        head = max(len(one) for one in self.rows) + 2
        pitch = min(24, (canvas.width - head) // len(self.columns))
        if pitch < NARROWEST:
            canvas.write_lines(self.words(), ink.text)
            return
        last = self.columns[-1]
        names = [_name(one, pitch - (one is not last)) for one in self.columns]
        top = max(len(lines) for lines in names)
        ys = self._lines(top, canvas.height)
        for name, y in zip(self.rows, ys, strict=False):
            canvas.write(0, y, name, ink.muted)
        every = [*self.columns, *(one.before for one in self.columns if one.before)]
        full = max([self.need, *(bar for one in every for bar in one.bars)])
        if len(every) > len(self.columns):
            canvas.write(0, top - 1, END + " before", ink.muted)
        for i, one in enumerate(self.columns):
            x, colour = head + i * pitch, _strong(ink, one)
            for y, line in enumerate(names[i]):
                canvas.write(x, y, line, colour)
            _rule(canvas, ink, (x, pitch - 1), one, (ys, full))

    def _lines(self, top: int, height: int) -> list[int]:
        """Row of each fact, bar and footing, with gaps where there is room."""
        first = self.columns[0]
        parts = (len(first.facts), len(first.bars), len(first.footing))
        gap = 1 if height >= top + sum(parts) + 2 else 0
        ys: list[int] = []
        y = top
        for number in parts:
            ys += range(y, y + number)
            y += number + gap
        return ys


def _name(column: RuleColumn, wide: int) -> list[str]:
    """Key, a mark when chosen, and name; on two lines where columns are tight."""
    mark = "►" if column.is_chosen else END if column.was_chosen else " "
    text = f"{column.key}{mark}{column.name}"
    if len(text) <= wide:
        return [text]
    first, *rest = wrap(text, wide)
    return [first, *(f"  {line}" for line in rest)]


def _said(column: RuleColumn) -> str:
    if column.is_chosen:
        return " (chosen)" if column.before is None else " (chosen now)"
    return " (chosen before)" if column.was_chosen else ""


def _texts(column: RuleColumn) -> tuple[str, ...]:
    """Facts, bars and footing in words, before and after where they differ."""
    now = (*column.facts, *column.bar_texts, *column.footing)
    old = column.before
    if old is None:
        return now
    was = (*old.facts, *old.bar_texts, *old.footing)
    return tuple(b if a == b else f"{a} → {b}" for a, b in zip(was, now, strict=True))


def _changed(was: str, now: str, wide: int) -> str:
    """Both where they differ and there is room; else what is now."""
    short = f"{was.split(' ')[0]}→{now}"
    return now if was == now or len(short) > wide else short


def _strong(ink: Ink, column: RuleColumn) -> str:
    return ink.accent if column.is_chosen else ink.text


def _rule(
    canvas: Canvas,
    ink: Ink,
    place: tuple[int, int],
    column: RuleColumn,
    scale: tuple[list[int], float],
) -> None:
    x, wide = place
    ys, full = scale
    strong = _strong(ink, column)
    colour = ink.accent if column.is_chosen else ink.muted
    n_facts, n_bars = len(column.facts), len(column.bars)
    old = column.before or column
    for was, fact, y in zip(old.facts, column.facts, ys, strict=False):
        canvas.write(x, y, _changed(was, fact, wide)[:wide], strong)
    bars = zip(column.bars, column.bar_texts, ys[n_facts:], strict=False)
    for bar, text, y in bars:
        shape = _Bar(bar / full, RuleBars.need / full, colour)
        _quarter(canvas, ink, (x, y, wide - 5), shape)
        canvas.write(x + wide - len(text), y, text, strong)
    for end, bar, y in zip(old.bars, column.bars, ys[n_facts:], strict=False):
        if end != bar:
            end_right(canvas, ink, (x, y, wide - 5), end / full)
    feet = zip(old.footing, column.footing, ys[n_facts + n_bars :], strict=False)
    for said, fact, y in feet:
        canvas.write(x, y, _changed(said, fact, wide)[:wide], strong)


def _quarter(canvas: Canvas, ink: Ink, lane: tuple[int, int, int], bar: _Bar) -> None:
    """Draw one bar with the need marked across it, also where it runs past."""
    x, y, room = lane
    canvas.fill(x, y, (room, 1), ink.pale)
    canvas.bar_right(x, y, room * bar.part, bar.colour)
    at = x + min(room - 1, int(room * bar.need))
    if canvas.glyph(at, y) not in " █#":
        return  # the bar ends in this very cell
    if canvas.glyph(at, y) != " ":
        canvas.fill(at, y, (1, 1), bar.colour)
    canvas.write(at, y, "│", ink.alarm)
