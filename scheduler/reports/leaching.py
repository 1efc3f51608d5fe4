"""What a week leaches in, its lines and its JSON out; no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from scheduler.plan import ZonePlan
    from scheduler.watering.leached import WeekLeaching

WIDTH = 80
NAMES = ("driest", "2nd", "3rd", "wettest")


def leaching_json(found: WeekLeaching | None) -> dict[str, Any] | None:
    """Requirement or target, who ruled, and what each quarter leaches."""
    if found is None:
        return None
    return {
        "requirement": found.requirement,
        "target": found.target,
        "rule_factor": found.rule_factor,
        "leaching_factor": found.leaching_factor,
        "quarters": list(found.quarters),
    }


def leaching_text(plan: ZonePlan) -> str:
    """What each quarter leaches, beside what is asked; empty where nothing is known."""
    found = plan.leaching
    if found is None or not found.quarters:
        return ""
    each = ", ".join(
        f"{name} {one:.0%}" for name, one in zip(NAMES, found.quarters, strict=True)
    )
    parts = [f"leaches, by quarter: {each}"]
    if found.requirement is not None:
        parts.append(f"leaching requirement {found.requirement:.0%}")
    if found.target is not None:
        parts.append(
            f"leaching target {found.target:.0%}, factor {found.leaching_factor:.2f} "
            f"against {found.rule_factor:.2f} of the rule: {plan.rule} rules"
        )
    return fill("; ".join(parts), WIDTH, subsequent_indent="  ")
