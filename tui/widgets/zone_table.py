"""A dense table of rows under unit-bearing heads, one row picked by its key.

Only the lines that are seen are made: thousands of rows cost no more than a screenful.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from rich.cells import cell_len, set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual.binding import Binding, BindingType
from textual.events import Click
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import var
from textual.scroll_view import ScrollView
from textual.strip import Strip

from tui.taking import Table

HEAD = 1  # lines above the rows


@dataclass(frozen=True, slots=True)
class Column:
    """Head, width with the gap before it, and whether cells end flush right."""

    head: str
    width: int
    is_right: bool = True


class ZoneTable(ScrollView, can_focus=True):
    """Rows of ready-made texts; keeps its row when rows are written anew."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"datatable--header", "datatable--cursor"}
    DEFAULT_CSS = """
    ZoneTable {
        height: 1fr; scrollbar-size-vertical: 1;
        background: $surface; color: $foreground;
        & > .datatable--header { background: $panel; text-style: bold; }
        & > .datatable--cursor {
            background: $block-cursor-blurred-background;
            color: $block-cursor-blurred-foreground;
        }
        &:focus > .datatable--cursor {
            background: $block-cursor-background;
            color: $block-cursor-foreground;
            text-style: $block-cursor-text-style;
        }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
        Binding("pageup", "leaf(-1)", show=False),
        Binding("pagedown", "leaf(1)", show=False),
        Binding("home,ctrl+home", "end(False)", show=False),
        Binding("end,ctrl+end", "end(True)", show=False),
    ]

    cursor_row: var[int] = var(0)

    class RowHighlighted(Message):
        """The cursor stands on another row."""

    @dataclass
    class RowSelected(Message):
        """Enter, or a click on the picked row."""

        key: str

    @dataclass
    class HeadSelected(Message):
        """A click on the head of a column."""

        column: int

    def __init__(self) -> None:
        super().__init__()
        self._columns: tuple[Column, ...] = ()
        self._keys: tuple[str, ...] = ()
        self._at: dict[str, int] = {}
        self._cells: Callable[[int], Sequence[str]] = lambda _: ()

    # --- what it shows ------------------------------------------------------
    def show(
        self, columns: Sequence[Column], rows: Sequence[tuple[str, Sequence[str]]]
    ) -> None:
        """Write all rows anew; the picked row stays picked."""
        self.show_rows(columns, [key for key, _ in rows], lambda i: rows[i][1])

    def show_rows(
        self,
        columns: Sequence[Column],
        keys: Sequence[str],
        cells: Callable[[int], Sequence[str]],
    ) -> None:
        """Show rows whose texts are made when they are seen."""
        picked = self.picked
        self._columns, self._keys, self._cells = tuple(columns), tuple(keys), cells
        self._at = {key: i for i, key in enumerate(self._keys)}
        size = Size(sum(one.width for one in columns), len(self._keys) + HEAD)
        self.virtual_size = size
        row = self._at.get(picked, min(self.cursor_row, max(0, len(keys) - 1)))
        if row == self.cursor_row:
            self.call_after_refresh(self._keep_in_sight)
            self.post_message(self.RowHighlighted())
        self.cursor_row = row
        self.refresh()

    @property
    def row_count(self) -> int:
        """How many rows."""
        return len(self._keys)

    @property
    def whole(self) -> Table:
        """Every cell in full, as it was given; what is cut to a column is not here."""
        return Table(
            tuple(one.head.strip() for one in self._columns),
            tuple(
                tuple(text.strip() for text in self._cells(row))
                for row in range(self.row_count)
            ),
            tuple(one.is_right for one in self._columns),
        )

    @property
    def picked(self) -> str:
        """Key of the row under the cursor; empty when there is none."""
        here = self.cursor_row
        return self._keys[here] if 0 <= here < len(self._keys) else ""

    def pick(self, key: str) -> None:
        """Move the cursor to the row of that key, if there is one."""
        if key in self._at:
            self.cursor_row = self._at[key]

    def move_cursor(self, *, row: int) -> None:
        """Move the cursor to a row, or to the end that is nearest."""
        if self._keys:
            self.cursor_row = min(max(row, 0), len(self._keys) - 1)

    def watch_cursor_row(self, before: int, now: int) -> None:
        first = HEAD - self.scroll_offset.y
        self._keep_in_sight()  # whoever scrolls draws every line
        lines = (first + row for row in (before, now))
        seen = [y for y in lines if HEAD <= y < self.size.height]
        self.refresh(*(Region(0, y, self.size.width, 1) for y in seen))
        self.post_message(self.RowHighlighted())

    def _keep_in_sight(self) -> None:
        """Scroll so far that the row stands below the heads."""
        if not self.size.height:
            return
        row, top = self.cursor_row, round(self.scroll_target_y)
        room = max(1, self.size.height - HEAD)
        if not top <= row < top + room:
            to = row if row < top else row - room + 1
            self.scroll_to(y=to, animate=False, force=True)

    def on_resize(self) -> None:
        self.call_after_refresh(self._keep_in_sight)

    # --- keys and mouse -----------------------------------------------------
    def action_move(self, by: int) -> None:
        self.move_cursor(row=self.cursor_row + by)

    def action_leaf(self, by: int) -> None:
        self.action_move(by * max(1, self.size.height - HEAD - 1))

    def action_end(self, is_last: bool) -> None:
        self.move_cursor(row=len(self._keys) if is_last else 0)

    def action_select(self) -> None:
        if self.picked:
            self.post_message(self.RowSelected(self.picked))

    def on_click(self, event: Click) -> None:
        at = event.get_content_offset(self)
        if at is None:
            return
        if at.y < HEAD:
            self._select_head(at.x + self.scroll_offset.x)
            return
        row = at.y - HEAD + self.scroll_offset.y
        if row == self.cursor_row:
            self.action_select()
        elif row < len(self._keys):
            self.cursor_row = row

    def _select_head(self, x: int) -> None:
        for i, column in enumerate(self._columns):
            if x < column.width:
                self.post_message(self.HeadSelected(i))
                return
            x -= column.width

    # --- lines --------------------------------------------------------------
    def render_line(self, y: int) -> Strip:
        """Make one line: the heads, or the row that stands there."""
        row = y - HEAD + self.scroll_offset.y
        width, left = self.size.width, self.scroll_offset.x
        if y < HEAD:
            style = self.get_component_rich_style("datatable--header")
            texts: Sequence[str] = [one.head for one in self._columns]
        elif row < len(self._keys):
            is_here = row == self.cursor_row
            cursor = self.get_component_rich_style("datatable--cursor")
            style = cursor if is_here else self.rich_style
            texts = self._cells(row)
        else:
            return Strip.blank(width, self.rich_style)
        line = "".join(map(_cell, texts, self._columns))
        strip = Strip([Segment(line, style)])
        rest = style if y < HEAD else self.rich_style
        return strip.crop_extend(left, left + width, Style(bgcolor=rest.bgcolor))

    def watch_has_focus(self, has_focus: bool) -> None:
        super().watch_has_focus(has_focus)
        self.refresh(Region(0, 0, *self.size))


def _cell(text: str, column: Column) -> str:
    """Text of one cell; a left-flush cell keeps a gap from the number before it."""
    room = max(1, column.width - 1)
    short = text if cell_len(text) <= room else set_cell_size(text, room - 1) + "…"
    gap = " " * max(0, column.width - cell_len(short))
    return gap + short if column.is_right else short + gap
