"""A site, its logs and its zones in; jobs, grids, wind and prices of the nights out."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.errors import Finding
from scheduler.field.package_wind import LEAST_SPREAD_M_PER_S, SitePackageWind
from scheduler.field.trial import LEAST_DAYS
from scheduler.record import History
from scheduler.site import Site
from scheduler.units import shown
from scheduler.watering.night_plan.calm import CALM_WORTH, minute_cost, night_wind
from scheduler.watering.night_plan.jobs import WeekJobs, week_jobs
from scheduler.watering.night_plan.night_hours import NightHours, night_hours
from scheduler.watering.night_plan.result import NightWind, WateredZone
from scheduler.watering.night_plan.tariff_hours import NightPrice, night_price


@dataclass(frozen=True, slots=True, eq=False)
class Beginning:
    """All that the search for a timetable begins with."""

    hours: NightHours
    wind: NightWind
    price: NightPrice
    week: WeekJobs
    findings: tuple[Finding, ...]


def begin_nights(
    site: Site,
    history: History,
    running: Sequence[WateredZone],
    winds: SitePackageWind,
) -> Beginning:
    """What the nights begin with.

    Parameters
    ----------
    site : Site
        Windows, blocked hours, pump, clock, packages, tariff.
    history : History
        Wind logs.
    running : sequence of WateredZone
        Zones that water, at least one.
    winds : SitePackageWind
        What wind does to the packages.

    Returns
    -------
    Beginning
        With a note where a package's behaviour in wind is not known.

    References
    ----------
    Source: definition.
    """
    hours = night_hours(site, running[0].dates)
    wind = night_wind(history.wind, hours, site.place.time_zone)
    price = night_price(site, hours)
    over = price.over_mean
    if over is None:
        over = np.ones(hours.is_open.shape)
    cost = {one.zone.id: minute_cost(one, wind, winds.lines, over) for one in running}
    week = week_jobs(site, running, hours, cost)
    return Beginning(hours, wind, price, week, _unknown(site, running, wind, winds))


def _unknown(
    site: Site,
    running: Sequence[WateredZone],
    wind: NightWind,
    winds: SitePackageWind,
) -> tuple[Finding, ...]:
    """Packages in use of which no test tells what wind does, said once."""
    if wind.by_minute_m_per_s is None:
        return ()
    used = {one.zone.package for one in running}
    by_why: dict[str, list[str]] = {}
    for package, why in winds.without:
        if package in used:
            by_why.setdefault(why, []).append(package)
    if not by_why:
        return ()
    named = "; ".join(f"{', '.join(some)} ({why})" for why, some in by_why.items())
    one = shown(1.0, "m_per_s", site.units)
    what = (
        f"the tests do not tell what wind does to {named}: a minute calmer by {one} is "
        f"taken as worth {CALM_WORTH:.1%} of the water (common practice, no source), "
        "and the wind of the planned hours moves no minutes"
    )
    apart = shown(LEAST_SPREAD_M_PER_S, "m_per_s", site.units)
    fix = f"test them on {LEAST_DAYS} days or more, in winds at least {apart} apart"
    return (Finding("note", "night plan: wind", what, fix),)
