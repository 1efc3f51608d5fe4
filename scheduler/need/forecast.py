"""Forecasts and the asked days in; those that may be used, and why not others, out."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from scheduler.arrays import BoolArray, DateArray, FloatArray, IntArray, frozen
from scheduler.errors import Finding
from scheduler.need.reference_et import ReferenceET

# Issued longer ago, a newer one surely exists (common practice, no source).
OLD_DAYS = 3


def usable_forecasts(
    series: Sequence[ReferenceET], asked: DateArray, now: np.datetime64
) -> tuple[tuple[ReferenceET, ...], tuple[Finding, ...]]:
    """Forecasts that say something of the asked days, the newest first.

    Parameters
    ----------
    series : sequence of ReferenceET
        All stations; what is no forecast is passed over.
    asked : array of shape (n_days,)
        Days to answer for. [datetime64[D]]
    now : datetime64[D]
        The day on which the plan is made.

    Returns
    -------
    forecasts : tuple of ReferenceET
        Only their days from the day of issue on.
    findings : tuple of Finding
        A forecast issued in the future, one whose days are over, one that is old.

    References
    ----------
    Source: common practice, no source.

    Examples
    --------
    >>> from scheduler.record import Origin
    >>> days = np.arange("2026-06-08", "2026-06-15", dtype="datetime64[D]")
    >>> told = Origin(issued=days[0].item())
    >>> five, way = np.full(7, 5.0), ("stated",) * 7
    >>> office = ReferenceET("office", False, days, five, way, five, "", told)
    >>> used, findings = usable_forecasts([office], days, days[0])
    >>> [one.name for one in used], findings
    (['office'], ())
    """
    ahead = asked[asked >= now]
    if not ahead.size:  # of days gone by a forecast is no witness
        return (), ()
    good: list[ReferenceET] = []
    findings: list[Finding] = []
    for one in series:
        if one.origin.issued is None:
            continue
        issued = np.datetime64(one.origin.issued, "D")
        kept = _from_issue_on(one, issued)
        if issued > now:
            findings.append(_from_the_future(one, now))
        elif not np.isin(ahead, kept.date[np.isfinite(kept.eto_mm_per_day)]).any():
            findings.append(_over(kept, ahead))
        else:
            good.append(kept)
            findings += _old(one, int((now - issued).astype(int)))
    good.sort(key=lambda one: str(one.origin.issued), reverse=True)
    return tuple(good), tuple(findings)


def forecast_rain_mm(
    forecasts: Sequence[ReferenceET], asked: DateArray, now: np.datetime64
) -> FloatArray:
    """Rain that the newest forecast expects on the asked days, to be shown.

    Parameters
    ----------
    forecasts : sequence of ReferenceET
        As `usable_forecasts` gives them.
    asked : array of shape (n_days,)
        Days to answer for. [datetime64[D]]
    now : datetime64[D]
        The day on which the plan is made.

    Returns
    -------
    array of shape (n_days,)
        Rain ahead; NaN before today and where no forecast speaks of rain. [mm]

    Notes
    -----
    It is never counted in a need: it has not fallen.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> today = np.datetime64("2026-06-08")
    >>> forecast_rain_mm((), np.array([today]), today).tolist()
    [nan]
    """
    rain = np.full(asked.shape, np.nan)
    for one in forecasts:
        told = on_days(one.date, one.rain_mm, asked)
        rain = np.where(np.isnan(rain) & (asked >= now), told, rain)
    return frozen(rain)


def negligible_rain_mm(eto_mm_per_day: npt.ArrayLike) -> FloatArray:
    """Rain of one day below which it may be ignored.

    Parameters
    ----------
    eto_mm_per_day : array of shape (n_days,)
        Reference ET of the day. [mm/day]

    Returns
    -------
    array of the same shape
        A fifth of it: so little evaporates where it falls. [mm]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8, p. 170.

    Examples
    --------
    >>> float(negligible_rain_mm(5.0))
    1.0
    """
    return np.asarray(0.2 * np.asarray(eto_mm_per_day, dtype=np.float64))


def on_days(date: DateArray, values: FloatArray, asked: DateArray) -> FloatArray:
    """Values on the asked days, NaN where the series has no such day.

    Parameters
    ----------
    date, values : array of shape (n,)
        Days and their values.
    asked : array of shape (n_days,)
        Days to answer for. [datetime64[D]]

    Returns
    -------
    array of shape (n_days,)
        In the unit of `values`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> days = np.array(["2026-06-02", "2026-06-01"], "datetime64[D]")
    >>> on_days(days, np.array([2.0, 1.0]), days[::-1]).tolist()
    [1.0, 2.0]
    """
    found = np.full(asked.shape, np.nan)
    if date.size:
        order: IntArray = np.argsort(date, kind="stable")
        place = np.searchsorted(date, asked, sorter=order)
        place = order[np.minimum(place, date.size - 1)]
        hit = date[place] == asked
        found[hit] = values[place[hit]]
    return found


def _from_issue_on(one: ReferenceET, issued: np.datetime64) -> ReferenceET:
    keep: BoolArray = one.date >= issued
    return replace(
        one,
        date=one.date[keep],
        eto_mm_per_day=one.eto_mm_per_day[keep],
        method=tuple(m for m, k in zip(one.method, keep, strict=True) if k),
        rain_mm=one.rain_mm[keep],
    )


def _where(one: ReferenceET) -> str:
    return f"weather: forecast {one.name!r}"


def _from_the_future(one: ReferenceET, now: np.datetime64) -> Finding:
    return Finding(
        "warning",
        _where(one),
        f"was issued on {one.origin.issued}, after today ({now}); it is not used",
        "correct issued in site.toml",
    )


def _over(one: ReferenceET, ahead: DateArray) -> Finding:
    days = f"its last day is {one.date[-1]}" if one.date.size else "it has no day"
    return Finding(
        "warning",
        _where(one),
        f"issued on {one.origin.issued}, says nothing of {ahead[0]} to {ahead[-1]} "
        f"({days}); it is not used",
        "put a newer forecast in its place, with its day of issue in site.toml",
    )


def _old(one: ReferenceET, age_days: int) -> tuple[Finding, ...]:
    if age_days <= OLD_DAYS:
        return ()
    what = f"was issued on {one.origin.issued}, {age_days} days ago; it is used"
    fix = "put a newer forecast in its place, with its day of issue in site.toml"
    return (Finding("warning", _where(one), what, fix),)
