"""Zones with their minutes in; the jobs of each night and the grid they go by out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import BoolArray, FloatArray
from scheduler.site import BlockedHours, Package, Site, Zone
from scheduler.stations import change_over_min
from scheduler.watering.night_plan.night_hours import NightHours
from scheduler.watering.night_plan.result import WateredZone
from scheduler.watering.timetable import Grid, Job, all_valves
from scheduler.watering.zone_flow import zone_flow

# A soak may last so much longer than it must: starts 30 to 60 min apart are common
# (Texas A&M, cycle and soak), and ground that lies for hours takes water as if dry.
MORE_SOAK_MIN = 60


@dataclass(frozen=True, slots=True, eq=False)
class WeekJobs:
    """What waits to be watered.

    Attributes
    ----------
    jobs : tuple of tuple of Job
        Of each night, by zone.
    grids : tuple of Grid
        One night each.
    flow : dict of str to float or None
        Flow of each zone that runs. [l_per_min]
    unknown_flow : tuple of str
        Zones without one.
    """

    jobs: tuple[tuple[Job, ...], ...]
    grids: tuple[Grid, ...]
    flow: dict[str, float | None]
    unknown_flow: tuple[str, ...]


def week_jobs(
    site: Site,
    zones: Sequence[WateredZone],
    hours: NightHours,
    cost: Mapping[str, FloatArray],
) -> WeekJobs:
    """Jobs and grids of the nights.

    Parameters
    ----------
    site : Site
        For pump, clock, blocked hours and packages.
    zones : sequence of WateredZone
        Zones with their nights and cycles; those without minutes are passed by.
    hours : NightHours
        Minutes of the nights.
    cost : mapping of str to array of shape (n_nights, n_minutes)
        Cost of a litre by zone. [-]

    Returns
    -------
    WeekJobs
        One grid a night; zones with the same minutes and costs share a row of it.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> import datetime as dt
    >>> hours = NightHours((dt.date(2026, 6, 8),), 1320, np.ones((1, 390), dtype=bool))
    >>> week_jobs(Site(name="a", units="us", place=place), (), hours, {}).jobs
    ((),)
    """
    running = [one for one in zones if one.cycles and one.cycle_minutes and one.days]
    rows: dict[tuple[bytes, bytes], int] = {}
    opens: list[BoolArray] = []
    costs: list[FloatArray] = []
    jobs: list[list[Job]] = [[] for _ in hours.dates]
    flow: dict[str, float | None] = {}
    unknown = []
    ids = {one.id.casefold(): one.id for one in site.zones}
    for one in running:
        zone = one.zone
        flow[zone.id] = _flow(one, site.package_of(zone))
        if flow[zone.id] is None:
            unknown.append(zone.id)
        is_open, price = hours.without(_own(site, zone)), cost[zone.id]
        key = (is_open.tobytes(), price.tobytes())
        if key not in rows:
            rows[key] = len(opens)
            opens.append(is_open)
            costs.append(np.broadcast_to(price, is_open.shape))
        job = replace(
            _job(one, flow[zone.id], rows[key], ids),
            clock=site.controllers.index(site.controller_of(zone)),
        )
        for day in one.days:
            jobs[hours.dates.index(day)].append(job)
    grids = tuple(_grid(site, hours, (opens, costs), n) for n in range(len(jobs)))
    ordered = tuple(tuple(sorted(some, key=lambda job: job.zone)) for some in jobs)
    return WeekJobs(ordered, grids, flow, tuple(unknown))


def _flow(one: WateredZone, package: Package | None) -> float | None:
    """Flow of a zone: by its heads or its area, else what the cans caught at least."""
    rate = one.evidence.net_rate_mm_per_h if one.evidence else None
    trace = zone_flow(one.zone, package, rate)
    return float(trace.value) if trace and isinstance(trace.value, float) else None


def _own(site: Site, zone: Zone) -> list[BlockedHours]:
    """Blocked hours that name the zone."""
    wanted = zone.id.casefold()
    return [
        one
        for one in site.blocked_hours
        if wanted in (name.casefold() for name in one.zones)
    ]


def _job(
    one: WateredZone, flow: float | None, kind: int, ids: Mapping[str, str]
) -> Job:
    names = (ids.get(name.casefold(), name) for name in one.zone.not_with)
    return Job(
        zone=one.zone.id,
        cycles=one.cycles or 1,
        cycle_min=one.cycle_minutes or 1,
        soak_min=one.soak_minutes or 0,
        most_soak_min=(one.soak_minutes or 0) + MORE_SOAK_MIN,
        flow_l_per_min=flow,
        must=(0,),
        not_with=tuple(names),
        kind=kind,
    )


def _grid(
    site: Site,
    hours: NightHours,
    rows: tuple[list[BoolArray], list[FloatArray]],
    night: int,
) -> Grid:
    shape = (0, 1, hours.is_open.shape[1])
    opens, costs = rows
    valves = tuple(one.max_valves_at_once for one in site.controllers)
    return Grid(
        np.array([one[night : night + 1] for one in opens], dtype=bool).reshape(
            len(opens), *shape[1:]
        ),
        np.array([one[night : night + 1] for one in costs], dtype=float).reshape(
            len(costs), *shape[1:]
        ),
        site.supply.flow_l_per_min if site.supply else None,
        all_valves(valves),
        change_over_min(site),
        valves if site.more_controllers else (),
    )
