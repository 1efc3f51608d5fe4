"""Stations and a gauge in; ETo of the planned week, and of a cool and a hot one, out.

The week's ETo is the outlook's. The cool and the hot week come from how the same dates
differed between years; days that are measured already differ no more.
"""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, DateArray, FloatArray, frozen
from scheduler.errors import Finding
from scheduler.need.other_years import other_years_sums_mm
from scheduler.need.outlook import Outlook, outlook
from scheduler.need.reference_et import ReferenceET
from scheduler.need.spread import LEAST_YEARS, Spread, week_spread
from scheduler.record import RainSeries
from scheduler.trace import Trace
from scheduler.units import shown


@dataclass(frozen=True, slots=True, eq=False)
class WeekRange:
    """Reference ET of a cool and of a hot week, one in ten each.

    Attributes
    ----------
    cool_mm_per_day, hot_mm_per_day : array of shape (n_days,)
        Reference ET of each day; the cool week is never above the planned one, the
        hot one never below. [mm/day]
    n_years : int
        Years that the range rests on.
    cool, hot : Trace
        Sum of each week and how it was come by.
    """

    cool_mm_per_day: FloatArray
    hot_mm_per_day: FloatArray
    n_years: int
    cool: Trace
    hot: Trace


def week_ahead(
    series: Sequence[ReferenceET],
    rain: RainSeries | None,
    *,
    dates: DateArray,
    today: dt.date,
) -> tuple[Outlook | None, WeekRange | None, tuple[Finding, ...]]:
    """ETo and rain of the planned week, and how cool or hot it may turn out.

    Parameters
    ----------
    series : sequence of ReferenceET
        Stations in the order in which they are asked.
    rain : RainSeries or None
        The site's own gauge.
    dates : array of shape (n_days,)
        The planned days. [datetime64[D]]
    today : date
        The day on which the plan is made.

    Returns
    -------
    outlook : Outlook or None
        As `outlook`.
    range : WeekRange or None
        None where fewer than three other years are measured, or no day lies ahead.
    findings : tuple of Finding
        Those of `outlook`; why there is no range; a forecast outside it.

    References
    ----------
    Source: definition; the range as in `week_spread`.

    Examples
    --------
    >>> days = np.arange("2020-01-01", "2026-06-08", dtype="datetime64[D]")
    >>> eto = 5.0 + 0.1 * (days.astype("datetime64[Y]").astype(int) % 2)
    >>> county = ReferenceET("county", False, days, eto, ("stated",) * days.size,
    ...                      np.zeros(days.size), "")
    >>> week = np.arange("2026-06-08", "2026-06-15", dtype="datetime64[D]")
    >>> _, found, _ = week_ahead([county], None, dates=week, today=dt.date(2026, 6, 8))
    >>> found.n_years, round(found.cool.value, 1), round(found.hot.value, 1)
    (6, 34.7, 36.0)
    """
    found, said = outlook(series, rain, dates=dates, today=today)
    if found is None:
        return None, None, said
    is_ahead = found.date >= np.datetime64(today, "D")
    if not is_ahead.any():
        return found, None, said
    spread, years = _spread(series, found.date[is_ahead], today)
    if spread is None:
        return found, None, (*said, _no_range(series, years))
    result, about = _range(found, is_ahead, spread)
    return found, result, (*said, *about)


def _spread(
    series: Sequence[ReferenceET], ahead: DateArray, today: dt.date
) -> tuple[Spread | None, int]:
    """Spread of the first station with enough years; the most years that any has."""
    most = 0
    for one in series:
        if not one.is_measured:
            continue
        past = np.where(
            one.date < np.datetime64(today, "D"), one.eto_mm_per_day, np.nan
        )
        sums = other_years_sums_mm(_with_eto(one, past), ahead)
        if sums.size >= LEAST_YEARS:
            return week_spread(sums, one.name), int(sums.size)
        most = max(most, int(sums.size))
    return None, most


def _with_eto(one: ReferenceET, eto: FloatArray) -> ReferenceET:
    return ReferenceET(
        one.name, False, one.date, eto, one.method, one.rain_mm, one.trace_note
    )


def _range(
    found: Outlook, is_ahead: BoolArray, spread: Spread
) -> tuple[WeekRange, tuple[Finding, ...]]:
    planned = float(found.eto_mm_per_day[is_ahead].sum())
    low, high = min(spread.low_mm, planned), max(spread.high_mm, planned)
    cool, hot = (_scaled(found, is_ahead, total / planned if planned else 1.0)
                 for total in (low, high))  # fmt: skip
    result = WeekRange(
        cool_mm_per_day=cool,
        hot_mm_per_day=hot,
        n_years=spread.n_years,
        cool=_trace("eto_cool_mm", cool, spread, found),
        hot=_trace("eto_hot_mm", hot, spread, found),
    )
    return result, _outside(planned, spread)


def _scaled(found: Outlook, is_ahead: BoolArray, factor: float) -> FloatArray:
    return frozen(np.where(is_ahead, factor, 1.0) * found.eto_mm_per_day)


def _trace(name: str, eto: FloatArray, spread: Spread, found: Outlook) -> Trace:
    side = "above" if name == "eto_hot_mm" else "below"
    return Trace(
        name,
        float(eto.sum()),
        f"one week in ten lies {side}: mean and spread of the same dates in "
        f"{spread.n_years} years, t of the next year; days ahead in proportion; never "
        f"on the other side of eto_mm",
        f"{spread.source}; prediction of one more year, t on the sums",
        (found.trace,),
    )


def _outside(planned_mm: float, spread: Spread) -> tuple[Finding, ...]:
    if spread.low_mm <= planned_mm <= spread.high_mm:
        return ()
    side = "hotter" if planned_mm > spread.high_mm else "cooler"
    told = f"{shown(planned_mm, 'mm', 'metric')} ({shown(planned_mm, 'mm', 'us')})"
    return (
        Finding(
            "note",
            "weather: range",
            f"the week's ETo of {told} is {side} than nine in ten of its dates in "
            f"{spread.n_years} years; the range reaches to it",
            "nothing to do; look again when the days are measured",
        ),
    )


def _no_range(series: Sequence[ReferenceET], n_years: int) -> Finding:
    if n_years:
        years = f"{n_years} other year{'s' if n_years > 1 else ''} of these dates"
        why = f"{years} cannot tell how weeks differ, {LEAST_YEARS} can"
    elif any(one.is_typical_year for one in series):
        why = "one typical year has no spread between years"
    else:
        why = "no other year of these dates is measured"
    return Finding(
        "note",
        "weather: range",
        f"no cool and no hot week is shown: {why}",
        f"add measured weather of {LEAST_YEARS} years or more in weather/",
    )
