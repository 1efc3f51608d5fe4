"""Several plants under one valve: which of them rules."""

import numpy as np
import pytest
from pydantic import ValidationError

from scheduler.need.groups import ruling_zone
from scheduler.site import Basis, Plant, PlantGroup, Pots, Zone
from tests.scheduler.need.made import plain

WEEK = np.arange("2026-06-08", "2026-06-15", dtype="datetime64[D]")
ETO = np.full(7, 5.0)
WIDE = Pots(top_diameter_mm=254.0, capture_factor=2.0)


def plant(name: str, kc: float, kc_area: Basis = "bed") -> Plant:
    return Plant(name=name, kc=kc, kc_area=kc_area, kc_from="weighed")


def yard(*groups: PlantGroup, rules: str = "thirstiest") -> Zone:
    return Zone(
        id="Z4", name="yard", area_m2=9.0, grown_in="pots", plant=plant("box", 0.6),
        pots=WIDE, group=groups, group_rules=rules,
    )  # fmt: skip


FERN = PlantGroup(name="fern", plant=plant("fern", 0.9))


def test_the_thirstiest_group_rules() -> None:
    zone, uses, _ = ruling_zone(yard(FERN), WEEK, ETO)
    assert zone.plant is not None
    assert zone.plant.name == "fern"
    assert [one.etc_mm for one in uses] == pytest.approx([31.5, 21.0])


def test_a_pot_that_catches_little_rules_over_a_thirstier_one_that_catches_much() -> (
    None
):
    # Kc 3 through a capture of 2 is 1.5 on the bed; Kc 2 through 1 is 2
    lean = PlantGroup(
        name="lean", plant=plant("lean", 2.0, "pot top"),
        pots=Pots(top_diameter_mm=254.0, capture_factor=1.0),
    )  # fmt: skip
    wide = PlantGroup(name="wide", plant=plant("wide", 3.0, "pot top"))
    zone, _, _ = ruling_zone(yard(lean, wide), WEEK, ETO)
    assert zone.plant is not None
    assert zone.plant.name == "lean"


def test_a_named_group_rules_whatever_the_others_use() -> None:
    zone, _, _ = ruling_zone(yard(FERN, rules="box"), WEEK, ETO)
    assert zone.plant is not None
    assert zone.plant.name == "box"


def test_the_order_of_the_groups_does_not_matter() -> None:
    moss = PlantGroup(name="moss", plant=plant("moss", 0.3))
    one = ruling_zone(yard(FERN, moss), WEEK, ETO)
    other = ruling_zone(yard(moss, FERN), WEEK, ETO)
    assert [use.name for use in one[1]] == [use.name for use in other[1]]


def test_a_zone_without_groups_is_itself() -> None:
    zone = yard()
    assert ruling_zone(zone, WEEK, ETO) == (zone, (), ())


def test_an_unknown_ruler_is_refused_with_the_names() -> None:
    with pytest.raises(ValidationError, match="thirstiest, or one of box, fern"):
        yard(FERN, rules="moss")


def test_two_groups_of_one_name_are_refused() -> None:
    with pytest.raises(ValidationError, match="a name of their own"):
        yard(FERN, FERN)


def test_groups_of_the_table_follow_the_site_s_air() -> None:
    lawn = Plant.model_validate({"name": "lawn", "crop": "turf cool season"})
    box = Plant(name="box", kc=0.5, kc_area="bed", kc_from="guess")
    bay = Zone(
        id="F1",
        name="bay",
        area_m2=9.0,
        grown_in="soil",
        plant=box,
        group=(PlantGroup(name="lawn", plant=lawn),),
    )
    days = np.datetime64("2026-01-01") + np.arange(365)
    windy = plain(365, date=days, wind_m_per_s=5.0, rh_min=0.2)
    _, uses, _ = ruling_zone(bay, days[:1], np.array([5.0]), weather=(windy,))
    # FAO-56 equation 62: 0.95 + 0.22 x (0.1 / 3)^0.3 = 1.029
    assert uses[0].etc_mm == pytest.approx(5.145, abs=0.005)


def test_a_group_that_cannot_be_counted_does_not_block_the_others() -> None:
    crown = PlantGroup(name="crown", plant=plant("crown", 0.9, "canopy"))
    zone, uses, said = ruling_zone(yard(crown), WEEK, ETO)
    assert zone.plant is not None
    assert zone.plant.name == "box"
    assert [one.name for one in uses] == ["box"]
    (found,) = said
    assert found.level == "warning"
    assert "planned without this group" in found.what


def test_a_group_whose_ground_is_counted_by_itself_needs_soil() -> None:
    lawn = Plant(name="lawn", crop="turf cool season", dual=True, kc_area="bed")
    with pytest.raises(ValidationError, match="dual = true is for beds in soil"):
        yard(PlantGroup(name="lawn", plant=lawn))
