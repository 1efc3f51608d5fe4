"""What a deed really brought, by tests before and after it."""

import dataclasses
import datetime as dt

import numpy as np
import pytest

from scheduler.money.actual import ActualSaving, actual_saving, catch_before
from scheduler.option import Option
from scheduler.record import CanTest, History
from tests.scheduler.money.made import bay, option, small_site
from tests.scheduler.money.test_response import by_need
from tests.scheduler.test_plan import can_test

DAY = dt.date(2026, 3, 1)


def done(**given: object) -> Option:
    return option(zones=("Z4",), done_on=DAY, **given)


def made_test(date: dt.date, pull: float = 1.0) -> CanTest:
    """The test of the week, on another day, its catches drawn toward their mean."""
    made = can_test()
    runs = tuple(
        dataclasses.replace(
            one,
            start=None,
            reading=np.nanmean(one.reading)
            + pull * (one.reading - np.nanmean(one.reading)),
        )
        for one in made.runs
    )
    return dataclasses.replace(made, name=f"{date}", date=date, runs=runs, package=None)


BEFORE, AFTER = made_test(dt.date(2025, 9, 1)), made_test(dt.date(2026, 5, 1), 0.5)


def saving(*tests: CanTest, of: Option | None = None) -> ActualSaving | None:
    history = History(tests=tests)
    return actual_saving(of or done(), small_site(), bay(), history, by_need())


def test_what_was_not_done_has_no_actual_saving() -> None:
    assert saving(BEFORE, AFTER, of=option(zones=("Z4",))) is None


def test_until_it_is_tested_again_the_actual_saving_stays_empty() -> None:
    found = saving(BEFORE)
    assert found is not None
    assert (found.saved_m3, found.why) == (None, "not re-tested yet")
    assert not found.is_retested


def test_without_a_test_from_before_nothing_is_claimed() -> None:
    found = saving(AFTER)
    assert found is not None
    assert found.saved_m3 is None
    assert "no test from before" in found.why


def test_the_actual_saving_is_that_of_the_two_measured_uniformities() -> None:
    found = saving(BEFORE, AFTER)
    assert found is not None
    assert found.du_before is not None
    assert found.du_after is not None
    water, rule = by_need(), bay().chosen_rule
    expected = water.volume_m3(rule, found.du_before) - water.volume_m3(
        rule, found.du_after
    )
    assert found.saved_m3 == pytest.approx(expected)
    assert expected > 0


def test_catches_half_as_far_from_the_mean_lack_half_as_much() -> None:
    found = saving(BEFORE, AFTER)
    assert found is not None
    assert 1 - (found.du_after or 0) == pytest.approx((1 - (found.du_before or 0)) / 2)


def test_a_test_of_the_old_package_still_tells_what_was_before() -> None:
    old = dataclasses.replace(BEFORE, package="worn-out")
    caught = catch_before(done(), small_site(), bay(), History(tests=(old,)))
    assert caught is not None
    assert caught.basis == "measured"


def test_the_forecast_plays_no_part() -> None:
    one, other = (saving(BEFORE, AFTER, of=done(du_lq=du)) for du in (0.76, 0.80))
    assert one == other
