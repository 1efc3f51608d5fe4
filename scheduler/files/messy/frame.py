"""The cells of a sheet in; its header, its body and what stands around them out."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from scheduler.files.messy.cells import Cell
from scheduler.files.messy.sheets import Sheet, Span
from scheduler.files.messy.words import is_run, is_total, role_of, unit_in

Line = tuple[Cell, ...]

_ID = re.compile(r"([A-Za-z]{0,12})[ .#_-]*(\d{1,4})([A-Za-z]?)$|R\d{1,3}C\d{1,3}$")


@dataclass(frozen=True, slots=True)
class Frame:
    """Where things stand in a sheet.

    Attributes
    ----------
    head : tuple of lines
        Header rows, the lowest last.
    body : tuple of lines
        Rows of readings, blank ones between them included.
    totals : tuple of lines
        Rows that a word marks as sums, means and the like.
    above, below : tuple of lines
        Titles, notes and settings, which are not read.
    is_turned : bool
        Whether rows and columns were exchanged, since the cans stand along a row.
    second : Line or None
        A row of words between readings, as if a second table began.
    merged : tuple
        Merged cells, in the directions of this frame.
    """

    head: tuple[Line, ...]
    body: tuple[Line, ...]
    totals: tuple[Line, ...] = ()
    above: tuple[Line, ...] = ()
    below: tuple[Line, ...] = ()
    is_turned: bool = False
    second: Line | None = None
    merged: tuple[Span, ...] = field(default=())


def id_kind(text: str) -> str | None:
    """How a can is named: with a number, as in `A1`, `can 7` or `12`; else None.

    Examples
    --------
    >>> id_kind("A1"), id_kind("can 7"), id_kind("12"), id_kind("north")
    ('letter', 'can', 'number', None)
    """
    found = _ID.match(text)
    if not found or is_run(text) or is_total(text):
        return None
    word = (found[1] or "").casefold()
    if found[1] is None:
        return "rc"
    return "letter" if len(word) in (1, 2) else word or "number"


def framed(sheet: Sheet) -> Frame:
    """Find header and body of a sheet.

    Parameters
    ----------
    sheet : Sheet
        The cells.

    Returns
    -------
    Frame
        Its body is empty when there is no row of readings.
    """
    lines, merged, is_turned = sheet.cells, sheet.merged, False
    if _stands_along_rows(lines):
        lines, is_turned = tuple(zip(*lines, strict=True)), True
        merged = tuple(((a, b), (c, d)) for (b, a), (d, c) in merged)
    totals = tuple(line for line in lines if _is_total(line))
    lines = tuple(line for line in lines if not _is_total(line))
    lines = _without_blank_columns(lines)
    last = max((i for i, line in enumerate(lines) if _holds(lines, i)), default=-1)
    heads = [i for i in range(last + 1) if _is_words(lines, i)]
    start = heads[-1] + 1 if heads else 0
    second = _second(lines[:start], lines[start : last + 1]) if heads else None
    first = start
    while first and first - 1 in heads:
        first -= 1
    body = lines[start : last + 1]
    while body and not _cells(body[0]):
        body = body[1:]
    head = lines[first:start]
    if _is_numbered_head(body):
        head, body = (*head, body[0]), body[1:]
    return Frame(
        head=head,
        body=body,
        totals=totals,
        above=tuple(filter(_cells, lines[:first])),
        below=tuple(filter(_cells, lines[last + 1 :])),
        is_turned=is_turned,
        second=second,
        merged=merged,
    )


def _cells(line: Sequence[Cell]) -> list[Cell]:
    return [one for one in line if one.kind != "blank"]


def _is_total(line: Line) -> bool:
    """Whether a row holds a word for a total, and nothing but figures beside it."""
    cells = _cells(line)
    words = [one for one in cells if one.kind == "word"]
    if not words or words[0] is not cells[0] or not is_total(words[0].text):
        return False
    beside = [one for one in cells if one not in words]
    if not beside and not any(one.isdigit() for word in words for one in word.text):
        return len(cells) == 1 or (is_total(cells[0].text) and len(words) == 1)
    return all(is_total(one.text) or unit_in(one.text) for one in words) and all(
        one.kind in ("number", "odd") for one in beside
    )


def _stands_along_rows(lines: tuple[Line, ...]) -> bool:
    """Whether readings stand along rows, each behind the word that heads it."""
    long = [
        cells
        for cells in map(_cells, lines)
        if sum(one.is_reading for one in cells) > 2
    ]
    long = [cells for cells in long if not _is_counting(cells)]
    return any(_heads_readings(cells[0]) for cells in long) and all(
        cells[0].kind == "word"
        and (_heads_readings(cells[0]) or role_of(cells[0].text)
             or is_total(cells[0].text))
        for cells in long
    )  # fmt: skip


def _is_counting(cells: list[Cell]) -> bool:
    """Whether a row holds 1, 2, 3 and perhaps words for totals: it names the cans."""
    numbers = [one for one in cells if one.kind == "number"]
    words = [one for one in cells if one.kind != "number"]
    return runs_of_numbers(numbers) and all(is_total(one.text) for one in words)


def _heads_readings(cell: Cell) -> bool:
    if cell.kind != "word" or is_total(cell.text):
        return False
    units = ("ml", "fl_oz", "imp_fl_oz", "mm", "in")
    named = role_of(cell.text) == "reading" or is_run(cell.text)
    return named or unit_in(cell.text) in units


def _is_numbered_head(body: tuple[Line, ...]) -> bool:
    """Whether the first row counts the columns of a grid, behind a corner."""
    if len(body) < 2:
        return False
    corner, *rest = body[0]
    numbers = [one for one in rest if one.kind != "blank"]
    if len(numbers) < 2 or not runs_of_numbers(numbers):
        return False
    if corner.kind == "word":
        return id_kind(corner.text) is None and not _heads_readings(corner)
    below = [line[0] for line in body[1:] if line[0].kind != "blank"]
    named = all(id_kind(one.text) or (len(one.text) <= 2 and one.text.isalpha())
                for one in below)  # fmt: skip
    is_counted = all(one.kind != "number" for one in below) or runs_of_numbers(below)
    return corner.kind == "blank" and bool(below) and named and is_counted


def _without_blank_columns(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    used = [any(one.kind != "blank" for one in column)
            for column in zip(*lines, strict=True)]  # fmt: skip
    return tuple(
        tuple(one for one, is_used in zip(line, used, strict=True) if is_used)
        for line in lines
    )


def _is_words(lines: tuple[Line, ...], i: int) -> bool:
    """Whether a row is a header or title: words, and no number beside a can's name."""
    cells = _cells(lines[i])
    if any(one.kind == "number" for one in cells):
        return False
    words = [one for one in cells if one.kind == "word"]
    return bool(words) and not _is_unread_can(lines, i, cells[0])


