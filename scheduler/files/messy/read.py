"""A table as people have it in; its cans, and a sentence on what was read, out.

Nothing is guessed in silence: what can be seen in two ways is refused with the cell,
its value and the choice to make.
"""

from dataclasses import dataclass, replace
from typing import get_args

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding
from scheduler.files.catch_csv import Grid, can_name, laid_out
from scheduler.files.csv_text import column_letter
from scheduler.files.messy.cells import Cell
from scheduler.files.messy.choices import Choices
from scheduler.files.messy.columns import Column
from scheduler.files.messy.frame import Frame, framed
from scheduler.files.messy.layout import Layout, laid
from scheduler.files.messy.numbers import Numbers, figure, numbers_of
from scheduler.files.messy.picking import picked_sheet
from scheduler.files.messy.sheets import Sheet, is_workbook, workbook_sheets
from scheduler.files.messy.text_sheet import text_sheet
from scheduler.files.messy.totals import is_total_above, total_rows
from scheduler.files.messy.units import found_unit
from scheduler.files.messy.words import figure_named, is_header_word
from scheduler.record import CanUnit, Code
from scheduler.units import UNITS

_CHECK = "correct the choice, or the table, if that is wrong"
_TOLERANCE = 5e-3


@dataclass(frozen=True, slots=True)
class TableReading:
    """Cans of one table, and the unit they are in (None where nobody says)."""

    grid: Grid
    unit: CanUnit | None


Read = tuple[TableReading | None, tuple[Finding, ...]]


def read_workbook(
    data: bytes, where: str, choices: Choices, unit: CanUnit | None
) -> Read:
    """Read the cans of a workbook: xlsx, xls, xlsb or ods.

    Parameters
    ----------
    data : bytes
        The file.
    where : str
        Its name in findings.
    choices : Choices
        What the user said about it.
    unit : str or None
        Unit that the user said.

    Returns
    -------
    reading : TableReading or None
        None when anything is not understood.
    findings : tuple of Finding
        Stops; else a note on what was read, and warnings.
    """
    assert is_workbook(data), "the caller has looked"
    sheets, refused = workbook_sheets(data, where)
    if refused:
        return None, refused
    sheet, said, refused = picked_sheet(sheets, where, choices)
    if sheet is None:
        return None, refused
    return _read(sheet, f"{where}: sheet {sheet.name!r}", (choices, unit, said))


def read_untidy_text(
    text: str, where: str, choices: Choices, unit: CanUnit | None
) -> Read:
    """Read the cans of a text table that is more than clean rows of readings.

    Parameters
    ----------
    text : str
        The table.
    where : str
        Its name in findings.
    choices : Choices
        What the user said about it.
    unit : str or None
        Unit that the user said.

    Returns
    -------
    reading : TableReading or None
        None when anything is not understood.
    findings : tuple of Finding
        Stops; else a note on what was read, and warnings.
    """
    sheet, refused = text_sheet(text, where, choices)
    if sheet is None:
        return None, refused
    if choices.sheet is not None:
        return None, picked_sheet((sheet,), where, choices)[2]
    return _read(sheet, where, (choices, unit, ()))


Said = tuple[Choices, CanUnit | None, tuple[str, ...]]


def _read(sheet: Sheet, where: str, given: Said) -> Read:
    choices, unit, said = given
    frame = framed(sheet)
    refused = _frame_findings(frame, sheet, where)
    if refused:
        return None, refused
    layout, refused = laid(frame, choices, where)
    if layout is None:
        return None, refused
    refused = _short_rows(layout, sheet, where)
    columns, wrong = _numbers(layout, choices, where)
    in_unit, doubts = found_unit(layout, frame, unit, (where, choices))
    refused = (*refused, *wrong, *doubts)
    if refused:
        return None, refused
    values = _values(layout, columns)
    layout, values, cut, refused = _without_totals(layout, values, choices, where)
    if refused:
        return None, refused
    sentence = (*_sentence(frame, layout, columns), *cut, *layout.said, *said)
    unit_said = f"in {UNITS[in_unit].label}" if in_unit else "no unit in the table"
    note = Finding("note", where, f"read {', '.join((*sentence, unit_said))}", _CHECK)
    warnings = _total_warnings(frame, values, columns, where)
    return TableReading(_grid(layout, values), in_unit), (note, *warnings)


# --- what cannot be read -----------------------------------------------------------


