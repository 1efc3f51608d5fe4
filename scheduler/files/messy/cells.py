"""A value of a workbook or a piece of text in; what kind of cell it is out."""

import datetime as dt
import re
from dataclasses import dataclass
from typing import Literal

from scheduler.files.catch_csv import code_of
from scheduler.files.csv_text import column_letter
from scheduler.record import Code
from scheduler.units import spelled_unit

Kind = Literal["blank", "number", "code", "word", "odd"]

_SPACES = re.compile(r"[\s\u00a0\u2007\u202f]+")
_SIZE = r"[+-]?(?:\d[\d.,']*|[.,]\d+)"
_FRACTION = r"(?:\d+\s+)?\d+\s*/\s*[1-9]\d*|\d*\s*[¼½¾⅛⅜⅝⅞⅓⅔]"
# a number, and perhaps its unit behind it
_NUMBER = re.compile(rf"({_FRACTION}|{_SIZE})\s*([A-Za-z][A-Za-z. ]*)?$")
# what people put between readings that they write into one cell
_BETWEEN = re.compile(r"[ /;|]+")
_SPACED = re.compile(r"\d{1,3}(?: \d{3})+(?:[.,]\d+)?$")
# codes written out; anything else that is no number is asked about
_SPELLED: dict[str, Code] = {
    "n/a": "-", "na": "-", "missing": "-", "none": "-", "no reading": "-", "--": "-",
    "fehlt": "-", "knocked": "k", "knocked over": "k", "tipped": "k", "spilled": "k",
    "umgefallen": "k", "leaf": "l", "blatt": "l", "overflow": "o", "overflowed": "o",
    "übergelaufen": "o",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell as it stands in the table.

    Attributes
    ----------
    row, column : int
        Where it stands, from 0.
    text : str
        What is in it, with single spaces.
    kind : {'blank', 'number', 'code', 'word', 'odd'}
        What that is; `odd` is a date, a time, yes or no, or two things in one cell.
    value : float or None
        The number, where the workbook keeps a number and not a text.
    size, unit : str
        Text of a number without its unit, and the unit behind it as typed.
    """

    row: int
    column: int
    text: str
    kind: Kind
    value: float | None = None
    size: str = ""
    unit: str = ""

    @property
    def name(self) -> str:
        """The cell as spreadsheets name it, such as `B7`."""
        return f"{column_letter(self.column)}{self.row + 1}"

    @property
    def code(self) -> Code:
        """Why there is no reading; empty where there is one."""
        if self.kind == "number":
            return ""
        return code_of(self.text) or _SPELLED.get(self.text.casefold(), "-")

    @property
    def is_reading(self) -> bool:
        """Whether a number or a code for a missing one stands here."""
        return self.kind in ("number", "code")

    @property
    def whole(self) -> int | None:
        """The whole number in the cell, or None."""
        if self.value is not None:
            return int(self.value) if self.value == int(self.value) else None
        return int(self.size) if self.size.isdigit() and not self.unit else None


def cell_of(row: int, column: int, value: object) -> Cell:
    """One cell from a value as the workbook keeps it.

    Examples
    --------
    >>> one = cell_of(6, 1, " 12,5 mL ")
    >>> one.name, one.kind, one.size, one.unit
    ('B7', 'number', '12,5', 'mL')
    """
    if isinstance(value, bool | dt.date | dt.time | dt.timedelta):
        return Cell(row, column, str(value), "odd")
    if isinstance(value, int | float):
        return Cell(row, column, f"{value:.12g}", "number", float(value))
    text = _SPACES.sub(" ", str(value)).strip().replace("−", "-")
    if code_of(text) is not None or text.casefold() in _SPELLED:
        return Cell(row, column, text, "code" if text else "blank")
    if _SPACED.match(text):
        return Cell(row, column, text, "odd")
    found = _NUMBER.match(text)
    if found and (found[2] is None or spelled_unit(found[2])):
        return Cell(
            row, column, text, "number", size=found[1].strip(), unit=found[2] or ""
        )
    return Cell(row, column, text, "odd" if _holds_two(text) else "word")


def _holds_two(text: str) -> bool:
    """Whether a text is figures and marks alone, or a name with a number behind it."""
    if not any(one.isalpha() for one in text):
        return text != "#"  # which heads a column of numbers
    if _is_run_together(text):
        return True
    *before, last = text.split()
    named = any(one.isdigit() for token in before for one in token)
    return named and last[-1].isdigit() and not last[0].isalpha()


def _is_run_together(text: str) -> bool:
    """Whether nothing but readings, their units and codes stands in one cell."""
    n_readings = 0
    for token in _BETWEEN.split(text):
        found = _NUMBER.match(token)
        if found and (found[2] is None or spelled_unit(found[2])):
            n_readings += 1
        elif code_of(token) is None and spelled_unit(token) is None:
            return False
    return n_readings > 1
