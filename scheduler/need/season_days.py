"""Reference ET of stations and a gauge in; every day of one season out."""

import datetime as dt
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import DateArray, FloatArray, frozen
from scheduler.errors import Finding
from scheduler.need.outlook import MEASURED, UNKNOWN, outlook
from scheduler.need.reference_et import ReferenceET
from scheduler.record import RainSeries

# a year with fewer measured days is not "a full year with weather" (common practice)
FULL_DAYS = 350
MOST_DAYS = 366
TYPICAL_YEAR = "typical year"


@dataclass(frozen=True, slots=True, eq=False)
class SeasonDays:
    """Weather of one season, day by day.

    Attributes
    ----------
    name : str
        The year, or the typical year that stands for it.
    date : array of shape (n_days,)
        Days, ascending, without a gap. [datetime64[D]]
    eto_mm_per_day, rain_mm : array of shape (n_days,)
        Reference ET and rain; rain that nobody knows counts as none. [mm]
    findings : tuple of Finding
        Days that are not measured, rain that is not known.
    """

    name: str
    date: DateArray
    eto_mm_per_day: FloatArray
    rain_mm: FloatArray
    findings: tuple[Finding, ...]


def full_years(series: Sequence[ReferenceET]) -> tuple[int, ...]:
    """Years of which a station measured nearly every day, ascending.

    Parameters
    ----------
    series : sequence of ReferenceET
        Stations of the site.

    Returns
    -------
    tuple of int
        Years with at least 350 known days.

    References
    ----------
    Source: definition; the least number of days is common practice, no source.

    Examples
    --------
    >>> full_years([])
    ()
    """
    found: Counter[int] = Counter()
    for one in series:
        if one.is_measured:
            known = one.date[np.isfinite(one.eto_mm_per_day)]
            years = known.astype("datetime64[Y]").astype(np.int64) + 1970
            for year, days in Counter(years.tolist()).items():
                found[year] = max(found[year], days)
    return tuple(sorted(year for year, days in found.items() if days >= FULL_DAYS))


def season_days(
    series: Sequence[ReferenceET], rain: RainSeries | None, *, year: int | None
) -> tuple[SeasonDays | None, tuple[Finding, ...]]:
    """Every day of a year, measured where it was, else of the typical year.

    Parameters
    ----------
    series : sequence of ReferenceET
        Stations, in the order in which they are asked.
    rain : RainSeries or None
        The site's own gauge.
    year : int or None
        The year; None takes the last full one, else the typical year.

    Returns
    -------
    days : SeasonDays or None
        None when some day cannot be known at all.
    findings : tuple of Finding
        Why not, or what stands in for measured days.

    Notes
    -----
    The rain of a typical year is used with its own ETo: a season is a simulation, and
    that year's rain belongs to it. For a real year it is never used.

    References
    ----------
    Source: common practice, no source.

    Examples
    --------
    >>> season_days([], None, year=2025)[0] is None
    True
    """
    years = full_years(series)
    chosen = year if year is not None else (years[-1] if years else None)
    typical = next((one for one in series if one.is_typical_year), None)
    if chosen is None:
        if typical is None:
            return None, (_no_weather("any year", years),)
        return _of_typical_year(typical)
    first = np.datetime64(f"{chosen:04d}-01-01", "D")
    last = np.datetime64(f"{chosen + 1:04d}-01-01", "D")
    dates = np.arange(first, last)
    found, _ = outlook(series, rain, dates=dates, today=dt.date(chosen + 1, 1, 1))
    if found is None or MEASURED not in found.eto_basis:
        # averages without rain are no season of that year
        return None, (_no_weather(str(chosen), years, has_typical=bool(typical)),)
    said = _what_is_guessed(str(chosen), found.eto_basis, found.rain_basis)
    days = SeasonDays(
        str(chosen), found.date, found.eto_mm_per_day, found.rain_mm, said
    )
    return days, said


def _of_typical_year(
    one: ReferenceET,
) -> tuple[SeasonDays | None, tuple[Finding, ...]]:
    known = np.isfinite(one.eto_mm_per_day)
    if known.size > MOST_DAYS:
        what = f"holds {known.size} days, and a typical year is one year"
        fix = "take out is_typical_year if they were measured, or keep one year"
        return None, (Finding("stop", f"weather: {one.name}", what, fix),)
    if known.sum() < FULL_DAYS:
        return None, (_no_weather(f"the typical year {one.name}", ()),)
    eto = np.interp(np.arange(known.size), np.flatnonzero(known),
                    one.eto_mm_per_day[known])  # fmt: skip
    is_dry = bool(np.isnan(one.rain_mm).any())
    said = [
        Finding(
            "note",
            f"weather: {one.name}",
            "the season is that of a typical year: it says nothing of how years differ",
            "add measured weather of whole years in weather/",
        )
    ]
    if is_dry:
        what = f"rain of {int(np.isnan(one.rain_mm).sum())} days is not known: none"
        said.append(Finding("warning", f"weather: {one.name}", what, "add rain"))
    days = SeasonDays(
        one.name if TYPICAL_YEAR in one.name else f"{TYPICAL_YEAR} {one.name}",
        one.date,
        frozen(eto),
        frozen(np.nan_to_num(one.rain_mm)),
        tuple(said),
    )
    return days, tuple(said)


def _what_is_guessed(
    year: str, eto_basis: tuple[str, ...], rain_basis: tuple[str, ...]
) -> tuple[Finding, ...]:
    said = []
    stand_ins = Counter(one for one in eto_basis if one != MEASURED)
    if stand_ins:
        parts = ", ".join(f"{n} days: {one}" for one, n in stand_ins.items())
        what = f"ETo was not measured on every day ({parts})"
        said.append(Finding("note", f"season {year}", what, "add the station's days"))
    unknown = sum(one == UNKNOWN for one in rain_basis)
    if unknown:
        what = f"rain of {unknown} days is not known and counts as none"
        fix = "add the gauge's readings to rain.csv; a dry day is written as 0"
        said.append(Finding("warning", f"season {year}", what, fix))
    return tuple(said)


def _no_weather(
    what: str, years: tuple[int, ...], *, has_typical: bool = False
) -> Finding:
    fix = "add the year to a file in weather/, or a typical year"
    if years or has_typical:
        fix = "add the year to a file in weather/, or name no year: the last full "
        fix += "one is run, else the typical year"
    have = ", ".join(map(str, years)) or "none"
    return Finding(
        "stop",
        "weather",
        f"there is no daily weather for {what} (full years: {have})",
        fix,
    )
