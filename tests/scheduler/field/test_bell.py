"""Bell-shaped catches: normal theory against published and computed values."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import ReadingsError
from scheduler.field.bell import (
    cv_from_low_quarter,
    low_half_from_low_quarter,
    normal_shares,
)
from scheduler.field.uniformity import low_quarter_uniformity


@given(st.floats(0.01, 1.0))
def test_no_share_is_negative(du_lq: float) -> None:
    assert normal_shares(du_lq).min() >= 0


@given(st.floats(0.01, 1.0))
def test_any_stated_uniformity_keeps_its_mean_and_value(du_lq: float) -> None:
    share = normal_shares(du_lq)
    assert share.mean() == pytest.approx(1.0)
    assert float(low_quarter_uniformity(share)) == pytest.approx(du_lq)


@pytest.mark.parametrize("du_lq", [0.0, -0.2, 1.12, float("nan")])
def test_a_uniformity_that_cannot_be_is_refused(du_lq: float) -> None:
    with pytest.raises(ReadingsError, match="cannot be"):
        normal_shares(du_lq)


def test_normal_theory_ties_spread_and_low_quarter() -> None:
    # DU = 1 - 1.2711 CV (normal theory)
    assert cv_from_low_quarter(1 - 1.2711 * 0.2) == pytest.approx(0.2, abs=1e-4)


def test_the_trade_form_gives_the_published_example() -> None:
    # von Bernuth and Mecham: DUlq 0.772 gives 0.86 by formula (measured 0.81)
    assert low_half_from_low_quarter(0.772) == pytest.approx(0.86, abs=0.005)


def test_shares_come_in_ascending_order() -> None:
    assert (np.diff(normal_shares(0.7)) >= 0).all()
