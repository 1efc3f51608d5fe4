"""One cool and one hot week in ten, from few years and many."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.need.spread import week_spread


def test_three_years_by_hand() -> None:
    # mean 34, s 4, t(0.9, 2) 1.8856, sqrt(4/3): half 8.709
    found = week_spread(np.array([30.0, 34.0, 38.0]))
    assert (found.low_mm, found.high_mm) == pytest.approx((25.291, 42.709), abs=1e-3)


def test_equal_years_leave_no_range() -> None:
    found = week_spread(np.full(5, 30.0))
    assert (found.low_mm, found.high_mm) == (30.0, 30.0)


def test_no_week_uses_less_than_nothing() -> None:
    assert week_spread(np.array([0.0, 1.0, 9.0])).low_mm == 0.0


def test_two_years_tell_no_spread() -> None:
    with pytest.raises(SchedulerError, match="2 years tell no spread"):
        week_spread(np.array([30.0, 34.0]))


@given(st.lists(st.floats(0, 80), min_size=3, max_size=30))
def test_the_range_holds_the_mean(sums: list[float]) -> None:
    found = week_spread(np.array(sums))
    mean = float(np.mean(sums))
    assert found.low_mm <= mean + 1e-9
    assert found.high_mm >= mean - 1e-9


@pytest.mark.parametrize("n_years", [3, 4, 6, 12])
def test_one_new_year_in_ten_falls_on_either_side(n_years: int) -> None:
    # bell-shaped sums of weeks, a CV of 0.15 as of early summer; 5,000 sites
    rng = np.random.default_rng(n_years)
    years = rng.normal(35.0, 5.0, (5_000, n_years))
    new = rng.normal(35.0, 5.0, 5_000)
    found = [week_spread(one) for one in years]
    below = np.mean([one < made.low_mm for one, made in zip(new, found, strict=True)])
    above = np.mean([one > made.high_mm for one, made in zip(new, found, strict=True)])
    assert below == pytest.approx(0.1, abs=0.016)
    assert above == pytest.approx(0.1, abs=0.016)


@pytest.mark.parametrize("n_years", [3, 5, 20])
def test_sums_skewed_to_the_hot_side_are_held_within_three_points(
    n_years: int,
) -> None:
    rng = np.random.default_rng(n_years)
    years = 25.0 + rng.gamma(4.0, 2.5, (5_000, n_years))  # skewness 1
    new = 25.0 + rng.gamma(4.0, 2.5, 5_000)
    found = [week_spread(one) for one in years]
    outside = [
        not made.low_mm <= one <= made.high_mm
        for one, made in zip(new, found, strict=True)
    ]
    assert np.mean(outside) == pytest.approx(0.2, abs=0.03)
