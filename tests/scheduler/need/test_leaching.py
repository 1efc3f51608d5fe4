"""Leaching fractions of pots and the minutes that follow from a check."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.need.leaching import (
    fraction_range,
    leaching_fraction,
    measured_capture_factor,
    minutes_for_target,
    new_minutes,
    pooled_leaching_fraction,
)

PART = st.floats(0.0, 0.9)


def test_the_driest_pot_holds_the_cut() -> None:
    # hand-computed: 24 x 0.62 / 0.85 = 17.5; 24 x 0.88 = 21.1, rounded up
    made = new_minutes(24.0, mean_leaching=0.38, driest_leaching=0.12, target=0.15)
    assert made.by_mean == pytest.approx(17.506, abs=0.001)
    assert made.floor == pytest.approx(21.12)
    assert (made.minutes, made.is_held_by_driest) == (22, True)


def test_pots_are_averaged_by_volume_not_pot_by_pot() -> None:
    # a wet pot counts more: (600 + 50) / 1500, not the mean of 0.6 and 0.1
    came, drained = np.array([1000.0, 500.0]), np.array([600.0, 50.0])
    assert pooled_leaching_fraction(came, drained) == pytest.approx(650 / 1500)


def test_a_pot_that_drained_nothing_gives_no_sure_floor() -> None:
    made = new_minutes(20.0, mean_leaching=0.3, driest_leaching=0.0, target=0.15)
    assert not made.is_floor_sure
    assert made.minutes == 20


def test_whole_minutes_are_not_rounded_up_by_binary_dust() -> None:
    made = new_minutes(10.0, mean_leaching=0.3, driest_leaching=0.3, target=0.0)
    assert made.minutes == 7


@given(leaching=PART, target=PART, minutes=st.floats(0.0, 300.0))
def test_the_new_minutes_leach_the_target_of_a_pot_that_uses_as_much(
    leaching: float, target: float, minutes: float
) -> None:
    new = minutes_for_target(minutes, leaching=leaching, target=target)
    use = minutes * (1 - leaching)
    assert new - use == pytest.approx(target * new, abs=1e-9)


def test_two_like_pots_have_the_usual_spread_with_four_degrees_more() -> None:
    # stays 0.8; error sqrt(4 x (0.2 x 0.8)^2 / 5 / 2) = 0.101; t(5, 90 %) = 2.015
    made = fraction_range(np.array([500.0, 500.0]), np.array([100.0, 100.0]))
    assert made.high - made.fraction == pytest.approx(2.015 * 0.1012, abs=2e-4)
    assert made.degrees == 5.0


def test_a_range_of_leaching_ends_at_none_and_all() -> None:
    made = fraction_range(np.array([500.0, 400.0]), np.array([0.0, 20.0]))
    assert made.low == 0.0
    made = fraction_range(np.array([500.0, 400.0]), np.array([480.0, 400.0]))
    assert made.high <= 1.0


def test_all_of_it_drained_leaves_no_error_of_what_stays() -> None:
    made = fraction_range(np.array([500.0]), np.array([500.0]))
    assert made.log_sd == float("inf")


@pytest.mark.parametrize("n_pots", [3, 6, 12])
def test_the_range_of_a_check_holds_the_zone_in_nine_of_ten(n_pots: int) -> None:
    # a zone of many pots: catch and plant each vary by a fifth or so, 30 % leaches
    rng, held = np.random.default_rng(5), []
    came = np.exp(rng.normal(0.0, 0.2, (4000, n_pots)))
    used = 0.7 * np.exp(rng.normal(0.0, 0.12, (4000, n_pots)))
    drained = np.maximum(0.0, came - used)
    true = float(drained.sum() / came.sum())
    for got, out in zip(came, drained, strict=True):
        made = fraction_range(got, out)
        held.append(made.low <= true <= made.high)
    assert 0.88 <= np.mean(held) <= 0.97


@given(mean=PART, below=st.floats(0.0, 1.0), target=PART)
def test_whole_minutes_never_take_from_the_driest_pot(
    mean: float, below: float, target: float
) -> None:
    driest = mean * below
    made = new_minutes(30.0, mean_leaching=mean, driest_leaching=driest, target=target)
    assert made.minutes >= 30.0 * (1 - driest) - 1e-6


@pytest.mark.parametrize(
    ("leaching", "target"), [(1.0, 0.1), (-0.1, 0.1), (0.1, 1.0), (float("nan"), 0.1)]
)
def test_fractions_outside_their_range_are_refused(
    leaching: float, target: float
) -> None:
    with pytest.raises(SchedulerError, match="fractions of 0 or more"):
        minutes_for_target(20.0, leaching=leaching, target=target)


def test_a_driest_pot_above_the_mean_is_refused() -> None:
    with pytest.raises(SchedulerError, match="smallest fraction"):
        new_minutes(20.0, mean_leaching=0.1, driest_leaching=0.2, target=0.15)


def test_a_pot_that_drained_more_than_it_got_is_refused() -> None:
    with pytest.raises(SchedulerError, match="out no more than in"):
        pooled_leaching_fraction(np.array([100.0]), np.array([120.0]))


def test_volumes_that_are_none_are_refused() -> None:
    with pytest.raises(SchedulerError, match="not both 0"):
        leaching_fraction(0.0, 0.0)
    with pytest.raises(SchedulerError, match="without plant above 0"):
        measured_capture_factor(100.0, 0.0)
