"""A zone's week in; why a picture of its need has nothing to show, and the key, out."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scheduler.plan import ZonePlan

FINDINGS = "f has all findings"
GIVEN = "g opens what is given"


def why_no_balance(plan: "ZonePlan") -> str:
    """Why no balance is kept, what mends it, and the keys that lead there."""
    return f"no balance is kept for this zone: {_why(plan)}"


def why_no_week(plan: "ZonePlan") -> str:
    """Why no need is planned, what mends it, and the keys that lead there."""
    return f"no week is planned for this zone: {_why(plan)}"


def _why(plan: "ZonePlan") -> str:
    stop = next((one for one in plan.findings if one.level == "stop"), None)
    if stop is not None:
        key = "t opens its tests" if stop.where.startswith("tests/") else FINDINGS
        return f"{stop.what} ({stop.fix}); {key}"
    if plan.status == "off":
        return f"it is off; {GIVEN}"
    if plan.status == "fixed":
        return f"its minutes are fixed by hand; {GIVEN}"
    if plan.zone.soil is None and plan.zone.pots is None:
        return f"it has no soil and no pots; {GIVEN}"
    return f"the findings say what is missing; {FINDINGS}"
