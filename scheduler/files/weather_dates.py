"""A date cell in; its day by the order the site states, or why there is none, out."""

import datetime as dt
import re
from typing import Literal

DateOrder = Literal["year-month-day", "day-month-year", "month-day-year"]

_YEAR_FIRST = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?:[T ]0?0:00(?::00)?)?$")
_YEAR_LAST = re.compile(r"(\d{1,2})([-/.])(\d{1,2})\2(\d{4})(?:[T ]0?0:00(?::00)?)?$")
_COMPACT = re.compile(r"(\d{4})(\d\d)(\d\d)$")
_SHORT = re.compile(r"\d{1,2}[-/.]\d{1,2}[-/.]\d{2}$")


def day_of(cell: str, order: DateOrder) -> dt.date | None:
    """Day that a cell holds in the stated order, or None; never a guess.

    Examples
    --------
    >>> day_of("03/04/2026", "day-month-year")
    datetime.date(2026, 4, 3)
    >>> day_of("03/04/2026", "year-month-day") is None
    True
    """
    if order == "year-month-day":
        found = _YEAR_FIRST.match(cell)
        parts = found.group(1, 3, 4) if found else None
        compact = _COMPACT.match(cell)
        if compact:
            parts = compact.groups()
    else:
        found = _YEAR_LAST.match(cell)
        parts = None
        if found:
            one, other, year = found.group(1, 3, 4)
            day_first = order == "day-month-year"
            parts = (year, other, one) if day_first else (year, one, other)
    return _day(*parts) if parts else None


def _day(year: str, month: str, day: str) -> dt.date | None:
    try:
        return dt.date(int(year), int(month), int(day))
    except ValueError:
        return None


def order_finding(cell: str, order: DateOrder) -> tuple[str, str]:
    """Say why a cell is no day in the stated order, and what to do about it."""
    if not cell:
        return "the row has no date", "enter the date, or delete the row"
    others: list[DateOrder] = ["year-month-day", "day-month-year", "month-day-year"]
    fits = {one: day_of(cell, one) for one in others if one != order}
    days = {one: day for one, day in fits.items() if day is not None}
    if len(set(days.values())) > 1:
        a, b = days["day-month-year"], days["month-day-year"]
        what = f"{cell} could be {a.day} {a:%B} or {b:%B} {b.day}"
        fix = "set date_order in the [[station]] of site.toml, or write 2026-04-03"
        return what, fix
    if days:
        one = next(iter(days))
        what = f"{cell} is not a {order} date"
        return what, f'set date_order = "{one}" in the [[station]] of site.toml'
    if _SHORT.match(cell):
        return f"{cell} has a year of two digits", "write the year with four digits"
    return f"{cell!r} is not a date that exists", "write it like 2026-05-12"
