"""Date and time cells of a wind log in; stamps and their offsets out."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, DateArray, IntArray
from scheduler.errors import Finding
from scheduler.files.csv_text import Row
from scheduler.files.weather_dates import DateOrder, day_of, order_finding
from scheduler.files.wind_columns import words_of

_STAMP_NAMES = {
    "timestamp", "time stamp", "date time", "datetime", "date and time", "stamp",
    "date time utc", "utc", "date hour", "local time", "timestamp utc", "time utc",
}  # fmt: skip
_DATE_NAMES = {"date", "day date", "datum", "local date", "date utc"}
_TIME_NAMES = {"time", "clock", "clock time", "hour minute", "time of day", "time utc"}
_PART_NAMES = {
    "year": ("year", "yr", "yyyy"),
    "month": ("month", "mon", "mo", "mm"),
    "day": ("day", "dd", "day of month"),
    "hour": ("hour", "hr", "hh", "hours"),
    "minute": ("minute", "min", "minutes"),
}
_UTC = re.compile(r"\b(?:utc|gmt|zulu)\b", re.IGNORECASE)
_TIME = re.compile(
    r"(\d{1,2}):(\d\d)(?::(\d\d)(?:[.,]\d*)?)?\s*(?:([ap])\.?m\.?)?\s*"
    r"(z|utc|gmt|[-+−]\d\d:?\d\d)?$",
    re.IGNORECASE,
)
_DAY_S = 86_400
_NO_OFFSET = np.iinfo(np.int64).min


@dataclass(frozen=True, slots=True)
class StampColumns:
    """Columns that hold the stamp: `(stamp,)`, `(date, time)`, or its five parts.

    `says_utc` is the header that names UTC as the clock, or empty.
    """

    index: tuple[int | None, ...]
    says_utc: str = ""

    @property
    def taken(self) -> set[int]:
        """Columns that hold no wind."""
        return {one for one in self.index if one is not None}


@dataclass(frozen=True, slots=True, eq=False)
class Stamps:
    """Stamps as written, in the order of the file.

    Attributes
    ----------
    stamp : array of shape (n_rows,)
        NaT where a cell is no date and time. [datetime64[s]]
    offset_s : array of shape (n_rows,)
        Seconds ahead of UTC that the stamp itself states; see `has_offset`.
    has_offset : array of shape (n_rows,)
        Whether the stamp states an offset.
    """

    stamp: DateArray
    offset_s: IntArray
    has_offset: BoolArray


def stamp_columns(headers: Sequence[str]) -> StampColumns | None:
    """Columns of a header that hold date and time, or None if it names none.

    Examples
    --------
    >>> stamp_columns(["Date", "Time (UTC)", "Wind (m/s)"]).index
    (0, 1)
    """
    index = _stamp_index([words_of(one) for one in headers])
    if index is None:
        return None
    texts = [headers[one] for one in index if one is not None]
    says = next((one for one in texts if _UTC.search(one.replace("_", " "))), "")
    return StampColumns(index, says)


def _stamp_index(names: list[str]) -> tuple[int | None, ...] | None:
    first = {name: names.index(name) for name in names}
    stamp = next((first[one] for one in names if one in _STAMP_NAMES), None)
    if stamp is not None and not any(one in _DATE_NAMES for one in names):
        return (stamp,)
    date = next((first[one] for one in names if one in _DATE_NAMES), None)
    if date is not None:
        hours = {*_TIME_NAMES, *_PART_NAMES["hour"]}
        time = next((first[one] for one in names if one in hours), None)
        return (date,) if time is None else (date, time)
    parts = tuple(
        next((first[one] for one in spelled if one in first), None)
        for spelled in _PART_NAMES.values()
    )
    if None not in parts[:4]:
        return parts
    alone = next((first[one] for one in names if one in _TIME_NAMES), None)
    return None if alone is None else (alone,)


def stamps_of(columns: StampColumns, rows: Sequence[Row], order: DateOrder) -> Stamps:
    """Stamps of the rows; every distinct text is read once.

    Parameters
    ----------
    columns : StampColumns
        Where they stand.
    rows : sequence of Row
        Rows under the header.
    order : str
        Order of day, month and year.

    Returns
    -------
    Stamps
        NaT where a cell is no date and time in that order.
    """
    if len(columns.index) > 2:
        return _from_parts([_cells(rows, one) for one in columns.index])
    if len(columns.index) == 2:
        days, times = (_cells(rows, one) for one in columns.index)
    else:
        split = [_day_and_time(cell) for cell in _cells(rows, columns.index[0])]
        days, times = [one[0] for one in split], [one[1] for one in split]
    day_s = _each_once(days, lambda cell: _day_s(cell, order))
    read = {one: _time_s(one) for one in set(times)}
    time_s = _each_once(times, lambda cell: read[cell][0])
    offset_s = _each_once(times, lambda cell: read[cell][1])
    return _stamps(day_s, time_s, offset_s)


def _day_and_time(cell: str) -> tuple[str, str]:
    """Text of the day and of the time in one cell, without patterns for speed.

    Examples
    --------
    >>> _day_and_time("2026-05-12T06:10Z"), _day_and_time("12/05/2026 6:10 PM")
    (('2026-05-12', '06:10Z'), ('12/05/2026', '6:10 PM'))
    """
    day, _, time = cell.partition("T" if "T" in cell[:11] else " ")
    return day, time.strip()


def _cells(rows: Sequence[Row], index: int | None) -> list[str]:
    if index is None:
        return ["0"] * len(rows)
    return [row.cells[index] if index < len(row.cells) else "" for row in rows]


def _each_once(cells: list[str], read: Callable[[str], int | None]) -> IntArray:
    known = {cell: read(cell) for cell in set(cells)}
    marked = {cell: _NO_OFFSET if one is None else one for cell, one in known.items()}
    return np.fromiter((marked[cell] for cell in cells), np.int64, len(cells))


def _day_s(cell: str, order: DateOrder) -> int | None:
    day = day_of(cell, order)
    return None if day is None else (day.toordinal() - 719_163) * _DAY_S


def _time_s(cell: str) -> tuple[int | None, int | None]:
    """Seconds since midnight and stated offset of a time such as `6:10 PM` or `10:10Z`.

    Examples
    --------
    >>> _time_s("6:10 PM"), _time_s("10:10:30+01:00")
    ((65400, None), (36630, 3600))
    """
    found = _TIME.match(cell)
    if found is None:
        return _bare_hour_s(cell), None
    hour, minute, second = int(found[1]), int(found[2]), int(found[3] or 0)
    half = (found[4] or "").casefold()
    if half:
        if not 1 <= hour <= 12:
            return None, None
        hour = hour % 12 + (12 if half == "p" else 0)
    seconds = 3600 * hour + 60 * minute + second
    # 24:00 is the midnight that ends a day
    if minute > 59 or second > 59 or seconds > _DAY_S:
        return None, None
    return seconds, _offset_s(found[5])


def _bare_hour_s(cell: str) -> int | None:
    is_hour = cell.isdecimal() and len(cell) <= 2 and int(cell) <= 24
    return 3600 * int(cell) if is_hour else None


def _offset_s(text: str | None) -> int | None:
    if text is None:
        return None
    if text[0] not in "+-−":
        return 0
    size = 3600 * int(text[1:3]) + 60 * int(text[-2:])
    return size if text[0] == "+" else -size


def _from_parts(parts: list[list[str]]) -> Stamps:
    read = [_each_once(one, _whole) for one in parts]
    year, month, day, hour, minute = read
    joined = [f"{y}-{m}-{d}" for y, m, d in zip(*(parts[:3]), strict=True)]
    # 2013,1,1,7,30: months and days without leading zeros
    day_s = _each_once(joined, lambda cell: _day_s(cell, "year-month-day"))
    known = (year >= 0) & (month >= 0) & (day >= 0) & (hour >= 0) & (minute >= 0)
    known &= (hour <= 24) & (minute <= 59)
    clock = np.where(known, 3600 * hour + 60 * minute, _NO_OFFSET)
    return _stamps(day_s, clock, np.full(clock.size, _NO_OFFSET))


def _whole(cell: str) -> int | None:
    plain = cell.removesuffix(".0")
    return int(plain) if plain.isdecimal() else None


def _stamps(day_s: IntArray, time_s: IntArray, offset_s: IntArray) -> Stamps:
    known = (day_s != _NO_OFFSET) & (time_s != _NO_OFFSET)
    stamp = np.where(known, day_s, 0) + np.where(known, time_s, 0)
    written = stamp.astype("datetime64[s]")
    written[~known] = np.datetime64("NaT")
    has_offset = offset_s != _NO_OFFSET
    return Stamps(written, np.where(has_offset, offset_s, 0), has_offset)


def refused_finding(
    columns: StampColumns,
    rows: Sequence[Row],
    refused: BoolArray,
    at: tuple[str, DateOrder],
) -> Finding:
    """Say which stamps could not be read, and what to do about it.

    Parameters
    ----------
    columns : StampColumns
        Where the stamps stand.
    rows : sequence of Row
        Rows under the header.
    refused : array of shape (n_rows,)
        Rows without a stamp.
    at : tuple of str
        The file, and the order of day, month and year.
    """
    where, order = at
    index = np.flatnonzero(refused)
    row = rows[int(index[0])]
    cells = [_cells([row], one)[0] for one in columns.index if one is not None]
    typed = " ".join(cells)
    day, time = _day_and_time(typed)
    if time and len(cells) < 3 and day_of(day, order) is None:
        what, fix = order_finding(day, order)
        fix = fix.replace(" in the [[station]] of site.toml", " for this wind file")
    else:
        what = f"{typed!r} is not a date and a time"
        fix = "write it like 2026-05-12 06:10, in one column or two"
    if index.size > 1:
        what += f" ({index.size - 1} more rows like this)"
    return Finding("stop", f"{where}:{row.line}: time", f"{what}; row left out", fix)
