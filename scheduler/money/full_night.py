"""A week's zones and their run seasons in; the night with most water, as jobs, out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import DateArray, FloatArray
from scheduler.money.factors import at_evenness, evenness, roots_du, zone_factor
from scheduler.money.water_cost import ZoneCost
from scheduler.season import ZoneSeason
from scheduler.site import Site
from scheduler.watering.cycles import split
from scheduler.watering.season_run import season_run
from scheduler.watering.zone_week.minutes import at_wet_mm_per_h
from scheduler.week_plan import ZonePlan

DAYS_PER_WEEK = 7
MIN_PER_H = 60.0


@dataclass(frozen=True, slots=True, eq=False)
class FullNight:
    """The night of a run season with most water.

    Attributes
    ----------
    night : date
        Day on whose evening it begins.
    zones : tuple of ZonePlan
        Zones that water in it, with their minutes, cycles and soaks of that night.
    left_out : tuple of str
        Zones of which no season was run, or whose cycles are not known.
    """

    night: dt.date
    zones: tuple[ZonePlan, ...]
    left_out: tuple[str, ...]


def depths_then(
    season: ZoneSeason, site: Site, can_du_lq: float, then: float
) -> FloatArray:
    """What a zone would be given night by night at another uniformity.

    Parameters
    ----------
    season : ZoneSeason
        A zone whose season was run.
    site : Site
        For the salt of its water.
    can_du_lq, then : float
        DU low quarter at can height, now and then. [-]

    Returns
    -------
    array of shape (n_days,)
        Mean depth of the night before each day, under the zone's own rule. [mm]

    References
    ----------
    Source: definition; the season as `season_run`.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> from scheduler.site import Place, Zone
    >>> from scheduler.watering.season_run import SeasonInput
    >>> yard = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             assumed_net_rate_mm_per_h=12.0, assumed_du_lq=0.6)
    >>> catch = assumed(yard, None)[0]
    >>> ones, days = np.ones(1), np.ones((60, 1))
    >>> made = SeasonInput(
    ...     catch.share[None, :, None], 0.6 * ones, 5 * days, 0 * days, days > 0,
    ...     ones > 1, ones * np.nan, 40 * ones, 16 * ones, 0 * ones, ones, 999 * ones)
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=here, zones=(yard,))
    >>> season = ZoneSeason(yard, (), input=made, catch=catch)
    >>> now, then = (depths_then(season, site, 0.6, du).sum() for du in (0.6, 0.9))
    >>> bool(then < now)
    True
    """
    assert season.input is not None, "the caller has looked"
    assert season.catch is not None, "the caller has looked"
    felt = roots_du(then, of_cans=can_du_lq, of_roots=season.catch.du_lq)
    even = evenness(season.catch, felt)
    factor = zone_factor(season.zone, site, season.zone.chosen_rule, even)
    return season_run(at_evenness(season.input, even, factor)).watering_mm[:, 0]


def full_night(
    site: Site,
    zones: Sequence[ZonePlan],
    costs: Sequence[ZoneCost],
    depths_mm: Mapping[str, FloatArray],
) -> FullNight | None:
    """The night of the run season in which the site puts on most water.

    Parameters
    ----------
    site : Site
        For its clock.
    zones : sequence of ZonePlan
        The week's zones: rate, intake and hardware of each.
    costs : sequence of ZoneCost
        Their run seasons.
    depths_mm : mapping of str to array of shape (n_days,)
        By zone, in place of the depths of its run season. [mm]

    Returns
    -------
    FullNight or None
        None where no zone has both; fixed minutes run besides, on the nights of their
        own weekdays.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> full_night(Site(name="a", units="us", place=here), (), (), {}) is None
    True
    """
    seasons = {one.zone_id: one for one in costs}
    ready = {
        one.zone.id: one
        for one in zones
        if one.input is not None and one.zone.id in seasons
    }
    if not ready:
        return None
    given = {name: depths_mm.get(name, _depths(seasons[name])) for name in ready}
    litres = np.sum(
        [given[name] * one.zone.area_m2 for name, one in ready.items()], axis=0
    )
    at = int(np.argmax(litres))
    if litres[at] <= 0:
        return None
    first: DateArray = next(iter(costs)).weekly.start
    # a depth is of the night before its day
    night: dt.date = (first[0] + np.timedelta64(at - 1, "D")).astype(object)
    dates = tuple(night + dt.timedelta(days=d) for d in range(DAYS_PER_WEEK))
    watered = [
        _of_night(one, float(given[name][at]), site, dates)
        for name, one in ready.items()
        if given[name][at] > 0
    ]
    watered += _fixed(zones, dates)
    left = [
        one.zone.id
        for one in zones
        if one.status in ("planned", "blocked") and one.zone.id not in ready
    ]
    return FullNight(night, tuple(watered), tuple(left))


def _depths(one: ZoneCost) -> FloatArray:
    assert one.season.watering_mm is not None, "its season was run"
    return one.season.watering_mm


def _of_night(
    one: ZonePlan, depth_mm: float, site: Site, dates: tuple[dt.date, ...]
) -> ZonePlan:
    """The zone's plan with what that one night asks for."""
    assert one.input is not None, "the caller has looked"
    exact = depth_mm / one.input.net_rate_mm_per_h * MIN_PER_H
    cut = split(
        exact,
        model=one.input.intake,
        wet_rate_mm_per_h=at_wet_mm_per_h(one.input),
        min_soak_min=one.zone.intake.min_soak_min,
        rounding=site.rounding,
        max_cycles=site.controller_of(one.zone).max_starts_per_day,
    )
    return replace(
        one,
        status="planned",
        dates=dates,
        days=dates[:1],
        minutes_per_day=cut.minutes,
        cycles=cut.cycles,
        cycle_minutes=cut.cycle_minutes,
        soak_minutes=cut.soak_minutes,
    )


def _fixed(zones: Sequence[ZonePlan], dates: tuple[dt.date, ...]) -> list[ZonePlan]:
    """Zones with fixed minutes that water on the weekday of that night."""
    night = dates[0].weekday()
    return [
        replace(one, dates=dates, days=dates[:1])
        for one in zones
        if one.status == "fixed" and night in {day.weekday() for day in one.days}
    ]
