"""The run-time rules side by side, with a bar for what each quarter gets."""

from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import wrap

from tui.widgets.canvas import Canvas, Chart, Ink

NARROWEST = 9  # columns a rule needs for a short bar and its percent


@dataclass(frozen=True, slots=True)
class RuleColumn:
    """One run-time rule: its key and name, texts below, and its bars."""

    key: str
    name: str
    is_chosen: bool
    facts: tuple[str, ...]
    bars: tuple[float, ...]
    bar_texts: tuple[str, ...]
    footing: tuple[str, ...] = ()


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
            f"{one.key} {one.name}{' (chosen)' if one.is_chosen else ''}: "
            + ", ".join(
                f"{name} {text}"
                for name, text in zip(
                    self.rows, (*one.facts, *one.bar_texts, *one.footing), strict=False
                )
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
        full = max([self.need, *(bar for one in self.columns for bar in one.bars)])
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
    mark = "►" if column.is_chosen else " "
    text = f"{column.key}{mark}{column.name}"
    if len(text) <= wide:
        return [text]
    first, *rest = wrap(text, wide)
    return [first, *(f"  {line}" for line in rest)]


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
    for fact, y in zip(column.facts, ys, strict=False):
        canvas.write(x, y, fact[:wide], strong)
    bars = zip(column.bars, column.bar_texts, ys[n_facts:], strict=False)
    for bar, text, y in bars:
        shape = _Bar(bar / full, RuleBars.need / full, colour)
        _quarter(canvas, ink, (x, y, wide - 5), shape)
        canvas.write(x + wide - len(text), y, text, strong)
    for fact, y in zip(column.footing, ys[n_facts + n_bars :], strict=False):
        canvas.write(x, y, fact[:wide], strong)


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
