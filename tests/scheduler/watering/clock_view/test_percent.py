"""Percent adjust instead of new minutes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.watering.clock_view.percent import (
    Keyed,
    adjusted_min,
    percent_for_all,
    percent_way,
)


def test_twenty_four_to_twenty_two_is_ninety_two_percent() -> None:
    way = percent_way(Keyed("Z4", 24.0, 22))
    assert way is not None
    assert (way.percent, way.gives_minutes) == (92, 22)


def test_a_coarse_step_says_what_it_really_gives() -> None:
    way = percent_way(Keyed("Z4", 24.0, 22), step=10)
    assert way is not None
    assert (way.percent, way.gives_minutes) == (90, 22)


def test_a_step_that_misses_says_so() -> None:
    way = percent_way(Keyed("Z4", 40.0, 45), step=10)
    assert way is not None
    assert (way.percent, way.gives_minutes) == (110, 44)


@pytest.mark.parametrize(
    "keyed", [Keyed("Z1", 24.0, 24), Keyed("Z1", 0.0, 24), Keyed("Z1", 24.0, 0)]
)
def test_nothing_to_adjust_has_no_way(keyed: Keyed) -> None:
    assert percent_way(keyed) is None


def test_more_than_clocks_go_up_to_has_no_way() -> None:
    assert percent_way(Keyed("Z1", 10.0, 30)) is None


def test_one_percent_for_all_gives_every_zone_its_minutes() -> None:
    zones = [Keyed("Z1", 24.0, 22), Keyed("Z2", 50.0, 46)]
    percent = percent_for_all(zones)
    assert percent is not None
    assert [adjusted_min(one.was_minutes, percent) for one in zones] == [22, 46]


def test_zones_that_go_two_ways_have_no_percent_for_all() -> None:
    assert percent_for_all([Keyed("Z1", 24.0, 22), Keyed("Z2", 50.0, 55)]) is None


def test_where_nothing_changes_no_percent_is_named() -> None:
    assert percent_for_all([Keyed("Z1", 24.0, 24)]) is None


@given(st.integers(50, 120), st.integers(30, 170))
def test_a_percent_that_was_used_is_found_again(minutes: int, percent: int) -> None:
    now = adjusted_min(float(minutes), percent)
    way = percent_way(Keyed("Z1", float(minutes), now))
    assert way is None or way.gives_minutes == now
