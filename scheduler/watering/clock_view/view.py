"""A site, its night plan and the minutes keyed in; the programs to key in now, out."""

import datetime as dt
from collections.abc import Mapping, Sequence

from scheduler.site import Site
from scheduler.trace import Trace, entered
from scheduler.watering.clock_view.expanded import DAY_MIN, expanded
from scheduler.watering.clock_view.nearest import Room, nearest_programs
from scheduler.watering.clock_view.nouns import (
    ClockRun,
    ClockView,
    MovedRun,
    Program,
)
from scheduler.watering.clock_view.percent import Keyed, percent_for_all, percent_way
from scheduler.watering.clock_view.programs import named, week_programs
from scheduler.watering.clock_view.said import clock_view_findings, not_given_back
from scheduler.watering.night_plan import NightPlan
from scheduler.watering.night_plan.night_hours import NightHours, night_hours

FULL_PERCENT = 100
Nearest = tuple[tuple[Program, ...], tuple[MovedRun, ...]]


def clock_view(
    site: Site,
    night: NightPlan,
    dates: Sequence[dt.date],
    *,
    soak_min: Mapping[str, int],
    keyed: Sequence[Keyed] = (),
) -> ClockView | None:
    """The timetable as a common clock holds it.

    Parameters
    ----------
    site : Site
        For its clock, zones, windows and pump.
    night : NightPlan
        The timetable.
    dates : sequence of date
        The seven days.
    soak_min : mapping of str to int
        Least minutes between two cycles, by zone. [min]
    keyed : sequence of Keyed
        Minutes of a cycle before and now, of the zones whose cycles did not change.

    Returns
    -------
    ClockView or None
        None where there is no timetable.

    Notes
    -----
    Whole minutes; stations run by number. The number is that of the valve where every
    zone has one of its own, else the zone's place in the file. The programs are
    expanded again and held against the timetable, minute for minute.

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
    if not night.runs:
        return None
    first, clock = dates[0], site.controller
    hours, numbers = night_hours(site, dates), station_numbers(site)
    runs = _runs(night, first)
    programs = week_programs(
        runs, numbers, first,
        delay_min=clock.change_over_minutes, most_starts=clock.starts_per_program,
    )  # fmt: skip
    anchor = hours.first_min
    delay = clock.change_over_minutes
    given, _ = expanded(programs, first, anchor_min=anchor, delay_min=delay)
    overlaps = _overlaps(programs, first, anchor, delay)
    nearest = _nearest(site, night, hours, (programs, overlaps), soak_min)
    findings = [*clock_view_findings(clock, programs, overlaps, nearest)]
    fault = not_given_back(runs, given)
    if fault is not None:
        findings.append(fault)
    step = clock.percent_step
    is_every = {one.zone for one in keyed} == {one.zone for one in runs}
    ways = (percent_way(one, step=step) for one in keyed)
    return ClockView(
        programs=programs,
        is_held=_is_held(site, programs, bool(overlaps)) and fault is None,
        nearest=nearest[0] if nearest else None,
        moved=nearest[1] if nearest else (),
        percent_adjust=FULL_PERCENT,
        percent_ways=tuple(one for one in ways if one is not None),
        percent_for_all=percent_for_all(keyed, step=step) if is_every else None,
        overlaps=overlaps,
        findings=tuple(findings),
        traces=_traces(site, programs),
    )


def station_numbers(site: Site) -> dict[str, int]:
    """Station of each zone.

    Parameters
    ----------
    site : Site
        The site.

    Returns
    -------
    dict of str to int
        By id of the zone.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place, Zone
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> zones = tuple(Zone(id=name, name=name, valve=valve, area_m2=1.0,
    ...                    grown_in="soil", watered="off")
    ...               for name, valve in (("Z1", "V7"), ("Z2", "V3")))
    >>> station_numbers(Site(name="a", units="us", place=place, zones=zones))
    {'Z1': 7, 'Z2': 3}
    """
    digits = ["".join(filter(str.isdecimal, one.valve)) for one in site.zones]
    if all(digits) and len(set(digits)) == len(digits):
        return {
            one.id: int(number) for one, number in zip(site.zones, digits, strict=True)
        }
    return {one.id: i for i, one in enumerate(site.zones, 1)}


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


def _is_held(site: Site, programs: Sequence[Program], overlaps: bool) -> bool | None:
    clock = site.controller
    if overlaps and clock.programs_overlap is False:
        return False
    if clock.programs is None:
        return None
    return len(programs) <= clock.programs


def _nearest(
    site: Site,
    night: NightPlan,
    hours: NightHours,
    view: tuple[tuple[Program, ...], tuple[tuple[str, str], ...]],
    soak_min: Mapping[str, int],
) -> Nearest | None:
    """The nearest week that the clock holds, where it does not hold this one."""
    programs, overlaps = view
    clock = site.controller
    first, anchor = hours.dates[0], hours.first_min
    delay = clock.change_over_minutes
    must_wait = bool(overlaps) and clock.programs_overlap is False
    found: tuple[Program, ...] | None = programs
    room = _room(site, night, hours, soak_min)
    if clock.programs is not None and len(programs) > clock.programs:
        found = nearest_programs(programs, room, most=clock.programs)
    elif not must_wait:
        return None
    if found is None:
        return None
    found = named(found)
    given, _ = expanded(
        found, first, anchor_min=anchor, delay_min=delay, may_overlap=not must_wait
    )
    if must_wait and not all(_is_open(one, room) for one in given):
        return None
    return found, _moved(_runs(night, first), given, first, anchor)


def _is_open(run: ClockRun, room: Room) -> bool:
    """Whether a run lies within the open minutes of its night."""
    night, at = divmod(run.start_min - room.anchor_min, DAY_MIN)
    row = room.is_open[run.zone]
    if night >= len(row) or at + run.minutes > row.shape[1]:
        return False
    return bool(row[night, at : at + run.minutes].all())


def _room(
    site: Site, night: NightPlan, hours: NightHours, soak_min: Mapping[str, int]
) -> Room:
    ids = {one.id.casefold(): one.id for one in site.zones}
    pairs = {
        (one.id, ids.get(other.casefold(), other))
        for one in site.zones
        for other in one.not_with
    }
    is_open = {}
    for one in site.zones:
        own = [
            some
            for some in site.blocked_hours
            if one.id.casefold() in (name.casefold() for name in some.zones)
        ]
        is_open[one.id] = hours.without(own) if own else hours.is_open
    return Room(
        first=hours.dates[0],
        anchor_min=hours.first_min,
        is_open=is_open,
        flow_l_per_min={run.zone: run.flow_l_per_min or 0.0 for run in night.runs},
        soak_min=soak_min,
        apart=frozenset(pairs | {(b, a) for a, b in pairs}),
        pump_l_per_min=site.supply.flow_l_per_min if site.supply else None,
        most_valves=site.controller.max_valves_at_once,
        delay_min=site.controller.change_over_minutes,
    )


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


def _traces(site: Site, programs: Sequence[Program]) -> tuple[Trace, ...]:
    clock = site.controller
    starts = max(len(one.starts) for one in programs)
    where = "site.toml: controller"
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