def _is_unread_can(lines: tuple[Line, ...], i: int, first: Cell) -> bool:
    """Whether a row without a number is a can like those around it."""
    kind = id_kind(first.text)
    if kind is None or first.kind != "word":
        return False
    place = lines[i].index(first)
    return any(
        id_kind(line[place].text) == kind
        and any(one.kind == "number" for one in line[place + 1 :])
        for j, line in enumerate(lines)
        if j != i
    )


def _holds(lines: tuple[Line, ...], i: int) -> bool:
    """Whether a row holds a number, a code or a can; words alone are notes."""
    cells = _cells(lines[i])
    if any(one.kind in ("number", "odd") for one in cells):
        return True
    if any(one.kind == "word" for one in cells):
        return _is_unread_can(lines, i, cells[0])
    return any(one.kind == "code" for one in cells)


def _second(lines: tuple[Line, ...], below: tuple[Line, ...]) -> Line | None:
    """First row of readings above the last header: then there are two tables."""
    full = [line for line in lines if any(one.kind == "number" for one in line)]
    n_below = sum(any(one.kind == "number" for one in line) for line in below)
    if len(full) > n_below:
        return full[0]
    for line in lines:
        cells = _cells(line)
        numbers = [one for one in cells if one.kind == "number"]
        if not numbers:
            continue
        is_setting = cells[0].kind == "word" and id_kind(cells[0].text) is None
        if not is_setting or len(numbers) > 2:
            return line
    return None


def runs_of_numbers(cells: Sequence[Cell]) -> bool:
    """Whether cells count 1, 2, 3 (or down, or from another number) as names do."""
    whole = [one.whole for one in cells]
    if len(whole) < 2 or None in whole:
        return False
    steps = {b - a for a, b in _pairs(whole)}
    first = whole[0] or 0
    if len(whole) == 2:
        return whole in ([1, 2], [2, 1])
    return steps in ({1}, {-1}) or (min(steps) > 0 and first in (0, 1))


def _pairs(whole: Sequence[int | None]) -> Iterator[tuple[int, int]]:
    for a, b in pairwise(whole):
        if a is not None and b is not None:
            yield a, b
