"""Checks and a rule in; how far the driest pot lets a correction cut out."""

import dataclasses
import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.zone_leaching import ZoneLeaching
from scheduler.proof.floor import driest_floor, held_by_driest
from scheduler.proof.observed import SeenCheck
from scheduler.trace import entered
from tests.scheduler.proof.test_causes import seen
from tests.scheduler.proof.yard import catch, yard


def later(check: SeenCheck, days: int, driest: float) -> SeenCheck:
    look = dataclasses.replace(
        check.seen, date=check.seen.date + dt.timedelta(days=days)
    )
    return dataclasses.replace(check, seen=look, driest_ratio=driest)


def test_the_floor_brings_the_driest_pot_its_use_at_the_rules_factor() -> None:
    # the driest pot kept 4.8 x 0.879 = 4.22 mm of 4.25 modelled; the low quarter rule
    # brings 1 / 0.8 of the use (shares 0.8 0.9 1.0 1.3)
    floor = driest_floor(yard(), catch(), None, [seen()])
    assert floor == pytest.approx(4.8 * (1 - 28 / 232) / 4.25 * 0.8)


def test_with_that_factor_the_plan_gives_the_driest_pot_its_use_again() -> None:
    floor = driest_floor(yard(), catch(), None, [seen()])
    assert floor is not None
    minutes = 5.0 * 0.85 * floor / 0.8 / 12.0 * 60.0
    assert minutes == pytest.approx(24.0 * (1 - 28 / 232))


def test_a_leaching_target_that_rules_lowers_the_floor() -> None:
    target = ZoneLeaching(0.4, True, entered("leaching_target", 0.4))
    plain, wet = (
        driest_floor(yard(), catch(), one, [seen()]) for one in (None, target)
    )
    assert plain is not None
    assert wet == pytest.approx(plain / 0.8 * 0.6)


def test_the_driest_pot_of_all_fresh_checks_counts() -> None:
    checks = [later(seen(), 0, 0.9), later(seen(), 10, 0.7)]
    assert driest_floor(yard(), catch(), None, checks) == pytest.approx(0.9 * 0.8)


def test_a_check_of_two_months_ago_holds_nothing_back() -> None:
    checks = [later(seen(), 0, 0.9), later(seen(), 60, 0.7)]
    assert driest_floor(yard(), catch(), None, checks) == pytest.approx(0.7 * 0.8)


def test_a_rule_that_stops_the_plan_has_no_floor() -> None:
    zone = yard(rule="low quarter, leached")
    assert driest_floor(zone, catch(), None, [seen()]) is None


@given(st.floats(0.5, 2.0), st.floats(0.1, 3.0))
def test_no_cut_goes_below_the_floor(factor: float, floor: float) -> None:
    assert held_by_driest(factor, floor) >= min(1.0, floor)


@given(st.floats(0.5, 2.0), st.floats(0.1, 3.0))
def test_a_floor_never_asks_for_more_than_without_learning(
    factor: float, floor: float
) -> None:
    assert held_by_driest(factor, floor) <= max(factor, 1.0)


def test_without_a_check_nothing_is_held() -> None:
    assert held_by_driest(0.7, None) == 0.7
