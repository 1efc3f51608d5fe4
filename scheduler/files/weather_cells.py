"""The cells of one weather column in; values in SI-style units, and oddities, out."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding
from scheduler.files.csv_text import THOUSANDS, Row, decimal_number
from scheduler.files.weather_columns import Column

_MISSING = {"", "na", "n/a", "nan", "-", "--", "---", "null", "none", "m", "*"}
# Numbers that loggers write for "nothing measured"; no quantity of a daily weather
# table reaches -99 (the coldest air ever measured on the ground is -89 °C).
_MARK = re.compile(r"-9{2,}[09]*(?:\.[09]*)?$")
_TRACE = {"t", "tr", "trace"}
_Kind = Literal["stop", "note"]


@dataclass(slots=True)
class _Odd:
    """Cells of one column that are no plain numbers, by what they are."""

    marks: list[tuple[Row, str]]
    traces: list[tuple[Row, str]]
    texts: list[tuple[Row, str]]


def column_values(
    column: Column, rows: Sequence[Row], where: str, *, comma_is_decimal: bool
) -> tuple[FloatArray, list[Finding]]:
    """Values of one column, NaN where nothing was measured.

    Parameters
    ----------
    column : Column
        Which cells, and their unit.
    rows : sequence of Row
        One a day.
    where : str
        The file.
    comma_is_decimal : bool
        Whether commas inside cells can be decimal signs.

    Returns
    -------
    values : array of shape (n_days,)
        In the unit of the column's field.
    findings : list of Finding
        A stop for cells that are no numbers, notes for marks of missing values.
    """
    cells = [
        row.cells[column.index] if column.index < len(row.cells) else "" for row in rows
    ]
    comma = comma_is_decimal and any("," in cell for cell in cells)
    read = _decimal_comma(cells) if comma else _plain
    values = np.full(len(cells), np.nan)
    odd = _Odd([], [], [])
    for i, cell in enumerate(cells):
        found = read(cell)
        if found is None:
            if cell.casefold() in _TRACE and column.field == "rain_mm":
                odd.traces.append((rows[i], cell))
                values[i] = 0.0
            elif cell.casefold() not in _MISSING:
                odd.texts.append((rows[i], cell))
        elif found <= -99 and _MARK.match(cell):
            odd.marks.append((rows[i], cell))
        else:
            values[i] = found
    return values * column.factor + column.offset, _odd_findings(odd, column, where)


def _plain(cell: str) -> float | None:
    try:
        value = float(cell)
    except ValueError:
        return decimal_number(cell, comma_is_decimal=False)
    # float() also takes nan, inf and 1_000, which no logger means as a number
    return value if value - value == 0.0 and "_" not in cell else None


def _decimal_comma(cells: list[str]) -> Callable[[str], float | None]:
    """Reader of a column with decimal commas, which must show that they are."""
    shows = any("," in cell and not THOUSANDS.match(cell) for cell in cells)
    has_points = any("." in cell for cell in cells)

    def read(cell: str) -> float | None:
        if "," not in cell:
            return _plain(cell)
        if has_points or cell.count(",") > 1 or not shows:
            return None
        return _plain(cell.replace(",", "."))

    return read


def _odd_findings(odd: _Odd, column: Column, where: str) -> list[Finding]:
    said: list[tuple[list[tuple[Row, str]], _Kind, str, str]] = [
        (
            odd.marks,
            "note",
            "{cell} is taken as nothing measured",
            "leave the cell empty to say so",
        ),
        (odd.traces, "note", "{cell} is taken as 0", "enter an amount if it is known"),
        (
            odd.texts,
            "stop",
            "{cell!r} is not a number; the day has no value",
            "correct the cell, or leave it empty",
        ),
    ]
    return [
        _odd_finding(cells, (level, what, fix), column, where)
        for cells, level, what, fix in said
        if cells
    ]


def _odd_finding(
    cells: list[tuple[Row, str]],
    said: tuple[_Kind, str, str],
    column: Column,
    where: str,
) -> Finding:
    level, what, fix = said
    row, cell = cells[0]
    text = what.format(cell=cell)
    if len(cells) > 1:
        text += f" ({len(cells) - 1} more cells like this)"
    if level == "stop" and THOUSANDS.match(cell):
        fix = "write it without thousands sign, and decimals with a point"
    return Finding(level, f"{where}:{row.line}: {column.header}", text, fix)
