"""The nights as laid out in, what must be said of them out."""

from collections.abc import Iterator, Sequence

from scheduler.errors import Finding
from scheduler.said import day_text
from scheduler.site import Site
from scheduler.units import System, shown
from scheduler.watering.night_plan.change_said import change_findings
from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.layout import NightLayout
from scheduler.watering.night_plan.night_hours import NightHours
from scheduler.watering.night_plan.result import WateredZone
from scheduler.watering.timetable.ways_out import Overrun, WayOut

# Common practice, no source: tests are run with one valve open, or two.
FEW_VALVES = 2


def no_plan_findings(site: Site) -> tuple[Finding, ...]:
    """Why no night can be laid out.

    Parameters
    ----------
    site : Site
        For window, pump and clock.

    Returns
    -------
    tuple of Finding
        Empty where windows and a limit are known.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> [one.where for one in no_plan_findings(Site(name="a", units="us", place=place))]
    ['site.toml: supply']
    """
    pump = site.supply.flow_l_per_min if site.supply else None
    valves = [one.max_valves_at_once for one in site.controllers]
    if pump is None and None in valves:
        what = "neither the flow of the pump nor the valves at once are entered"
        fix = (
            "no night plan is made: enter flow_gpm or flow_l_per_min under [supply], "
            "or max_valves_at_once under [controller]"
        )
        return (Finding("note", "site.toml: supply", what, fix),)
    if not site.windows:
        what = "none is entered: no night plan is made"
        fix = "add [[window]] with start, end and days"
        return (Finding("note", "site.toml: window", what, fix),)
    return ()


def night_findings(
    site: Site, week: WeekJobs, layouts: Sequence[NightLayout], hours: NightHours
) -> tuple[Finding, ...]:
    """What must be said of the nights.

    Parameters
    ----------
    site : Site
        For names and units.
    week : WeekJobs
        Jobs and flows.
    layouts : sequence of NightLayout
        The nights.
    hours : NightHours
        For their dates.

    Returns
    -------
    tuple of Finding
        Overruns first, then what is not known.

    References
    ----------
    Source: definition.
    """
    return (
        *_overruns(site, layouts, hours),
        *_names(site),
        *_flows(site, week),
        *_clock(site, week),
        *_pairs(layouts),
        *change_findings(week, layouts, hours),
        *_many_valves(week, layouts, hours),
    )


def left_as_it_is(zones: Sequence[WateredZone]) -> tuple[Finding, ...]:
    """Zones that the clock runs as before, beside the night plan.

    Parameters
    ----------
    zones : sequence of WateredZone
        All zones of the week.

    Returns
    -------
    tuple of Finding
        One warning, or none.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> left_as_it_is(())
    ()
    """
    left = [one.zone.id for one in zones if one.status == "blocked"]
    if not left:
        return ()
    what = (
        f"{', '.join(left)}: blocked, so the clock keeps its old setting; what it runs "
        "then is not in the night plan and takes from the same pump"
    )
    fix = "settle the finding that blocks it, or set it to off"
    return (Finding("warning", "night plan", what, fix),)


def _overruns(
    site: Site, layouts: Sequence[NightLayout], hours: NightHours
) -> Iterator[Finding]:
    by_reason: dict[int, list[NightLayout]] = {}
    for one in layouts:
        if one.overrun is not None:
            by_reason.setdefault(id(one.overrun), []).append(one)
    for some in by_reason.values():
        over = some[0].overrun
        assert over is not None, "kept above"
        days = ", ".join(day_text(hours.dates[one.night], "%a %d %b") for one in some)
        zones = ", ".join(dict.fromkeys(some[0].table.unplaced))
        length = over.length
        what = (
            f"the night of {days} does not fit: it takes {length.free_min} min with "
            f"free starts, {length.pairs_min} in pairs that start together; the window "
            f"has {length.window_min}, so {length.short_min} min are missing; no "
            f"room for {zones}; {_binds(over)}"
        )
        yield Finding("stop", "night plan", what, _ways(over, site.units))


def _binds(over: Overrun) -> str:
    without = dict(over.without)
    if over.binds not in without:
        return "no limit but the window binds"
    return (
        f"the limit that binds is {over.binds} ({without[over.binds]} min without it)"
    )


def _ways(over: Overrun, units: System) -> str:
    if not over.ways:
        return (
            "water some zones on other nights, or open the window: no single step helps"
        )
    return "; or ".join(_way(one, units) for one in over.ways)


