"""A planned week in; its cool and hot side, rain skips and forecast out, as text, JSON.

No arithmetic: what is shown is the plan's, through `scheduler.units`.
"""

from __future__ import annotations

import math
from textwrap import fill
from typing import TYPE_CHECKING, Any

from scheduler.units import System, shown, unit_label

if TYPE_CHECKING:
    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.watering.skips import RainSkip

WIDTH = 80


def ahead_json(plan: ZonePlan, units: System) -> dict[str, Any]:
    """Need and minutes of a cool and a hot week, and the rain skips of one zone.

    `rain_mm` of a skip is what the sheet says, up to the next mark of a gauge in the
    units of the site; `rain_exact_mm` is the least that does.
    """
    ahead = plan.ahead
    return {
        "need_low_mm": ahead.low_mm if ahead else None,
        "need_high_mm": ahead.high_mm if ahead else None,
        "minutes_cool": ahead.minutes_cool if ahead else None,
        "minutes_hot": ahead.minutes_hot if ahead else None,
        "nights_cool": ahead.nights_cool if ahead else None,
        "nights_hot": ahead.nights_hot if ahead else None,
        "n_years": ahead.n_years if ahead else None,
        "skips": [
            {
                "night": one.date.isoformat() if one.date else one.night,
                "rain_mm": one.at_gauge_mm(units),
                "rain_exact_mm": one.rain_mm,
            }
            for one in plan.skips
        ],
    }


def weather_json(plan: WeekPlan) -> list[dict[str, Any]]:
    """ETo and rain of each day, on what they rest, and rain that a forecast expects."""
    if plan.weather is None:
        return []
    weather, days = plan.weather, plan.weather.date.tolist()
    ahead = [None] * len(days)
    if weather.rain_ahead_mm is not None:
        told = weather.rain_ahead_mm.tolist()
        ahead = [None if math.isnan(one) else one for one in told]
    return [
        {
            "date": day.isoformat(),
            "eto_mm": float(weather.eto_mm_per_day[i]),
            "eto_from": weather.eto_basis[i],
            "rain_counted_mm": float(weather.rain_mm[i]),
            "rain_from": weather.rain_basis[i],
            "rain_ahead_mm": ahead[i],
        }
        for i, day in enumerate(days)
    ]


def eto_from(plan: WeekPlan) -> str:
    """On what the week's ETo rests, such as `forecast`; empty without weather."""
    if plan.weather is None:
        return ""
    return ", ".join(dict.fromkeys(plan.weather.eto_basis))


def ahead_text(plan: WeekPlan, units: System) -> str:
    """What the week may still bring: forecast rain, a cool or hot week, rain skips."""
    parts = [_rain_ahead(plan, units), _ranges(plan, units), _skips(plan, units)]
    return "\n\n".join(part for part in parts if part)


def _rain_ahead(plan: WeekPlan, units: System) -> str:
    """Rain that a forecast expects, day by day; empty where none speaks of it."""
    each = [
        f"{day['date'][8:]} {shown(day['rain_ahead_mm'], 'mm', units, with_unit=False)}"
        for day in weather_json(plan)
        if day["rain_ahead_mm"]
    ]
    if not any(day["rain_ahead_mm"] is not None for day in weather_json(plan)):
        return ""
    label = unit_label("mm", units)
    told = f"{', '.join(each)} {label}" if each else "none"
    return fill(f"Rain forecast by day of the month, not counted: {told}", WIDTH)


def _ranges(plan: WeekPlan, units: System) -> str:
    """Minutes of a cool and a hot week beside those of the plan."""
    with_range = [one for one in plan.zones if one.ahead is not None]
    if not with_range:
        return ""
    years = max(one.ahead.n_years for one in with_range if one.ahead)
    lines = [f"If the week turns out cool or hot (one in ten each, by {years} years):"]
    lines += [_named(one, range_line(one, units), with_range) for one in with_range]
    return "\n".join(fill(line, WIDTH, subsequent_indent="    ") for line in lines)


def range_line(plan: ZonePlan, units: System) -> str:
    """One zone's need and minutes, from cool over planned to hot."""
    ahead = plan.ahead
    if ahead is None:
        return ""
    depths = (ahead.low_mm, plan.need_mm, ahead.high_mm)
    need = " – ".join(shown(one, "mm", units, with_unit=False) for one in depths)
    minutes = f"{ahead.minutes_cool} – {plan.minutes_per_day} – {ahead.minutes_hot} min"
    nights = (ahead.nights_cool, len(plan.days), ahead.nights_hot)
    moved = ""
    if len(set(nights)) > 1:
        moved = f", on {' – '.join(str(one) for one in nights)} nights"
    label = unit_label("mm", units)
    return f"{minutes}{moved}; need {need} {label}"


def zone_ahead_text(plan: ZonePlan, units: System) -> str:
    """One zone's cool and hot week and its rain skips; empty where there are none."""
    lines = []
    if plan.ahead is not None:
        lines.append(f"cool – planned – hot: {range_line(plan, units)}")
    if plan.skips:
        lines.append(f"skip a night if more rain falls: {skips_line(plan, units)}")
    return "\n".join(fill(one, WIDTH, subsequent_indent="  ") for one in lines)


def _skips(plan: WeekPlan, units: System) -> str:
    """Rain skips of every zone, one line each."""
    with_skips = [one for one in plan.zones if one.skips]
    if not with_skips:
        return ""
    lines = ["If more than this falls in a night, skip that night's watering:"]
    lines += [_named(one, skips_line(one, units), with_skips) for one in with_skips]
    return "\n".join(fill(line, WIDTH, subsequent_indent="    ") for line in lines)


def _named(plan: ZonePlan, said: str, among: list[ZonePlan]) -> str:
    """A zone's id in a column as wide as the widest, and what is said of it."""
    return f"{plan.zone.id:<{max(len(one.zone.id) for one in among)}}  {said}"


def skips_line(plan: ZonePlan, units: System) -> str:
    """One zone's rain skips: one amount where all nights agree, else night by night."""
    label = unit_label("mm", units)
    amounts = [at_gauge_text(one, units) for one in plan.skips]
    if len(set(amounts)) == 1 and len(amounts) == len(plan.days) > 1:
        said = f"any night {amounts[0]} {label}"
    else:
        each = (
            f"{one.date:%a} {amount}" if one.date else amount
            for one, amount in zip(plan.skips, amounts, strict=True)
        )
        said = f"{', '.join(each)} {label}"
    return said


def at_gauge_text(skip: RainSkip, units: System) -> str:
    """Rain that saves a watering, at the marks of the gauge."""
    # a gauge is read to the whole millimetre, or to the hundredth of an inch
    digits = 0 if units == "metric" else 2
    return shown(skip.at_gauge_mm(units), "mm", units, digits=digits, with_unit=False)
