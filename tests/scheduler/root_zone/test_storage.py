"""What soil and pots hold."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.root_zone.storage import Storage, zone_storage
from scheduler.site import Plant, Zone
from tests.scheduler.root_zone.made import pot_zone, soil_zone, zone


def held(one: Zone) -> Storage:
    storage, _ = zone_storage(one)
    assert storage is not None
    return storage


def levels(one: Zone) -> list[str]:
    return [finding.level for finding in zone_storage(one)[1]]


def test_soil_holds_its_water_content_over_the_root_depth() -> None:
    bay = soil_zone(field_capacity=0.3, wilting_point=0.1, allowed_depletion=0.5)
    assert held(bay).total_mm == pytest.approx(80.0)
    assert held(bay).allowed_mm == pytest.approx(40.0)


def test_own_soil_numbers_leave_nothing_to_say() -> None:
    bay = soil_zone(field_capacity=0.3, wilting_point=0.1, allowed_depletion=0.5)
    assert levels(bay) == []


def test_pots_hold_their_water_over_what_a_millimetre_brings_in() -> None:
    # 1 mm on the bed brings 50.67 mL x 1.5 into a 254 mm pot
    pots = pot_zone(available_water_ml=760.1, capture_factor=1.5, allowed_depletion=0.4)
    assert held(pots).total_mm == pytest.approx(10.0, abs=0.001)
    assert held(pots).allowed_mm == pytest.approx(4.0, abs=0.001)


# FAO-56 (Allen et al. 1998), example 36, p. 166: TAW and RAW, whole millimetres
@pytest.mark.parametrize(
    ("fc", "wp", "root_depth_m", "p", "total_mm", "allowed_mm"),
    [
        (0.15, 0.06, 0.4, 0.30, 36, 11),
        (0.15, 0.06, 0.8, 0.40, 72, 29),
        (0.15, 0.06, 1.2, 0.55, 108, 59),
        (0.32, 0.15, 0.4, 0.30, 68, 20),
        (0.32, 0.15, 0.8, 0.40, 136, 54),
        (0.32, 0.15, 1.2, 0.55, 204, 112),
        (0.35, 0.23, 0.4, 0.30, 48, 14),
        (0.35, 0.23, 0.8, 0.40, 96, 38),
        (0.35, 0.23, 1.2, 0.55, 144, 79),
    ],
)
def test_fao_example_36_comes_out(
    fc: float, wp: float, root_depth_m: float, p: float, total_mm: int, allowed_mm: int
) -> None:
    bay = soil_zone(
        field_capacity=fc,
        wilting_point=wp,
        root_depth_m=root_depth_m,
        allowed_depletion=p,
    )
    assert held(bay).total_mm == pytest.approx(total_mm, abs=0.5)
    assert held(bay).allowed_mm == pytest.approx(allowed_mm, abs=0.5)


def test_a_texture_stands_in_for_both_numbers() -> None:
    # Rawls, Brakensiek and Saxton 1982, loam: 0.27 and 0.117
    bay = soil_zone(texture="loam", allowed_depletion=0.5)
    assert held(bay).total_mm == pytest.approx(1000 * (0.27 - 0.117) * 0.4)


def test_a_checked_table_value_needs_no_remark() -> None:
    assert levels(soil_zone(texture="loam", allowed_depletion=0.5)) == []


def test_a_table_value_from_memory_is_noted_with_its_remedy() -> None:
    _, found = zone_storage(soil_zone(texture="clay loam", allowed_depletion=0.5))
    assert [finding.level for finding in found] == ["note"]
    assert "0.318 for clay loam" in found[0].what
    assert "from memory" in found[0].what
    assert "soil test" in found[0].fix


def test_a_value_from_memory_is_marked_in_the_chain_too() -> None:
    bay = held(soil_zone(texture="clay loam", allowed_depletion=0.5))
    content = bay.trace.find("field_capacity")
    assert content is not None
    assert "from memory" in content.source


def test_an_own_number_replaces_only_its_own_table_value() -> None:
    bay = soil_zone(texture="loam", field_capacity=0.3, allowed_depletion=0.5)
    assert held(bay).total_mm == pytest.approx(1000 * (0.3 - 0.117) * 0.4)


def test_a_field_capacity_below_the_tables_wilting_point_keeps_no_balance() -> None:
    storage, found = zone_storage(soil_zone(texture="clay", field_capacity=0.2))
    assert storage is None
    assert found[0].level == "warning"
    assert "0.2 is not above the wilting point 0.272" in found[0].what


def test_half_is_allowed_in_soil_when_nobody_says_and_it_is_noted() -> None:
    bay = soil_zone(field_capacity=0.3, wilting_point=0.1)
    assert held(bay).allowed_mm == pytest.approx(40.0)
    assert "0.5" in zone_storage(bay)[1][0].what


def test_pots_allow_three_tenths_when_nobody_says_and_it_is_noted() -> None:
    pots = pot_zone(available_water_ml=1000.0, capture_factor=1.0)
    assert held(pots).allowed_mm == pytest.approx(0.3 * held(pots).total_mm)
    assert "common practice" in zone_storage(pots)[1][0].what


def test_a_guessed_capture_factor_is_noted() -> None:
    pots = pot_zone(available_water_ml=1000.0, allowed_depletion=0.3)
    assert [one.where for one in zone_storage(pots)[1]] == ["zone F1: capture_factor"]


def test_a_capture_factor_is_not_noted_twice() -> None:
    # on the pot top the depth on the bed rests on it and has warned already
    plant = Plant(name="holly", kc=2.0, kc_area="pot top")
    pots = pot_zone(available_water_ml=1000.0, allowed_depletion=0.3)
    assert levels(pots.model_copy(update={"plant": plant})) == []


@pytest.mark.parametrize(
    ("one", "missing"),
    [
        (zone(), "soil is not described"),
        (soil_zone(texture="loam", root_depth_m=None), "root depth is not known"),
        (zone(grown_in="pots"), "water one pot holds is not known"),
        (pot_zone(), "water one pot holds is not known"),
    ],
    ids=["no soil", "no root depth", "no pots", "no pot water"],
)
def test_what_is_missing_is_noted_and_keeps_no_balance(one: Zone, missing: str) -> None:
    storage, found = zone_storage(one)
    assert storage is None
    assert [finding.level for finding in found] == ["note"]
    assert missing in found[0].what


def test_the_chain_reaches_what_was_entered() -> None:
    bay = soil_zone(field_capacity=0.3, wilting_point=0.1, allowed_depletion=0.5)
    names = [one.name for one in held(bay).trace.chain()]
    assert names[-1] == "allowed_depletion_mm"
    assert {"field_capacity", "wilting_point", "root_depth_m"} < set(names)


# --- a crop of the table ----------------------------------------------------------


def crop_zone(**soil: object) -> Zone:
    given = {"field_capacity": 0.32, "wilting_point": 0.15} | soil
    onion = {"name": "onions", "crop": "onion dry", "planted": dt.date(2026, 4, 1)}
    return Zone.model_validate(
        {
            "id": "F1",
            "name": "bay",
            "area_m2": 900.0,
            "grown_in": "soil",
            "plant": onion,
            "soil": given,
        }
    )


# FAO-56 Table 22: onion 0.30; footnote 2 at 8 mm/day by hand: 0.18 of 68 mm
def test_a_crop_of_the_table_brings_its_part_and_its_use_moves_it() -> None:
    bay = crop_zone(root_depth_m=0.4)
    storage, findings = zone_storage(bay, etc_mm_per_day=8.0)
    assert storage is not None
    assert storage.allowed_mm == pytest.approx(0.18 * 68.0)
    assert findings == ()


def test_without_a_use_the_table_stands() -> None:
    assert held(crop_zone(root_depth_m=0.4)).allowed_mm == pytest.approx(0.30 * 68.0)


def test_an_entered_part_is_never_moved() -> None:
    bay = crop_zone(root_depth_m=0.4, allowed_depletion=0.5)
    storage, _ = zone_storage(bay, etc_mm_per_day=8.0)
    assert storage is not None
    assert storage.allowed_mm == pytest.approx(34.0)


# FAO-56 Table 22: onion 0.3 to 0.6 m
def test_a_crop_of_the_table_brings_the_low_end_of_its_roots_and_says_so() -> None:
    storage, (found,) = zone_storage(crop_zone())
    assert storage is not None
    assert storage.total_mm == pytest.approx(1000 * 0.17 * 0.3)
    assert found.level == "warning"
    assert "young plants root less" in found.what


@given(st.floats(0.0, 15.0), st.floats(0.0, 5.0))
def test_more_use_never_allows_more_depletion(use: float, more: float) -> None:
    bay = crop_zone(root_depth_m=0.4)
    low, _ = zone_storage(bay, etc_mm_per_day=use + more)
    high, _ = zone_storage(bay, etc_mm_per_day=use)
    assert low is not None
    assert high is not None
    assert low.allowed_mm <= high.allowed_mm


def test_what_is_missing_of_the_three_numbers_of_a_mix_is_named() -> None:
    half = {"substrate_volume_ml": 9000.0, "container_capacity": 0.5}
    one = pot_zone(available_water_ml=None, **half)
    _, (found,) = zone_storage(one)
    assert found.fix.startswith("enter unavailable_water as well, or weigh")


@pytest.mark.parametrize(
    ("given", "told"),
    [
        # 2400 mL / 0.866 cm2 x 10; 2.4 mL / 506.7 cm2 x 10
        ({"top_diameter_mm": 10.5, "available_water_ml": 2400.0}, "27,716.78 mm"),
        ({"available_water_ml": 2.4}, "0.05 mm"),
    ],
    ids=["inches typed as mm", "litres typed as mL"],
)
def test_water_that_no_pot_of_that_width_holds_is_warned_of(
    given: dict[str, float], told: str
) -> None:
    one = pot_zone(capture_factor=1.0, allowed_depletion=0.4, **given)
    _, (found,) = zone_storage(one)
    assert found.level == "warning"
    assert told in found.what
