"""A plan's changes and its programs in, plain text and JSON out; no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from scheduler.issued import KeptOverride
    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.watering.clock_view import ClockView, Program
    from scheduler.watering.reason import ZoneChange

Json = dict[str, Any]
WIDTH = 80


def percent_text(change: float | None) -> str:
    """A change as it is said, with its sign: `+12 %`; a dash where there is none."""
    if change is None:
        return "–"
    said = f"{change:+.0%}".replace("%", " %")
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
    """Was, NOW, percent and why; changed zones first, the others in one line."""
    rows = [one for one in plan.zones if one.changed and one.changed.is_changed]
    lines = ["Changes at the clock, minutes a night:"] if rows else []
    lines += [_change_line(one) for one in rows]
    same = [one.zone.id for one in plan.zones if _is_same(one)]
    left = [one.zone.id for one in plan.zones if one.minutes_per_day is None]
    if same:
        lines.append(fill(f"unchanged: {', '.join(same)}", WIDTH))
    if left:
        lines.append(fill(f"left as the clock is: {', '.join(left)}", WIDTH))
    for one in plan.zones:
        for chosen in one.changed.overrides if one.changed else ():
            lines.append(override_text(one.zone.id, chosen))
    return "\n".join(lines)


def override_text(zone: str, chosen: KeptOverride) -> str:
    """One override as it was noted."""
    said = f"override kept: {zone} {chosen.minutes:g} min, {chosen.date:%d %b %Y}"
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


def clock_line(clock: ClockView) -> str:
    """How many programs a week takes, in a line."""
    n = len(clock.programs)
    said = f"Clock: {n} program{'s' if n != 1 else ''}"
    return f"{said} (add --clock to see what to key in)"


def clock_text(clock: ClockView) -> str:
    """What has to be keyed in: programs, days, starts, stations with their minutes."""
    lines = [
        fill(
            f"The clock as keyed in: percent adjust must read {clock.percent_adjust}; "
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
    lines = []
    for one in programs:
        days = "every day" if len(one.days) == 7 else " ".join(map(str.title, one.days))
        starts = " ".join(f"{start:%H:%M}" for start in one.starts)
        stations = ", ".join(
            f"station {two.number} ({two.zone}) {two.minutes} min"
            for two in one.stations
        )
        text = f"  {one.name:<3} {days}; start {starts}; {stations}"
        lines.append(fill(text, WIDTH, subsequent_indent="      "))
    return lines
