"""Reference ET of the stations and the gauge in; ETo and rain of any week out.

Days before today are measured where they can be. Today and later come from a forecast,
else from the site's own years (two or more), else from the same days of a typical year,
else from one other year, else from the last days. A gap is never zero, and each day
says on what it rests.
"""

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import BoolArray, DateArray, FloatArray, frozen
from scheduler.errors import Finding
from scheduler.need.forecast import (
    forecast_rain_mm,
    negligible_rain_mm,
    on_days,
    usable_forecasts,
)
from scheduler.need.other_years import day_of_plain_year, own_average_eto_mm_per_day
from scheduler.need.reference_et import ReferenceET
from scheduler.record import RainSeries
from scheduler.trace import Trace
from scheduler.units import System, shown

MEASURED = "measured"
FORECAST = "forecast"
TYPICAL = "same days of a typical year"
OWN = "own average for those days"
LAST = "last week's average"
GAUGE = "gauge"
STATION = "station"
AHEAD = "none counted ahead"
UNKNOWN = "unknown, none counted"

# An average over years stands before a typical year (common practice, no source): it is
# of the station that measures, while one year alone may be an odd one.
ENOUGH_YEARS = 2
LAST_DAYS = 7
# Older than this the season has moved on (common practice, no source): by a month, ETo
# of spring and autumn changes by about a quarter.
STALE_DAYS = 10
TOO_OLD_DAYS = 31
# findings of a room do not know the units of the site
FACES: tuple[System, System] = ("metric", "us")


@dataclass(frozen=True, slots=True, eq=False)
class Outlook:
    """ETo and rain of the asked days.

    Attributes
    ----------
    date : array of shape (n_days,)
        The asked days. [datetime64[D]]
    eto_mm_per_day : array of shape (n_days,)
        Reference ET, never NaN. [mm/day]
    rain_mm : array of shape (n_days,)
        Rain that is counted; 0 where unknown or ahead. [mm]
    eto_basis, rain_basis : tuple of str
        What each day rests on.
    trace : Trace
        Sum of ETo over the days, with each day and its source.
    rain_trace : Trace
        The same for rain.
    rain_ahead_mm : array of shape (n_days,)
        Rain that a forecast expects, to be shown and never counted; NaN where no
        forecast speaks of it. [mm]
    """

    date: DateArray
    eto_mm_per_day: FloatArray
    rain_mm: FloatArray
    eto_basis: tuple[str, ...]
    rain_basis: tuple[str, ...]
    trace: Trace
    rain_trace: Trace
    rain_ahead_mm: FloatArray | None = None


@dataclass(slots=True)
class _Days:
    """Days that fill up from one source after the other."""

    values: FloatArray
    basis: list[str]
    source: list[str]

    def take(self, values: FloatArray, *, basis: str, source: str) -> None:
        """Fill the days that are still open and that the source knows."""
        for i in np.flatnonzero(np.isnan(self.values) & np.isfinite(values)):
            self.values[i] = values[i]
            self.basis[i], self.source[i] = basis, source


