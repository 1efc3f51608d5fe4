"""A field of values over two lengths: shades, spot numbers, a contour, the chosen."""

from collections.abc import Sequence
from dataclasses import dataclass

from tui.widgets.canvas import Canvas, Chart, Ink

NARROWEST, WIDEST = 2, 4  # columns of one place; two look square
HEAD, FOOT = 1, 3
SHADES = (0.5, 1.0)  # values of the palest and of the fullest shade
BAND = 0.05  # values are shaded in steps, so that a step's edge is a contour too
SPOT_ACROSS, SPOT_DOWN = 14, 4  # cells from one spot number to the next, about
DIGITS = "0123456789"
GAP = 6  # between labels below the map
CONTOUR = "◦"


@dataclass(frozen=True, slots=True)
class Field:
    """Values at places: one row for each length up, one column for each across."""

    values: tuple[tuple[float, ...], ...]
    across: tuple[str, ...]
    up: tuple[str, ...]
    across_title: str
    up_title: str


@dataclass(frozen=True, slots=True)
class Chosen:
    """Places (column, row) of the chosen and of the present one, with the number."""

    at: tuple[int, int]
    text: str
    own: tuple[int, int] | None = None
    words: tuple[str, ...] = ()


class SpacingMap(Chart):
    """Uniformity over both spacings; the contour runs where it meets a target."""

    field: Field | None = None
    chosen: Chosen | None = None
    target = 0.8
    nothing = "no profile"

    def show(
        self,
        field: Field | None,
        chosen: Chosen | None = None,
        target: float = target,
        nothing: str = nothing,
    ) -> None:
        """Take another field, another place in it, or say why there is none."""
        self.field, self.chosen = field, chosen
        self.target, self.nothing = target, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        if self.field is None or self.chosen is None:
            return [self.nothing]
        return self.chosen.words

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        if self.field is None or self.chosen is None:
            canvas.write_lines([self.nothing], ink.muted)
            return
        field, grid = self.field, _grid(canvas, self.field)
        for j in range(len(grid.rows)):
            for i in range(len(grid.columns)):
                x, y = grid.cell(i, j)
                back = ink.shade(_part(grid.value(field, i, j)))
                canvas.fill(x, y, (grid.wide, 1), back)
                if _is_contour(field, grid, (i, j), self.target):
                    canvas.write(x, y, CONTOUR, ink.on(back))
        _spots(canvas, ink, field, grid)
        self._pick(canvas, ink, grid)
        _sides(canvas, ink, field, grid)
        canvas.write(0, 0, field.up_title, ink.muted)
        bottom, title = HEAD + len(grid.rows), field.across_title
        right = grid.left + len(grid.columns) * grid.wide
        canvas.write(max(0, right - len(title)), bottom + 1, title, ink.muted)
        _legend(canvas, ink, (grid.left, bottom + 2), self.target)

    def _pick(self, canvas: Canvas, ink: Ink, grid: "_Grid") -> None:
        assert self.chosen is not None, "drawn only with one"
        for place, text in ((self.chosen.own, "[]"), (self.chosen.at, None)):
            if place is None or (text and place == self.chosen.at):
                continue
            x, y = grid.nearest(place)
            if text is not None:
                canvas.write(x, y, text, ink.on(canvas.back(x, y) or ink.pale))
                continue
            shown = self.chosen.text
            at = min(x, canvas.width - len(shown))
            # the number of a place right beside it would be read as one with it
            for beside, first in ((at - 1, at - 2), (at + len(shown),) * 2):
                if canvas.sign(beside, y).isdigit():
                    canvas.clear(y, range(first, first + 2), DIGITS, "")
            canvas.fill(at, y, (len(shown), 1), ink.text)
            canvas.write(at, y, shown, ink.on(ink.text))


