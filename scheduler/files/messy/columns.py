"""Header and body of a table in; which column is what out."""

import re
from dataclasses import dataclass
from typing import Literal

from scheduler.files.messy.cells import Cell
from scheduler.files.messy.frame import Frame, id_kind, runs_of_numbers
from scheduler.files.messy.words import Role, is_run, is_total, role_of, unit_in
from scheduler.units import spelled_unit

Use = Literal["name", "row", "column", "reading", "note", "total", "unused", "wrong"]

_GRID_NAME = re.compile(
    r"(?:col(?:umn)?|spalte|colonne|columna|kolom)?[ .#-]*(\d{1,3})$"
)
_OF_CANS = ("ml", "fl_oz", "imp_fl_oz", "mm", "in")
_LETTERS = re.compile(r"[A-Za-z]{1,2}$")


@dataclass(frozen=True, slots=True)
class Column:
    """One column of the body, with what stands at its head.

    Attributes
    ----------
    head : tuple of Cell
        Header cells that hold something, the lowest last.
    cells : tuple of Cell
        The cells of the body.
    use : str
        What the column is.
    """

    head: tuple[Cell, ...]
    cells: tuple[Cell, ...]
    use: Use = "reading"

    @property
    def title(self) -> str:
        """The lowest header that is more than a unit; empty if there is none."""
        texts = [one.text for one in self.head if not is_unit_alone(one.text)]
        return texts[-1] if texts else ""

    @property
    def role(self) -> Role:
        """What the header names, from the lowest row up."""
        roles = [role_of(one.text) for one in reversed(self.head)]
        return next((one for one in roles if one), "")

    @property
    def unit(self) -> str | None:
        """Unit in the header, from the lowest row up; titles speak of other things."""
        units = [unit_in(one.text) for one in reversed(self.head)]
        if units and units[0]:
            return units[0]
        return next((one for one in units if one in _OF_CANS), None)

    @property
    def is_summary(self) -> bool:
        """Whether the header names a sum or a mean."""
        return any(is_total(one.text) for one in self.head)

    @property
    def filled(self) -> list[Cell]:
        """Cells of the body that are not blank."""
        return [one for one in self.cells if one.kind != "blank"]

    @property
    def letter(self) -> str:
        """The column (or, in a turned table, the row) as the workbook names it."""
        name = self.cells[0].name if self.cells else ""
        return name.rstrip("0123456789")


def is_unit_alone(text: str) -> bool:
    """Whether a header holds nothing but a unit."""
    bare = text.strip(" ()[],;")
    return spelled_unit(bare) is not None and unit_in(text) is not None


def columns_of(frame: Frame) -> tuple[Column, ...]:
    """Columns of a frame, each with its use.

    Parameters
    ----------
    frame : Frame
        Header and body.

    Returns
    -------
    tuple of Column
        From left to right. A column of words or numbers that is not understood is
        `wrong`; running numbers without a header stay readings, to be asked about.
    """
    width = len(frame.body[0]) if frame.body else 0
    columns = []
    for j in range(width):
        head = tuple(line[j] for line in frame.head if line[j].kind != "blank")
        columns.append(Column(head, tuple(line[j] for line in frame.body)))
    is_headed = any(one.head for one in columns)
    return tuple(_used(columns, j, is_headed) for j in range(width))


def _used(columns: list[Column], j: int, is_headed: bool) -> Column:
    one = columns[j]
    use = _use_by_header(one) or _use_by_cells(columns, j, is_headed)
    return Column(one.head, one.cells, use)


def _use_by_header(one: Column) -> Use | None:
    if one.is_summary:
        return "total"
    if not one.filled:
        return "unused"
    by_role: dict[str, Use] = {
        "can": "name", "row": "row", "column": "column", "note": "note",
        "other": "unused",
    }  # fmt: skip
    return by_role.get(one.role)


def _use_by_cells(columns: list[Column], j: int, is_headed: bool) -> Use:
    one = columns[j]
    is_first = not any(each.filled for each in columns[:j])
    words = [each for each in one.filled if each.kind == "word"]
    if words and not any(each.kind == "number" for each in one.filled):
        if any(each.is_reading for each in one.filled) and not is_first:
            return "reading"  # codes and words: the words are refused by name
        is_right = any(_has_numbers(each) for each in columns[:j])
        return "note" if is_right else "name"
    if words and is_first and all(id_kind(each.text) for each in one.filled):
        return "name"
    if is_first and len(columns) > 1 and runs_of_numbers(one.filled):
        has_units = any(each.unit for each in columns[j + 1 :])
        if (is_headed and not one.head) or (has_units and one.unit is None):
            return "name"
    return "reading"


def _has_numbers(one: Column) -> bool:
    return any(each.kind == "number" for each in one.cells)


# --- headers over several columns of readings ---------------------------------


def names_a_grid(columns: list[Column], frame: Frame) -> bool:
    """Whether several columns are one grid of cans, by what stands above them."""
    titles = [one.title for one in columns]
    if not any(titles):
        return True
    if all(map(_LETTERS.match, titles)) and len(set(titles)) == len(titles):
        return not any(role_of(one) or unit_in(one) for one in titles)
    numbers = [_GRID_NAME.match(one) for one in titles]
    if all(numbers) and len({one[1] for one in numbers if one}) == len(titles):
        return True
    return _is_under_one(columns, frame)


def _is_under_one(columns: list[Column], frame: Frame) -> bool:
    """Whether one merged header covers all columns, and nothing else names them."""
    titled = [one for one in columns if one.title]
    if len(titled) != 1 or is_run(titled[0].title):
        return False
    # in a turned frame the merged spans are turned as well
    places = [_across(one.cells[0], frame) for one in columns]
    return any(
        first[1] <= min(places) and last[1] >= max(places)
        for first, last in frame.merged
    )


def _across(cell: Cell, frame: Frame) -> int:
    return cell.row if frame.is_turned else cell.column
