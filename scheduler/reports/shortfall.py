"""A week with too little water in, its table and its JSON out; no arithmetic."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from scheduler.units import System, shown

if TYPE_CHECKING:
    from scheduler.watering.allotment import ShortWater, ZoneCut

HEAD = ("zone", "min", "NOW", "water", "NOW", "driest gets", "NOW", "days dry")


def short_title(short: ShortWater, units: System) -> str:
    """What there is, of what the plan asked for."""
    most, whole = (shown(one, "m3", units) for one in (short.most_m3, short.planned_m3))
    why = f" ({short.reason})" if short.reason else ""
    return f"Water is short{why}: {most} of {whole}. What each zone gives up:"


def short_rows(short: ShortWater, units: System) -> list[list[str]]:
    """Zones that give up, before and NOW, and what their driest quarter then gets."""
    return [_row(one, units) for one in short.cuts]


def _row(cut: ZoneCut, units: System) -> list[str]:
    return [
        cut.zone,
        f"{cut.minutes_before}",
        f"{cut.minutes}",
        shown(cut.volume_before_m3, "m3", units),
        shown(cut.volume_m3, "m3", units),
        _part(cut.driest_before),
        _part(cut.driest),
        "–" if cut.days_dry is None else f"{cut.days_dry}",
    ]


def _part(value: float | None) -> str:
    return "–" if value is None else f"{value:.0%}".replace("%", " %")


def short_json(short: ShortWater | None) -> dict[str, Any] | None:
    """The volume of the week, and what each zone gives up and loses."""
    if short is None:
        return None
    return {
        "most_m3": short.most_m3,
        "planned_m3": short.planned_m3,
        "allotted_m3": short.allotted_m3,
        "reason": short.reason,
        "zones": [
            {
                "zone": one.zone,
                "minutes_before": one.minutes_before,
                "minutes": one.minutes,
                "volume_before_m3": one.volume_before_m3,
                "volume_m3": one.volume_m3,
                "driest_quarter_before": one.driest_before,
                "driest_quarter": one.driest,
                "days_past_allowed": one.days_dry,
            }
            for one in short.cuts
        ],
    }
