"""Whole minutes, cycles and soaks: the worked bay, laws, limits of the clock."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.root_zone.intake import IntakeModel, clearing_min, longest_cycle_min
from scheduler.trace import entered
from scheduler.watering.cycles import (
    Split,
    split,
    wet_rate_mm_per_h,
    whole_minutes,
)

TRACE = entered("x", None)
BAY = IntakeModel("constant intake", None, 6.35, 2.54, TRACE)
OPEN = IntakeModel("none", None, None, None, TRACE)
RATE = 0.62 * 25.4


def cut(
    minutes: float,
    model: IntakeModel = BAY,
    rate: float = RATE,
    max_cycles: int | None = None,
) -> Split:
    return split(
        minutes,
        model=model,
        wet_rate_mm_per_h=rate,
        min_soak_min=None,
        rounding="nearest",
        max_cycles=max_cycles,
    )


def test_the_worked_bay_is_three_times_fifteen_with_23_minutes_of_soak() -> None:
    # need 0.45 in at 0.62 in/h: 43.5 min; ponded 0.0925 in drains in 22.2 min
    found = cut(0.45 / 0.62 * 60)
    assert (found.cycles, found.cycle_minutes, found.soak_minutes) == (3, 15, 23)


@pytest.mark.parametrize(("rate", "cycles", "minutes"), [(40.64, 3, 10)])
def test_the_published_cycle_and_soak_case(
    rate: float, cycles: int, minutes: int
) -> None:
    # 1.6 in/h on 0.20 in/h with 0.26 in of storage: 11.1 min at most, 30 min in three,
    # 70 min to clear (surface storage method, from memory)
    clay = IntakeModel("constant intake", None, 5.08, 6.604, TRACE)
    found = cut(30.0, clay, rate)
    assert (found.cycles, found.cycle_minutes, found.soak_minutes) == (
        cycles,
        minutes,
        70,
    )


def test_four_starts_are_enough_for_the_bay_and_two_are_not() -> None:
    assert cut(43.5, max_cycles=4).findings == ()
    short = cut(43.5, max_cycles=2)
    assert short.minutes < 43
    assert short.findings[0].level == "warning"


def test_measured_wet_positions_shorten_the_limit() -> None:
    even = wet_rate_mm_per_h(RATE, np.ones(24))
    uneven = wet_rate_mm_per_h(RATE, np.linspace(0.6, 1.4, 24))
    assert longest_cycle_min(BAY, uneven) < longest_cycle_min(BAY, even)


def test_at_most_the_wet_share_passes_the_wet_rate() -> None:
    share = np.linspace(0.5, 1.5, 40)
    rate = wet_rate_mm_per_h(10.0, share, 0.25)
    assert (share * 10.0 > rate).mean() <= 0.25


def test_without_a_limit_it_is_one_run() -> None:
    assert (cut(27.4, OPEN).cycles, cut(27.4, OPEN).cycle_minutes) == (1, 27)


@pytest.mark.parametrize(
    ("exact", "nearest", "up"), [(7.4, 7, 8), (7.5, 8, 8), (0.2, 1, 1), (0.0, 0, 0)]
)
def test_minutes_are_whole(exact: float, nearest: int, up: int) -> None:
    assert whole_minutes(exact, "nearest") == nearest
    assert whole_minutes(exact, "up") == up


def test_a_soak_that_nobody_knows_is_thirty_minutes_and_said() -> None:
    # common practice, no source: starts 30 to 60 minutes apart
    seen = IntakeModel("first runoff", 16.0, None, None, TRACE)
    found = cut(43.5, seen)
    assert found.soak_minutes == 30
    assert any("common practice" in one.what for one in found.findings)


@given(minutes=st.floats(0.1, 240), rate=st.floats(7, 60))
def test_cycles_sum_to_the_run_time(minutes: float, rate: float) -> None:
    found = cut(minutes, rate=rate)
    assert found.minutes == found.cycles * found.cycle_minutes


@given(minutes=st.floats(1, 240), rate=st.floats(7, 60))
def test_no_cycle_is_beyond_the_limit(minutes: float, rate: float) -> None:
    limit = longest_cycle_min(BAY, rate)
    found = cut(minutes, rate=rate)
    assert found.cycle_minutes <= max(limit, 1.0)


@given(minutes=st.floats(1, 240), rate=st.floats(7, 60))
def test_a_soak_is_long_enough_to_clear(minutes: float, rate: float) -> None:
    found = cut(minutes, rate=rate)
    needed = clearing_min(BAY, rate, found.cycle_minutes)
    assert needed is not None
    if found.cycles > 1:
        assert found.soak_minutes >= needed - 1e-9


@pytest.mark.parametrize("minutes", [-1.0, math.inf, math.nan])
def test_minutes_that_cannot_be_are_refused(minutes: float) -> None:
    with pytest.raises(SchedulerError):
        cut(minutes)
