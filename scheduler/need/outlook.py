"""Reference ET of the stations and the gauge in; ETo and rain of any week out.

Days before today are measured where they can be. Today and later come from the same
days of a typical year, else from the site's own years, else from the last days. A gap
is never zero, and each day says on what it rests.
"""

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, DateArray, FloatArray, IntArray, frozen
from scheduler.errors import Finding
from scheduler.need.reference_et import ReferenceET
from scheduler.need.weather import day_of_year
from scheduler.record import RainSeries
from scheduler.trace import Trace

MEASURED = "measured"
TYPICAL = "same days of a typical year"
OWN = "own average for those days"
LAST = "last week's average"
GAUGE = "gauge"
STATION = "station"
AHEAD = "none counted ahead"
UNKNOWN = "unknown, none counted"

# Days on either side that count as "those days" of other years (common practice, no
# source): a week smooths single days and stays within the season.
WINDOW_DAYS = 3
LAST_DAYS = 7
# Older than this the season has moved on (common practice, no source): by a month, ETo
# of spring and autumn changes by about a quarter.
STALE_DAYS = 10
TOO_OLD_DAYS = 31


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
    """

    date: DateArray
    eto_mm_per_day: FloatArray
    rain_mm: FloatArray
    eto_basis: tuple[str, ...]
    rain_basis: tuple[str, ...]
    trace: Trace
    rain_trace: Trace


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
        Stations in the order in which they are asked; measured ones and typical years.
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
    rain is counted ahead; a gauge reading of today is.

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
    past_days = [
        _kept(one, one.date < now) for one in series if not one.is_typical_year
    ]
    measured = [_kept(one, np.isfinite(one.eto_mm_per_day)) for one in past_days]
    for one in measured:
        past = np.where(asked < now, _on(one.date, one.eto_mm_per_day, asked), np.nan)
        eto.take(past, basis=MEASURED, source=_source(one))
    for one in series:
        if one.is_typical_year:
            same = _same_days(one, asked)
            eto.take(same, basis=TYPICAL, source=_source(one))
    for one in measured:
        eto.take(_own_average(one, asked), basis=OWN, source=_source(one))
    last = _newest(measured)
    if last is not None and (now - last.date[-1]).astype(int) <= TOO_OLD_DAYS:
        mean = np.full(asked.shape, last.eto_mm_per_day[-LAST_DAYS:].mean())
        eto.take(mean, basis=LAST, source=_source(last))
    if np.isnan(eto.values).any():
        return None, (_no_way(asked, eto.values, last),)
    rained = _rain(past_days, rain, asked, now)
    result = Outlook(
        date=frozen(asked, "datetime64[D]"),
        eto_mm_per_day=frozen(eto.values),
        rain_mm=frozen(rained.values),
        eto_basis=tuple(eto.basis),
        rain_basis=tuple(rained.basis),
        trace=_sum_trace("eto_mm", "eto_mm", asked, eto),
        rain_trace=_sum_trace("rain_counted_mm", "rain_mm", asked, rained),
    )
    return result, (
        *_eto_findings(result, now, last),
        *_rain_findings(result),
    )


def _kept(one: ReferenceET, keep: BoolArray) -> ReferenceET:
    return ReferenceET(
        name=one.name,
        is_typical_year=one.is_typical_year,
        date=one.date[keep],
        eto_mm_per_day=one.eto_mm_per_day[keep],
        method=tuple(m for m, k in zip(one.method, keep, strict=True) if k),
        rain_mm=one.rain_mm[keep],
        trace_note=one.trace_note,
    )


def _on(date: DateArray, values: FloatArray, asked: DateArray) -> FloatArray:
    """Values on the asked days, NaN where the series has no such day."""
    found = np.full(asked.shape, np.nan)
    if date.size:
        order = np.argsort(date, kind="stable")
        place = np.searchsorted(date, asked, sorter=order)
        place = order[np.minimum(place, date.size - 1)]
        hit = date[place] == asked
        found[hit] = values[place[hit]]
    return found


def _day_of_plain_year(date: DateArray) -> IntArray:
    """Day 1 to 365 of a year without 29 February, which counts as 28 February."""
    day = day_of_year(date)
    year = date.astype("datetime64[Y]").astype(np.int64) + 1970
    is_leap = (year % 4 == 0) & ((year % 100 != 0) | (year % 400 == 0))
    return np.asarray(day - (is_leap & (day >= 60)))


def _same_days(one: ReferenceET, asked: DateArray) -> FloatArray:
    """Mean of the series on the same day and month."""
    ours, theirs = _day_of_plain_year(asked), _day_of_plain_year(one.date)
    known = np.isfinite(one.eto_mm_per_day)
    alike = (ours[:, None] == theirs[None, :]) & known
    return _mean_where(alike, one.eto_mm_per_day)


def _own_average(one: ReferenceET, asked: DateArray) -> FloatArray:
    """Mean over other years of the days within the window."""
    ours, theirs = _day_of_plain_year(asked), _day_of_plain_year(one.date)
    apart = np.abs(ours[:, None] - theirs[None, :])
    near = np.minimum(apart, 365 - apart) <= WINDOW_DAYS
    # half a year apart at least: this year's own days are not an average over years
    other = np.abs((asked[:, None] - one.date[None, :]).astype(np.int64)) > 182
    return _mean_where(near & other, one.eto_mm_per_day)


def _mean_where(chosen: BoolArray, values: FloatArray) -> FloatArray:
    count = chosen.sum(axis=1)
    total = np.where(chosen, values, 0.0).sum(axis=1)
    return np.asarray(np.where(count > 0, total / np.maximum(count, 1), np.nan))


def _newest(measured: Sequence[ReferenceET]) -> ReferenceET | None:
    known = [one for one in measured if one.date.size]
    # the first station wins a tie: the order of the site file is the user's choice
    return max(known, key=lambda one: one.date[-1], default=None)


def _source(one: ReferenceET) -> str:
    return f"{one.name}: {one.trace_note}" if one.trace_note else one.name


def _rain(
    measured: Sequence[ReferenceET],
    rain: RainSeries | None,
    asked: DateArray,
    now: np.datetime64,
) -> _Days:
    days = _Days(np.full(asked.shape, np.nan), [""] * asked.size, [""] * asked.size)
    nothing = np.zeros(asked.shape)
    if rain is not None:
        known = np.where(asked <= now, _on(rain.date, rain.rain_mm, asked), np.nan)
        days.take(known, basis=GAUGE, source=rain.where)
    for one in measured:
        fell = np.where(asked < now, _on(one.date, one.rain_mm, asked), np.nan)
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
            f"no rain is counted ahead ({(basis == AHEAD).sum()} days)",
            "after rain, write the gauge reading and plan again",
        )
