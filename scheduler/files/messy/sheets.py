"""The bytes of a workbook in; its sheets, cell by cell, out."""

import io
from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.files.messy.cells import Cell, cell_of

_MAGIC = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")
# more than any field test: a sheet formatted to its last row is cut, not read for ever
_MOST_CELLS = 400_000
_TOO_LARGE = "save the sheet with the readings alone"

Span = tuple[tuple[int, int], tuple[int, int]]


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet, or one text file (then its name is empty).

    Attributes
    ----------
    cells : tuple of tuple of Cell
        Rows of one width, from the first row and column of the sheet.
    merged : tuple
        Merged cells: first and last (row, column), where the format tells.
    widths : tuple of int
        Cells that each row of a text really has; empty for a workbook.
    is_too_large : bool
        Whether it was not read because of its size.
    """

    name: str
    cells: tuple[tuple[Cell, ...], ...]
    is_hidden: bool = False
    merged: tuple[Span, ...] = ()
    widths: tuple[int, ...] = ()
    is_too_large: bool = False

    @property
    def n_numbers(self) -> int:
        """How many cells hold a number."""
        return sum(one.kind == "number" for row in self.cells for one in row)


def is_workbook(data: bytes) -> bool:
    """Whether bytes begin as xlsx, ods or xls files do."""
    return data.startswith(_MAGIC)


def cells_of(rows: Sequence[Sequence[object]]) -> tuple[tuple[Cell, ...], ...]:
    """Cells of rows of values; short rows are filled with blanks."""
    width = max(map(len, rows), default=0)
    return tuple(
        tuple(cell_of(i, j, row[j] if j < len(row) else "") for j in range(width))
        for i, row in enumerate(rows)
    )


def workbook_sheets(
    data: bytes, where: str
) -> tuple[tuple[Sheet, ...], tuple[Finding, ...]]:
    """Every sheet of a workbook, hidden ones marked.

    Parameters
    ----------
    data : bytes
        An xlsx, xls, xlsb or ods file.
    where : str
        Its name in findings.

    Returns
    -------
    sheets : tuple of Sheet
        In the order of the workbook; empty when it cannot be read.
    findings : tuple of Finding
        A stop that says why not.
    """
    import python_calamine as calamine  # only here: the clean path does without it

    try:
        with calamine.CalamineWorkbook.from_object(io.BytesIO(data)) as book:
            sheets = tuple(
                _sheet(book.get_sheet_by_name(one.name), one)
                for one in book.sheets_metadata
                if one.typ == calamine.SheetTypeEnum.WorkSheet
            )
    except calamine.PasswordError:
        fix = "save it without a password"
        return (), (Finding("stop", where, "is locked with a password", fix),)
    except (calamine.CalamineError, ValueError, OSError) as problem:
        what = f"cannot be read as a workbook ({problem})"
        fix = "open it, and save it as xlsx or CSV"
        return (), (Finding("stop", where, what, fix),)
    large = [one.name for one in sheets if one.is_too_large]
    if large:
        what = f"sheet {large[0]!r} has more than {_MOST_CELLS} cells"
        return (), (Finding("stop", where, what, _TOO_LARGE),)
    return sheets, ()


def _sheet(sheet: object, meta: object) -> Sheet:
    import python_calamine as calamine

    assert isinstance(sheet, calamine.CalamineSheet)
    assert isinstance(meta, calamine.SheetMetadata)
    is_hidden = meta.visible != calamine.SheetVisibleEnum.Visible
    if sheet.total_height * sheet.total_width > _MOST_CELLS:
        return Sheet(meta.name, (), is_hidden, is_too_large=True)
    rows = sheet.to_python(skip_empty_area=False)
    merged = tuple(sheet.merged_cell_ranges or ())
    return Sheet(meta.name, cells_of(rows), is_hidden, merged)
