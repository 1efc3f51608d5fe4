"""What each quarter of an option's zones gets in, words and JSON out; no arithmetic."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.reports.machine import Json
from scheduler.units import shown

if TYPE_CHECKING:
    from scheduler.money.zone_quarters import ZoneQuarters
    from scheduler.units import System


def quarters_words(one: ZoneQuarters, units: System) -> str:
    """Depths of a year, driest quarter first, now and then, and by whose map."""
    digits = 1 if units == "us" else 0

    def row(depths: tuple[float, ...]) -> str:
        *first, last = depths
        told = [shown(d, "mm", units, digits=digits, with_unit=False) for d in first]
        return " ".join([*told, shown(last, "mm", units, digits=digits)])

    return (
        f"Quarters of {one.zone} get in a year, driest first: {row(one.now_mm)} now, "
        f"{row(one.then_mm)} then (by {one.map_from})."
    )


def quarters_json(one: ZoneQuarters) -> Json:
    """The same for machines."""
    return {
        "zone": one.zone,
        "now_mm": list(one.now_mm),
        "then_mm": list(one.then_mm),
        "map_from": one.map_from,
    }