def _way(one: WayOut, units: System) -> str:
    if one.way == "free starts":
        return f"start each zone as soon as there is room ({one.minutes} min)"
    if one.way == "alternate nights":
        a, b = one.zones
        return (
            f"let {a} and {b} take turns by nights, each with twice its minutes "
            f"({one.minutes} min)"
        )
    if one.way == "window":
        return f"open the window by {one.amount:.0f} min"
    if one.way == "pump":
        flow = shown(one.amount, "l_per_min", units)
        return f"bring the pump to {flow} ({one.minutes} min)"
    return f"trim all minutes by {one.amount:.0%} ({one.minutes} min)"


def _names(site: Site) -> Iterator[Finding]:
    known = {one.id.casefold() for one in site.zones}
    for zone in site.zones:
        for name in zone.not_with:
            if name.casefold() not in known:
                what = f'names "{name}", and there is no such zone'
                fix = _id_now(site, name) or "correct the id, or take it out"
                yield Finding("warning", f"zone {zone.id}: not_with", what, fix)
    for blocked in site.blocked_hours:
        for name in blocked.zones:
            if name.casefold() not in known:
                where = f"site.toml: blocked ({blocked.reason})"
                what = f'names zone "{name}", and there is no such zone'
                fix = _id_now(site, name) or "correct the id"
                yield Finding("warning", where, what, fix)


def _id_now(site: Site, name: str) -> str:
    """What to write for a zone by an id it had before; empty where none had it."""
    now = [
        zone.id
        for zone in site.zones
        if name.casefold() in (one.casefold() for one in zone.formerly)
    ]
    return f'write "{now[0]}", as it is called now' if len(now) == 1 else ""


def _flows(site: Site, week: WeekJobs) -> Iterator[Finding]:
    pump = site.supply.flow_l_per_min if site.supply else None
    if pump is None:
        what = (
            "the flow of the pump is not entered: the nights keep to the valves alone"
        )
        fix = "measure it at the pressure that the heads need, and enter it"
        yield Finding("warning", "site.toml: supply", what, fix)
        return
    for zone in week.unknown_flow:
        what = "is not known: the night plan places it by time only"
        fix = "enter heads and the package's nozzle_flow: the pump may be overdrawn"
        yield Finding("warning", f"zone {zone}: flow", what, fix)
    for zone, flow in sorted(week.flow.items()):
        if flow is not None and flow > pump:
            what = (
                f"takes {shown(flow, 'l_per_min', site.units)}, the pump gives "
                f"{shown(pump, 'l_per_min', site.units)}"
            )
            fix = "check heads, nozzle flow and the pump; or split the zone"
            yield Finding("stop", f"zone {zone}: flow", what, fix)


def _clock(site: Site, week: WeekJobs) -> Iterator[Finding]:
    for zone, cycles, clock in sorted(
        {(j.zone, j.cycles, j.clock) for some in week.jobs for j in some}
    ):
        most = site.controllers[clock].max_starts_per_day
        if most is not None and cycles > most:
            what = f"needs {cycles} starts a night, the clock has {most}"
            fix = "allow more nights, or use a second program"
            yield Finding("warning", f"zone {zone}: starts", what, fix)


def _pairs(layouts: Sequence[NightLayout]) -> Iterator[Finding]:
    """Nights that only fit when zones start one by one."""
    for one in layouts:
        length = one.length
        if length and not length.short_min and length.pairs_short_min:
            what = (
                f"with pairs that start together the fullest night takes "
                f"{length.pairs_min} min, {length.pairs_short_min} more than the "
                f"window; with free starts {length.free_min}, which fits"
            )
            fix = "key in the starts of the night plan, not pairs"
            yield Finding("note", "night plan", what, fix)
            return


def _many_valves(
    week: WeekJobs, layouts: Sequence[NightLayout], hours: NightHours
) -> Iterator[Finding]:
    for one in layouts:
        together = _together(one, week)
        if len(together) > FEW_VALVES:
            night = day_text(hours.dates[one.night], "%a %d %b")
            what = (
                f"{len(together)} valves are open together on {night}: "
                f"{', '.join(sorted(together))}; with the pressure of so many open the "
                "rate may differ from the tests"
            )
            fix = "read the pressure at the last head then, or set max_valves_at_once"
            yield Finding("note", "night plan", what, fix)
            return


def _together(one: NightLayout, week: WeekJobs) -> set[str]:
    """Zones of the minute of the night with most valves open."""
    minutes = {job.zone: job.cycle_min for job in week.jobs[one.night]}
    runs = [
        (start, start + minutes[placed.zone], placed.zone)
        for placed in one.table.placed
        for start in placed.starts
    ]
    most: set[str] = set()
    for begin, _, _ in runs:
        now = {zone for start, end, zone in runs if start <= begin < end}
        if len(now) > len(most):
            most = now
    return most
