"""What the groups get that do not rule."""

import datetime as dt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.groups import ruling_zone
from scheduler.site import Plant, PlantGroup, Pots, Zone
from scheduler.watering.group_outcomes import GroupOutcome, group_outcomes

MONDAY = dt.date(2026, 6, 8)
WEEK = np.datetime64(MONDAY, "D") + np.arange(7)
NIGHTS = (MONDAY, MONDAY + dt.timedelta(2), MONDAY + dt.timedelta(5))


def plant(name: str, kc: float) -> Plant:
    return Plant(name=name, kc=kc, kc_area="bed", kc_from="weighed")


def outcomes(
    kc: float, rules: str = "thirstiest", held_ml: float = 2500.0
) -> tuple[dict[str, GroupOutcome], str]:
    pots = Pots(top_diameter_mm=254.0, capture_factor=1.0, available_water_ml=held_ml)
    yard = Zone(
        id="Z4", name="yard", area_m2=9.0, grown_in="pots", plant=plant("box", 0.6),
        pots=pots, group=(PlantGroup(name="fern", plant=plant("fern", kc)),),
        group_rules=rules,
    )  # fmt: skip
    zone, uses, _ = ruling_zone(yard, WEEK, np.full(7, 5.0))
    made, said = group_outcomes(uses, zone, NIGHTS)
    return {one.name: one for one in made}, " | ".join(one.what for one in said)


def test_a_group_that_uses_two_thirds_gets_half_as_much_again() -> None:
    made, said = outcomes(0.9)
    assert made["box"].got_over_need == pytest.approx(1.5)
    assert "this group gets 150 % of what it needs" in said


def test_a_group_that_must_do_with_less_is_warned_of() -> None:
    made, said = outcomes(0.9, rules="box")
    assert made["fern"].got_over_need == pytest.approx(2 / 3)
    assert "gets 67 % of what it needs" in said


def test_small_pots_that_dry_out_between_waterings_are_warned_of() -> None:
    # allowed 30 % of 380 mL = 2.25 mm on the bed; 3 mm a day: under a day
    assert "passes its allowed depletion" in outcomes(0.9, held_ml=380.0)[1]


def test_the_ruling_group_gets_its_need() -> None:
    made, _ = outcomes(0.9)
    assert (made["fern"].rules, made["fern"].got_over_need) == (True, 1.0)


@given(st.floats(0.1, 1.2))
def test_no_group_falls_short_where_the_thirstiest_rules(kc: float) -> None:
    made, _ = outcomes(kc)
    assert min(one.got_over_need or 0.0 for one in made.values()) >= 1.0


def test_one_night_a_week_is_seven_days_apart() -> None:
    # allowed 30 % of 2500 mL = 14.8 mm on the bed; 4.5 mm a day: 3.3 days
    yard = Zone(
        id="Z4", name="yard", area_m2=9.0, grown_in="pots", plant=plant("box", 0.9),
        pots=Pots(top_diameter_mm=254.0, capture_factor=1.0, available_water_ml=2500.0),
        group=(PlantGroup(name="fern", plant=plant("fern", 0.9)),),
    )  # fmt: skip
    zone, uses, _ = ruling_zone(yard, WEEK, np.full(7, 5.0))
    _, said = group_outcomes(uses, zone, (MONDAY,))
    assert "waterings are 7 days apart" in said[0].what


def test_no_group_sets_minutes_that_are_fixed() -> None:
    yard = Zone(
        id="Z4", name="yard", area_m2=9.0, grown_in="soil", plant=plant("box", 0.6),
        group=(PlantGroup(name="fern", plant=plant("fern", 0.9)),),
        watered="fixed minutes", fixed_minutes=6.0,
    )  # fmt: skip
    zone, uses, _ = ruling_zone(yard, WEEK, np.full(7, 5.0))
    assert group_outcomes(uses, zone, NIGHTS) == ((), ())