def _frame_findings(frame: Frame, sheet: Sheet, where: str) -> tuple[Finding, ...]:
    if not frame.body or not sheet.n_numbers:
        return (Finding("stop", where, "holds no readings", "enter the readings"),)
    if frame.second is not None:
        above = next(one for one in frame.second if one.kind == "number")
        here = [one for one in frame.head[0] if one.kind != "blank"]
        if len(here) == 1 and not is_header_word(here[0].text):
            what = f"{here[0].text!r} is neither a reading nor a code"
            place = f"{where}: cell {here[0].name}"
            return (Finding("stop", place, what, "write a number, or one of - k l o"),)
        what = f"a second table begins at {here[0].name}; the first has {above.name}"
        fix = "put each run on its own sheet or in its own file"
        return (Finding("stop", where, what, fix),)
    return ()


def _short_rows(layout: Layout, sheet: Sheet, where: str) -> tuple[Finding, ...]:
    """Rows of a text that end before their readings do: a cell may be missing."""
    if not sheet.widths:
        return ()
    short = [
        one
        for column in layout.readings
        for one in column.cells
        if one.column >= sheet.widths[one.row] > 0
    ]
    fix = "write - in the places where no can stood"
    return tuple(
        Finding("stop", f"{where}: cell {one.name}", "the row ends before this", fix)
        for one in short[:1]
    )


def _numbers(
    layout: Layout, choices: Choices, where: str
) -> tuple[list[Numbers], tuple[Finding, ...]]:
    found: list[Numbers] = []
    refused: list[Finding] = []
    for column in layout.readings:
        cells = [one for one in column.cells if one.kind == "number"]
        numbers, said = numbers_of(cells, choices, where)
        refused += said
        found.append(numbers or Numbers((), None))
    return found, tuple(refused)


# --- values, totals ------------------------------------------------------------------


def _values(layout: Layout, columns: list[Numbers]) -> FloatArray:
    values = np.full((len(layout.readings[0].cells), len(columns)), np.nan)
    for j, (column, numbers) in enumerate(zip(layout.readings, columns, strict=True)):
        rows = [i for i, one in enumerate(column.cells) if one.kind == "number"]
        values[rows, j] = numbers.values
    return values


def _without_totals(
    layout: Layout, values: FloatArray, choices: Choices, where: str
) -> tuple[Layout, FloatArray, tuple[str, ...], tuple[Finding, ...]]:
    """Cut off rows and columns that are totals, as told; ask where nobody said."""
    n_rows, n_columns = total_rows(values), total_rows(values.T)
    if len(values) < 2:
        n_columns = 0
    said: list[str] = []
    if choices.total in ("row", "both"):
        cut = len(values) - max(n_rows, 1)
        rows = [one.row + 1 for one in layout.readings[0].cells[cut:]]
        said.append(f"ignored total row {', '.join(map(str, rows))}, as told")
        layout, values, n_rows = _first_rows(layout, cut), values[:cut], 0
    if choices.total in ("column", "both") and len(layout.readings) > 1:
        cut = len(layout.readings) - max(n_columns, 1)
        letters = [one.letter for one in layout.readings[cut:]]
        said.append(f"ignored total column {', '.join(letters)}, as told")
        layout = replace(layout, readings=layout.readings[:cut],
                         grid_names=layout.grid_names[:cut])  # fmt: skip
        values, n_columns = values[:, :cut], 0
    if choices.total is not None:
        return layout, values, tuple(said), ()
    doubt = None
    if n_rows:
        doubt = _doubt(layout.readings[0].cells[-n_rows], "row", choices, where)
    elif n_columns:
        doubt = _doubt(layout.readings[-n_columns].cells[0], "column", choices, where)
    elif is_total_above(values):
        cell = layout.readings[0].cells[0]
        what = f"the row of {cell.text} is the sum of the rows below: a total?"
        fix = f"delete it, or say {choices.say('total', 'none')} if a can stood there"
        doubt = Finding("stop", f"{where}: cell {cell.name}", what, fix)
    return layout, values, tuple(said), (doubt,) if doubt else ()


def _doubt(cell: Cell, noun: str, choices: Choices, where: str) -> Finding:
    what = f"the {noun} of {cell.text} is the sum or mean of the others: a total?"
    fix = f"say {choices.say('total', noun)} to leave it out, "
    fix += f"{choices.say('total', 'none')} if a can stood there"
    return Finding("stop", f"{where}: cell {cell.name}", what, fix)


