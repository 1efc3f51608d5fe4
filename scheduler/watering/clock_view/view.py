"""A site, its night plan and the minutes keyed in; the programs to key in now, out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.site import Site, open_nights
from scheduler.stations import Wired, change_over_min, clock_names, wired
from scheduler.trace import Trace, entered
from scheduler.watering.clock_view.expanded import DAY_MIN, expanded
from scheduler.watering.clock_view.nearest import nearest_programs, other_water
from scheduler.watering.clock_view.nouns import (
    ClockRun,
    ClockView,
    MovedRun,
    Nearest,
    Program,
)
from scheduler.watering.clock_view.percent import Keyed, percent_for_all, percent_way
from scheduler.watering.clock_view.programs import named, week_programs
from scheduler.watering.clock_view.room import Room, spans_by_night, week_holds
from scheduler.watering.clock_view.said import clock_view_findings, not_given_back
from scheduler.watering.night_plan import NightPlan
from scheduler.watering.night_plan.night_hours import NightHours, night_hours

FULL_PERCENT = 100
Overlaps = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Week:
    """What all clocks of a site share."""

    site: Site
    night: NightPlan
    hours: NightHours
    delay_min: int
    soak_min: Mapping[str, int]
    rate_mm_per_h: Mapping[str, float]

    @property
    def first(self) -> dt.date:
        return self.hours.dates[0]


def clock_view(
    site: Site,
    night: NightPlan,
    dates: Sequence[dt.date],
    *,
    soak_min: Mapping[str, int],
    keyed: Sequence[Keyed] = (),
) -> ClockView | None:
    """The timetable as a site's first clock with water holds it.

    Parameters
    ----------
    site, night, dates, soak_min, keyed : as in `clock_views`
        What is asked.

    Returns
    -------
    ClockView or None
        None where there is no timetable.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> from scheduler.watering.night_plan.result import NightSummary
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> none = NightPlan((), (), NightSummary(None, None, None, "", None, None, 0, ()),
    ...                  ())
    >>> clock_view(Site(name="a", units="us", place=place), none, (), soak_min={})
    """
    views = clock_views(site, night, dates, soak_min=soak_min, keyed=keyed)
    return views[0] if views else None


def clock_views(
    site: Site,
    night: NightPlan,
    dates: Sequence[dt.date],
    *,
    soak_min: Mapping[str, int],
    keyed: Sequence[Keyed] = (),
    rate_mm_per_h: Mapping[str, float] | None = None,
) -> tuple[ClockView, ...]:
    """The timetable as the clocks of a site hold it, each for itself.

    Parameters
    ----------
    site : Site
        For its clocks, zones, windows and pump.
    night : NightPlan
        The timetable.
    dates : sequence of date
        The seven days.
    soak_min : mapping of str to int
        Least minutes between two cycles, by zone. [min]
    keyed : sequence of Keyed
        Minutes of a cycle before and now, of the zones whose cycles did not change.
    rate_mm_per_h : mapping of str to float, optional
        Net rate by zone, where it is known. [mm/h]

    Returns
    -------
    tuple of ClockView
        By clock; one that waters nothing this week is left out.

    Notes
    -----
    Whole minutes; stations run by number (`scheduler.stations`). The programs of each
    clock are expanded again and held against its part of the timetable, minute for
    minute. Stacked starts and programs that overlap are matters of one clock; the pump
    is that of all: the nearest week of a clock is found beside those of the clocks
    before it and the timetable of those after it.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> from scheduler.watering.night_plan.result import NightSummary
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> none = NightPlan((), (), NightSummary(None, None, None, "", None, None, 0, ()),
    ...                  ())
    >>> clock_views(Site(name="a", units="us", place=place), none, (), soak_min={})
    ()
    """
    if not night.runs:
        return ()
    hours = night_hours(site, dates)
    delay = change_over_min(site)
    week = _Week(site, night, hours, delay, soak_min, rate_mm_per_h or {})
    views, runs = [], _runs(night, hours.dates[0])
    for place, own in enumerate(wired(site)):
        view = _view(week, (place, own), runs, keyed)
        if view is not None:
            views.append(view)
            runs = _as_keyed(week, own, view, runs)
    return tuple(views)


def _as_keyed(
    week: _Week, own: Wired, view: ClockView, runs: Sequence[ClockRun]
) -> list[ClockRun]:
    """Runs of all clocks once this one has its nearest week.

    One pump feeds all: the nearest weeks of two clocks, each beside the timetable of
    the other, may be too much for it together.
    """
    if view.nearest is None:
        return [*runs]
    given, _ = expanded(
        view.nearest, week.first, anchor_min=week.hours.first_min,
        delay_min=week.delay_min,
        may_overlap=own.controller.programs_overlap is not False,
    )  # fmt: skip
    return [*given, *(one for one in runs if one.zone not in own.numbers)]


def _view(
    week: _Week,
    at: tuple[int, Wired],
    every: Sequence[ClockRun],
    keyed: Sequence[Keyed],
) -> ClockView | None:
    """One clock's part of the timetable, beside what all others run."""
    place, own = at
    clock, first, anchor = own.controller, week.first, week.hours.first_min
    runs = [one for one in every if one.zone in own.numbers]
    if not runs:
        return None
    programs = week_programs(
        runs, own.numbers, first,
        delay_min=week.delay_min, most_starts=clock.starts_per_program,
    )  # fmt: skip
    given, _ = expanded(programs, first, anchor_min=anchor, delay_min=week.delay_min)
    overlaps = _overlaps(programs, first, anchor, week.delay_min)
    nearest = _nearest(week, own, (programs, overlaps), every)
    several = bool(week.site.more_controllers)
    name = clock_names(week.site)[place]
    where = f"site.toml: controller{f' {name}' if several else ''}"
    together = overlaps
    if nearest is not None and clock.programs_overlap is None:
        together = _overlaps(nearest.programs, first, anchor, week.delay_min)
    findings = [
        *clock_view_findings(
            clock, programs, together, nearest, where=where, units=week.site.units
        )
    ]
    fault = not_given_back(runs, given)
    if fault is not None:
        findings.append(fault)
    mine = [one for one in keyed if one.zone in own.numbers]
    is_every = {one.zone for one in mine} == {one.zone for one in runs}
    ways = (percent_way(one, step=clock.percent_step) for one in mine)
    return ClockView(
        programs=programs,
        is_held=_is_held(own, programs, bool(overlaps)) and fault is None,
        nearest=nearest.programs if nearest else None,
        moved=nearest.moved if nearest else (),
        percent_adjust=FULL_PERCENT,
        percent_ways=tuple(one for one in ways if one is not None),
        percent_for_all=percent_for_all(mine, step=clock.percent_step)
        if is_every
        else None,
        overlaps=overlaps,
        findings=tuple(findings),
        traces=_traces(own, programs),
        other=nearest.other if nearest else (),
        id=clock.id,
        name=name,
        place=place,
        zones=tuple(one.id for one in own.zones),
    )


