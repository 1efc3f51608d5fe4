"""A site's year and its planned week in; what the week adds to the year out."""

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.money.economics import SiteCost
from scheduler.money.option_nights import OptionNights, option_nights
from scheduler.money.periods import Periods, periods
from scheduler.money.week_cost import WeekCost, week_cost
from scheduler.record import History
from scheduler.week_plan import WeekPlan


@dataclass(frozen=True, slots=True, eq=False)
class WithWeek:
    """What the planned week adds.

    Attributes
    ----------
    week : WeekCost
        What uneven water costs in it.
    periods : tuple of Periods
        Week, season so far and year side by side; the site last.
    nights : tuple of OptionNights
        Of every option: whether the nights of all zones still fit.
    """

    week: WeekCost
    periods: tuple[Periods, ...]
    nights: tuple[OptionNights, ...]

    def nights_of(self, option_id: str) -> OptionNights | None:
        """One option, or None."""
        return next((n for n in self.nights if n.option_id == option_id), None)


def with_week(
    plan: WeekPlan, history: History, cost: SiteCost, zone_ids: Sequence[str] = ()
) -> WithWeek:
    """What the planned week adds to what a year costs.

    Parameters
    ----------
    plan : WeekPlan
        The week of the whole site.
    history : History
        Wind logs and tests.
    cost : SiteCost
        The year, at the prices that hold for the week as well.
    zone_ids : sequence of str, optional
        Only these zones, as `cost` was asked for.

    Returns
    -------
    WithWeek
        The week.

    References
    ----------
    Source: definition; its parts name their own.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.money.economics import site_cost
    >>> from scheduler.site import Place, Site
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=here)
    >>> monday = dt.date(2026, 6, 8)
    >>> with_week(WeekPlan(site, monday, monday, ()), History(),
    ...           site_cost(site, History(), monday)).periods
    ()
    """
    week = week_cost(plan, cost, zone_ids)
    nights = option_nights(plan, history, cost, is_whole=not zone_ids)
    return WithWeek(week, periods(week, cost), nights)
