"""The text of a catch table in; readings, codes and can names as they stood out.

A grid, or a list with the header `can,reading`. What is not understood is refused
with its place, never guessed.
"""

import re
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding
from scheduler.files.csv_text import (
    THOUSANDS,
    Row,
    Table,
    column_letter,
    decimal_number,
    table_of,
)
from scheduler.files.text_file import TextFile
from scheduler.record import CODES, Code

# A dash in any of the forms that keyboards and spreadsheets give it.
_DASHES = {"-", "–", "—", "−"}
_LETTERS = re.compile(r"[A-Za-z]{1,2}$")
_CAN = re.compile(r"([A-Za-z]{1,2})(\d{1,3})$")
_LIST_HEADERS = {"can", "can id", "id", "catch can"}, {"reading", "readings", "catch"}
_FIX = "write a number, or one of - k l o"


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """Readings as the cans stood: arrays and tuples of one shape (rows, columns).

    `line` is empty where the cans stand on no lines of a text.
    """

    reading: FloatArray
    code: tuple[tuple[Code, ...], ...]
    label: tuple[tuple[str, ...], ...]
    line: tuple[tuple[int, ...], ...] = ()

    def place(self, can: str) -> tuple[int, int] | None:
        """Row and column of a can by its name in any case, or None."""
        wanted = can.strip().casefold()
        for i, row in enumerate(self.label):
            for j, name in enumerate(row):
                if name and name.casefold() == wanted:
                    return i, j
        return None


def code_of(cell: str) -> Code | None:
    """Code that a cell holds instead of a reading, or None.

    Examples
    --------
    >>> code_of("K"), code_of("52")
    ('k', None)
    """
    text = cell.casefold()
    if text == "" or text in _DASHES:
        return "-"
    for code in CODES:
        if text == code:
            return code  # type: ignore[return-value]
    return None


def read_catch(file: TextFile) -> tuple[Grid | None, tuple[Finding, ...]]:
    """Read the cans of one run.

    Parameters
    ----------
    file : TextFile
        The table.

    Returns
    -------
    grid : Grid or None
        None when anything in the table is not understood.
    findings : tuple of Finding
        One stop for each thing that is not.
    """
    table = table_of(file.text)
    if not table.rows:
        stop = Finding("stop", file.where, "holds no readings", "enter the readings")
        return None, (stop,)
    first = [cell.casefold() for cell in table.rows[0].cells]
    if len(first) == 2 and first[0] in _LIST_HEADERS[0]:
        return _read_list(table, file.where)
    return _read_grid(table, file.where)


# --- a grid ------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where the readings stand in a grid: below a header, right of row names."""

    body: tuple[Row, ...]
    left: int
    column: tuple[str, ...]
    row: tuple[str, ...]


def _read_grid(table: Table, where: str) -> tuple[Grid | None, tuple[Finding, ...]]:
    table = _trimmed(table)
    refused = _shape_findings(table, where)
    if refused:
        return None, refused
    frame = _frame(table)
    refused = _frame_findings(frame, table, where)
    findings = list(refused)
    n_rows, n_columns = len(frame.body), len(frame.column)
    reading = np.full((n_rows, n_columns), np.nan)
    code: list[list[Code]] = [["-"] * n_columns for _ in range(n_rows)]
    for i, row in enumerate(frame.body):
        for j, cell in enumerate(row.cells[frame.left :]):
            found = _cell(cell, table)
            if isinstance(found, float):
                reading[i, j], code[i][j] = found, ""
            elif found is None:
                letter = column_letter(j + frame.left)
                place = f"{where}:{row.line}: column {letter}"
                findings.append(_cell_finding(place, cell))
            else:
                code[i][j] = found
    findings += _total_findings(reading, frame, where)
    if findings:
        return None, tuple(findings)
    label = tuple(tuple(can_name(r, c) for c in frame.column) for r in frame.row)
    line = tuple((row.line,) * n_columns for row in frame.body)
    return Grid(frozen(reading), tuple(map(tuple, code)), label, line), ()


def _trimmed(table: Table) -> Table:
    """The table without columns on its right edge that hold nothing in any row."""
    if len({len(row.cells) for row in table.rows}) > 1:
        return table
    filled = [j for row in table.rows for j, cell in enumerate(row.cells) if cell]
    width = max(filled, default=-1) + 1
    rows = tuple(Row(row.line, row.cells[:width]) for row in table.rows)
    return Table(rows, table.delimiter)


