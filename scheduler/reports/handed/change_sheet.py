"""A planned week in; what the irrigator keys in, said zone by zone, out."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from scheduler.reports.ahead import at_gauge_text
from scheduler.reports.changes import program_text
from scheduler.reports.handed.told import (
    AFTER_MIDNIGHT,
    UNKNOWN,
    Known,
    Walk,
    blocked_why,
    changes,
    day_text,
    days_text,
    starts_text,
    week_name,
    why_text,
    zone_runs,
)
from scheduler.reports.language import Code
from scheduler.reports.machine import FORMAT
from scheduler.reports.paper import Sheet, plain, sheet_of
from scheduler.reports.text import was_text
from scheduler.units import System, unit_label
from scheduler.watering.clock import FULL_PERCENT
from scheduler.watering.clock_view import water_text

if TYPE_CHECKING:
    from scheduler.watering.clock_view import ClockView
    from scheduler.week_plan import WeekPlan, ZonePlan

Json = dict[str, Any]
NO_STARTS = "starts: not planned, keep those of the clock"

OFF = "OFF"  # what a zone that rests is set to


@dataclass(frozen=True, slots=True)
class ChangedZone:
    """One zone to key in.

    Attributes
    ----------
    zone, name, valve : str
        Who it is.
    program : str
        Program of the clock; empty leaves a box to write in.
    was, now : str
        Minutes before, and what is keyed in: `4 x 8` where there are cycles.
    detail : str
        Minutes of a night and the soak, where there are cycles.
    starts : tuple of str
        Starts with their dates.
    nights : str
        Nights that water.
    why : str
        In at most eight words.
    changed : tuple of str
        What is new: minutes, cycles, nights, starts.
    no_room : str
        Nights on which it has no place.
    clock : str
        Its clock, where there are several.
    station : str
        Where it hangs, where the valve does not tell.
    """

    zone: str
    name: str
    valve: str
    program: str
    was: str
    now: str
    detail: str
    starts: tuple[str, ...]
    nights: str
    why: str
    changed: tuple[str, ...]
    no_room: str = ""
    clock: str = ""
    station: str = ""


@dataclass(frozen=True, slots=True)
class Instead:
    """A clock that cannot hold the week: why, and what is keyed in instead.

    Attributes
    ----------
    why : str
        What is lacking.
    programs : tuple of str
        The nearest week that it holds, a program a line; empty where none was found.
    water : tuple of str
        Zones that this waters otherwise, in minutes and depth.
    """

    why: str
    programs: tuple[str, ...]
    water: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SkipRow:
    """Rain above which a zone is skipped, one cell a night; empty where it rests."""

    zone: str
    rain: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChangeSheet:
    """The sheet.

    Attributes
    ----------
    site, clock, week, made, name : str
        What it is for, when it was made, and the issued week's name.
    percent : str
        What percent adjust must read.
    percent_found : str
        What it reads now, where that is something else.
    changed : tuple of ChangedZone
        To key in.
    blocked : tuple of (str, str)
        Zones to leave as they are, and why.
    same : tuple of str
        Zones that stay, small.
    nights : tuple of str
        Heads of the skip table.
    skips : tuple of SkipRow
        By zone.
    rain_unit : str
        Unit of the gauge.
    crosses : str
        Which dates a night that crosses midnight has.
    warnings : tuple of str
        What must be known at the clock.
    instead : tuple of Instead
        Clocks that cannot hold the week.
    paper : str
        The paper that a PDF is for.
    language : str
        Of its texts.
    """

    site: str
    clock: str
    week: str
    made: str
    name: str
    percent: str
    percent_found: str
    changed: tuple[ChangedZone, ...]
    blocked: tuple[tuple[str, str], ...]
    same: tuple[str, ...]
    nights: tuple[str, ...]
    skips: tuple[SkipRow, ...]
    rain_unit: str
    crosses: str
    warnings: tuple[str, ...]
    instead: tuple[Instead, ...] = ()
    paper: Sheet = "a4"
    language: Code = "en"


def change_sheet(
    plan: WeekPlan, units: System, known: Known | None = None
) -> ChangeSheet:
    """What is keyed in this week: changed zones first, the others small."""
    known = known or Known()
    walk = Walk.of(plan.site)
    zones = sorted(plan.zones, key=lambda one: walk.order[one.zone.id])
    open_zones = [one for one in zones if one.status != "blocked"]
    new = {one.zone.id: changes(one, plan, known) for one in open_zones}
    changed = [one for one in open_zones if new[one.zone.id]]
    adjust = plan.site.controller.percent_adjust
    return ChangeSheet(
        site=plain(plan.site.name),
        clock=plain(", ".join(walk.names)),
        week=week_name(plan),
        made=day_text(plan.today),
        name=plain(known.name),
        percent=f"{FULL_PERCENT} %",
        percent_found="" if adjust == FULL_PERCENT or walk.is_many else f"{adjust} %",
        changed=tuple(
            replace(
                _changed(one, plan, units, known, new[one.zone.id]),
                clock=plain(walk.clock_of(one.zone.id)),
                station=walk.station_of(one.zone),
            )
            for one in changed
        ),
        blocked=tuple(
            (_named(one), blocked_why(one, plan))
            for one in zones
            if one.status == "blocked"
        ),
        same=tuple(_same(one, walk) for one in open_zones if not new[one.zone.id]),
        nights=tuple(f"{day:%a} {day.day}" for day in _dates(plan)),
        skips=tuple(_skips(one, units) for one in zones if one.skips),
        rain_unit=unit_label("mm", units),
        crosses=_crosses(plan),
        warnings=(*_warnings(plan), *_percents(plan, walk)),
        instead=tuple(
            _instead(one, units) for one in plan.clocks if one.is_held is False
        ),
        paper=sheet_of(plan.site.units),
    )


def now_text(plan: ZonePlan) -> str:
    """Minutes to key in, `OFF` where the zone rests."""
    if not plan.minutes_per_day:
        return OFF
    if plan.cycles and plan.cycles > 1:
        return f"{plan.cycles} × {plan.cycle_minutes}"
    return f"{plan.minutes_per_day}"


def detail_text(plan: ZonePlan) -> str:
    """Cycles and soak in words; empty for one run a night."""
    if not (plan.minutes_per_day and plan.cycles and plan.cycles > 1):
        return ""
    soak = f", soak {plan.soak_minutes}+ min" if plan.soak_minutes is not None else ""
    return f"= {plan.minutes_per_day} min a night{soak}"


def _dates(plan: WeekPlan) -> tuple[dt.date, ...]:
    return plan.zones[0].dates if plan.zones else ()


def _named(plan: ZonePlan) -> str:
    valve = f" (valve {plain(plan.zone.valve)})" if plan.zone.valve else ""
    return f"{plain(plan.zone.id)} {plain(plan.zone.name)}{valve}"


def _changed(
    one: ZonePlan, plan: WeekPlan, units: System, known: Known, new: tuple[str, ...]
) -> ChangedZone:
    zone = one.zone
    waters = bool(one.minutes_per_day and one.days)
    starts = starts_text(zone_runs(plan, zone.id))
    unplaced = plan.night.unplaced if plan.night else ()
    no_room = days_text(day for name, day in unplaced if name == zone.id)
    return ChangedZone(
        zone=plain(zone.id),
        name=plain(zone.name),
        valve=plain(zone.valve),
        program=plain(known.programs.get(zone.id, "")),
        was=was_text(one),
        now=now_text(one),
        detail=detail_text(one),
        starts=(starts or (NO_STARTS,)) if waters else (),
        nights=_nights(one),
        why=why_text(one, units, known),
        changed=new,
        no_room=no_room,
    )


def _nights(one: ZonePlan) -> str:
    if not one.days:
        return "no night"
    return "every night" if len(one.days) == len(one.dates) else days_text(one.days)


def _same(one: ZonePlan, walk: Walk) -> str:
    clock = walk.clock_of(one.zone.id)
    at = f"{plain(clock)}: " if clock else ""
    minutes = f"{now_text(one)} min, {_nights(one)}" if one.minutes_per_day else "off"
    return f"{at}{_named(one)}: {minutes}"


def _skips(one: ZonePlan, units: System) -> SkipRow:
    rain = {skip.date: at_gauge_text(skip, units) for skip in one.skips}
    cells = tuple(
        rain.get(day, UNKNOWN if day in one.days else "") for day in one.dates
    )
    return SkipRow(plain(one.zone.id), cells)


def _crosses(plan: WeekPlan) -> str:
    for one in plan.night.summary.windows if plan.night else ():
        if one.end.date() > one.start.date():
            return (
                f"{AFTER_MIDNIGHT} after midnight, with the date of the clock: the "
                f"night of {day_text(one.night)} ends at {one.end:%H:%M} on "
                f"{day_text(one.end.date())}."
            )
    return ""


def _warnings(plan: WeekPlan) -> tuple[str, ...]:
    if plan.night is None or plan.night.summary.fits is not False:
        return ()
    short = plan.night.summary.minutes_short
    return (f"The night plan does not fit: {short} min short. Ask before keying in.",)


def _percents(plan: WeekPlan, walk: Walk) -> tuple[str, ...]:
    """Clocks of several whose percent adjust was found at something else."""
    if not walk.is_many:
        return ()
    return tuple(
        f"Clock {plain(name)} was found at {one.percent_adjust} %: set it to 100 %."
        for one, name in zip(plan.site.controllers, walk.names, strict=True)
        if one.percent_adjust != FULL_PERCENT
    )


def _instead(clock: ClockView, units: System) -> Instead:
    """What is keyed in where the clock cannot hold the week."""
    needs = len(clock.programs)
    if clock.nearest is None:
        why = f"{clock.name} cannot hold this week ({needs} programs): ask first"
    else:
        why = f"{clock.name} cannot hold this week ({needs} programs): key in these"
    return Instead(
        plain(why),
        tuple(plain(program_text(one)) for one in clock.nearest or ()),
        tuple(plain(water_text(one, units)) for one in clock.other),
    )


def change_sheet_json(sheet: ChangeSheet) -> Json:
    """The sheet as it is printed."""
    return {
        "format": FORMAT,
        "report": "change-sheet",
        "site": sheet.site,
        "language": sheet.language,
        "clock": sheet.clock,
        "week": sheet.week,
        "made": sheet.made,
        "issued": sheet.name or None,
        "percent_adjust": sheet.percent,
        "changed": [
            {
                "zone": one.zone,
                "name": one.name,
                "valve": one.valve,
                "program": one.program or None,
                "was": one.was,
                "now": one.now,
                "detail": one.detail,
                "starts": list(one.starts),
                "nights": one.nights,
                "why": one.why,
                "changed": list(one.changed),
                "no_room": one.no_room or None,
                "clock": one.clock or None,
                "station": one.station or None,
            }
            for one in sheet.changed
        ],
        "leave": [{"zone": name, "why": why} for name, why in sheet.blocked],
        "same": list(sheet.same),
        "skip_nights": list(sheet.nights),
        "skips": [{"zone": one.zone, "rain": list(one.rain)} for one in sheet.skips],
        "rain_unit": sheet.rain_unit,
        "warnings": list(sheet.warnings),
        "instead": [
            {
                "why": one.why,
                "programs": list(one.programs),
                "water": list(one.water),
            }
            for one in sheet.instead
        ],
    }