def _first_rows(layout: Layout, cut: int) -> Layout:
    return replace(
        layout,
        readings=tuple(
            Column(one.head, one.cells[:cut], one.use) for one in layout.readings
        ),
        names=layout.names[:cut],
        places=layout.places[:cut],
        marks=layout.marks[:cut],
    )


def _total_warnings(
    frame: Frame, values: FloatArray, columns: list[Numbers], where: str
) -> tuple[Finding, ...]:
    """A total that the readings do not add up to: one is missing or mistyped."""
    sign = next((one.sign for one in columns if one.sign), None)
    said = []
    for line in frame.totals:
        named = next((n for one in line if (n := figure_named(one.text))), "")
        wanted = {
            "sum": [*np.nansum(values, axis=0), np.nansum(values)],
            "mean": [*_means(values), np.nanmean(values)],
        }.get(named, [])
        figures = [(one, f) for one in line if (f := figure(one, sign)) is not None]
        off = [
            one
            for one, f in figures
            if not any(np.isclose(f, w, rtol=_TOLERANCE, atol=0.0) for w in wanted)
        ]
        if wanted and figures and len(off) == len(figures):
            what = f"says {off[0].text} as {named}, the readings give {wanted[-1]:.6g}"
            fix = "look for a reading that is missing or mistyped"
            said.append(Finding("warning", f"{where}: cell {off[0].name}", what, fix))
    return tuple(said)


def _means(values: FloatArray) -> list[float]:
    columns = [one[np.isfinite(one)] for one in values.T]
    return [float(one.mean()) for one in columns if one.size]


# --- what was read -------------------------------------------------------------------


def _sentence(frame: Frame, layout: Layout, columns: list[Numbers]) -> tuple[str, ...]:
    cells = [one for column in layout.readings for one in column.cells]
    n = sum(one.kind == "number" for one in cells)
    said = [f"{n} readings from {cells[0].name} to {cells[-1].name}"]
    if frame.head:
        lines = [_line_name(frame, line[0]) for line in frame.head]
        noun = "column" if frame.is_turned else "row"
        upper = f" with {', '.join(lines[:-1])} above it" if lines[:-1] else ""
        said.insert(0, f"header from {noun} {lines[-1]}{upper}")
    signs = sorted({one.sign for one in columns if one.sign})
    if signs:
        said.append(f"decimals with {' and '.join(signs)}")
    noun = "column" if frame.is_turned else "row"
    for line in frame.totals:
        word = next(one.text for one in line if one.kind == "word")
        said.append(f"ignored total {noun} {_line_name(frame, line[0])} ({word})")
    outside = [_line_name(frame, line[0]) for line in (*frame.above, *frame.below)]
    if outside:
        noun += "s" if len(outside) > 1 else ""
        said.append(f"{noun} {', '.join(outside)} outside the table not read")
    return tuple(said)


def _line_name(frame: Frame, cell: Cell) -> str:
    return column_letter(cell.column) if frame.is_turned else f"{cell.row + 1}"


# --- the grid ----------------------------------------------------------------------


def _grid(layout: Layout, values: FloatArray) -> Grid:
    if len(layout.readings) > 1 or not (layout.names or layout.places):
        return _as_stood(layout, values)
    found: list[tuple[str, float | Code]] = []
    keys = layout.names or tuple(_place_name(*one) for one in layout.places)
    for i, name in enumerate(keys):
        value = float(values[i, 0])
        found.append((name, value if np.isfinite(value) else _code(layout, i, 0)))
    return laid_out(found)


def _place_name(row: str, column: str) -> str:
    if row.isdigit() and column.isdigit():
        column = column_letter(int(column) - 1) if int(column) else "A"
    return can_name(row, column)


def _code(layout: Layout, i: int, j: int) -> Code:
    code = layout.readings[j].cells[i].code
    mark = layout.marks[i] if layout.marks else ""
    return mark if code == "-" and mark in get_args(Code) and mark else code


def _as_stood(layout: Layout, values: FloatArray) -> Grid:
    n_rows, n_columns = values.shape
    rows = layout.names or tuple(f"{i + 1}" for i in range(n_rows))
    across = layout.grid_names or tuple(map(column_letter, range(n_columns)))
    if all(one.isdigit() for one in across) and all(one.isdigit() for one in rows):
        across = tuple(column_letter(int(one) - 1) for one in across if int(one))
    code = tuple(
        tuple(_code(layout, i, j) for j in range(n_columns)) for i in range(n_rows)
    )
    label = tuple(tuple(can_name(row, column) for column in across) for row in rows)
    return Grid(frozen(values), code, label)
