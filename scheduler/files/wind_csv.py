"""The text of a wind logger's table in; its rows in SI-style units and UTC out."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import DateArray, FloatArray, frozen
from scheduler.errors import Finding
from scheduler.field.wind import (
    Mark,
    WindLog,
    checked,
    clock_findings,
    interval_starts,
    read_clock,
)
from scheduler.files.csv_text import PLAIN, Row, Table, no_header, table_of
from scheduler.files.text_file import TextFile
from scheduler.files.weather_cells import column_values
from scheduler.files.weather_columns import Column
from scheduler.files.weather_dates import DateOrder
from scheduler.files.wind_columns import COMPASS_DEG, WindColumns, wind_columns
from scheduler.files.wind_stamps import (
    StampColumns,
    Stamps,
    refused_finding,
    stamp_columns,
    stamps_of,
)

_HEADER_LINES = 25
_ROWS_BELOW = 20
_LONGEST_INTERVAL_MIN = 24 * 60
# numbers from here down may be what a logger writes for "nothing measured"
_MARKS = -99.0
# cells of a column of compass names that say there is no direction
_NO_DIRECTION = ("", "-", "--", "---", "NA", "N/A", "CALM", "NONE")


@dataclass(frozen=True, slots=True)
class WindFileOptions:
    """What a reader must know of a logger file and the file does not say.

    Attributes
    ----------
    clock : str
        `local`, `standard` (local without daylight time), `utc`, or a fixed offset
        such as `+01:00`.
    mark : {'start', 'end'}
        Which end of its interval a stamp marks.
    interval_min : float or None
        Length of an interval; None takes the usual step, and says so. [min]
    height_m : float or None
        Height of the sensor above the ground. [m]
    date_order : str
        Order of day, month and year.
    clock_is_confirmed : bool
        Somebody compared the logger with a watch.
    """

    clock: str
    mark: Mark
    interval_min: float | None = None
    height_m: float | None = None
    date_order: DateOrder = "year-month-day"
    clock_is_confirmed: bool = False


@dataclass(frozen=True, slots=True)
class _Rows:
    """Rows with a stamp, and how their cells are read."""

    where: str
    rows: Sequence[Row]
    stamps: Stamps
    columns: WindColumns
    comma_is_decimal: bool
    says_utc: str


def read_wind_log(
    file: TextFile, options: WindFileOptions, *, time_zone: str, name: str = ""
) -> tuple[WindLog | None, tuple[Finding, ...]]:
    """Read the table of one wind logger.

    Parameters
    ----------
    file : TextFile
        The table: a header with units, one row an interval.
    options : WindFileOptions
        Clock, mark, interval and height.
    time_zone : str
        Zone of the site.
    name : str
        The logger; the file's own name if empty.

    Returns
    -------
    log : WindLog or None
        Checked rows in order of time; None when their time or speed is not known.
    findings : tuple of Finding
        What could not be read and what was left out; the log carries them as well.
    """
    read, said = _table(file, options.date_order)
    if read is None:
        return None, said
    interval_s, more = _interval_s(read, options.interval_min)
    said += more
    if interval_s is None:
        return None, said
    utc, clock, more = _utc(read, options, (time_zone, interval_s))
    said += more
    if utc is None:
        return None, said
    values, more = _values(read)
    said += more
    kept = np.flatnonzero(~np.isnat(utc))
    nothing = np.full(utc.size, np.nan)
    lines = np.array([row.line for row in read.rows], dtype=np.int64)
    log = WindLog(
        start_utc=frozen(
            interval_starts(utc[kept], options.mark, interval_s), "datetime64[s]"
        ),
        interval_s=interval_s,
        speed_m_per_s=frozen(values["speed_m_per_s"][kept]),
        gust_m_per_s=frozen(values.get("gust_m_per_s", nothing)[kept]),
        direction_deg=frozen(values.get("direction_deg", nothing)[kept]),
        height_m=options.height_m,
        name=name or file.where.rpartition("/")[2],
        where=file.where,
        findings=said,
        clock=clock,
        time_zone=time_zone,
        # an offset in the stamps is no guess of ours
        clock_is_confirmed=options.clock_is_confirmed
        or bool(read.stamps.has_offset.all()),
        line=frozen(lines[kept], np.int64),
        unit=read.columns.speed_unit,
    )
    log = checked(log)
    return log, log.findings


def _table(
    file: TextFile, order: DateOrder
) -> tuple[_Rows | None, tuple[Finding, ...]]:
    table = table_of(file.text)
    at, stamped = _header(table)
    if at is None or stamped is None:
        wanted = "that names date and time and a wind column"
        example = "date,time,wind speed (m/s)"
        return None, (no_header(file.where, table, wanted, example),)
    head = table.rows[at]
    place = f"{file.where}:{head.line}"
    headers = ["" if i in stamped.taken else cell for i, cell in enumerate(head.cells)]
    below = [row.cells for row in table.rows[at + 1 : at + 1 + _ROWS_BELOW]]
    columns = wind_columns(headers, below, place)
    said = columns.findings
    if at:
        what = f"the {at} lines above the header are not read"
        said = (Finding("note", place, what, "put # before remarks"), *said)
    if all(one.field != "speed_m_per_s" for one in columns.columns):
        if not any(one.level == "stop" for one in said):
            fix = "name a column wind speed (m/s), with its unit"
            what = "has no wind speed column"
            said = (*said, Finding("stop", place, what, fix))
        return None, said
    rows = table.rows[at + 1 + columns.has_unit_row :]
    stamps = stamps_of(stamped, rows, order)
    refused = np.isnat(stamps.stamp)
    if refused.any():
        finding = refused_finding(stamped, rows, refused, (file.where, order))
        said = (*said, finding)
    if refused.all():
        fix = "check the file; a log has one row an interval under its header"
        nothing = Finding("stop", file.where, "has no row with a date and time", fix)
        return None, said if rows else (*said, nothing)
    kept = [row for row, no in zip(rows, refused, strict=True) if not no]
    stamps = Stamps(
        stamps.stamp[~refused], stamps.offset_s[~refused], stamps.has_offset[~refused]
    )
    comma = table.comma_is_decimal
    return _Rows(file.where, kept, stamps, columns, comma, stamped.says_utc), said


def _header(table: Table) -> tuple[int | None, StampColumns | None]:
    """Row of the header, and its columns of date and time."""
    for i, row in enumerate(table.rows[:_HEADER_LINES]):
        found = stamp_columns(row.cells) if len(row.cells) > 1 else None
        if found is not None:
            return i, found
    return None, None


# --- time --------------------------------------------------------------------


def _interval_s(
    read: _Rows, stated_min: float | None
) -> tuple[float | None, tuple[Finding, ...]]:
    place = f"{read.where}: interval_min"
    if stated_min is not None:
        if 0 < stated_min <= _LONGEST_INTERVAL_MIN:
            return 60.0 * stated_min, ()
        what = f"is {stated_min:g}"
        fix = "state the minutes from one row to the next, above 0 and at most 1440"
        return None, (Finding("stop", place, what, fix),)
    utc_s = read.stamps.stamp.astype(np.int64) - read.stamps.offset_s
    # rows may stand newest first
    steps = np.abs(np.diff(utc_s))
    sizes, counts = np.unique(steps[steps > 0], return_counts=True)
    if not sizes.size or sizes[np.argmax(counts)] > 60 * _LONGEST_INTERVAL_MIN:
        what = "is not stated, and the rows do not show it"
        fix = "state interval_min, the minutes from one row to the next"
        return None, (Finding("stop", place, what, fix),)
    usual_s = float(sizes[np.argmax(counts)])
    what = f"is not stated; {usual_s / 60:g} min, the usual step, is taken"
    fix = f"state interval_min = {usual_s / 60:g} if it is right"
    return usual_s, (Finding("note", place, what, fix),)


def _utc(
    read: _Rows, options: WindFileOptions, at: tuple[str, float]
) -> tuple[DateArray | None, str, tuple[Finding, ...]]:
    """Moments of the stamps, and the clock that they were read with."""
    time_zone, step_s = at
    stamps = read.stamps
    if stamps.has_offset.any():
        utc = stamps.stamp - stamps.offset_s.astype("timedelta64[s]")
        if stamps.has_offset.all():
            return utc, "utc", _declared_in_vain(read, options)
        row = read.rows[int(np.argmin(stamps.has_offset))]
        what = "this row states no offset from UTC, while others do"
        fix = "write all stamps with an offset, or all without"
        return None, "", (Finding("stop", f"{read.where}:{row.line}: time", what, fix),)
    reading = read_clock(
        stamps.stamp, options.clock, time_zone=time_zone, step_s=step_s
    )
    places = [f"{read.where}:{row.line}: time" for row in read.rows]
    said = clock_findings(reading, stamps.stamp, time_zone=time_zone, where=places)
    if read.says_utc and options.clock in ("local", "standard"):
        what = f"the header says {read.says_utc!r}, but the clock is stated as "
        fix = "compare the logger with a watch and correct the one that is wrong"
        place = f"{read.where}: clock"
        said = (*said, Finding("warning", place, what + options.clock, fix))
    # an hour that never was shows that all of the summer is on another clock
    utc_or_none = None if reading.is_skipped.any() else reading.utc
    return utc_or_none, options.clock, said


def _declared_in_vain(read: _Rows, options: WindFileOptions) -> tuple[Finding, ...]:
    if options.clock == "utc":
        return ()
    what = f"the stamps state their offset, so clock = {options.clock!r} is not used"
    fix = "state the clock as utc, or check the offsets"
    return (Finding("note", f"{read.where}: clock", what, fix),)


# --- wind --------------------------------------------------------------------


def _values(read: _Rows) -> tuple[dict[str, FloatArray], tuple[Finding, ...]]:
    values: dict[str, FloatArray] = {}
    findings: list[Finding] = []
    for column in read.columns.columns:
        values[column.field], odd = _column(read, column)
        findings += odd
    if read.columns.compass_index is not None:
        values["direction_deg"], odd = _compass_deg(read, read.columns.compass_index)
        findings += odd
    return values, tuple(findings)


def _column(read: _Rows, column: Column) -> tuple[FloatArray, list[Finding]]:
    """Values of one column; every distinct plain number is read once.

    A long log has few distinct numbers. Cells that are not plain, and all cells where
    a comma can be a decimal sign, go the careful way.
    """
    at = column.index
    cells = [row.cells[at] if at < len(row.cells) else "" for row in read.rows]
    known = {
        cell: float(cell)
        for cell in set(cells)
        if not read.comma_is_decimal and PLAIN.match(cell) and float(cell) > _MARKS
    }
    values = np.fromiter((known.get(cell, np.nan) for cell in cells), float, len(cells))
    values = values * column.factor + column.offset
    odd = [i for i, cell in enumerate(cells) if cell not in known]
    rest, said = column_values(
        column,
        [read.rows[i] for i in odd],
        read.where,
        comma_is_decimal=read.comma_is_decimal,
    )
    values[odd] = rest
    return values, said


def _compass_deg(read: _Rows, index: int) -> tuple[FloatArray, list[Finding]]:
    """Directions of a column of compass names, and the first cell that is none."""
    cells = [row.cells[index] if index < len(row.cells) else "" for row in read.rows]
    values = np.array([COMPASS_DEG.get(cell.upper(), np.nan) for cell in cells])
    known = (*COMPASS_DEG, *_NO_DIRECTION)
    odd = [i for i, cell in enumerate(cells) if cell.upper() not in known]
    if not odd:
        return values, []
    place = f"{read.where}:{read.rows[odd[0]].line}: direction"
    more = f" ({len(odd) - 1} more cells like this)" if len(odd) > 1 else ""
    what = f"{cells[odd[0]]!r} is no compass name{more}; read as no direction"
    fix = "write N, NNE, NE and so on, or degrees in a column wind direction (deg)"
    return values, [Finding("stop", place, what, fix)]
