"""What pots and plant groups get in, their lines and their JSON out; no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

from scheduler.units import System, shown

if TYPE_CHECKING:
    from scheduler.plan import ZonePlan
    from scheduler.watering.group_outcomes import GroupOutcome
    from scheduler.watering.pot_water import PotWater

WIDTH = 80


def pots_json(water: PotWater | None) -> dict[str, Any] | None:
    """What one pot gets from one watering."""
    if water is None:
        return None
    return {
        "mean_ml": water.mean_ml,
        "driest_quarter_ml": water.driest_ml,
        "ml_per_min": water.ml_per_min,
        "tops_share_of_bed": water.tops_of_bed,
    }


def groups_json(groups: tuple[GroupOutcome, ...]) -> list[dict[str, Any]]:
    """What each group of plants gets, thirstiest first."""
    return [
        {
            "group": one.name,
            "rules": one.rules,
            "etc_mm": one.etc_mm,
            "got_over_need": one.got_over_need,
            "days_held": one.days_held,
        }
        for one in groups
    ]


def pots_text(plan: ZonePlan) -> str:
    """Millilitres in one pot from one watering; empty where there are no pots."""
    water = plan.pot_water
    if water is None:
        return ""
    text = (
        f"one watering brings {water.mean_ml:.0f} mL into a pot, {water.driest_ml:.0f} "
        f"mL in the driest quarter ({water.ml_per_min:.1f} mL a minute)"
    )
    if water.gaps_of_bed is not None:
        text += f"; {water.gaps_of_bed:.0%} of the bed is gaps".replace("%", " %")
    return fill(text, WIDTH, subsequent_indent="  ")


def groups_text(plan: ZonePlan, units: System) -> str:
    """Who rules under one valve, and what the others get; empty for one group."""
    parts = []
    for one in plan.groups:
        use = shown(one.etc_mm, "mm", units)
        told = "rules" if one.rules else "is not watered"
        if not one.rules and one.got_over_need is not None:
            told = f"gets {one.got_over_need:.0%} of its need".replace("%", " %")
        parts.append(f"{one.name} uses {use} on the bed, {told}")
    text = "; ".join(parts)
    return fill(f"plants: {text}", WIDTH, subsequent_indent="  ") if parts else ""
