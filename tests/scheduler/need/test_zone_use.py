"""Reference ET becomes a depth on the bed."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.zone_use import ZoneUse, zone_use
from scheduler.site import Plant, Pots, Zone
from scheduler.trace import entered
from tests.scheduler.need.made import days, plain

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


# --- tables, and ground that is counted apart -----------------------------------


LAWN = {
    "grown_in": "soil",
    "plant": {"name": "lawn", "crop": "turf cool season"},
    "soil": {"texture": "loam", "root_depth_m": 0.3},
}


# FAO-56 Table 12: cool season turf, 0.95 in the air of the tables
def test_a_crop_of_the_table_uses_its_coefficient() -> None:
    use, _ = zone_use(_zone(**LAWN), DAY)
    assert use is not None
    assert use.etc_mm_per_day(ETO, DAY) == pytest.approx([4.75])


def test_a_crop_of_the_table_follows_the_weather_files() -> None:
    mast = plain(365, date=days("2026-01-01", 365), wind_m_per_s=5.0, rh_min=0.2)
    use, _ = zone_use(_zone(**LAWN), DAY, weather=(mast,))
    assert use is not None
    # equation 62: 0.95 + [0.04 x 3 + 0.004 x 25] (0.1 / 3)^0.3 = 0.95 + 0.22 x 0.360
    assert use.kc(ETO, DAY) == pytest.approx([1.029], abs=0.001)


def _dual(**zone: object) -> ZoneUse:
    plant = {"name": "lawn", "crop": "turf cool season", "dual": True}
    use, _ = zone_use(_zone(**(LAWN | {"plant": plant} | zone)), DAY)
    assert use is not None
    return use


def test_ground_wetted_every_night_adds_to_the_plants() -> None:
    # basal 0.90 of FAO-56 Table 17, in all 1.2
    assert _dual().kc(ETO, DAY) == pytest.approx([1.2])


def test_shade_lowers_plants_and_ground_alike() -> None:
    use = _dual(structure_factor=0.5)
    assert use.etc_mm_per_day(ETO, DAY) == pytest.approx([3.0])


def test_the_trace_of_a_dual_coefficient_reaches_the_soil() -> None:
    trace = _dual().etc_trace(entered("eto_mm", 5.0), ETO, DAY)
    names = {one.name for one in trace.chain()}
    assert {
        "kcb", "ke", "kc_max", "ground_cover", "total_evaporable_mm",
        "readily_evaporable_mm", "height_m", "structure_factor", "bed_factor",
    } <= names  # fmt: skip


def test_the_parts_of_a_dual_trace_add_up() -> None:
    kc = _dual().kc_trace(ETO, DAY)
    kcb, ke = (one.value for one in kc.inputs)
    assert kc.value == pytest.approx(float(kcb or 0) + float(ke or 0))


def test_soil_without_evaporable_water_gives_no_use() -> None:
    plant = {"name": "lawn", "crop": "turf cool season", "dual": True}
    soil = {"field_capacity": 0.3, "wilting_point": 0.1, "root_depth_m": 0.3}
    use, findings = zone_use(_zone(**(LAWN | {"plant": plant, "soil": soil})), DAY)
    assert use is None
    assert "stop" in [one.level for one in findings]


def test_shade_that_was_entered_is_traced_as_entered() -> None:
    use, _ = zone_use(_zone(structure_factor=0.7), DAY)
    assert use is not None
    assert (use.structure.value, use.structure.source) == (0.7, "entered")


def test_open_ground_is_traced_as_such() -> None:
    use, _ = zone_use(_zone(), DAY)
    assert use is not None
    assert "no shade entered" in use.structure.formula


@given(st.floats(0.0, 12.0), st.floats(0.0, 5.0))
def test_more_reference_et_never_needs_less_water(eto: float, more: float) -> None:
    use, _ = zone_use(_zone(**LAWN), DAY)
    assert use is not None
    low = use.etc_mm_per_day(np.array([eto]), DAY)
    assert (use.etc_mm_per_day(np.array([eto + more]), DAY) >= low).all()


def test_a_plan_without_nights_leaves_the_ground_to_dry() -> None:
    week = days("2026-06-01", 7)
    eto = np.full(7, 5.0)
    wet, dry = _dual(), _dual().watered_on(week, [])
    assert dry.kc(eto, week)[-1] < wet.kc(eto, week)[-1]


def test_the_nights_of_a_plan_leave_plants_without_wet_ground_alone() -> None:
    use, _ = zone_use(_zone(), DAY)
    assert use is not None
    assert use.watered_on(DAY, DAY.tolist()) is use


def test_the_nights_of_a_first_plan_stand_in_the_trace() -> None:
    week = days("2026-06-01", 7)
    use = _dual().watered_on(week, week[:2].tolist())
    ke = use.kc_trace(np.full(7, 5.0), week).find("ke")
    assert ke is not None
    assert "on the 2 nights of a first plan of 7" in ke.note
