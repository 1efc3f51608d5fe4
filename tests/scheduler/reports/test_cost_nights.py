"""An option's nights in sentences."""

from dataclasses import replace

import pytest

from scheduler.money.option_nights import OptionNights
from scheduler.reports.cost_nights import nights_words
from tests.scheduler.money.made_week import around


def words(name: str) -> str:
    found = around().nights_of(name)
    assert found is not None
    return "\n".join(nights_words(found, "metric"))


def test_minutes_and_overlap_stand_before_and_after() -> None:
    line = words("B").splitlines()[0]
    assert line.startswith("All zones together, this week (8 Jun): takes 87 → 83 min")
    assert "of 240, fits; worst overlap 429.6 → 429.6 L/min of 450.0 L/min" in line


def test_power_and_energy_stand_before_and_after() -> None:
    said = words("B")
    assert "largest quarter hour 9.8 → 9.8 kW, charge for power 79 → 79" in said
    assert "energy 75 → 73 kWh, 7.51 → 7.28" in said


def test_what_does_not_fit_has_its_ways_out() -> None:
    said = words("S")
    assert "does not fit" in said
    assert "Zone Z4: flow takes" in said
    assert "Ways out, the cheapest first: check heads" in said


@pytest.mark.parametrize("name", ["N", "D"])
def test_what_is_not_worked_out_says_why(name: str) -> None:
    assert words(name).startswith("Nights not worked out: ")


def test_with_the_week_alone_not_all_nights_are_worked_out() -> None:
    found = around().nights_of("B")
    assert found is not None
    some = replace(found, full_then=None, why="only some were asked for")
    said = nights_words(some, "us")
    assert "Not all nights are worked out: only some were asked for." in said


def test_without_a_plan_of_the_week_there_is_only_why() -> None:
    bare = OptionNights("X", None, None, None, None, "no night")
    assert nights_words(bare, "us") == ("Nights not worked out: no night.",)
