"""Who gives up water when there is too little."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.watering.allotment import Draw, allotted_minutes

BAY = Draw("F1", 60, 50, 2, 100.0, 9.0, False)
TREES = Draw("F2", 40, 36, 1, 200.0, 15.0, False)
LINERS = Draw("P1", 20, 15, 7, 50.0, 0.8, True)
MIST = Draw("M1", 12, 12, 7, 30.0, None, True, is_fixed=True)
ALL = (BAY, TREES, LINERS, MIST)
FULL_M3 = 12.0 + 8.0 + 7.0 + 2.52

draws = st.builds(
    Draw,
    zone=st.uuids().map(str),
    minutes=st.integers(0, 200),
    average_minutes=st.integers(0, 200),
    nights=st.integers(0, 7),
    flow_l_per_min=st.floats(1, 500),
    days_held=st.none() | st.floats(0, 30),
    is_pots=st.booleans(),
    is_fixed=st.booleans(),
    priority=st.integers(1, 9),
)


def used(zones: list[Draw], minutes: dict[str, int]) -> float:
    return sum(one.volume_m3(minutes[one.zone]) for one in zones)


def test_with_enough_water_nobody_gives_up_a_minute() -> None:
    assert allotted_minutes(ALL, FULL_M3) == {one.zone: one.minutes for one in ALL}


def test_soil_that_holds_longest_gives_up_its_factor_first() -> None:
    # trees hold 15 days: 40 to 36 minutes saves 0.8 m3
    found = allotted_minutes(ALL, FULL_M3 - 0.8)
    assert found == {"F1": 60, "F2": 36, "P1": 20, "M1": 12}


def test_small_pots_keep_their_factor_until_soil_is_at_half() -> None:
    # to half of the average: bay 25, trees 18 minutes; saves 7.0 and 4.4 m3
    found = allotted_minutes(ALL, FULL_M3 - 11.4)
    assert found == {"F1": 25, "F2": 18, "P1": 20, "M1": 12}


def test_small_pots_are_the_last_to_stop() -> None:
    found = allotted_minutes(ALL, 2.52 + 0.35 * 3)
    assert (found["F1"], found["F2"], found["P1"]) == (0, 0, 3)


def test_a_larger_priority_number_gives_up_all_before_the_next_gives_any() -> None:
    turf = Draw("T1", 30, 28, 3, 80.0, 4.0, False, priority=9)
    found = allotted_minutes([*ALL, turf], FULL_M3 + 0.24)
    assert found == {"F1": 60, "F2": 40, "P1": 20, "M1": 12, "T1": 1}


def test_fixed_minutes_are_never_cut() -> None:
    assert allotted_minutes(ALL, 0.0)["M1"] == 12


@given(st.lists(draws, max_size=8), st.floats(0, 500))
def test_the_week_keeps_within_the_volume_or_only_fixed_zones_run(
    zones: list[Draw], most_m3: float
) -> None:
    found = allotted_minutes(zones, most_m3)
    if used(zones, found) > most_m3 + 1e-6:
        assert not any(found[z.zone] * z.nights for z in zones if not z.is_fixed)


@given(st.lists(draws, max_size=8), st.floats(0, 500), st.floats(0, 500))
def test_more_water_never_gives_a_week_less(
    zones: list[Draw], one_m3: float, other_m3: float
) -> None:
    less, more = sorted((one_m3, other_m3))
    before, after = allotted_minutes(zones, less), allotted_minutes(zones, more)
    assert all(before[one.zone] <= after[one.zone] for one in zones)


@given(st.lists(draws, max_size=8), st.floats(0, 500))
def test_nobody_gets_more_than_asked_and_order_does_not_matter(
    zones: list[Draw], most_m3: float
) -> None:
    found = allotted_minutes(zones, most_m3)
    assert all(0 <= found[one.zone] <= one.minutes for one in zones)
    assert found == allotted_minutes(zones[::-1], most_m3)


@pytest.mark.parametrize("part", [0.9, 0.6, 0.3])
def test_less_than_a_minute_of_one_zone_is_left_over(part: float) -> None:
    found = allotted_minutes(ALL, FULL_M3 * part)
    left = FULL_M3 * part - used(list(ALL), found)
    assert 0 <= left < max(one.volume_m3(1) for one in ALL)