def outlook(
    series: Sequence[ReferenceET],
    rain: RainSeries | None,
    *,
    dates: DateArray,
    today: dt.date,
) -> tuple[Outlook | None, tuple[Finding, ...]]:
    """ETo and rain of the asked days, past or ahead.

    Parameters
    ----------
    series : sequence of ReferenceET
        Stations in the order in which they are asked; measured ones, typical years and
        forecasts.
    rain : RainSeries or None
        The site's own gauge.
    dates : array of shape (n_days,)
        Days to answer for. [datetime64[D]]
    today : date
        Nothing measured today or later counts as ETo known.

    Returns
    -------
    outlook : Outlook or None
        None when some day cannot be known at all.
    findings : tuple of Finding
        What stands in for measured days, how old it is, rain that is not known; a stop
        when there is no way.

    Notes
    -----
    "Own average" takes measured days of other years within 3 days of the same date.
    29 February counts as 28 February. Rain of a typical year is never counted, and no
    rain is counted ahead, of a forecast neither; a gauge reading of today is.

    References
    ----------
    Source: the order is common practice, no source.

    Examples
    --------
    >>> days = np.arange("2026-06-01", "2026-06-08", dtype="datetime64[D]")
    >>> county = ReferenceET("county", False, days, np.full(7, 5.0),
    ...                      ("stated",) * 7, np.zeros(7), "")
    >>> ahead, findings = outlook(
    ...     [county], None, dates=days + 7, today=dt.date(2026, 6, 8)
    ... )
    >>> ahead.eto_basis[0], float(ahead.eto_mm_per_day[0])
    ("last week's average", 5.0)
    """
    asked = dates.astype("datetime64[D]")
    now = np.datetime64(today, "D")
    open_days = np.full(asked.shape, np.nan)
    eto = _Days(open_days, [""] * asked.size, [""] * asked.size)
    # nobody knew today's ETo, or later, on the morning of today
    past_days = [_kept(one, one.date < now) for one in series if one.is_measured]
    measured = [_kept(one, np.isfinite(one.eto_mm_per_day)) for one in past_days]
    forecasts, about_forecasts = usable_forecasts(series, asked, now)
    for one in measured:
        past = np.where(asked < now, _eto_on(one, asked), np.nan)
        eto.take(past, basis=MEASURED, source=_source(one))
    for one in forecasts:
        told = np.where(asked >= now, _eto_on(one, asked), np.nan)
        eto.take(told, basis=FORECAST, source=_source(one))
    typical = [one for one in series if one.is_typical_year]
    _take_other_years(eto, measured, typical, asked)
    last = _newest(measured)
    if last is not None and (now - last.date[-1]).astype(int) <= TOO_OLD_DAYS:
        mean = np.full(asked.shape, last.eto_mm_per_day[-LAST_DAYS:].mean())
        eto.take(mean, basis=LAST, source=_source(last))
    if np.isnan(eto.values).any():
        return None, (*about_forecasts, _no_way(asked, eto.values, last))
    rained = _rain(past_days, rain, asked, now)
    result = Outlook(
        date=frozen(asked, "datetime64[D]"),
        eto_mm_per_day=frozen(eto.values),
        rain_mm=frozen(rained.values),
        eto_basis=tuple(eto.basis),
        rain_basis=tuple(rained.basis),
        trace=_sum_trace("eto_mm", "eto_mm", asked, eto),
        rain_trace=_sum_trace("rain_counted_mm", "rain_mm", asked, rained),
        rain_ahead_mm=forecast_rain_mm(forecasts, asked, now),
    )
    return result, (
        *about_forecasts,
        *_eto_findings(result, now, last),
        *_rain_findings(result),
    )


def _kept(one: ReferenceET, keep: BoolArray) -> ReferenceET:
    return replace(
        one,
        date=one.date[keep],
        eto_mm_per_day=one.eto_mm_per_day[keep],
        method=tuple(m for m, k in zip(one.method, keep, strict=True) if k),
        rain_mm=one.rain_mm[keep],
    )


def _eto_on(one: ReferenceET, asked: DateArray) -> FloatArray:
    return on_days(one.date, one.eto_mm_per_day, asked)


def _take_other_years(
    eto: _Days,
    measured: Sequence[ReferenceET],
    typical: Sequence[ReferenceET],
    asked: DateArray,
) -> None:
    """Own years where there are enough, then typical years, then a single own year."""
    for one in measured:
        mean = own_average_eto_mm_per_day(one, asked, least_years=ENOUGH_YEARS)
        eto.take(mean, basis=OWN, source=_source(one))
    for one in typical:
        eto.take(_same_days(one, asked), basis=TYPICAL, source=_source(one))
    for one in measured:
        mean = own_average_eto_mm_per_day(one, asked)
        eto.take(mean, basis=OWN, source=_source(one))


def _same_days(one: ReferenceET, asked: DateArray) -> FloatArray:
    """Mean of the series on the same day and month."""
    ours, theirs = day_of_plain_year(asked), day_of_plain_year(one.date)
    known = np.isfinite(one.eto_mm_per_day)
    alike = (ours[:, None] == theirs[None, :]) & known
    return _mean_where(alike, one.eto_mm_per_day)


def _mean_where(chosen: BoolArray, values: FloatArray) -> FloatArray:
    count = chosen.sum(axis=1)
    total = np.where(chosen, values, 0.0).sum(axis=1)
    return np.asarray(np.where(count > 0, total / np.maximum(count, 1), np.nan))


def _newest(measured: Sequence[ReferenceET]) -> ReferenceET | None:
    known = [one for one in measured if one.date.size]
    # the first station wins a tie: the order of the site file is the user's choice
    return max(known, key=lambda one: one.date[-1], default=None)


def _source(one: ReferenceET) -> str:
    """Name of the station, how far it is, which reference, and how its ETo was made."""
    origin, about = one.origin, ["grass reference"]
    if origin.reference == "alfalfa":
        about = ["alfalfa reference of the station turned into grass reference"]
    if origin.distance_km is not None:
        km, mi = (shown(origin.distance_km, "km", face) for face in FACES)
        about.insert(0, f"{km} ({mi}) away")
    if origin.issued is not None:
        about.insert(0, f"issued {origin.issued}")
    named = f"{one.name} ({', '.join(about)})"
    return f"{named}: {one.trace_note}" if one.trace_note else named


