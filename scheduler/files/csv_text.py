"""The text of a table in; its cells with their file lines, and numbers, out."""

import csv
import re
from dataclasses import dataclass

from scheduler.errors import Finding

MOST_SHOWN = 60  # characters of a line that a finding quotes
PLAIN = re.compile(r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)$")
_COMMA = re.compile(r"[+-]?\d*,\d+$")
# 1,250 is one thousand two hundred and fifty to some, one and a quarter to others;
# 0,250 can only be a quarter
THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2}(?:,\d{3})+(?:\.\d*)?$")


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table: its file line (from 1) and its stripped cells."""

    line: int
    cells: list[str]


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of a text table, without blank rows and remarks.

    `delimiter` is `,`, `;`, a tab, or a space for any run of spaces.
    """

    rows: tuple[Row, ...]
    delimiter: str

    @property
    def comma_is_decimal(self) -> bool:
        """Whether a comma inside a cell can be a decimal sign."""
        return self.delimiter in ";\t"


def table_of(text: str) -> Table:
    r"""Cells of a text table; lines that begin with # are remarks.

    Parameters
    ----------
    text : str
        The file, with newlines as Unix writes them.

    Returns
    -------
    Table
        Its rows.

    Examples
    --------
    >>> table_of("41;52,5\n# remark\n-;60").rows[1]
    Row(line=3, cells=['-', '60'])
    """
    lines = [
        (i, line)
        for i, line in enumerate(text.split("\n"), 1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    delimiter = _delimiter([line for _, line in lines])
    if delimiter == " ":
        return Table(tuple(Row(i, line.split()) for i, line in lines), delimiter)
    cells = csv.reader((line for _, line in lines), delimiter=delimiter)
    try:
        rows = [Row(i, [one.strip() for one in row])
                for (i, _), row in zip(lines, cells, strict=False)]  # fmt: skip
    except csv.Error:
        rows = []
    # a stray quote swallows lines: then quotes are taken as they stand
    if len(rows) != len(lines):
        rows = [Row(i, [one.strip() for one in line.split(delimiter)])
                for i, line in lines]  # fmt: skip
    return Table(tuple(rows), delimiter)


def no_header(where: str, table: Table, wanted: str, example: str) -> Finding:
    r"""Finding for a table whose columns nothing names.

    Parameters
    ----------
    where : str
        The file.
    table : Table
        What it holds.
    wanted : str
        What the header should do.
    example : str
        One that does.

    Examples
    --------
    >>> no_header("a.csv", table_of("when,mph\n"), "with a date", "date,mph").what
    "has no header with a date: its first line is 'when,mph'"
    """
    what, fix = f"has no header {wanted}", f"begin with a line such as {example}"
    if not table.rows:
        return Finding("stop", where, f"{what}, and no rows", fix)
    typed = table.delimiter.join(table.rows[0].cells)
    typed = typed if len(typed) <= MOST_SHOWN else f"{typed[: MOST_SHOWN - 3]}..."
    what = f"{what}: its first line is {typed!r}"
    return Finding("stop", f"{where}:{table.rows[0].line}", what, fix)


def _delimiter(lines: list[str]) -> str:
    """Mark that parts at least half of the lines; a space if there is none."""
    for one in ";\t,":
        if 2 * sum(one in line for line in lines) >= max(len(lines), 1):
            return one
    return next((one for one in ";\t," if any(one in line for line in lines)), " ")


def decimal_number(cell: str, *, comma_is_decimal: bool) -> float | None:
    """Number in a cell, or None if it is none or could be two.

    Examples
    --------
    >>> decimal_number("41,5", comma_is_decimal=True)
    41.5
    >>> decimal_number("1,250", comma_is_decimal=True) is None
    True
    """
    cell = cell.replace("−", "-")
    if PLAIN.match(cell):
        return float(cell)
    if comma_is_decimal and _COMMA.match(cell) and not THOUSANDS.match(cell):
        return float(cell.replace(",", "."))
    return None


def column_letter(index: int) -> str:
    """Letter of a column as spreadsheets name it, from 0.

    Examples
    --------
    >>> column_letter(0), column_letter(27)
    ('A', 'AB')
    """
    name = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        name = chr(65 + rest) + name
    return name
