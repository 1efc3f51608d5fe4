"""Cells of one column in; their numbers, by one decimal sign, or a question out."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from scheduler.errors import Finding
from scheduler.files.messy.cells import Cell
from scheduler.files.messy.choices import Choices, Decimal
from scheduler.units import number

Sense = Literal["plain", "comma", "point", "comma?", "point?", "wrong"]

# by comma: 10,5 and 1.250,5; by point: 10.5 and 1,250.5; with ? if it can be both
_SENSES: tuple[tuple[Sense, re.Pattern[str]], ...] = (
    ("plain", re.compile(r"\d+$")),
    ("comma?", re.compile(r"[1-9]\d{0,2},\d{3}$")),
    ("point?", re.compile(r"[1-9]\d{0,2}\.\d{3}$")),
    ("comma", re.compile(r"(?:\d*,\d+|\d+,|[1-9]\d{0,2}(?:\.\d{3})+,\d+)$")),
    ("point", re.compile(r"(?:\d*\.\d+|\d+\.|[1-9]\d{0,2}(?:,\d{3})+\.\d+)$")),
    ("point", re.compile(r"[1-9]\d{0,2}(?:,\d{3}){2,}$")),
    ("comma", re.compile(r"[1-9]\d{0,2}(?:\.\d{3}){2,}$")),
)
_FRACTION = re.compile(r"[/¼½¾⅛⅜⅝⅞⅓⅔]")


@dataclass(frozen=True, slots=True)
class Numbers:
    """Values of cells, in their order; the sign is None where none was needed."""

    values: tuple[float, ...]
    sign: Decimal | None


def sense_of(size: str) -> Sense:
    """Which decimal sign the text of a number can only have been written with.

    Examples
    --------
    >>> sense_of("10,5"), sense_of("1,250"), sense_of("1.250,5"), sense_of("52")
    ('comma', 'comma?', 'comma', 'plain')
    """
    bare = size.lstrip("+-").replace("'", "")
    return next((name for name, form in _SENSES if form.match(bare)), "wrong")


def numbers_of(
    cells: Sequence[Cell], choices: Choices, where: str
) -> tuple[Numbers | None, tuple[Finding, ...]]:
    """Read the numbers of one column.

    Parameters
    ----------
    cells : sequence of Cell
        Cells that hold numbers.
    choices : Choices
        The decimal sign, where the user said it.
    where : str
        File and sheet for findings.

    Returns
    -------
    numbers : Numbers or None
        None when a number can be read in two ways.
    findings : tuple of Finding
        Stops that name cell, value and the choice.
    """
    senses = {one: sense_of(one.size) for one in cells
              if one.value is None and not _FRACTION.search(one.size)}  # fmt: skip
    wrong = [one for one, sense in senses.items() if sense == "wrong"]
    if wrong:
        fix = "write it with digits and one decimal sign"
        return None, tuple(
            Finding("stop", f"{where}: cell {one.name}", f"{one.text!r} is no number",
                    fix) for one in wrong
        )  # fmt: skip
    sign, doubt = _sign(senses, choices, where)
    if doubt is not None:
        return None, (doubt,)
    return Numbers(tuple(_value(one, sign) for one in cells), sign), ()


def _sign(
    senses: dict[Cell, Sense], choices: Choices, where: str
) -> tuple[Decimal | None, Finding | None]:
    found = {sense: cell for cell, sense in reversed(senses.items())}
    found.pop("plain", None)
    if not found:
        return None, None
    commas = found.get("comma") or found.get("comma?")
    points = found.get("point") or found.get("point?")
    if choices.decimal is not None:
        against = found.get("point" if choices.decimal == "comma" else "comma")
        doubt = _against(against, choices, where) if against else None
        return choices.decimal, doubt
    if commas and points:
        what = (
            f"is {commas.text}, and {points.name} is {points.text}: two decimal signs"
        )
        fix = f"write both alike, or say {choices.say('decimal', 'comma', 'point')}"
        return None, Finding("stop", f"{where}: cell {commas.name}", what, fix)
    if "comma" in found or "point" in found:
        return ("comma" if "comma" in found else "point"), None
    unsure = commas or points
    assert unsure is not None
    return None, _two_ways(unsure, choices, where)


def _against(cell: Cell, choices: Choices, where: str) -> Finding:
    what = f"{cell.text!r} has no decimal {choices.decimal}"
    said = choices.say("decimal", choices.decimal or "")
    fix = f"correct the cell, or leave out {said}"
    return Finding("stop", f"{where}: cell {cell.name}", what, fix)


def _two_ways(cell: Cell, choices: Choices, where: str) -> Finding:
    mark = "," if "," in cell.size else "."
    part, whole = cell.size.replace(mark, "."), cell.size.replace(mark, "")
    first, second = ("comma", "point") if mark == "," else ("point", "comma")
    what = f"{cell.text!r} could be {part} or {whole}"
    fix = f"say {choices.say('decimal', first)} for {part}, "
    fix += f"{choices.say('decimal', second)} for {whole}"
    return Finding("stop", f"{where}: cell {cell.name}", what, fix)


def _value(cell: Cell, sign: Decimal | None) -> float:
    if cell.value is not None:
        return cell.value
    if _FRACTION.search(cell.size):
        return number(cell.size)[0]
    decimal, thousands = (",", ".") if sign == "comma" else (".", ",")
    bare = cell.size.replace("'", "").replace(thousands, "")
    return float(bare.replace(decimal, "."))


def figure(cell: Cell, sign: Decimal | None) -> float | None:
    """Number in a cell beside the readings, such as a total; None if it is not clear.

    Examples
    --------
    >>> from scheduler.files.messy.cells import cell_of
    >>> figure(cell_of(22, 1, "236,7"), "comma")
    236.7
    """
    if cell.kind != "number":
        return None
    against = "point" if sign == "comma" else "comma"
    if cell.value is None and sense_of(cell.size) in (against, "wrong"):
        return None
    return _value(cell, sign)