def _rain(
    measured: Sequence[ReferenceET],
    rain: RainSeries | None,
    asked: DateArray,
    now: np.datetime64,
) -> _Days:
    days = _Days(np.full(asked.shape, np.nan), [""] * asked.size, [""] * asked.size)
    nothing = np.zeros(asked.shape)
    if rain is not None:
        told = on_days(rain.date, rain.rain_mm, asked)
        known = np.where(asked <= now, told, np.nan)
        days.take(known, basis=GAUGE, source=rain.where)
    for one in measured:
        fell = np.where(asked < now, on_days(one.date, one.rain_mm, asked), np.nan)
        days.take(fell, basis=STATION, source=one.name)
    ahead = np.where(asked >= now, nothing, np.nan)
    days.take(ahead, basis=AHEAD, source="common practice, no source")
    days.take(nothing, basis=UNKNOWN, source="common practice, no source")
    return days


def _sum_trace(name: str, day_name: str, asked: DateArray, days: _Days) -> Trace:
    """Sum over the days, resting on one part for each source that they came from."""
    groups: dict[tuple[str, str], list[int]] = {}
    for i, key in enumerate(zip(days.basis, days.source, strict=True)):
        groups.setdefault(key, []).append(i)
    each = tuple(
        Trace(
            f"{day_name}[{asked[group[0]]}..{asked[group[-1]]}]",
            float(days.values[group].sum()),
            f"{basis}: {_listed(days.values[group])}",
            source,
        )
        for (basis, source), group in groups.items()
    )
    note = ", ".join(f"{len(group)} days {key[0]}" for key, group in groups.items())
    total = float(days.values.sum())
    return Trace(name, total, "sum over the days", "definition", each, note)


def _listed(values: FloatArray) -> str:
    return f"{', '.join(f'{one:.1f}' for one in values)} mm"


def _no_way(asked: DateArray, values: FloatArray, last: ReferenceET | None) -> Finding:
    day = asked[np.flatnonzero(np.isnan(values))[0]]
    newest = "there is none" if last is None else f"the newest is {last.date[-1]}"
    return Finding(
        "stop",
        "weather: ETo",
        f"nothing says what ETo to expect on {day}: no measured day of the last "
        f"{TOO_OLD_DAYS} ({newest}), no other year, no typical year",
        "add a weather file with recent days, or a typical year, to site.toml",
    )


def _eto_findings(
    result: Outlook, now: np.datetime64, last: ReferenceET | None
) -> Iterator[Finding]:
    basis = np.array(result.eto_basis)
    guessed = (result.date < now) & (basis != MEASURED)
    if guessed.any():
        kinds = ", ".join(dict.fromkeys(basis[guessed].tolist()))
        yield Finding(
            "warning",
            "weather: ETo",
            f"{guessed.sum()} days before today have no measured ETo, the first is "
            f"{result.date[guessed][0]}; used instead: {kinds}",
            "add those days to the weather file",
        )
    if not (basis == LAST).any() or last is None:
        return
    age = int((now - last.date[-1]).astype(int))
    yield Finding(
        "warning" if age > STALE_DAYS else "note",
        "weather: ETo",
        f"the average of the last {min(LAST_DAYS, last.date.size)} measured days up to "
        f"{last.date[-1]} ({age} days ago) stands for {(basis == LAST).sum()} days",
        "add a typical year, or more years of weather, to look ahead by season",
    )


def _expected(result: Outlook) -> str:
    ahead = result.rain_ahead_mm
    if ahead is None or np.isnan(ahead).all():
        return ""
    metric, us = (shown(float(np.nansum(ahead)), "mm", face) for face in FACES)
    said = f"; a forecast expects {metric}, {us}"
    little = (ahead > 0) & (ahead < negligible_rain_mm(result.eto_mm_per_day))
    if little.any():
        said += f", on {little.sum()} days less than a fifth of their ETo"
    return said


def _rain_findings(result: Outlook) -> Iterator[Finding]:
    basis = np.array(result.rain_basis)
    if (basis == UNKNOWN).any():
        unknown = result.date[basis == UNKNOWN]
        yield Finding(
            "warning",
            "rain.csv",
            f"rain of {unknown.size} days before today is not known, the first is "
            f"{unknown[0]}; none is counted",
            "write the gauge readings into rain.csv, 0 for a dry day",
        )
    if (basis == AHEAD).any():
        yield Finding(
            "note",
            "rain.csv",
            f"no rain is counted ahead ({(basis == AHEAD).sum()} days"
            f"{_expected(result)})",
            "after rain, write the gauge reading and plan again",
        )
