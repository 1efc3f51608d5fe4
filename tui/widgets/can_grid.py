"""A grid to type readings in, laid out as the cans stood; a click picks a can."""

from collections.abc import Sequence
from dataclasses import dataclass

from textual.events import Click
from textual.message import Message

from tui.widgets.canvas import Canvas, Chart, Ink

NARROWEST, WIDEST = 5, 9
HEIGHTS = (4, 2, 1)  # of a can with the gap below it


@dataclass(frozen=True, slots=True)
class Can:
    """One place: what is printed, its size for shading, its mark."""

    text: str
    value: float | None = None
    mark: str = " "


@dataclass(frozen=True, slots=True)
class Sheet:
    """Heads of columns and rows, the cans, where the cursor is, a line below."""

    columns: tuple[str, ...]
    rows: tuple[str, ...]
    cans: tuple[tuple[Can, ...], ...]
    at: tuple[int, int] = (0, 0)
    is_typing: bool = False
    legend: str = ""


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where cans are painted: first row and column shown, pitches, room."""

    top: int
    left: int
    wide: int
    high: int
    rows: int
    columns: int
    head: int


class CanGrid(Chart):
    """Cans shaded from dry (pale) to wet; brackets stand around the cursor."""

    sheet: Sheet | None = None
    frame: _Frame | None = None

    @dataclass
    class Picked(Message):
        """Somebody clicked a can."""

        row: int
        column: int

    def show(self, sheet: Sheet) -> None:
        """Paint other cans."""
        self.sheet = sheet
        self._repaint()

    def words(self) -> Sequence[str]:
        """Return the row of the cursor, for when there is no room."""
        if self.sheet is None:
            return []
        row, column = self.sheet.at
        cans = [
            f"[{one.text}]" if j == column else one.text or "·"
            for j, one in enumerate(self.sheet.cans[row])
        ]
        return [f"{self.sheet.rows[row]}: {' '.join(cans)}"]

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        sheet = self.sheet
        if sheet is None:
            return
        frame = self.frame = _framed(canvas, sheet)
        known = [one.value for row in sheet.cans for one in row]
        sizes = [one for one in known if one is not None]
        span = (min(sizes), max(sizes)) if sizes else (0.0, 0.0)
        for j in range(frame.left, frame.left + frame.columns):
            x = frame.head + (j - frame.left) * frame.wide
            name = sheet.columns[j]
            canvas.write(x + frame.wide - 2 - len(name), 0, name, ink.muted)
        for i in range(frame.top, frame.top + frame.rows):
            y = 1 + (i - frame.top) * frame.high
            middle = y + (max(1, frame.high - 1) - 1) // 2
            canvas.write(0, middle, sheet.rows[i].rjust(frame.head - 1), ink.muted)
            for j in range(frame.left, frame.left + frame.columns):
                x = frame.head + (j - frame.left) * frame.wide
                box = (x, y, frame.wide, frame.high)
                _can(canvas, ink, box, sheet.cans[i][j], span)
                if (i, j) == sheet.at:
                    _cursor(canvas, ink, box, sheet)
        below = 1 + frame.rows * frame.high
        canvas.write(0, below, _more(frame, sheet) + sheet.legend, ink.muted)

    def on_click(self, event: Click) -> None:
        frame = self.frame
        if frame is None or event.y < 1 or event.x < frame.head:
            return
        row = (event.y - 1) // frame.high
        column = (event.x - frame.head) // frame.wide
        if row < frame.rows and column < frame.columns:
            self.post_message(self.Picked(frame.top + row, frame.left + column))


def _framed(canvas: Canvas, sheet: Sheet) -> _Frame:
    """Pitches that show all cans, else a window of them around the cursor."""
    head = max(len(one) for one in sheet.rows) + 1
    n_rows, n_columns = len(sheet.rows), len(sheet.columns)
    texts = [len(one.text) for row in sheet.cans for one in row]
    need = max(NARROWEST, max(texts) + 3)
    wide = max(need, min(WIDEST, (canvas.width - head) // n_columns))
    columns = max(1, min(n_columns, (canvas.width - head) // wide))
    room = canvas.height - 2
    high = next((one for one in HEIGHTS if one * n_rows <= room), 1)
    rows = max(1, min(n_rows, room // high))
    top = min(max(0, sheet.at[0] - rows // 2), n_rows - rows)
    left = min(max(0, sheet.at[1] - columns // 2), n_columns - columns)
    return _Frame(top, left, wide, high, rows, columns, head)


def _more(frame: _Frame, sheet: Sheet) -> str:
    """Say that there are cans outside the window."""
    if frame.rows == len(sheet.rows) and frame.columns == len(sheet.columns):
        return ""
    return f"{len(sheet.rows)} × {len(sheet.columns)} cans, more beyond the edge   "


def _can(
    canvas: Canvas,
    ink: Ink,
    box: tuple[int, int, int, int],
    can: Can,
    span: tuple[float, float],
) -> None:
    x, y, wide, high = box
    colour, (low, top) = ink.text, span
    if can.value is not None:
        back = ink.shade((can.value - low) / (top - low) if top > low else 0.5)
        # a gap between cans keeps them apart where they are alike
        canvas.fill(x, y, (wide - 1, max(1, high - 1)), back)
        colour = ink.on(back)
    printed = can.mark + (can.text or "·")
    middle = y + (max(1, high - 1) - 1) // 2
    canvas.write(x + wide - 2 - len(printed), middle, printed, colour)


def _cursor(
    canvas: Canvas, ink: Ink, box: tuple[int, int, int, int], sheet: Sheet
) -> None:
    x, y, wide, high = box
    can = sheet.cans[sheet.at[0]][sheet.at[1]]
    text = can.text + "▏" if sheet.is_typing else can.text or "·"
    middle = y + (max(1, high - 1) - 1) // 2
    canvas.fill(x, y, (wide - 1, max(1, high - 1)), ink.text)
    on = ink.on(ink.text)
    canvas.write(x, middle, " " * (wide - 1), on)
    canvas.write(x, middle, "[", on)
    right = x + wide - 2
    canvas.write(right, middle, "]", on)
    canvas.write(right - len(text) + (1 if sheet.is_typing else 0), middle, text, on)
    if not sheet.is_typing:
        canvas.write(right - len(text) - 1, middle, can.mark, on)
    if sheet.is_typing:
        canvas.write(right, middle, "]", on)
