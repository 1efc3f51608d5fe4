"""The text of an untidy table in; its cells, or the question how to part them, out."""

import csv
import re
from itertools import pairwise

from scheduler.errors import Finding
from scheduler.files.messy.choices import Choices
from scheduler.files.messy.sheets import Sheet, cells_of
from scheduler.files.messy.words import role_of

Line = tuple[int, str]
_WIDE_GAP = re.compile(r"\t|\s{2,}")
_RULE = re.compile(r"[\s|:+=-]+$")
_UNIT_APART = re.compile(r"\s+(?=[(\[])|(?<=,)\s+(?=(?:ml|mm|in)\b)", re.IGNORECASE)
# a space between two cells, not the one that follows a comma
_GAP = re.compile(r"(?:\d[\w.)]*\s+|\S\s{2,})[-\d.,]+(?:\s|$)")
_DOUBTFUL = re.compile(r"\d\s*,\s*\d")
_LETTER = re.compile(r"[A-Za-z]$")


def text_sheet(
    text: str, where: str, choices: Choices
) -> tuple[Sheet | None, tuple[Finding, ...]]:
    """Part a text into cells; lines that begin with # are remarks.

    Parameters
    ----------
    text : str
        The table, with newlines as Unix writes them.
    where : str
        Its name in findings.
    choices : Choices
        The decimal sign, where the user said it.

    Returns
    -------
    sheet : Sheet or None
        None when commas can be decimal signs or ends of cells.
    findings : tuple of Finding
        A stop that asks.
    """
    all_lines = text.split("\n")
    lines = [
        (i, one)
        for i, one in enumerate(all_lines)
        if one.strip() and not one.lstrip().startswith("#")
    ]
    mark = _separator([one for _, one in lines], choices)
    parted = _parted(lines, mark)
    if mark == "," and choices.decimal is None and _could_be_decimals(lines, parted):
        first = next(line for _, line in lines if _DOUBTFUL.search(line)).strip()
        what = f"{first!r} could be cells, or numbers with a decimal comma"
        fix = f"say {choices.say('decimal', 'comma', 'point')}"
        return None, (Finding("stop", where, what, fix),)
    if mark == " ":
        parted, refused = _evened(parted, where)
        if refused:
            return None, refused
    rows: list[list[str]] = [[] for _ in all_lines]
    for i, cells in parted:
        rows[i] = cells
    return Sheet("", cells_of(rows), widths=tuple(map(len, rows))), ()


def _separator(lines: list[str], choices: Choices) -> str:
    """Mark that parts at least half of the lines; a space if there is none."""
    marks = ";\t|" if choices.decimal == "comma" else ";\t|,"
    for one in marks:
        if lines and 2 * sum(one in line for line in lines) >= len(lines):
            return " " if one == "," and _has_gaps(lines) else one
    return " "


def _has_gaps(lines: list[str]) -> bool:
    """Whether spaces part the numbers, so that commas are signs inside them."""
    numbers = [line for line in lines if _has_digit(line)]
    gaps = [_GAP.search(line.strip()) for line in numbers]
    return any(gaps) and sum(map(bool, gaps)) * 2 >= len(numbers)


def _parted(lines: list[Line], mark: str) -> list[tuple[int, list[str]]]:
    if mark == " ":
        return _with_corners(lines, _by_spaces(lines))
    if mark == "|":
        rows = [(i, line) for i, line in lines if not _RULE.match(line)]
        return [(i, line.strip().strip("|").split("|")) for i, line in rows]
    cells = list(csv.reader((line for _, line in lines), delimiter=mark, strict=False))
    if len(cells) != len(lines):  # a stray quote swallows lines
        cells = [line.split(mark) for _, line in lines]
    return [(i, row) for (i, _), row in zip(lines, cells, strict=True)]


