"""What a zone's salt asks for, and what is said where it cannot be known."""

from typing import Any

import pytest

from scheduler.need.zone_leaching import zone_leaching
from scheduler.site import Pots, Soil, Supply, Zone


def bay(rule: Any = None, **soil: Any) -> Zone:
    return Zone(
        id="F1", name="bay", area_m2=900.0, grown_in="soil", watered="off", rule=rule,
        soil=Soil(texture="loam", **soil),
    )  # fmt: skip


def yard(**pots: Any) -> Zone:
    return Zone(
        id="Z4", name="yard", area_m2=900.0, grown_in="pots", watered="off",
        pots=Pots(top_diameter_mm=254.0, **pots),
    )  # fmt: skip


def water(ec: float | None) -> Supply:
    return Supply(source="well", water_ec_ds_per_m=ec)


def said(zone: Zone, ec: float | None) -> list[tuple[str, str]]:
    return [(one.level, one.what) for one in zone_leaching(zone, water(ec))[1]]


def test_a_soil_with_a_crop_of_the_table_needs_the_published_leaching() -> None:
    # FAO-56 p. 180 with the threshold of Table 23: 0.7 / (5 x 1.0 - 0.7)
    found, _ = zone_leaching(bay(salt_crop="bean"), water(0.7))
    assert found is not None
    assert found.fraction == pytest.approx(0.1628, abs=5e-5)
    assert not found.is_target


def test_a_printed_range_is_taken_at_its_lower_end_and_says_so() -> None:
    found, _ = zone_leaching(bay(salt_crop="lettuce"), water(0.7))
    assert found is not None
    target = found.trace.find("target_ec_ds_per_m")
    assert target is not None
    assert target.value == 1.3
    assert "1.3 to 1.7" in target.note


def test_pots_with_a_leachate_in_mind_get_the_fraction_of_the_salt_balance() -> None:
    found, _ = zone_leaching(yard(leachate_ec_ds_per_m=2.5), water(0.4))
    assert found is not None
    assert found.fraction == pytest.approx(0.16)
    assert found.is_target
    assert found.factor == pytest.approx(1 / 0.84)


def test_a_stated_target_needs_no_salt_of_the_water() -> None:
    found, about = zone_leaching(yard(leaching_target=0.15), None)
    assert found is not None
    assert (found.fraction, about) == (0.15, ())


def test_nothing_entered_asks_for_nothing() -> None:
    assert zone_leaching(yard(), None) == (None, ())
    assert zone_leaching(bay(), water(0.3)) == (None, ())


def test_a_small_requirement_is_covered_by_ordinary_losses() -> None:
    # FAO-29: up to 0.10
    found, _ = zone_leaching(bay(salt_crop="bermudagrass"), water(2.0))
    assert found is not None
    assert found.is_covered
    [(level, what)] = said(bay(salt_crop="bermudagrass"), 2.0)
    assert level == "note"
    assert "ordinary losses cover it" in what


@pytest.mark.parametrize(
    "zone", [bay(salt_crop="bean"), bay(target_ec_ds_per_m=2.0),
             yard(leachate_ec_ds_per_m=2.0)],
)  # fmt: skip
def test_a_target_without_the_salt_of_the_water_warns(zone: Zone) -> None:
    [(level, what)] = said(zone, None)
    assert level == "warning"
    assert "not the salt of the water" in what


def test_salty_water_without_a_target_is_asked_about() -> None:
    [(level, what)] = said(bay(), 1.2)
    assert level == "note"
    assert "1.20 dS/m" in what


@pytest.mark.parametrize(
    ("zone", "ec", "words"),
    [
        (bay(target_ec_ds_per_m=1.0), 5.0, "no leaching holds that"),
        (bay(target_ec_ds_per_m=1.0), 2.5, "all of it would have to drain"),
        (yard(leachate_ec_ds_per_m=1.0), 1.0, "no more salt than the water"),
        (yard(leachate_ec_ds_per_m=2.0), 1.5, "75% of the water to drain"),
    ],
)
def test_what_no_leaching_can_do_is_a_warning_and_no_leaching(
    zone: Zone, ec: float, words: str
) -> None:
    found, about = zone_leaching(zone, water(ec))
    assert found is None
    assert about[0].level == "warning"
    assert words in about[0].what


@pytest.mark.parametrize(("target", "side"), [(0.05, "below"), (0.3, "above")])
def test_a_target_outside_the_usual_band_is_said(target: float, side: str) -> None:
    # 10 to 20 per cent: common practice, no source
    [(level, what)] = said(yard(leaching_target=target), None)
    assert level == "note"
    assert side in what


def test_the_leached_rule_without_salt_stops_the_zone() -> None:
    about = zone_leaching(bay(rule="low quarter, leached"), None)[1]
    assert [one.level for one in about] == ["stop"]
    assert "water_ec_ds_per_m" in about[0].fix