def _shape_findings(table: Table, where: str) -> tuple[Finding, ...]:
    rows = table.rows
    if not any(any(row.cells) for row in rows):
        return (Finding("stop", where, "holds no readings", "enter the readings"),)
    width = len(rows[-1].cells) if len(rows) > 1 else len(rows[0].cells)
    # a header over a column of row names may leave out its corner
    body = rows[1:] if len(rows[0].cells) == width - 1 and _is_header(rows[0]) else rows
    odd = [row for row in body if len(row.cells) != len(body[0].cells)]
    if odd:
        what = (
            f"has {len(odd[0].cells)} cells, line {body[0].line} has "
            f"{len(body[0].cells)}"
        )
        fix = "write - in the places where no can stood"
        return (Finding("stop", f"{where}:{odd[0].line}", what, fix),)
    if table.delimiter == "," and _looks_split(rows):
        first = ",".join(rows[0].cells[:2])
        what = f"{first} could be one number with a decimal comma, or two cans"
        fix = "write decimals with a point, or put ; between the cells"
        return (Finding("stop", f"{where}:{rows[0].line}", what, fix),)
    return ()


def _looks_split(rows: tuple[Row, ...]) -> bool:
    """Whether decimal commas may have been taken for the ends of cells."""
    cells = [row.cells for row in rows]
    if any(len(row) % 2 or not all(cell.isdigit() for cell in row) for row in cells):
        return False
    return all(len(cell) == 1 for row in cells for cell in row[1::2]) and any(
        len(cell) > 1 for row in cells for cell in row[::2]
    )


def _is_header(row: Row) -> bool:
    """Whether a row holds column letters; k, l and o alone would be codes."""
    names = [cell for cell in row.cells[1:] if cell] or row.cells
    named = names if row.cells[0] == "" else row.cells
    if not all(_LETTERS.match(one) for one in named):
        return False
    return any(one.casefold() not in CODES for one in named)


def _frame(table: Table) -> _Frame:
    rows = table.rows
    width = len(rows[-1].cells)
    if len(rows) > 1 and _is_header(rows[0]):
        head, body = rows[0].cells, rows[1:]
        if len(head) == width - 1:
            head = ["", *head]
        left = 1 if head[0] == "" else 0
        names = tuple(row.cells[0] for row in body) if left else _numbers(len(body))
        return _Frame(body, left, tuple(head[left:]), names)
    if len(rows) > 1 and rows[0].cells[0] == "" and _has_row_letters(rows[1:]):
        names = tuple(row.cells[0] for row in rows[1:])
        return _Frame(rows[1:], 1, tuple(rows[0].cells[1:]), names)
    letters = tuple(column_letter(j) for j in range(width))
    return _Frame(rows, 0, letters, _numbers(len(rows)))


def _has_row_letters(rows: tuple[Row, ...]) -> bool:
    names = [row.cells[0] for row in rows]
    return all(_LETTERS.match(one) for one in names) and any(
        one.casefold() not in CODES for one in names
    )


def _numbers(n: int) -> tuple[str, ...]:
    return tuple(str(i + 1) for i in range(n))


def _frame_findings(frame: _Frame, table: Table, where: str) -> tuple[Finding, ...]:
    found = []
    head = table.rows[0].line
    for kind, names in (("column", frame.column), ("row", frame.row)):
        seen: dict[str, int] = {}
        for i, name in enumerate(names):
            key = name.casefold()
            if kind == "row":
                line, first = frame.body[i].line, frame.body[seen.get(key, 0)].line
            else:
                line = first = head
            if key in seen:
                what = f"{kind} {name or 'without a name'} stands twice"
                what += f", on line {first} and line {line}" if kind == "row" else ""
                fix = f"give each {kind} its own name"
                found.append(Finding("stop", f"{where}:{line}", what, fix))
            seen.setdefault(key, i)
    first_cells = [row.cells[0] for row in frame.body]
    counts = first_cells == list(_numbers(len(first_cells)))
    if frame.left == 0 and len(frame.column) > 1 and counts and len(first_cells) > 2:
        what = "the first column is 1, 2, 3: row numbers, or readings?"
        fix = "put a first line of column letters above: ,A,B,C"
        found.append(Finding("stop", f"{where}:{head}: column A", what, fix))
    return tuple(found)