def _by_spaces(lines: list[Line]) -> list[tuple[int, list[str]]]:
    """Cells between wide gaps where these agree, else between single spaces."""
    wide = [(i, _WIDE_GAP.split(line.strip())) for i, line in lines]
    counts = [len(cells) for _, cells in wide if any(map(_has_digit, cells))]
    if counts and min(counts) > 1 and not any(
        one.replace(" ", "").isdigit() and " " in one for _, row in wide for one in row
    ):  # fmt: skip
        return wide
    narrow = [(i, _UNIT_APART.sub("\u00a0", line.strip()).split(" ")) for i, line in
              lines]  # fmt: skip
    parted = [(i, [one for one in cells if one]) for i, cells in narrow]
    body = [len(cells) for _, cells in parted if all(map(_has_digit, cells))]
    width = max(set(body), key=body.count) if body else 0
    # a line of words of another length is a title, and one cell
    return [
        (i, cells if len(cells) == width or any(map(_has_digit, cells)) else
         [" ".join(cells)])
        for i, cells in parted
    ]  # fmt: skip


def _with_corners(
    lines: list[Line], parted: list[tuple[int, list[str]]]
) -> list[tuple[int, list[str]]]:
    """A header that stands further in than its table has a blank corner before it."""
    parted = [(i, [one.strip('"') for one in row]) for i, row in parted]
    indent = {i: len(line) - len(line.lstrip()) for i, line in lines}
    least = min((indent[i] for i, line in lines if _has_digit(line)), default=0)
    return [
        (i, ["", *row])
        if len(row) > 1 and indent[i] > least and not any(map(_has_digit, row))
        else (i, row)
        for i, row in parted
    ]


def _evened(
    parted: list[tuple[int, list[str]]], where: str
) -> tuple[list[tuple[int, list[str]]], tuple[Finding, ...]]:
    """Lines parted by spaces, if none can lack a cell; a blank cannot be seen there."""
    body = [(i, row) for i, row in parted if _has_digit(row[-1])]
    widths = [len(row) for _, row in body]
    usual = max(set(widths), key=widths.count) if widths else 0
    first = next((i for i, row in body if len(row) == usual), 0)
    heads = [(i, row) for i, row in parted if i < first and len(row) > 1]
    even = []
    for i, row in parted:
        is_head = bool(heads) and i == heads[-1][0]
        if is_head and len(row) == usual - 1 and row[0]:
            even.append((i, ["", *row]))  # its corner is blank
        elif len(row) != usual and (is_head or (i > first and len(row) > 1)):
            what = f"has {len(row)} cells, line {first + 1} has {usual}"
            fix = "write - in the places where no can stood, or ; between the cells"
            return [], (Finding("stop", f"{where}:{i + 1}", what, fix),)
        else:
            even.append((i, row))
    return even, ()


def _has_digit(text: str) -> bool:
    return any(one.isdigit() for one in text)


# --- commas -------------------------------------------------------------------


def _is_whole(cells: list[str]) -> bool:
    """Whether a line holds whole numbers only, as halved decimals would."""
    return len(cells) > 1 and all(one.strip().isdigit() for one in cells)


def _could_be_decimals(lines: list[Line], parted: list[tuple[int, list[str]]]) -> bool:
    # a name may stand before the first number, parted by a space
    last = [[*cells[0].split()[-1:], *cells[1:]] for _, cells in parted if cells]
    body = [cells for cells in last if _is_whole(cells)]
    numbers = [line for _, line in lines if _has_digit(line) and "," in line]
    if not body or all(", " in line for line in numbers) or '"' in "".join(numbers):
        return False
    width = max(map(len, body))
    above = [cells for _, cells in parted if not any(map(_has_digit, cells))]
    if any(len(cells) == width and _names_columns(cells) for cells in above):
        return False
    if above:
        return True
    rows = [cells for cells in body if len(cells) == width]
    return any(_is_halved([cells[start:] for cells in rows]) for start in (0, 1))


def _is_halved(rows: list[list[str]]) -> bool:
    if any(len(row) % 2 or not row for row in rows):
        return False
    left = {len(one.strip()) for row in rows for one in row[::2]}
    right = {len(one.strip()) for row in rows for one in row[1::2]}
    return right in ({1}, {3}) or (right == {2} and max(left) == 1)


def _names_columns(cells: list[str]) -> bool:
    """Whether a line of words has one name for each column, as a header has."""
    names = [one.strip() for one in cells]
    if role_of(names[0]) in ("can", "row", "column"):
        return True
    letters = [one for one in names if one]
    return (
        len(letters) > 1
        and all(_LETTER.match(one) for one in letters)
        and all(ord(b) == ord(a) + 1 for a, b in pairwise(letters))
    )