def _runs(night: NightPlan, first: dt.date) -> list[ClockRun]:
    midnight = dt.datetime.combine(first, dt.time())
    minute = dt.timedelta(minutes=1)
    return [
        ClockRun(
            (one.start - midnight) // minute, one.zone, (one.end - one.start) // minute
        )
        for one in night.runs
    ]


def _overlaps(
    programs: Sequence[Program], first: dt.date, anchor: int, delay: int
) -> tuple[tuple[str, str], ...]:
    """Programs that run at the same minute."""
    spans = []
    for one in programs:
        runs, _ = expanded([one], first, anchor_min=anchor, delay_min=delay)
        spans += [
            (run.start_min, run.start_min + run.minutes, one.name) for run in runs
        ]
    spans.sort()
    found: dict[tuple[str, str], None] = {}
    for i, (_, end, name) in enumerate(spans):
        for start, _, other in spans[i + 1 :]:
            if start >= end:
                break
            if other != name:
                found[min(name, other), max(name, other)] = None
    return tuple(found)


def _is_held(own: Wired, programs: Sequence[Program], overlaps: bool) -> bool | None:
    clock = own.controller
    if overlaps and clock.programs_overlap is False:
        return False
    if clock.programs is None:
        return None
    return len(programs) <= clock.programs


