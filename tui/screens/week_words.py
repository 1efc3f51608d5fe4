"""Nights, places and pumps in; the sentences of the page of the hours out."""

from typing import TYPE_CHECKING

from scheduler.units import shown
from tui.screens.week_pictures import clock, span_text
from tui.screens.wording import day_text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from scheduler.units import System
    from scheduler.watering.night_plan import NightPlan
    from scheduler.watering.night_plan.board import BoardCycle, NightBoard
    from scheduler.watering.night_plan.changed import ZoneChange, ZoneSetting
    from scheduler.watering.night_plan.reasons import WhyThere

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
# a difference in water that is worth a number
TELLING = 0.005


def fit(night: "NightPlan", units: "System") -> str:
    """Whether the week fits, and how near it comes to its limits."""
    one = night.summary
    pump = one.pump_l_per_min
    peak = shown(one.peak_flow_l_per_min, "l_per_min", units, with_unit=not pump)
    of = f" of {shown(pump, 'l_per_min', units)}" if pump else ""
    valves = f"{one.most_valves} valve{'s' if one.most_valves != 1 else ''}"
    if one.fits:
        return f"fits; peak {peak}{of}, {valves}"
    zones = ", ".join(dict.fromkeys(zone for zone, _ in night.unplaced))
    short = f"{one.minutes_short} min short, " if one.minutes_short else ""
    return f"does not fit: {short}no room for {zones}"


def ways_out(night: "NightPlan") -> str:
    """What would make room, ranked; empty where the week fits."""
    ways = [one for one in night.findings if one.level == "stop"]
    said = [
        one.fix if "night" in one.where else f"{one.where}: {one.fix}" for one in ways
    ]
    return f"Ways out: {'; '.join(dict.fromkeys(said))}." if said else ""


def here_lines(
    board: "NightBoard", one: "BoardCycle", name: str, units: "System"
) -> tuple[str, str]:
    """The cycle under the cursor: whose, and when."""
    flow = shown(one.flow_l_per_min, "l_per_min", units)
    moved = ", moved by hand" if one.is_moved else ""
    return (
        f"{one.zone} {name}, {day_text(board.hours.dates[one.night])}",
        f"{span_text(board, one)}, cycle {one.cycle} of {one.cycles}, {flow}{moved}",
    )


def why_text(
    board: "NightBoard", one: "BoardCycle", found: "WhyThere | None", units: "System"
) -> str:
    """Why a watering stands there: what its minutes cost beside others."""
    if found is None:
        return ""
    wind = ""
    if found.wind_m_per_s is not None:
        wind = f" ({shown(found.wind_m_per_s, 'm_per_s', units)} of wind)"
    if found.extra - found.free_extra > 1e-9:
        at = clock(board, one.night, found.free_starts[0])
        own = board.pin(one.zone, one.night)
        kept = "moved by hand" if own else "kept near last week's minutes, or the same"
        more = _more(found.extra - found.free_extra)
        return f"Why there: {kept}{wind}; free and cheaper from {at}{more}."
    if found.extra - found.alone_extra > 1e-9:
        more = _more(found.extra - found.alone_extra)
        return f"Why there: the cheapest minutes that others leave{wind}{more}."
    return f"Why there: the cheapest minutes of the night{wind}."


def _more(part: float) -> str:
    return f", {part:.1%} of its water" if part >= TELLING else ""


def moving_lines(
    board: "NightBoard", one: "BoardCycle", broken: "Sequence[str]", alone: bool
) -> tuple[str, str]:
    """A watering in the hand, and whether it may be dropped."""
    what = f"cycle {one.cycle} alone" if alone else "all its cycles"
    first = (
        f"Moving {one.zone}, {what}: {board.hours.dates[one.night]:%a} "
        f"{span_text(board, one)}"
    )
    if not broken:
        return first, "✔ free: enter drops it, esc lets it go back"
    return first, "✖ " + "; ".join(broken)


def pump_text(before: "NightPlan", after: "NightPlan", units: "System") -> str:
    """The pump before and after in one line, then the ways out, ranked."""
    was = shown(before.summary.pump_l_per_min, "l_per_min", units)
    now = shown(after.summary.pump_l_per_min, "l_per_min", units)
    line = f"Pump {was}: {fit(before, units)}. At {now}: {fit(after, units)}."
    return f"{line} {ways_out(after)}".rstrip()


def change_lines(name: str, found: "Sequence[ZoneChange]") -> tuple[str, ...]:
    """Was and NOW by zone, changed zones first."""
    changed = [one for one in found if one.is_changed]
    lines = [f"against {name}: {len(changed)} of {len(found)} zones change"]
    for one in changed:
        lines.append(f"■ {one.zone}: {_setting(one.was)} → NOW {_setting(one.now)}")
    same = ", ".join(one.zone for one in found if not one.is_changed)
    return (*lines, f"  as before: {same}") if same else tuple(lines)


def _setting(one: "ZoneSetting | None") -> str:
    if one is None:
        return "off"
    minutes = f"{one.minutes_per_day:.0f} min"
    if one.cycles > 1:
        minutes += f" in {one.cycles}"
    days = " ".join(WEEKDAYS[day] for day in one.weekdays)
    nights = "every night" if len(one.weekdays) == len(WEEKDAYS) else days
    starts = " ".join(f"{start:%H:%M}" for start in one.starts[:2])
    more = " …" if len(one.starts) > 2 else ""
    return ", ".join(part for part in (minutes, nights, starts + more) if part.strip())
