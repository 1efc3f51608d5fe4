"""How many more days would settle a difference."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.power import TTestPower

from scheduler.field.trial.settling import MOST_DAYS, days_needed


@pytest.mark.parametrize("effect", [0.5, 0.8, 1.2])
def test_days_are_those_of_the_power_of_a_t_test(effect: float) -> None:
    # statsmodels TTestPower: pairs needed for 80 % at 5 %, from the noncentral t; ours
    # adds two quantiles, which is at most a day or two off
    wanted = TTestPower().solve_power(effect_size=effect, alpha=0.05, power=0.8)
    n_days, spread = 4, 0.05
    more = days_needed(
        effect * spread, spread / math.sqrt(n_days), n_days - 1.0, n_days=n_days
    )
    assert more is not None
    assert n_days + more == pytest.approx(wanted, abs=2)


def test_that_many_days_do_prove_it_four_times_in_five() -> None:
    # 2000 trials of days that differ by 0.05 about a true difference of 0.04
    more = days_needed(0.04, 0.05 / math.sqrt(4), 3.0, n_days=4)
    assert more is not None
    n = 4 + more
    days = np.random.default_rng(1).normal(0.04, 0.05, (2000, n))
    t = days.mean(axis=1) / (days.std(axis=1, ddof=1) / math.sqrt(n))
    assert np.mean(t > 2.12) == pytest.approx(0.8, abs=0.05)  # 16 degrees


@given(st.floats(0.011, 0.2), st.floats(0.001, 0.1), st.integers(3, 20))
def test_it_is_at_least_one_day_and_never_beyond_reach(
    difference: float, error: float, n_days: int
) -> None:
    more = days_needed(difference, error, n_days - 1.0, n_days=n_days)
    assert more is None or 1 <= more <= MOST_DAYS


def test_a_smaller_difference_needs_more_days() -> None:
    few, many = (days_needed(d, 0.02, 4.0, n_days=5) for d in (0.06, 0.03))
    assert few is not None
    assert many is not None
    assert few < many


@pytest.mark.parametrize(("difference", "error"), [(0.005, 0.01), (0.02, math.inf),
                                                   (0.02, 10.0)])  # fmt: skip
def test_what_no_number_of_days_would_settle_has_none(
    difference: float, error: float
) -> None:
    assert days_needed(difference, error, 4.0, n_days=5) is None