def _nearest(
    week: _Week,
    own: Wired,
    asked: tuple[tuple[Program, ...], Overlaps],
    every: Sequence[ClockRun],
) -> Nearest | None:
    """The nearest week that the clock holds, where it does not hold this one."""
    programs, overlaps = asked
    clock, first, anchor = own.controller, week.first, week.hours.first_min
    must_wait = bool(overlaps) and clock.programs_overlap is False
    found: tuple[Program, ...] | None = programs
    room = _room(week, own, every)
    if clock.programs is not None and len(programs) > clock.programs:
        found = nearest_programs(programs, room, most=clock.programs)
    elif not must_wait:
        return None
    if found is None:
        return None
    found = named(found)
    given, _ = expanded(
        found, first, anchor_min=anchor, delay_min=week.delay_min,
        may_overlap=clock.programs_overlap is not False,
    )  # fmt: skip
    if not week_holds(room, given):
        return None
    own_runs = [one for one in every if one.zone in own.numbers]
    moved = _moved(own_runs, given, first, anchor)
    other = other_water(programs, found, room, week.rate_mm_per_h)
    return Nearest(found, moved, other)


def _room(week: _Week, own: Wired, every: Sequence[ClockRun]) -> Room:
    site, hours = week.site, week.hours
    ids = {one.id.casefold(): one.id for one in site.zones}
    pairs = {
        (one.id, ids.get(other.casefold(), other))
        for one in site.zones
        for other in one.not_with
    }
    is_open = {}
    for one in own.zones:
        blocked = [
            some
            for some in site.blocked_hours
            if one.id.casefold() in (name.casefold() for name in some.zones)
        ]
        is_open[one.id] = hours.without(blocked) if blocked else hours.is_open
    others = [one for one in every if one.zone not in is_open]
    return Room(
        first=week.first,
        anchor_min=hours.first_min,
        is_open=is_open,
        flow_l_per_min={run.zone: run.flow_l_per_min or 0.0 for run in week.night.runs},
        soak_min=week.soak_min,
        apart=frozenset(pairs | {(b, a) for a, b in pairs}),
        pump_l_per_min=site.supply.flow_l_per_min if site.supply else None,
        most_valves=own.controller.max_valves_at_once,
        delay_min=week.delay_min,
        nights=_allowed(week, own),
        most_starts=own.controller.starts_per_program,
        beside=spans_by_night(others, hours.first_min),
    )


def _allowed(week: _Week, own: Wired) -> dict[str, frozenset[int]]:
    """Weekdays on which each zone may water."""
    dates = np.array(week.hours.dates, dtype="datetime64[D]")
    return {
        one.id: frozenset(
            day.weekday()
            for day, is_open in zip(
                week.hours.dates, open_nights(week.site, one, dates), strict=True
            )
            if is_open
        )
        for one in own.zones
    }


def _moved(
    before: Sequence[ClockRun], after: Sequence[ClockRun], first: dt.date, anchor: int
) -> tuple[MovedRun, ...]:
    """Runs that another week moves, each against the one of its zone and night."""
    was: dict[tuple[str, int], list[int]] = {}
    now: dict[tuple[str, int], list[int]] = {}
    for runs, places in ((before, was), (after, now)):
        for run in sorted(runs):
            night = (run.start_min - anchor) // DAY_MIN
            places.setdefault((run.zone, night), []).append(run.start_min)
    midnight = dt.datetime.combine(first, dt.time())
    return tuple(
        MovedRun(
            zone,
            first + dt.timedelta(days=night),
            midnight + dt.timedelta(minutes=old),
            new - old,
        )
        for (zone, night), starts in was.items()
        for old, new in zip(starts, now.get((zone, night), starts), strict=False)
        if new != old
    )


def _traces(own: Wired, programs: Sequence[Program]) -> tuple[Trace, ...]:
    clock = own.controller
    starts = max(len(one.starts) for one in programs)
    where = f"site.toml: controller {clock.id}".rstrip()
    return (
        Trace(
            "programs",
            float(len(programs)),
            "runs that follow one another share a start; alike starts share a program",
            "definition",
            (entered("programs_held", clock.programs, where),),
        ),
        Trace(
            "starts_per_program",
            float(starts),
            "most starts of one program",
            "definition",
            (entered("starts_held", clock.starts_per_program, where),),
        ),
    )
