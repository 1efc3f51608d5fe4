"""The box of a run: numbers that can be found by hand, and laws of their order."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import ReadingsError, TooFewCansError
from scheduler.field.five_numbers import five_numbers
from scheduler.field.uniformity import low_quarter_uniformity

DEPTHS = st.lists(st.floats(0.1, 50), min_size=4, max_size=40).map(np.array)


def test_five_cans_are_their_own_five_numbers() -> None:
    found = five_numbers(np.array([12.0, 8.0, 11.0, 9.0, 10.0]))
    assert (found.low, found.quarter, found.middle) == (8.0, 9.0, 10.0)
    assert (found.three_quarters, found.high, found.mean) == (11.0, 12.0, 10.0)


def test_quartiles_lie_between_cans_as_definition_7_has_it() -> None:
    # Hyndman and Fan, 1996, definition 7: place 1 + (n - 1) p, here 1.75 of 1 2 3 4
    assert five_numbers(np.array([1.0, 2.0, 3.0, 4.0])).quarter == pytest.approx(1.75)


def test_the_driest_quarter_over_the_mean_is_the_uniformity() -> None:
    depth = np.array([5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0])
    found = five_numbers(depth)
    expected = float(low_quarter_uniformity(depth))
    assert found.driest_quarter_mean / found.mean == pytest.approx(expected)


@given(DEPTHS)
def test_the_numbers_stand_in_order(depth: np.ndarray) -> None:
    one = five_numbers(depth)
    ordered = [one.low, one.quarter, one.middle, one.three_quarters, one.high]
    assert ordered == sorted(ordered)


@given(DEPTHS)
def test_the_driest_quarter_lies_below_the_first_quartile(depth: np.ndarray) -> None:
    one = five_numbers(depth)
    assert one.low - 1e-9 <= one.driest_quarter_mean <= one.quarter + 1e-9


def test_three_cans_have_no_box() -> None:
    with pytest.raises(TooFewCansError, match="3"):
        five_numbers(np.array([1.0, 2.0, 3.0]))


def test_dry_cans_have_no_box() -> None:
    with pytest.raises(ReadingsError, match="no water"):
        five_numbers(np.zeros(6))
