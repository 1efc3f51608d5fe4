"""A week's nights in; lanes, valves together, flow and blocked hours, said, out."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from scheduler.reports.handed.lanes import Band, Lane, Night, Step
from scheduler.reports.handed.told import Walk, day_text, days_text, week_name
from scheduler.reports.machine import FORMAT
from scheduler.reports.paper import Sheet, plain, sheet_of
from scheduler.stations import change_over_min, wired
from scheduler.units import System, shown
from scheduler.watering.night_plan.together import (
    NotedHours,
    Stretch,
    noted_hours,
    stretches,
)

if TYPE_CHECKING:
    from scheduler.site import Site
    from scheduler.watering.night_plan import PlannedRun
    from scheduler.watering.night_plan.result import NightWindow
    from scheduler.week_plan import WeekPlan

Json = dict[str, Any]
NO_PLAN = (
    "There is no plan of the nights: enter a window, and the pump's flow or the valves "
    "at once."
)


@dataclass(frozen=True, slots=True)
class TogetherRow:
    """One line of the table: when, which valves, and what they take together."""

    hours: str
    zones: str
    flow: str


@dataclass(frozen=True, slots=True)
class NightPart:
    """Nights that are alike.

    Attributes
    ----------
    title, hours : str
        Which nights, and from when to when.
    picture : Night
        What the lanes show.
    rows : tuple of TogetherRow
        The table.
    notes : tuple of str
        Blocked hours and energy periods.
    """

    title: str
    hours: str
    picture: Night
    rows: tuple[TogetherRow, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NightSheet:
    """The sheet that is posted at the pump."""

    site: str
    week: str
    made: str
    pump: str
    told: tuple[str, ...]
    parts: tuple[NightPart, ...]
    paper: Sheet = "a4"


def night_sheet(plan: WeekPlan, units: System) -> NightSheet:
    """Every night of the week, like nights once."""
    supply = plan.site.supply
    pump = supply.flow_l_per_min if supply else None
    alike: dict[tuple[object, ...], list[NightWindow]] = {}
    for window in plan.night.summary.windows if plan.night else ():
        alike.setdefault(_pattern(window, plan), []).append(window)
    return NightSheet(
        site=plain(plan.site.name),
        week=week_name(plan),
        made=day_text(plan.today),
        pump=shown(pump, "l_per_min", units) if pump else "",
        told=_told(plan, units),
        parts=tuple(_part(windows, plan, units) for windows in alike.values()),
        paper=sheet_of(plan.site.units),
    )


def _runs(window: NightWindow, plan: WeekPlan) -> tuple[PlannedRun, ...]:
    runs = plan.night.runs if plan.night else ()
    return tuple(one for one in runs if one.night == window.night)


def _minute(moment: dt.datetime, window: NightWindow) -> int:
    """Where a moment stands on the night's own scale, for the drawing."""
    return int((moment - window.start).total_seconds() // 60)


def _pattern(window: NightWindow, plan: WeekPlan) -> tuple[object, ...]:
    """What makes two nights the same on paper."""
    return (
        window.start.time(),
        _minute(window.end, window),
        tuple(
            (one.zone, _minute(one.start, window), _minute(one.end, window))
            for one in _runs(window, plan)
        ),
        tuple(
            (
                _minute(one.start, window),
                _minute(one.end, window),
                one.reason,
                one.zones,
            )
            for one in noted_hours(plan.site, window)
        ),
    )


def _part(windows: list[NightWindow], plan: WeekPlan, units: System) -> NightPart:
    window = windows[0]
    runs, noted = _runs(window, plan), noted_hours(plan.site, window)
    open_together = stretches(runs)
    nights = "Night of" if len(windows) == 1 else "Nights of"
    return NightPart(
        title=f"{nights} {days_text(one.night for one in windows)}",
        hours=f"{window.start:%H:%M} to {window.end:%H:%M}",
        picture=_picture(window, plan.site, (runs, open_together, noted), units),
        rows=tuple(_row(one, units) for one in open_together),
        notes=tuple(_note(one, plan.site) for one in noted),
    )


def _row(one: Stretch, units: System) -> TogetherRow:
    flow = shown(one.flow_l_per_min, "l_per_min", units)
    if one.unknown == one.zones:
        flow = "not known"
    elif one.unknown:
        flow += f" + {', '.join(plain(name) for name in one.unknown)} (not known)"
    zones = " + ".join(plain(name) for name in one.zones)
    return TogetherRow(f"{one.start:%H:%M}–{one.end:%H:%M}", zones, flow)


def _note(one: NotedHours, site: Site) -> str:
    hours = f"{one.start:%H:%M}–{one.end:%H:%M}"
    if one.price_money_per_kwh is not None and site.tariff is not None:
        price = f"{one.price_money_per_kwh:g} {plain(site.tariff.currency)}/kWh"
        return f"{hours} energy at {price}"
    where = ", ".join(plain(name) for name in one.zones) or "all zones"
    return f"{hours} blocked: {one.reason} ({where})"


def _picture(
    window: NightWindow,
    site: Site,
    told: tuple[tuple[PlannedRun, ...], tuple[Stretch, ...], tuple[NotedHours, ...]],
    units: System,
) -> Night:
    runs, together, noted = told
    walk = Walk.of(site)
    names = sorted({one.zone for one in runs}, key=walk.order.__getitem__)
    lanes = tuple(
        Lane(
            plain(name),
            tuple(
                (_minute(one.start, window), _minute(one.end, window))
                for one in runs
                if one.zone == name
            ),
        )
        for name in names
    )
    steps = tuple(
        Step(_minute(one.start, window), _minute(one.end, window), one.flow_l_per_min)
        for one in together
    )
    bands = tuple(
        Band(
            _minute(one.start, window),
            _minute(one.end, window),
            one.price_money_per_kwh is None,
            tuple(plain(name) for name in one.zones),
        )
        for one in noted
    )
    pump = site.supply.flow_l_per_min if site.supply else None
    return Night(
        begins=window.start.hour * 60 + window.start.minute,
        minutes=window.minutes,
        lanes=lanes,
        steps=steps,
        bands=bands,
        pump=pump,
        pump_text=shown(pump, "l_per_min", units) if pump else "",
        peak_text=shown(window.peak_flow_l_per_min, "l_per_min", units),
        peak=window.peak_flow_l_per_min,
    )


def _told(plan: WeekPlan, units: System) -> tuple[str, ...]:
    night = plan.night
    if night is None or night.summary.fits is None:
        return (
            (NO_PLAN,) if any(one.days for one in plan.zones) else ("No zone waters.",)
        )
    summary = night.summary
    peak = shown(summary.peak_flow_l_per_min, "l_per_min", units)
    said = [f"Highest flow {peak}, {summary.most_valves} valves at once at most."]
    if not summary.fits:
        said.insert(0, f"It does not fit: {summary.minutes_short} min short.")
        for zone, day in night.unplaced:
            said.append(f"No room for {plain(zone)} on the night of {day_text(day)}.")
    said += _clocks(plan)
    change_over = change_over_min(plan.site)
    if change_over:
        said.append(f"Lines fill in the {change_over} min before each start.")
    blocked = [plain(one.zone.id) for one in plan.zones if one.status == "blocked"]
    if blocked:
        said.append(
            f"Not in the plan: {', '.join(blocked)}, left as the clock has it; what it "
            "runs takes from the same pump."
        )
    return tuple(said)


def _clocks(plan: WeekPlan) -> list[str]:
    """Which zones hang on which of several clocks, by station."""
    walk = Walk.of(plan.site)
    if not walk.is_many:
        return []
    return [
        f"Clock {plain(name)}: "
        + ", ".join(f"{n} {plain(zone)}" for zone, n in one.numbers.items())
        + " (station, zone)."
        for name, one in zip(walk.names, wired(plan.site), strict=True)
        if one.zones
    ]


def night_sheet_json(sheet: NightSheet) -> Json:
    """The sheet as it is printed."""
    return {
        "format": FORMAT,
        "report": "night-sheet",
        "site": sheet.site,
        "week": sheet.week,
        "made": sheet.made,
        "pump": sheet.pump or None,
        "told": list(sheet.told),
        "nights": [
            {
                "nights": one.title,
                "hours": one.hours,
                "together": [
                    {"hours": row.hours, "zones": row.zones, "flow": row.flow}
                    for row in one.rows
                ],
                "notes": list(one.notes),
            }
            for one in sheet.parts
        ],
    }
