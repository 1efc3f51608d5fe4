"""Zones made by hand for the tests of the root zone."""

from typing import Any

from scheduler.root_zone.storage import Storage
from scheduler.site import Plant, Pots, Soil, Zone
from scheduler.trace import entered

BED_PLANT = Plant(name="oaks", kc=0.8, kc_area="bed")


def zone(**given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": "F1",
        "name": "bay",
        "area_m2": 900.0,
        "grown_in": "soil",
        "plant": BED_PLANT,
    }
    return Zone(**(base | given))


def soil_zone(**soil: Any) -> Zone:
    return zone(soil=Soil(**({"root_depth_m": 0.4} | soil)))


def pot_zone(**pots: Any) -> Zone:
    return zone(grown_in="pots", pots=Pots(**({"top_diameter_mm": 254.0} | pots)))


def store(total_mm: float, allowed_mm: float) -> Storage:
    return Storage(total_mm, allowed_mm, entered("allowed_depletion_mm", allowed_mm))