@dataclass(frozen=True, slots=True)
class _Grid:
    """Places that are drawn, from the lower left corner, and their cells."""

    left: int
    wide: int
    columns: tuple[int, ...]
    rows: tuple[int, ...]

    def cell(self, i: int, j: int) -> tuple[int, int]:
        return self.left + i * self.wide, HEAD + len(self.rows) - 1 - j

    def value(self, field: Field, i: int, j: int) -> float:
        return field.values[self.rows[j]][self.columns[i]]

    def nearest(self, place: tuple[int, int]) -> tuple[int, int]:
        """Cell of the drawn place nearest to a place."""
        i = min(range(len(self.columns)), key=lambda k: abs(self.columns[k] - place[0]))
        j = min(range(len(self.rows)), key=lambda k: abs(self.rows[k] - place[1]))
        return self.cell(i, j)


def _grid(canvas: Canvas, field: Field) -> _Grid:
    """Every place that fits, or as many of them as there are cells."""
    left = max(len(one) for one in field.up) + 2
    room = canvas.width - left
    columns = _spread(len(field.across), room // NARROWEST)
    rows = _spread(len(field.up), canvas.height - HEAD - FOOT)
    wide = min(WIDEST, max(NARROWEST, room // len(columns)))
    return _Grid(left, wide, columns, rows)


def _spread(count: int, room: int) -> tuple[int, ...]:
    """So many places as there is room for, both ends among them."""
    n = max(2, min(count, room))
    return tuple(round(i * (count - 1) / (n - 1)) for i in range(n))


def _part(value: float) -> float:
    low, high = SHADES
    step = int(value / BAND + 1e-9) * BAND
    return (step - low) / (high - low)


def _is_contour(field: Field, grid: _Grid, at: tuple[int, int], target: float) -> bool:
    """Whether the target is met here and not by a neighbour."""
    i, j = at
    if grid.value(field, i, j) < target:
        return False
    return any(
        grid.value(field, m, n) < target
        for m, n in ((i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1))
        if 0 <= m < len(grid.columns) and 0 <= n < len(grid.rows)
    )


def _hundredths(value: float) -> str:
    return f"{min(99, round(100 * value)):>2d}"


def _spots(canvas: Canvas, ink: Ink, field: Field, grid: _Grid) -> None:
    step = max(3, SPOT_ACROSS // grid.wide)
    for j in range(SPOT_DOWN // 2, len(grid.rows), SPOT_DOWN):
        for i in range(step // 2, len(grid.columns), step):
            x, y = grid.cell(i, j)
            back = canvas.back(x, y)
            canvas.write(x, y, " " * grid.wide, ink.on(back))
            canvas.write(x, y, _hundredths(grid.value(field, i, j)), ink.on(back))


def _sides(canvas: Canvas, ink: Ink, field: Field, grid: _Grid) -> None:
    """Labels of both sides, as far apart as they can be read."""
    for j in range(0, len(grid.rows), 3):
        text, (_, y) = field.up[grid.rows[j]], grid.cell(0, j)
        canvas.write(grid.left - 2 - len(text), y, text, ink.muted)
        canvas.write(grid.left - 1, y, "┤", ink.muted)
    free, bottom = grid.left, HEAD + len(grid.rows)
    for i in range(len(grid.columns)):
        text, (x, _) = field.across[grid.columns[i]], grid.cell(i, 0)
        if x >= free and x + len(text) <= canvas.width:
            canvas.write(x, bottom, text, ink.muted)
            free = x + len(text) + GAP


def _legend(canvas: Canvas, ink: Ink, place: tuple[int, int], target: float) -> None:
    x, y = place
    for value in (0.5, 0.6, 0.7, 0.8, 0.9):
        back = ink.shade(_part(value))
        canvas.fill(x, y, (4, 1), back)
        canvas.write(x + 1, y, f".{round(10 * value)}", ink.on(back))
        x += 4
    canvas.write(x + 1, y, f"{CONTOUR} {target:.2f}  [] built", ink.muted)
