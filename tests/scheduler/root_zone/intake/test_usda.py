"""The highest sprinkler rate that USDA printed."""

from typing import Any

import pytest

from scheduler.root_zone.intake import (
    IntakeModel,
    usda_max_rate_mm_per_h,
    usda_rate_limit,
)
from scheduler.site import Soil, Zone
from scheduler.trace import entered
from scheduler.units import MM_PER_INCH
from tests.scheduler.root_zone.made import soil_zone


def steady(rate_in_per_h: float, storage_in: float | None) -> IntakeModel:
    stands = None if storage_in is None else storage_in * MM_PER_INCH
    leaf = entered("intake_model", "test")
    return IntakeModel("constant intake", None, rate_in_per_h * 25.4, stands, leaf)


def clay_bay(**soil: Any) -> Zone:
    return soil_zone(**({"texture": "clay loam", "slope": 0.02} | soil))


# --- the rate table ----------------------------------------


# USDA maximum precipitation rates, reprinted in Landscape Management, 19 March 2018
@pytest.mark.parametrize(
    ("texture", "slope", "cover", "inches"),
    [
        ("sand", 0.02, "cover", 2.0),
        ("sand", 0.02, "bare", 2.0),
        ("sand", 0.06, "cover", 2.0),
        ("sand", 0.10, "cover", 1.5),
        ("sandy loam", 0.02, "cover", 1.75),
        ("sandy loam", 0.02, "bare", 1.0),
        ("sandy loam", 0.06, "cover", 1.25),
        ("sandy loam", 0.06, "bare", 0.8),
        ("sandy loam", 0.10, "cover", 1.0),
        ("sandy loam", 0.10, "bare", 0.6),
        ("silt loam", 0.02, "cover", 1.0),
        ("silt loam", 0.02, "bare", 0.5),
        ("silt loam", 0.06, "bare", 0.4),
        ("silt loam", 0.10, "cover", 0.6),
        ("clay", 0.02, "cover", 0.2),
        ("clay", 0.02, "bare", 0.15),
        ("clay loam", 0.10, "bare", 0.08),
    ],
)
def test_the_usda_table_is_read_as_printed(
    texture: Any, slope: float, cover: Any, inches: float
) -> None:
    rate = usda_max_rate_mm_per_h(Soil(texture=texture, slope=slope, cover=cover))
    assert rate == pytest.approx(inches * MM_PER_INCH, abs=0.01)


@pytest.mark.parametrize("slope", [0.05, 0.08, 0.12])
def test_a_slope_on_a_boundary_belongs_to_the_steeper_class(slope: float) -> None:
    at = usda_max_rate_mm_per_h(Soil(texture="loam", slope=slope))
    above = usda_max_rate_mm_per_h(Soil(texture="loam", slope=slope + 0.01))
    assert at == above


def test_no_texture_has_no_rate() -> None:
    soil = Soil(field_capacity=0.3, wilting_point=0.1)
    assert usda_max_rate_mm_per_h(soil) is None


def test_the_steepest_class_is_marked_as_from_memory() -> None:
    limit = usda_rate_limit(Soil(texture="loam", slope=0.2))
    assert limit is not None
    assert limit.is_from_memory
    assert "from memory" in limit.trace.source
