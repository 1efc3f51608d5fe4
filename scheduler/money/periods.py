"""A planned week and a year of the same zones in; week, season so far, year out."""

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.money.economics import SiteCost
from scheduler.money.water_cost import DAYS_PER_WEEK, ZoneCost
from scheduler.money.week_cost import WeekCost, ZoneWeekCost


@dataclass(frozen=True, slots=True)
class Span:
    """Water of one zone, or of the site, over some time; None where not known.

    Attributes
    ----------
    volume_m3, above_need_m3 : float or None
        Water put on, and the part of it above need. [m3]
    above_need_money : float or None
        Price of that part, and of its pumping.
    """

    volume_m3: float | None
    above_need_m3: float | None
    above_need_money: float | None


NOT_KNOWN = Span(None, None, None)


@dataclass(frozen=True, slots=True)
class Periods:
    """One zone, or the site, in three spans side by side.

    Attributes
    ----------
    zone : str
        Id; empty for the site.
    week : Span
        As planned, from the plan of that week.
    so_far : Span
        The run season from its first day to the day before the week, by whole weeks.
    year : Span
        The whole run season.
    """

    zone: str
    week: Span
    so_far: Span
    year: Span


def periods(week: WeekCost, cost: SiteCost) -> tuple[Periods, ...]:
    """Week, season so far and year of every zone, and of the site.

    Parameters
    ----------
    week : WeekCost
        The planned week.
    cost : SiteCost
        The season that was run.

    Returns
    -------
    tuple of Periods
        Zones in the order of the site, the site last; the zones add up to it.

    Notes
    -----
    The season is a run of another year, or of a typical one: what would be given by
    the same rules in its weather. It says how the planned week compares, and is no
    account of what was pumped.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> NOT_KNOWN.volume_m3 is None
    True
    """
    of_week = {one.zone_id: one for one in week.zones}
    of_year = {one.zone_id: one for one in cost.zones}
    names = [z.id for z in cost.site.zones if z.id in of_week or z.id in of_year]
    rows = [
        Periods(
            name,
            _of_week(of_week.get(name)),
            _so_far(of_year.get(name), week.start),
            _of_year(of_year.get(name)),
        )
        for name in names
    ]
    if not rows:
        return ()
    site = Periods(
        "",
        _sum(rows, lambda one: one.week),
        _sum(rows, lambda one: one.so_far),
        _sum(rows, lambda one: one.year),
    )
    return (*rows, site)


def _of_week(one: ZoneWeekCost | None) -> Span:
    if one is None:
        return NOT_KNOWN
    return Span(one.volume_m3, one.above_need_m3, one.above_need_money)


def _of_year(one: ZoneCost | None) -> Span:
    if one is None:
        return NOT_KNOWN
    return Span(one.own.volume_m3, one.own.above_need_m3, one.above_need_money)


def _so_far(one: ZoneCost | None, start: dt.date) -> Span:
    """Weeks of the run season that end before the same day of its year."""
    if one is None:
        return NOT_KNOWN
    weekly = one.weekly
    last = weekly.start + np.timedelta64(DAYS_PER_WEEK - 1, "D")
    today = (start.month, start.day)
    first: dt.date = weekly.start[0].astype(object)
    # a week that ends in the next year is over at no day of this one
    over = np.array(
        [
            day.year == first.year and (day.month, day.day) < today
            for day in last.astype(object)
        ],
        dtype=bool,
    )
    above = float(weekly.above_need_m3[over].sum())
    price = one.prices.money_per_m3
    money = None if price is None else above * price
    return Span(float(weekly.volume_m3[over].sum()), above, money)


def _sum(rows: Sequence[Periods], of: Callable[[Periods], Span]) -> Span:
    """Sum of what is known; money only where every water above need has a price."""
    spans = [of(one) for one in rows]
    known = [one for one in spans if one.volume_m3 is not None]
    if not known:
        return NOT_KNOWN
    above = [one for one in known if one.above_need_m3 is not None]
    money = [one.above_need_money for one in above]
    priced = [one for one in money if one is not None]
    return Span(
        sum(one.volume_m3 or 0.0 for one in known),
        sum(one.above_need_m3 or 0.0 for one in above) if above else None,
        sum(priced) if priced and len(priced) == len(money) else None,
    )
