"""Annuity, worth, rate of return and payback, against a library and a textbook."""

import numpy_financial as npf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.money.capital import (
    capital_recovery,
    internal_rate,
    net_present_value,
    payback_years,
    rate_where,
)

rates = st.floats(0.001, 0.30)
lives = st.integers(1, 40)


def test_without_interest_an_outlay_is_spread_evenly() -> None:
    assert capital_recovery(0.0, life_years=8) == 0.125


def test_a_yard_of_one_and_a_half_acres_costs_1145_a_year() -> None:
    assert 9600 * capital_recovery(0.06, life_years=12) == pytest.approx(1145.06, 1e-5)


def test_the_factor_is_that_of_published_interest_tables() -> None:
    # A/P at 6 % and 12 years, as in compound interest tables (from memory)
    assert round(capital_recovery(0.06, life_years=12), 4) == 0.1193


def test_a_textbook_project_has_its_worth() -> None:
    # numpy-financial's documented npv example (flows -40,000 5,000 8,000 12,000
    # 30,000 at 8 %): 3065.22
    flows = [-40_000.0, 5_000.0, 8_000.0, 12_000.0, 30_000.0]
    assert net_present_value(0.08, flows) == pytest.approx(3065.22, abs=0.01)


def test_a_textbook_project_has_its_rate() -> None:
    # numpy-financial's documented irr example: 0.28095
    flows = [-100.0, 39.0, 59.0, 55.0, 20.0]
    rate = rate_where(lambda r: net_present_value(r, flows))
    assert rate == pytest.approx(0.28095, abs=1e-5)


@given(rates, lives)
def test_the_annuity_is_that_of_the_library(rate: float, life: int) -> None:
    assert capital_recovery(rate, life_years=life) == pytest.approx(
        -npf.pmt(rate, life, 1.0)
    )


@given(rates, st.lists(st.floats(-1e4, 1e4), min_size=1, max_size=20))
def test_the_worth_is_that_of_the_library(rate: float, flows: list[float]) -> None:
    expected = float(npf.npv(rate, flows))
    assert net_present_value(rate, flows) == pytest.approx(expected, abs=1e-6)


@given(st.floats(500.0, 3000.0), st.integers(2, 25))
def test_the_rate_of_return_is_that_of_the_library(saved: float, life: int) -> None:
    found = internal_rate([(9600.0, float(life))], saved_money=saved)
    assert found == pytest.approx(float(npf.irr([-9600.0, *[saved] * life])), abs=1e-6)


@given(rates, st.floats(100, 1e5), lives)
def test_at_its_own_rate_of_return_a_project_is_worth_nothing(
    rate: float, outlay: float, life: int
) -> None:
    saved = outlay * capital_recovery(rate, life_years=life)
    assert internal_rate([(outlay, life)], saved_money=saved) == pytest.approx(
        rate, abs=1e-8
    )


@given(rates, lives)
def test_a_longer_life_never_costs_more_a_year(rate: float, life: int) -> None:
    assert capital_recovery(rate, life_years=life + 1) <= capital_recovery(
        rate, life_years=life
    )


def test_parts_of_other_lives_have_one_rate() -> None:
    parts = [(1000.0, 5.0), (2000.0, 10.0)]
    saved = sum(m * capital_recovery(0.07, life_years=y) for m, y in parts)
    assert internal_rate(parts, saved_money=saved) == pytest.approx(0.07)


def test_what_saves_nothing_is_never_paid_back() -> None:
    assert payback_years(900.0, saved_money=0.0) is None
    assert internal_rate([(900.0, 5.0)], saved_money=0.0) is None


def test_a_life_of_nothing_is_refused() -> None:
    with pytest.raises(SchedulerError, match="a life of 0 years"):
        capital_recovery(0.06, life_years=0)
