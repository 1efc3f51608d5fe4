"""A dense table of rows under unit-bearing heads, one row picked by its key."""

from collections.abc import Sequence
from dataclasses import dataclass

from rich.text import Text
from textual.widgets import DataTable

from tui.taking import Table


@dataclass(frozen=True, slots=True)
class Column:
    """Head, width with the gap before it, and whether cells end flush right."""

    head: str
    width: int
    is_right: bool = True


class ZoneTable(DataTable[Text]):
    """Rows of ready-made texts; keeps its row when rows are written anew."""

    DEFAULT_CSS = """
    ZoneTable { height: 1fr; scrollbar-size-vertical: 1; }
    """

    def __init__(self) -> None:
        super().__init__(cursor_type="row", cell_padding=0)
        self._whole = Table((), (), ())

    def show(
        self, columns: Sequence[Column], rows: Sequence[tuple[str, Sequence[str]]]
    ) -> None:
        """Write all rows anew; the picked row stays picked."""
        picked, top = self.picked, self.scroll_y
        self.clear(columns=True)
        for column in columns:
            self.add_column(_cell(column.head, column), width=column.width)
        for key, texts in rows:
            cells = zip(texts, columns, strict=True)
            self.add_row(*(_cell(text, column) for text, column in cells), key=key)
        self._whole = Table(
            tuple(one.head.strip() for one in columns),
            tuple(tuple(text.strip() for text in texts) for _, texts in rows),
            tuple(one.is_right for one in columns),
        )
        self.scroll_to(y=top, animate=False)
        self.pick(picked)

    @property
    def whole(self) -> Table:
        """Every cell in full, as it was given; what is cut to a column is not here."""
        return self._whole

    @property
    def picked(self) -> str:
        """Key of the row under the cursor; empty when there is none."""
        if not self.is_valid_row_index(self.cursor_row):
            return ""
        return self.coordinate_to_cell_key(self.cursor_coordinate).row_key.value or ""

    def pick(self, key: str) -> None:
        """Move the cursor to the row of that key, if there is one."""
        if key and key in {row.value for row in self.rows}:
            self.move_cursor(row=self.get_row_index(key))


def _cell(text: str, column: Column) -> Text:
    """Text of one cell; a left-flush cell keeps a gap from the number before it."""
    room = max(1, column.width - 1)
    short = text if len(text) <= room else text[: room - 1] + "…"
    if column.is_right:
        return Text(short, justify="right", no_wrap=True)
    return Text(short, no_wrap=True)
