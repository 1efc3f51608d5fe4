"""Reference ET becomes a depth on the bed."""

import numpy as np
import pytest

from scheduler.need.zone_use import zone_use
from scheduler.site import Plant, Pots, Zone

DAY = np.array(["2026-06-01"], "datetime64[D]")
ETO = np.array([5.0])


def _zone(**given: object) -> Zone:
    base: dict[str, object] = {
        "id": "Z4",
        "name": "yard",
        "area_m2": 900.0,
        "grown_in": "pots",
        "plant": Plant(name="holly", kc=0.85, kc_area="bed", kc_from="weighed"),
    }
    return Zone.model_validate(base | given)


# FAO-56 (1998), equation 58: ETc = Kc ETo
def test_use_is_the_coefficient_times_reference_et() -> None:
    use, findings = zone_use(_zone(), DAY)
    assert use is not None
    assert use.etc_mm_per_day(ETO, DAY) == pytest.approx([4.25])
    assert findings == ()


def test_shade_lowers_use() -> None:
    use, _ = zone_use(_zone(structure_factor=0.7), DAY)
    assert use is not None
    assert use.etc_mm_per_day(ETO, DAY) == pytest.approx([2.975])


def test_a_pot_that_captures_twice_its_top_needs_half_on_the_bed() -> None:
    plant = Plant(name="viburnum", kc=3.0, kc_area="pot top", kc_from="weighed")
    pots = Pots(top_diameter_mm=254.0, capture_factor=2.0)
    use, _ = zone_use(_zone(plant=plant, pots=pots), DAY)
    assert use is not None
    assert use.etc_mm_per_day(ETO, DAY) == pytest.approx([7.5])


def test_a_coefficient_on_an_area_nobody_knows_gives_no_use() -> None:
    plant = Plant(name="box", kc=3.0, kc_area="canopy", kc_from="weighed")
    use, findings = zone_use(_zone(plant=plant), DAY)
    assert use is None
    assert findings[0].level == "stop"


def test_a_zone_without_plant_has_no_use() -> None:
    assert zone_use(_zone(watered="off", plant=None), DAY) == (None, ())
