"""Round spacings around a throw."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import QuantityError
from scheduler.field.fold import LEAST_SPACING, MOST_SPACING
from scheduler.field.spacing_axis import MOST, nearest_place, spacing_axis_m
from scheduler.units import System

FOOT_M = 0.3048


def test_a_throw_of_36_ft_is_tried_foot_by_foot() -> None:
    feet = spacing_axis_m(36 * FOOT_M, system="us") / FOOT_M
    assert feet == pytest.approx(np.arange(14, 62))


def test_metric_spacings_are_round_in_metres() -> None:
    axis = spacing_axis_m(11.0, system="metric")
    assert (4 * axis) == pytest.approx(np.round(4 * axis))


@given(st.floats(0.5, 120), st.sampled_from(["us", "metric"]))
def test_every_throw_has_few_equal_steps_that_an_overlap_takes(
    throw_m: float, system: System
) -> None:
    axis = spacing_axis_m(throw_m, system=system)
    assert 2 <= axis.size <= MOST
    assert np.ptp(np.diff(axis)) < 1e-9
    assert axis[0] >= LEAST_SPACING * throw_m
    assert axis[-1] <= MOST_SPACING * throw_m


def test_the_nearest_place_is_found_beyond_the_ends_too() -> None:
    axis = np.array([8.0, 9.0, 10.0])
    assert [nearest_place(axis, one) for one in (2.0, 9.4, 40.0)] == [0, 1, 2]


def test_no_throw_has_no_spacings() -> None:
    with pytest.raises(QuantityError, match="above 0"):
        spacing_axis_m(0.0, system="us")
