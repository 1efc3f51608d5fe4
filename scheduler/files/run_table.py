"""One table of readings in, clean or untidy; its cans in one unit out.

Clean text is read as it always was. Anything else goes to the reader of untidy
tables; where both refuse, the one that understood more speaks.
"""

import re
from collections.abc import Callable

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding
from scheduler.field.mixed_units import UNIT_NAMES, in_one_unit, mixed_units
from scheduler.files.catch_csv import Grid
from scheduler.files.messy.choices import Choices
from scheduler.files.messy.read import (
    Read,
    TableReading,
    read_untidy_text,
    read_workbook,
)
from scheduler.files.messy.text_sheet import text_sheet
from scheduler.files.messy.totals import is_total_above, total_rows
from scheduler.record import CanUnit
from scheduler.units import UNITS

Clean = Callable[[str], tuple[Grid | None, tuple[Finding, ...]]]

_NAMES = re.compile(r"[^\W\d_]{2,}|[^\W\d_]\d")
_INNER_COMMA = re.compile(r"\d,\d")
_OPTIONS = ("decimal", "total", "labels", "sheet")


def read_run_table(
    content: bytes | str,
    where: str,
    choices: Choices,
    unit: CanUnit | None,
    clean: Clean,
) -> Read:
    """Read the cans of one run from a workbook or a text.

    Parameters
    ----------
    content : bytes or str
        A workbook, or the text of a table.
    where : str
        Its name in findings.
    choices : Choices
        What the user said about it.
    unit : str or None
        Unit that the user said.
    clean : callable
        The strict reader of clean text, which is asked first.

    Returns
    -------
    reading : TableReading or None
        None when anything is not understood.
    findings : tuple of Finding
        Stops; else notes on what was read.
    """
    if isinstance(content, bytes):
        read = read_workbook(content, where, choices, unit)
    else:
        read = _text(content, where, choices, unit, clean)
    table, said = read
    if table is None or choices.mixed is None:
        return read
    table, more = _in_one_unit(table, where, choices)
    return table, (*said, *more)


def _text(
    text: str, where: str, choices: Choices, unit: CanUnit | None, clean: Clean
) -> Read:
    if choices.is_about_layout:
        return read_untidy_text(text, where, choices, unit)
    grid, said = clean(text)
    is_doubtful = grid is not None and (
        _is_doubtful(grid.reading) or _has_doubtful_commas(grid, text, choices)
    )
    if grid is not None and not is_doubtful:
        return TableReading(grid, unit), said
    table, told = read_untidy_text(text, where, choices, unit)
    if table is not None or grid is not None or _understood_more(text, said, told):
        return table, told
    return None, said


def _is_doubtful(reading: FloatArray) -> bool:
    """Whether clean readings hold totals or running numbers that nobody named."""
    rows, columns = reading.shape
    has_totals = total_rows(reading) or is_total_above(reading)
    if rows > 1 and columns > 1:
        counted = rows > 2 and np.array_equal(reading[:, 0], np.arange(1, rows + 1))
        return bool(counted or has_totals or total_rows(reading.T))
    return bool(columns == 1 and has_totals)


def _has_doubtful_commas(grid: Grid, text: str, choices: Choices) -> bool:
    """Whether commas between clean digits could be decimal signs."""
    if not _INNER_COMMA.search(text):
        return False
    is_ragged = any("" in row for row in grid.label)
    return is_ragged or text_sheet(text, "", choices)[0] is None


def _understood_more(
    text: str, said: tuple[Finding, ...], told: tuple[Finding, ...]
) -> bool:
    """Whether the reader of untidy tables has the better question."""
    if any("stands twice" in one.what for one in said):
        return False
    asks = any(
        re.search(rf"--{name} |\b{name} = ", one.fix)
        for one in told
        for name in _OPTIONS
    )
    return asks or _NAMES.search(text) is not None


def _in_one_unit(table: TableReading, where: str, choices: Choices) -> Read:
    small = choices.mixed
    assert small is not None
    unit = table.unit or "ml"
    found = mixed_units(table.grid.reading, unit)
    if found is None or small not in found.units:
        what = (
            f"the readings are not {UNITS[unit].label} mixed with {UNIT_NAMES[small]}"
        )
        fix = f"leave out {choices.say('mixed', small)}"
        return None, (Finding("stop", where, what, fix),)
    reading = in_one_unit(table.grid.reading, found, small)
    large: CanUnit = "mm" if small == "in" else "ml"
    n = int(found.is_small.sum())
    what = (
        f"{n} small readings are {UNIT_NAMES[small]}, turned into {UNITS[large].label}"
    )
    fix = f"leave out {choices.say('mixed', small)} if they are not"
    note = Finding("note", where, what, fix)
    grid = Grid(reading, table.grid.code, table.grid.label)
    return TableReading(grid, large), (note,)
