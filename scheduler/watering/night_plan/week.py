"""A site and its zones' minutes in; the week's nights with what must be said out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from scheduler.field.package_wind import SitePackageWind
from scheduler.record import History
from scheduler.site import Site, open_nights
from scheduler.watering.night_plan.begin import begin_nights
from scheduler.watering.night_plan.board import NightBoard
from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.layout import NightLayout, laid_out
from scheduler.watering.night_plan.night_hours import NightHours
from scheduler.watering.night_plan.pins import pinned
from scheduler.watering.night_plan.real_soak import soaks_kept
from scheduler.watering.night_plan.result import (
    NightPlan,
    NightSummary,
    NightWindow,
    Pin,
    PlannedRun,
    WateredZone,
)
from scheduler.watering.night_plan.said import (
    left_as_it_is,
    night_findings,
    no_plan_findings,
)
from scheduler.watering.night_plan.traces import summary_traces
from scheduler.watering.timetable import Placed


def night_plan(
    site: Site,
    history: History,
    zones: Sequence[WateredZone],
    *,
    pins: Sequence[Pin] = (),
    winds: SitePackageWind | None = None,
    begun: NightPlan | None = None,
) -> NightPlan | None:
    """Fit a week's waterings into its nights.

    Parameters
    ----------
    site : Site
        Windows, blocked hours, pump, clock, packages.
    history : History
        Wind logs, and the last issued week, whose places are kept where that costs
        little.
    zones : sequence of WateredZone
        Each zone's nights, cycles and soaks.
    pins : sequence of Pin, optional
        Waterings that somebody moved; they stay where they were put.
    winds : SitePackageWind, optional
        What wind does to the packages: what makes a windy minute dear. Without a line
        the calmer of equal minutes is taken.
    begun : NightPlan, optional
        A plan of the same nights whose places are kept where that costs little.

    Returns
    -------
    NightPlan or None
        None where no zone is watered.

    Notes
    -----
    Without a window, or with neither the pump's flow nor the valves at once, nothing
    says what fits: no runs, and a finding.

    References
    ----------
    Source: definition; the timetable's rooms name their own.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> night_plan(Site(name="a", units="us", place=place), History(), ()) is None
    True
    """
    running = [one for one in zones if one.cycles and one.cycle_minutes and one.days]
    if not running:
        return None
    missing = no_plan_findings(site)
    if missing:
        pump = site.supply.flow_l_per_min if site.supply else None
        return NightPlan(
            (), (), NightSummary(None, None, None, "", None, pump, 0, ()), missing
        )
    start = begin_nights(site, history, running, winds or SitePackageWind({}))
    hours, week = start.hours, start.week
    if begun is None:
        last = last_week_places(history, week, hours)
    else:
        last = begun_places(begun, week, hours)
    layouts = laid_out(week, last, worth=site.controller.move_worth)
    allowed = {
        one.zone.id: open_nights(site, one.zone, np.array(hours.dates, "datetime64[D]"))
        for one in running
    }
    held = pinned(week, layouts, pins, hours, allowed)
    hand = {(hours.dates.index(pin.to_night), pin.zone) for pin in held.pins}
    week, (layouts, moved) = (
        held.week,
        soaks_kept(held.week, held.layouts, hours, hand),
    )
    board = NightBoard(
        site, hours, week, start.wind, _places(layouts, hours), held.pins, allowed
    )
    runs = tuple(
        sorted(
            (run for one in layouts for run in _runs(one, week, hours)),
            key=lambda run: (run.start, run.zone),
        )
    )
    unplaced = tuple(
        (zone, hours.dates[one.night]) for one in layouts for zone in one.table.unplaced
    )
    summary = _summary(site, layouts, week, hours)
    wind, price = start.wind, start.price
    if price.over_mean is not None:
        summary = replace(summary, scale="money")
    said = (
        *night_findings(site, week, layouts, hours),
        *left_as_it_is(zones),
        *price.findings,
        *start.findings,
        *held.findings,
        *moved,
    )
    traces = summary_traces(summary, wind.source, price.source)
    return NightPlan(runs, unplaced, summary, said, traces, wind, board)


def _places(
    layouts: Sequence[NightLayout], hours: NightHours
) -> tuple[tuple[Placed, ...], ...]:
    by_night = {one.night: one.table.placed for one in layouts}
    return tuple(by_night.get(night, ()) for night in range(len(hours.dates)))


def begun_places(
    begun: NightPlan, week: WeekJobs, hours: NightHours
) -> dict[int, list[Placed]]:
    """Places of a plan of the same nights.

    Parameters
    ----------
    begun : NightPlan
        The plan.
    week : WeekJobs
        For the minutes and soaks of now.
    hours : NightHours
        The nights.

    Returns
    -------
    dict of int to list of Placed
        By night; cycles that grew are moved on as far as their soaks ask.

    References
    ----------
    Source: definition.
    """
    starts: dict[tuple[int, str], list[int]] = {}
    for run in begun.runs:
        night = hours.dates.index(run.night)
        minute = round((run.start - hours.clock(night, 0)).total_seconds() / 60)
        starts.setdefault((night, run.zone), []).append(minute)
    return _by_night(starts, week)


def last_week_places(
    history: History, week: WeekJobs, hours: NightHours
) -> dict[int, list[Placed]]:
    """Places of the newest issued week that tells them, by night of this one.

    Parameters
    ----------
    history : History
        Issued weeks.
    week : WeekJobs
        For the minutes and soaks of now.
    hours : NightHours
        The nights.

    Returns
    -------
    dict of int to list of Placed
        Empty where no week tells them; cycles that grew are moved on as far as their
        soaks ask.

    References
    ----------
    Source: definition.
    """
    first = hours.dates[0]
    told = [one for one in history.issued if one.runs and one.start <= first]
    if not told:
        return {}
    newest = max(told, key=lambda one: one.order)
    starts: dict[tuple[int, str], list[int]] = {}
    for run in newest.runs:
        anchor = run.start - dt.timedelta(minutes=hours.first_min)
        minute = anchor.hour * 60 + anchor.minute
        for night, date in enumerate(hours.dates):
            if date.weekday() == anchor.weekday():
                starts.setdefault((night, run.zone), []).append(minute)
    return _by_night(starts, week)


def _by_night(
    starts: Mapping[tuple[int, str], list[int]], week: WeekJobs
) -> dict[int, list[Placed]]:
    jobs = [{job.zone: job for job in some} for some in week.jobs]
    found: dict[int, list[Placed]] = {}
    for (night, zone), some in starts.items():
        at = sorted(some)
        job = jobs[night].get(zone)
        for i in range(1, len(at) if job else 0):
            assert job is not None, "the range is empty without one"
            at[i] = max(at[i], at[i - 1] + job.cycle_min + job.soak_min)
        found.setdefault(night, []).append(Placed(0, tuple(at), zone))
    return {night: sorted(some) for night, some in found.items()}


def _runs(one: NightLayout, week: WeekJobs, hours: NightHours) -> list[PlannedRun]:
    minutes = {job.zone: job.cycle_min for job in week.jobs[one.night]}
    return [
        PlannedRun(
            placed.zone,
            hours.dates[one.night],
            hours.clock(one.night, start),
            hours.clock(one.night, start + minutes[placed.zone]),
            week.flow[placed.zone],
        )
        for placed in one.table.placed
        for start in placed.starts
    ]


def _summary(
    site: Site, layouts: Sequence[NightLayout], week: WeekJobs, hours: NightHours
) -> NightSummary:
    windows = tuple(_window(one, week, hours) for one in layouts)
    tables = [one.table for one in layouts]
    fits = not any(one.unplaced for one in tables)
    short = [one.length.short_min for one in layouts if one.length]
    gap = None
    if fits and all(one.bound is not None for one in tables):
        bound = sum(one.bound or 0.0 for one in tables)
        gap = max(sum(one.cost for one in tables) / bound - 1.0, 0.0) if bound else None
    kinds = {one.bound_kind for one in tables}
    return NightSummary(
        fits=fits,
        minutes_short=0 if fits else max(short, default=0),
        gap_to_bound=gap,
        bound_kind=" and ".join(sorted(kinds - {""})) if gap is not None else "",
        peak_flow_l_per_min=max(one.peak_flow_l_per_min for one in windows),
        pump_l_per_min=site.supply.flow_l_per_min if site.supply else None,
        most_valves=max(_most(one, week)[1] for one in layouts),
        windows=windows,
    )


def _most(one: NightLayout, week: WeekJobs) -> tuple[float, int]:
    """Highest flow and most valves of a night."""
    change: list[tuple[int, int, float]] = []
    minutes = {job.zone: job.cycle_min for job in week.jobs[one.night]}
    for placed in one.table.placed:
        flow = week.flow[placed.zone] or 0.0
        for start in placed.starts:
            change += [(start, 1, flow), (start + minutes[placed.zone], -1, -flow)]
    flow = peak = 0.0
    valves = most = 0
    for _, step, by in sorted(change):
        flow, valves = flow + by, valves + step
        peak, most = max(peak, flow), max(most, valves)
    return peak, most


def _window(one: NightLayout, week: WeekJobs, hours: NightHours) -> NightWindow:
    is_open = hours.is_open[one.night].nonzero()[0]
    first = int(is_open[0]) if is_open.size else 0
    last = int(is_open[-1]) + 1 if is_open.size else 0
    minutes = {job.zone: job.cycle_min for job in week.jobs[one.night]}
    ends = [placed.starts[-1] + minutes[placed.zone] for placed in one.table.placed]
    length = one.length
    return NightWindow(
        night=hours.dates[one.night],
        start=hours.clock(one.night, first),
        end=hours.clock(one.night, last),
        minutes=last - first,
        used_minutes=max(ends, default=first) - first,
        free_minutes=length.free_min if length else None,
        pairs_minutes=length.pairs_min if length else None,
        pairs=length.pairs if length else (),
        peak_flow_l_per_min=_most(one, week)[0],
    )
