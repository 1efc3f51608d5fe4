"""A ratio with Fieller's range: by hand, by its own definition, and without bounds."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.field.trial.tie import ratio_range


def test_a_ratio_by_hand() -> None:
    # g = t^2 var(b)/b^2 = 4 x 0.25 / 25 = 0.04; (2 -+ 2/5 sqrt(1 + 4 x 0.25 - 0.04))
    # / (1 - g) = (2 -+ 0.56) / 0.96
    ratio, low, high = ratio_range(10.0, 5.0, np.diag([1.0, 0.25]), 2.0)
    assert ratio == 2.0
    assert (low, high) == pytest.approx((1.44 / 0.96, 2.56 / 0.96))


def test_a_ratio_with_a_covariance_by_hand() -> None:
    # (r - 2)^2 - 1 x (1 - 2 r 0.5 + r^2) / 25 x 25/25 solved by hand:
    # top 10, bottom 5, t = 1, variances 1 and 1, covariance 0.5:
    # (10 - 5 r)^2 = 1 - r + r^2, so 24 r^2 - 99 r + 99 = 0
    _, low, high = ratio_range(10.0, 5.0, np.array([[1.0, 0.5], [0.5, 1.0]]), 1.0)
    root = math.sqrt(99**2 - 4 * 24 * 99)
    assert (low, high) == pytest.approx(((99 - root) / 48, (99 + root) / 48))


@given(
    st.floats(-5, 5), st.floats(0.5, 5), st.floats(0.01, 0.2), st.floats(0.01, 0.2),
    st.floats(-0.9, 0.9),
)  # fmt: skip
def test_an_end_is_a_ratio_that_can_just_not_be_refused(
    top: float, bottom: float, top_sd: float, bottom_sd: float, r: float
) -> None:
    # Fieller, 1954: top - end x bottom is exactly t standard errors from 0
    both = r * top_sd * bottom_sd
    covariance = np.array([[top_sd**2, both], [both, bottom_sd**2]])
    _, low, high = ratio_range(top, bottom, covariance, 2.0)
    for end in (low, high):
        if math.isfinite(end):
            c = np.array([1.0, -end])
            gap = top - end * bottom
            assert gap**2 == pytest.approx(4 * c @ covariance @ c, rel=1e-6, abs=1e-9)


def test_the_range_holds_the_ratio() -> None:
    ratio, low, high = ratio_range(3.0, 2.0, np.diag([0.1, 0.1]), 2.0)
    assert ratio is not None
    assert low < ratio < high


def test_without_a_known_bottom_there_is_no_bound() -> None:
    assert ratio_range(1.0, 0.1, np.diag([0.1, 0.1]), 2.0)[1:] == (-math.inf, math.inf)


def test_a_bottom_of_zero_has_no_ratio() -> None:
    assert ratio_range(1.0, 0.0, np.diag([0.1, 0.1]), 2.0)[0] is None
