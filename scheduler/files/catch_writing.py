"""Readings as the cans stood in; the text of a table that reads back the same out."""

import re

import numpy as np

from scheduler.errors import SaveError
from scheduler.files.catch_csv import Grid, read_catch
from scheduler.files.text_file import TextFile


def catch_text(grid: Grid) -> str:
    """Table of one run, laid out as the cans stood.

    Parameters
    ----------
    grid : Grid
        Readings, codes and names of the cans.

    Returns
    -------
    str
        CSV with column letters and row numbers, or a list of cans where their names
        make no grid.

    Raises
    ------
    SaveError
        If the table would not read back as it was typed.
    """
    for text in (_grid_text(grid), _list_text(grid)):
        if text and _reads_back(text, grid):
            return text
    what = "this table would not read back as it was typed"
    raise SaveError(what, "is the last row the sum of the rows above? leave it out")


def _cell_text(grid: Grid, row: int, column: int) -> str:
    size = float(grid.reading[row, column])
    if np.isfinite(size):
        return np.format_float_positional(size, trim="-")
    return grid.code[row][column] or "-"


def _grid_text(grid: Grid) -> str:
    parts = [[re.fullmatch(r"([A-Za-z]+)(\d+)", one) for one in r] for r in grid.label]
    named = [[(one[1], one[2]) for one in row if one] for row in parts]
    if not named or any(len(row) != len(grid.label[0]) for row in named):
        return ""
    letters_on_top = len({one[1] for one in named[0]}) == 1
    top, side = (0, 1) if letters_on_top else (1, 0)
    lines = [",".join(["", *(one[top] for one in named[0])])]
    for i, row in enumerate(named):
        cells = [_cell_text(grid, i, j) for j in range(len(row))]
        lines.append(",".join([row[0][side], *cells]))
    return "".join(f"{line}\n" for line in lines)


def _list_text(grid: Grid) -> str:
    lines = ["can,reading"]
    for i, row in enumerate(grid.label):
        lines += [f"{one},{_cell_text(grid, i, j)}" for j, one in enumerate(row) if one]
    return "".join(f"{line}\n" for line in lines)


def _reads_back(text: str, grid: Grid) -> bool:
    read, _ = read_catch(TextFile("", text, ""))
    if read is None or read.label != grid.label:
        return False
    codes = tuple(
        tuple(
            "" if np.isfinite(size) else code or "-"
            for size, code in zip(sizes, row, strict=True)
        )
        for sizes, row in zip(grid.reading, grid.code, strict=True)
    )
    return read.code == codes and np.array_equal(
        read.reading, grid.reading, equal_nan=True
    )