def _total_findings(reading: FloatArray, frame: _Frame, where: str) -> list[Finding]:
    """A last row that is the sum of the rows above is no row of cans."""
    if len(reading) < 4 or np.isnan(reading[-1]).any():
        return []
    total = np.nansum(reading[:-1], axis=0)
    if not np.allclose(reading[-1], total, rtol=5e-3, atol=0) or not total.all():
        return []
    what = "is the sum of the rows above, not a row of cans"
    fix = "delete the line of totals"
    return [Finding("stop", f"{where}:{frame.body[-1].line}", what, fix)]


def can_name(row: str, column: str) -> str:
    """Name of a can: the letter first, whichever side of the table it stands on."""
    return f"{row}{column}" if _LETTERS.match(row) else f"{column}{row}"


# --- cells -------------------------------------------------------------------


def _cell(cell: str, table: Table) -> float | Code | None:
    code = code_of(cell)
    if code is not None:
        return code
    return decimal_number(cell, comma_is_decimal=table.comma_is_decimal)


def _cell_finding(place: str, cell: str) -> Finding:
    if THOUSANDS.match(cell):
        plain = cell.replace(",", "")
        point = cell.replace(",", ".", 1)
        what = f"{cell!r} could be {plain} or {point}"
        return Finding("stop", place, what, f"write {plain} or {point}")
    if "," in cell:
        what = f"{cell!r} is not a number here"
        return Finding("stop", place, what, "write decimals with a point")
    return Finding("stop", place, f"{cell!r} is neither a reading nor a code", _FIX)


# --- a list ------------------------------------------------------------------


def _read_list(table: Table, where: str) -> tuple[Grid | None, tuple[Finding, ...]]:
    findings: list[Finding] = []
    cans: dict[str, tuple[int, str, float | Code]] = {}
    for row in table.rows[1:]:
        name, cell = ([*row.cells, "", ""])[:2]
        found = _cell(cell, table)
        place = f"{where}:{row.line}: can {name}"
        if not name or len(row.cells) != 2:
            what = f"{' '.join(row.cells)!r} is not a can and its reading"
            fix = "write one can and one reading a line"
            findings.append(Finding("stop", f"{where}:{row.line}", what, fix))
        elif found is None:
            findings.append(_cell_finding(place, cell))
        elif name.casefold() in cans:
            first = cans[name.casefold()][0]
            what = f"stands twice, on line {first} and line {row.line}"
            fix = "give each can its own name, or delete one"
            findings.append(Finding("stop", place, what, fix))
        else:
            cans[name.casefold()] = (row.line, name, found)
    if not cans and not findings:
        findings.append(Finding("stop", where, "holds no readings", "enter them"))
    if findings:
        return None, tuple(findings)
    grid = laid_out([(name, found) for _, name, found in cans.values()])
    line = tuple(
        tuple(cans[name.casefold()][0] if name else 0 for name in row)
        for row in grid.label
    )
    return replace(grid, line=line), ()


def laid_out(cans: list[tuple[str, float | Code]]) -> Grid:
    """Cans of a list in a grid by their names (B3), else in one row."""
    named = [_CAN.match(name) for name, _ in cans]
    columns = sorted({m[1].upper() for m in named if m}, key=lambda c: (len(c), c))
    rows = sorted({int(m[2]) for m in named if m})
    if not all(named) or 2 * len(cans) < len(rows) * len(columns):
        shape, at = (1, len(cans)), [(0, j) for j in range(len(cans))]
    else:
        shape = (len(rows), len(columns))
        at = [(rows.index(int(m[2])), columns.index(m[1].upper())) for m in named if m]
    reading = np.full(shape, np.nan)
    code: list[list[Code]] = [["-"] * shape[1] for _ in range(shape[0])]
    label = [[""] * shape[1] for _ in range(shape[0])]
    for (i, j), (name, found) in zip(at, cans, strict=True):
        label[i][j] = name
        if isinstance(found, float):
            reading[i, j], code[i][j] = found, ""
        else:
            code[i][j] = found
    return Grid(frozen(reading), tuple(map(tuple, code)), tuple(map(tuple, label)))
