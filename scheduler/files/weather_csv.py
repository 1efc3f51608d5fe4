"""The text of a daily weather table in; a series in SI-style units out."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding
from scheduler.files.csv_text import Row, Table, no_header, table_of
from scheduler.files.text_file import TextFile
from scheduler.files.weather_cells import column_values
from scheduler.files.weather_columns import (
    QUANTITIES,
    columns_of,
    is_date_header,
)
from scheduler.files.weather_dates import DateOrder, day_of, order_finding
from scheduler.files.weather_reference import REFERENCES, reported_et
from scheduler.record import DailySeries, RainSeries
from scheduler.site import Place, Station

# headers to begin with, as a remedy names them
_DAYS, _RAIN = "date,tmax (°C),tmin (°C),rain (mm)", "date,rain (mm)"

_HEADER_LINES = 25


@dataclass(frozen=True, slots=True)
class _Days:
    """Dates in order, each once, and the rows they stand in."""

    date: tuple[dt.date, ...]
    row: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class _Read:
    """Days and columns of one table."""

    days: _Days
    values: dict[str, FloatArray]


def read_station(
    file: TextFile, station: Station, place: Place
) -> tuple[DailySeries | None, tuple[Finding, ...]]:
    """Read the daily weather of one station.

    Parameters
    ----------
    file : TextFile
        The table: a header with units, one row a day.
    station : Station
        What the site says about it.
    place : Place
        The site's place, for what the station does not say.

    Returns
    -------
    series : DailySeries or None
        None when no day can be read.
    findings : tuple of Finding
        What could not be read and what was left out.
    """
    read, findings = _table(file, station.date_order, _DAYS)
    if read is None:
        if not findings:
            what = "holds no day: the station is left out"
            fix = "add a row a day, or take the station out of site.toml"
            findings = (Finding("warning", file.where, what, fix),)
        return None, findings
    nothing = np.full(len(read.days.date), np.nan)
    arrays: dict[str, Any] = {
        one.field: frozen(read.values.get(one.field, nothing))
        for one in QUANTITIES
        if one.field not in REFERENCES
    }
    reported, origin, said = reported_et(read.values, station, file.where)
    arrays["eto_mm_per_day"] = frozen(nothing if reported is None else reported)
    own_latitude, own_elevation = station.latitude_deg, station.elevation_m
    series = DailySeries(
        name=station.name,
        where=file.where,
        is_typical_year=station.is_typical_year,
        wind_height_m=station.wind_height_m,
        latitude_deg=place.latitude_deg if own_latitude is None else own_latitude,
        elevation_m=place.elevation_m if own_elevation is None else own_elevation,
        date=frozen(np.array(read.days.date, dtype="datetime64[D]"), "datetime64[D]"),
        line=tuple(row.line for row in read.days.row),
        origin=origin,
        **arrays,
    )
    return series, (*findings, *said)


def read_rain(file: TextFile) -> tuple[RainSeries | None, tuple[Finding, ...]]:
    """Read the site's own rain gauge; days are written year-month-day.

    Parameters
    ----------
    file : TextFile
        The table: `date` and a rain column with its unit.

    Returns
    -------
    rain : RainSeries or None
        None when no day can be read; a day without a number is left out.
    findings : tuple of Finding
        What could not be read.
    """
    read, findings = _table(file, "year-month-day", _RAIN)
    if read is None:
        return None, findings
    rain = read.values.get("rain_mm")
    if rain is None:
        if not any(one.level == "stop" for one in findings):
            fix = "name a column rain (in) or rain (mm)"
            stop = Finding("stop", file.where, "has no rain column", fix)
            findings = (*findings, stop)
        return None, findings
    below = np.flatnonzero(rain < 0)
    if below.size:
        row = read.days.row[int(below[0])]
        what = f"rain is below 0 ({below.size} of {rain.size} days), left out"
        fix = "correct the reading, or leave the cell empty"
        findings = (*findings, Finding("stop", f"{file.where}:{row.line}", what, fix))
    known = np.isfinite(rain) & ~(rain < 0)
    date = np.array(read.days.date, dtype="datetime64[D]")
    if not known.any():
        return None, findings
    return RainSeries(
        file.where, frozen(date[known], "datetime64[D]"), frozen(rain[known])
    ), findings


def _table(
    file: TextFile, order: DateOrder, example: str
) -> tuple[_Read | None, tuple[Finding, ...]]:
    table = table_of(file.text)
    at, date_index = _header(table)
    if at is None:
        return None, (no_header(file.where, table, "with a date column", example),)
    head = table.rows[at]
    place = f"{file.where}:{head.line}"
    findings: list[Finding] = []
    if at:
        what = f"the {at} lines above the header are not read"
        findings.append(Finding("note", place, what, "put # before remarks"))
    columns, unread = columns_of(head.cells, date_index, place)
    findings += unread
    days, said = _days(table.rows[at + 1 :], date_index, (file.where, order))
    findings += said
    if not days.date:
        return None, tuple(findings)
    values = {}
    for column in columns:
        values[column.field], odd = column_values(
            column, days.row, file.where, comma_is_decimal=table.comma_is_decimal
        )
        findings += odd
    return _Read(days, values), tuple(findings)


def _header(table: Table) -> tuple[int | None, int]:
    """Row of the header, and the column of the date."""
    for i, row in enumerate(table.rows[:_HEADER_LINES]):
        if len(row.cells) < 2:
            continue
        for j, cell in enumerate(row.cells):
            if is_date_header(cell):
                return i, j
    return None, 0


# --- days --------------------------------------------------------------------


def _days(
    rows: Iterable[Row], index: int, at: tuple[str, DateOrder]
) -> tuple[_Days, list[Finding]]:
    where, order = at
    first: dict[dt.date, Row] = {}
    twice: dict[dt.date, Row] = {}
    refused: list[tuple[Row, str]] = []
    is_sorted, last = True, dt.date.min
    for row in rows:
        cell = row.cells[index] if index < len(row.cells) else ""
        day = day_of(cell, order)
        if day is None:
            if any(row.cells):
                refused.append((row, cell))
            continue
        is_sorted = is_sorted and day >= last
        last = day
        if day in first:
            twice.setdefault(day, row)
        else:
            first[day] = row
    findings = [_refused_finding(refused, at)] if refused else []
    findings += _twice_findings(first, twice, where)
    if not is_sorted:
        what = "the days are not in order; they were sorted"
        findings.append(Finding("note", where, what, "sort the rows by date"))
    # a day told twice is told in two ways at worst: neither is taken
    dates = sorted(day for day in first if day not in twice)
    return _Days(tuple(dates), tuple(first[day] for day in dates)), findings


def _refused_finding(
    refused: list[tuple[Row, str]], at: tuple[str, DateOrder]
) -> Finding:
    where, order = at
    row, cell = refused[0]
    what, fix = order_finding(cell, order)
    if len(refused) > 1:
        what += f" ({len(refused) - 1} more rows like this)"
    return Finding("stop", f"{where}:{row.line}: date", what, fix)


def _twice_findings(
    first: dict[dt.date, Row], twice: dict[dt.date, Row], where: str
) -> list[Finding]:
    findings: list[Finding] = []
    for day, row in list(twice.items())[:3]:
        what = f"{day} stands twice, on line {first[day].line} and line {row.line}"
        if len(findings) == 2 and len(twice) > 3:
            what += f" ({len(twice) - 3} more days stand twice)"
        fix = "delete the wrong one; neither is used until then"
        findings.append(Finding("stop", f"{where}:{row.line}: date", what, fix))
    return findings
