"""A site and its history in, one week of run times with their reasons out.

`build_week` is the one door; it computes nothing that a room could give.
"""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import zip_longest

import numpy as np

from scheduler import week_plan
from scheduler.arrays import DateArray
from scheduler.errors import Finding
from scheduler.field.due import tests_due
from scheduler.field.irrigation_wind import site_wind
from scheduler.issued import told_until
from scheduler.need.ahead import WeekRange, week_ahead
from scheduler.need.outlook import Outlook, outlook
from scheduler.need.reference_et import ReferenceET
from scheduler.need.stations import stations_et
from scheduler.proof import zone_learning
from scheduler.record import CanTest, History
from scheduler.short_water import (
    restricted_nights,
    short_water,
    week_allotment,
)
from scheduler.site import Site
from scheduler.stations import station_findings
from scheduler.watering.allotment import ShortWater
from scheduler.watering.clock import clock_findings
from scheduler.watering.night_plan import AtHours, Pin
from scheduler.week_changes import with_changes
from scheduler.week_clocks import week_clocks
from scheduler.week_hours import with_hours
from scheduler.week_plan import Status, WeekPlan, ZonePlan
from scheduler.zone_plan import DAYS_AHEAD, Week, zone_plan

# the results of the one door come through it
__all__ = ["Status", "WeekPlan", "ZonePlan", "build_week"]

DAYS_BEHIND = 14


def build_week(
    site: Site,
    history: History,
    today: dt.date,
    *,
    start: dt.date | None = None,
    tried_du: Mapping[str, float] | None = None,
    pins: Sequence[Pin] = (),
) -> WeekPlan:
    """Plan seven nights of every zone of a site.

    Parameters
    ----------
    site : Site
        The site as its folder describes it.
    history : History
        Tests, weather, rain and issued weeks.
    today : date
        The day on which the plan is made; never read from a clock.
    start : date, optional
        First of the seven nights; `today` if not given.
    tried_du : mapping of str to float, optional
        DU low quarter to try instead of what was tested, by zone. [-]
    pins : sequence of Pin, optional
        Waterings that somebody moved; they stay where they were put.

    Returns
    -------
    WeekPlan
        One plan a zone, in their order; night d begins on the evening of day d.

    Raises
    ------
    QuantityError
        If a day lies outside the years 1900 to 2200.

    References
    ----------
    Source: definition; each room names its own.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> empty = Site(name="Tern Hollow", units="us", place=place)
    >>> build_week(empty, History(), dt.date(2026, 6, 8)).zones
    ()
    """
    begin = start or today
    week_plan.refuse_years(today, begin)
    history = replace(history, issued=told_until(history.issued, begin))
    series, findings = stations_et(history.weather, site.place)
    dates = np.datetime64(begin, "D") + np.arange(DAYS_AHEAD)
    ahead, spread, said = _week_demand(site, history, series, dates, today)
    findings += [*said, *clock_findings(site), *station_findings(site)]
    findings += restricted_nights(site, begin)
    due = tests_due(site, history.tests, today)
    past = dates[0] + np.arange(-DAYS_BEHIND, 0)
    behind, about_past = outlook(series, history.rain, dates=past, today=today)
    if site.demand_from == "last week":  # the days behind hold it, and are said once
        findings = [one for one in findings if "rain of" not in one.what]
    findings += [one for one in about_past if "rain of" in one.what]
    tests: dict[str, list[CanTest]] = {}
    for test in history.tests:
        tests.setdefault(test.zone.casefold(), []).append(test)
    wind = site_wind(site, history.wind)
    lessons = zone_learning.lessons_of(site, history, series, today)
    shared = (ahead, spread, behind, wind, lessons, tests, tried_du or {})
    planned = partial(_planned, Week(site, history, today, dates, *shared))
    zones, short, night = with_hours(planned, site, history, today, pins)
    zones = with_changes(zones, history, short, today)
    clocks = week_clocks(site, night, zones, history)
    said = (*findings, *week_plan.said_by(short, night, *clocks))
    parts = (ahead, short, night, behind, clocks)
    return WeekPlan(site, today, begin, zones, said, due, *parts)


def _planned(
    week: Week,
    before: Sequence[ZonePlan],
    fed: Mapping[str, AtHours],
    chosen: Mapping[str, tuple[int, ...]],
) -> tuple[tuple[ZonePlan, ...], tuple[ZonePlan, ...], ShortWater | None]:
    """Every zone, and what short water leaves; later those of `fed` and `chosen`."""
    again = replace(week, fed=fed, chosen=chosen)
    anew = fed.keys() | chosen.keys()
    whole = tuple(
        zone_plan(zone, again) if one is None or zone.id in anew else one
        for zone, one in zip_longest(week.site.zones, before)
    )
    return whole, *_shared_out(whole, again)


def _shared_out(
    whole: tuple[ZonePlan, ...], week: Week
) -> tuple[tuple[ZonePlan, ...], ShortWater | None]:
    """The zones within what there is, where water is short."""
    allotted = week_allotment(week.site, week.days[0], whole)
    if allotted is None:
        return whole, None
    short = replace(week, allotted=allotted)
    zones = tuple(
        one if allotted.cut_of(one.zone.id) is None else zone_plan(zone, short)
        for zone, one in zip(week.site.zones, whole, strict=True)
    )
    return zones, short_water(allotted, whole, zones, week.site.units)


def _week_demand(
    site: Site,
    history: History,
    series: Sequence[ReferenceET],
    dates: DateArray,
    today: dt.date,
) -> tuple[Outlook | None, WeekRange | None, tuple[Finding, ...]]:
    """Weather of the planned days, or of the week before if the site says so."""
    if not site.zones:
        return None, None, ()
    if site.demand_from == "last week":
        before, said = outlook(
            series, history.rain, dates=dates - DAYS_AHEAD, today=today
        )
        return before, None, said
    return week_ahead(series, history.rain, dates=dates, today=today)
