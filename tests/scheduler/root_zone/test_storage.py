"""Water that soil and pots hold: published examples, pots by geometry, guesses said."""

from typing import Any

import pytest

from scheduler.root_zone.storage import Storage, zone_storage
from scheduler.site import Plant, Pots, Soil, Zone

PLANT = Plant(name="oaks", kc=0.8, kc_area="bed")
# FAO-56 Example 36 (p. 166): TAW / RAW of crop and soil
EXAMPLE_36 = [
    (0.15, 0.06, 0.4, 0.30, 36, 11),
    (0.32, 0.15, 0.4, 0.30, 68, 20),
    (0.35, 0.23, 0.4, 0.30, 48, 14),
    (0.15, 0.06, 0.8, 0.40, 72, 29),
    (0.32, 0.15, 0.8, 0.40, 136, 54),
    (0.35, 0.23, 0.8, 0.40, 96, 38),
    (0.15, 0.06, 1.2, 0.55, 108, 59),
    (0.32, 0.15, 1.2, 0.55, 204, 112),
    (0.35, 0.23, 1.2, 0.55, 144, 79),
]


def zone(**given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": "Z1", "name": "bay", "area_m2": 100.0, "grown_in": "soil", "plant": PLANT,
    }  # fmt: skip
    return Zone(**(base | given))


def stored(**given: Any) -> Storage:
    found, _ = zone_storage(zone(**given))
    assert found is not None
    return found


@pytest.mark.parametrize(("fc", "wp", "roots", "p", "taw", "raw"), EXAMPLE_36)
def test_published_crops_and_soils(
    fc: float, wp: float, roots: float, p: float, taw: float, raw: float
) -> None:
    soil = Soil(
        field_capacity=fc, wilting_point=wp, root_depth_m=roots, allowed_depletion=p
    )
    found = stored(soil=soil)
    # printed as whole millimetres, some of them cut instead of rounded
    assert found.total_mm == pytest.approx(taw, abs=0.51)
    assert found.allowed_mm == pytest.approx(raw, abs=0.81)


def test_texture_stands_in_for_own_numbers() -> None:
    # Rawls, Brakensiek and Saxton (1982): sandy loam 0.207 and 0.095
    soil = Soil(texture="sandy loam", root_depth_m=1.0, allowed_depletion=0.5)
    assert stored(soil=soil).total_mm == pytest.approx(112)


def test_a_table_value_from_memory_is_said() -> None:
    soil = Soil(texture="clay loam", root_depth_m=0.5, allowed_depletion=0.5)
    _, findings = zone_storage(zone(soil=soil))
    assert any("from memory" in one.what for one in findings)


def test_an_allowed_depletion_that_is_not_entered_is_said() -> None:
    soil = Soil(field_capacity=0.3, wilting_point=0.1, root_depth_m=0.5)
    found, findings = zone_storage(zone(soil=soil))
    assert found is not None
    assert found.allowed_mm == pytest.approx(0.5 * found.total_mm)
    assert any("allowed_depletion" in one.where for one in findings)


def test_a_pot_counts_on_the_bed_by_its_top_and_capture() -> None:
    # 1,000 mL in pots of 500 cm2 that catch 1.25 of their top: 16 mm on the bed
    pots = Pots(
        top_diameter_mm=252.3133, capture_factor=1.25, available_water_ml=1000.0,
        allowed_depletion=0.4,
    )  # fmt: skip
    found = stored(grown_in="pots", soil=None, pots=pots)
    assert found.total_mm == pytest.approx(16.0, abs=1e-3)
    assert found.allowed_mm == pytest.approx(6.4, abs=1e-3)


def test_pots_of_unknown_water_keep_no_balance_and_say_so() -> None:
    found, findings = zone_storage(
        zone(grown_in="pots", soil=None, pots=Pots(top_diameter_mm=250.0))
    )
    assert found is None
    assert findings[0].level == "note"


def test_a_soil_without_root_depth_keeps_no_balance() -> None:
    found, _ = zone_storage(zone(soil=Soil(texture="loam")))
    assert found is None
