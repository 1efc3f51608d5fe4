"""What moving waterings gains in, plain text and JSON out; no arithmetic."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from scheduler.units import System, shown

if TYPE_CHECKING:
    from scheduler.watering.night_plan.moves import MoveCurve, MovePoint

Json = dict[str, Any]


def moves_json(curve: MoveCurve) -> Json:
    """The curve as one object."""
    return {
        "format": 1,
        "compared_by": curve.scale,
        "known": curve.known,
        "why": curve.why,
        "points": [
            {
                "moved": one.moved,
                "gained": one.gained,
                "gained_m3": one.gained_m3,
                "gained_money": one.gained_money,
                "cost_of_a_move": one.share,
                "unplaced": one.unplaced,
            }
            for one in curve.points
        ],
    }


def moves_text(curve: MoveCurve, units: System, currency: str = "") -> str:
    """The curve as a short table, from few moves to many."""
    if not curve.points:
        return f"No moves to compare: {curve.why}"
    lines = [
        f"What moving waterings from their places of last week gains in {curve.scale}",
        f"({curve.known} waterings had a place), against the week that moves least:",
        "",
        f"{'moved':>6}  {'gained':>8}  {'move_worth':>10}  {curve.scale}",
    ]
    lines += [
        f"{one.moved:>6}  {one.gained:>8.2%}  {one.share:>10g}  "
        f"{_amount(one, units, currency)}"
        for one in curve.points
    ]
    if len(curve.points) == 1:
        lines += ["", "No further move gains anything."]
    else:
        lines += ["", "To pick a line, write its move_worth under [controller]."]
    return "\n".join(lines)


def _amount(one: MovePoint, units: System, currency: str) -> str:
    if one.gained_money is not None:
        return f"{one.gained_money:.2f} {currency}".rstrip()
    return shown(one.gained_m3, "m3", units)
