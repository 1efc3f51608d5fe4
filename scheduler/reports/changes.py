"""A plan's changes and its programs in, plain text and JSON out; no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

from scheduler.said import date_text, signed
from scheduler.stations import clock_names, walk_order, wired
from scheduler.units import System
from scheduler.watering.clock_view import water_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from scheduler.issued import KeptOverride
    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.site import Site
    from scheduler.watering.clock_view import ClockView, Program
    from scheduler.watering.reason import ZoneChange

Json = dict[str, Any]
WIDTH = 80


def percent_text(change: float | None) -> str:
    """A change as it is said, with its sign: `+12 %`; a dash where there is none."""
    if change is None:
        return "–"
    said = signed(change, ".0%").replace("%", " %")
    return "0 %" if said in ("+0 %", "-0 %") else said


def change_json(changed: ZoneChange | None) -> Json:
    """What changes for one zone, for the JSON of the week."""
    return {
        "change": changed.change if changed else None,
        "reason": changed.reason if changed else "",
        "is_changed": bool(changed and changed.is_changed),
        "effects": [
            {"cause": one.cause, "minutes": one.minutes, "words": one.words}
            for one in (changed.shares if changed else ())
        ],
        "overrides": overrides_json(changed.overrides if changed else ()),
    }


def overrides_json(overrides: Iterable[KeptOverride]) -> list[Json]:
    """What people chose, and why."""
    return [
        {"date": one.date.isoformat(), "minutes": one.minutes, "reason": one.reason}
        for one in overrides
    ]


def changes_text(plan: WeekPlan) -> str:
    """Was, NOW, percent and why; changed zones first, the others in one line.

    Clock by clock and by station, as one walks.
    """
    order, names = walk_order(plan.site), clock_names(plan.site)
    zones = sorted(plan.zones, key=lambda one: order[one.zone.id])
    lines, place = [], None
    for one in zones:
        if not (one.changed and one.changed.is_changed):
            continue
        if order[one.zone.id][0] != place:
            place = order[one.zone.id][0]
            where = f"clock {names[place]}" if len(names) > 1 else "the clock"
            lines.append(f"Changes at {where}, minutes a night:")
        lines.append(_change_line(one))
    same = [one.zone.id for one in zones if _is_same(one)]
    left = [one.zone.id for one in zones if one.minutes_per_day is None]
    if same:
        lines.append(fill(f"unchanged: {', '.join(same)}", WIDTH))
    if left:
        lines.append(fill(f"left as the clock is: {', '.join(left)}", WIDTH))
    for one in zones:
        for chosen in one.changed.overrides if one.changed else ():
            lines.append(override_text(one.zone.id, chosen))
    return "\n".join(lines)


def override_text(zone: str, chosen: KeptOverride) -> str:
    """One override as it was noted."""
    said = f"override kept: {zone} {chosen.minutes:g} min, {date_text(chosen.date)}"
    return fill(f"{said}: {chosen.reason}", WIDTH, subsequent_indent="  ")


def _is_same(plan: ZonePlan) -> bool:
    changed = plan.changed
    return bool(changed and not changed.is_changed and changed.now_minutes is not None)


def _change_line(plan: ZonePlan) -> str:
    changed = plan.changed
    assert changed is not None, "the caller has looked"
    was = "–" if changed.was_minutes is None else f"{changed.was_minutes:.0f}"
    now = f"{changed.now_minutes}"
    percent = percent_text(changed.change)
    return f"{plan.zone.id:<5} {was:>4} → {now:>4}  {percent:>7}  {changed.reason}"


def clock_json(clock: ClockView | None) -> Json | None:
    """The week as programs of the clock."""
    if clock is None:
        return None
    return {
        "controller": clock.id,
        "name": clock.name,
        "is_held": clock.is_held,
        "percent_adjust": clock.percent_adjust,
        "percent_for_all": clock.percent_for_all,
        "programs": [_program_json(one) for one in clock.programs],
        "nearest": None
        if clock.nearest is None
        else [_program_json(one) for one in clock.nearest],
        "moved": [
            {
                "zone": one.zone,
                "night": one.night.isoformat(),
                "start": one.start.isoformat(timespec="minutes"),
                "by_minutes": one.minutes,
            }
            for one in clock.moved
        ],
        "other_water": [
            {
                "zone": one.zone,
                "was_minutes_week": one.was_minutes,
                "minutes_week": one.now_minutes,
                "added_mm": one.mm,
                "was_nights": one.was_nights,
                "nights": one.nights,
            }
            for one in clock.other
        ],
        "percent_ways": [
            {
                "zone": one.zone,
                "was_cycle_minutes": one.was_minutes,
                "cycle_minutes": one.now_minutes,
                "percent": one.percent,
                "gives_minutes": one.gives_minutes,
            }
            for one in clock.percent_ways
        ],
        "overlaps": [list(pair) for pair in clock.overlaps],
    }


def controllers_json(site: Site) -> list[Json]:
    """Every clock with its stations."""
    return [
        {
            "controller": one.controller.id,
            "name": one.controller.name,
            "stations": [
                {"station": number, "zone": zone}
                for zone, number in one.numbers.items()
            ],
        }
        for one in wired(site)
    ]


def _program_json(one: Program) -> Json:
    return {
        "name": one.name,
        "days": list(one.days),
        "starts": [start.strftime("%H:%M") for start in one.starts],
        "stations": [
            {"station": two.number, "zone": two.zone, "minutes": two.minutes}
            for two in one.stations
        ],
    }


def clock_line(*clocks: ClockView) -> str:
    """How many programs a week takes, in a line; with several clocks, of each."""

    def many(clock: ClockView) -> str:
        n = len(clock.programs)
        return f"{n} program{'s' if n != 1 else ''}"

    if len(clocks) == 1:
        said = f"Clock: {many(clocks[0])}"
    else:
        said = "Clocks: " + ", ".join(f"{one.name} {many(one)}" for one in clocks)
    return fill(f"{said} (add --clock to see what to key in)", WIDTH)


def clock_text(
    clock: ClockView, units: System = "metric", *, is_one_of_several: bool = False
) -> str:
    """What has to be keyed in: programs, days, starts, stations with their minutes."""
    named = f"Clock {clock.name}" if is_one_of_several else "The clock"
    lines = [
        fill(
            f"{named} as keyed in: percent adjust must read {clock.percent_adjust}; "
            "days are those of the calendar, so a start after midnight stands under "
            "the next day",
            WIDTH,
            subsequent_indent="  ",
        ),
        *_programs_text(clock.programs),
    ]
    if clock.nearest is not None:
        lines += ["The nearest week that this clock holds:"]
        lines += _programs_text(clock.nearest)
        lines += [
            fill(f"  {water_text(one, units)}", WIDTH, subsequent_indent="      ")
            for one in clock.other
        ]
    if clock.percent_for_all is not None:
        said = (
            f"or leave the minutes as they are keyed in and set percent adjust to "
            f"{clock.percent_for_all}: one or the other, never both"
        )
        lines.append(fill(said, WIDTH, subsequent_indent="  "))
    elif clock.percent_ways:
        ways = ", ".join(
            f"{one.zone} {one.was_minutes:g} at {one.percent} % = {one.gives_minutes}"
            for one in clock.percent_ways
        )
        said = (
            "percent adjust instead of new minutes, where a clock has it by station "
            f"(one or the other, never both): {ways}"
        )
        lines.append(fill(said, WIDTH, subsequent_indent="  "))
    return "\n".join(lines)


def _programs_text(programs: Sequence[Program]) -> list[str]:
    return [
        fill(f"  {program_text(one)}", WIDTH, subsequent_indent="      ")
        for one in programs
    ]


def program_text(one: Program) -> str:
    """One program: days, starts, and stations with their minutes."""
    days = "every day" if len(one.days) == 7 else " ".join(map(str.title, one.days))
    starts = " ".join(f"{start:%H:%M}" for start in one.starts)
    stations = ", ".join(
        f"station {two.number} ({two.zone}) {two.minutes} min" for two in one.stations
    )
    return f"{one.name:<3} {days}; start {starts}; {stations}"
