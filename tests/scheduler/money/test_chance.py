"""Chances drawn, against closed forms where there are any."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from scheduler.money.chance import DRAWS, chance_above_zero, drawn, gain_range
from scheduler.money.gain import KnownDu
from scheduler.money.judged import CostTerms, ZoneTerms, rule_return
from tests.scheduler.money.test_response import by_need

SURE = KnownDu(0.58, 0.58, 0.58, 0.9, 12, "stated")
THEN = KnownDu(0.78, 0.72, 0.83, 0.9, 5, "stated")
COST = CostTerms(((900.0, 12.0),), 0.06, 0.0, 0.0, 12.0)
# three standard errors of a share of this many draws
NEAR = 3 * math.sqrt(0.25 / DRAWS)


def chance(
    then: KnownDu, within: tuple[float, float, float], price: float
) -> float | None:
    terms = (ZoneTerms(by_need(), SURE, then, None, None),)
    return rule_return(
        "low quarter",
        terms,
        COST,
        water_money_per_m3=price,
        drawn=drawn([(SURE, then)], within=within),
    ).chance_it_pays


def saved_m3(du_lq: float) -> float:
    response = by_need()
    return response.volume_m3("low quarter", 0.58) - response.volume_m3(
        "low quarter", du_lq
    )


@settings(max_examples=10, deadline=None)
@given(st.floats(0.40, 0.60))
def test_with_one_doubt_about_du_the_chance_is_that_of_student_t(price: float) -> None:
    # it pays above the DU at which it just pays: need (1 / 0.58 - 1 / DU) price = cost
    need = saved_m3(0.78) / (1 / 0.58 - 1 / 0.78)
    tie = 1 / (1 / 0.58 - COST.yearly_cost_money / (need * price))
    u, centre = math.log(1 - tie), math.log(1 - 0.78)
    width = math.log(1 - 0.72) - centre if u > centre else centre - math.log(1 - 0.83)
    t = (u - centre) / width * stats.t.ppf(0.95, 4)
    assert chance(THEN, (0.0, 0.0, 0.0), price) == pytest.approx(
        stats.t.cdf(t, 4), abs=NEAR + 0.01
    )


@settings(max_examples=10, deadline=None)
@given(st.floats(0.85, 1.15))
def test_with_one_doubt_about_the_price_the_chance_is_its_part(off: float) -> None:
    # evenly likely within 20 %: the part of it above the break-even
    then = KnownDu(0.78, 0.78, 0.78, 0.9, 5, "stated")
    tie = COST.yearly_cost_money / saved_m3(0.78)
    expected = (1.2 * off - 1.0) / (0.4 * off)
    assert chance(then, (0.2, 0.0, 0.0), tie * off) == pytest.approx(
        min(max(expected, 0.0), 1.0), abs=NEAR + 0.001
    )


@settings(max_examples=10, deadline=None)
@given(st.floats(0.85, 1.15))
def test_with_one_doubt_about_the_outlay_the_chance_is_its_part(off: float) -> None:
    then = KnownDu(0.78, 0.78, 0.78, 0.9, 5, "stated")
    tie = COST.yearly_cost_money / saved_m3(0.78)
    expected = (off - 0.8) / 0.4
    assert chance(then, (0.0, 0.0, 0.2), tie * off) == pytest.approx(
        min(max(expected, 0.0), 1.0), abs=NEAR + 0.001
    )


def test_a_gain_of_two_sure_numbers_is_sure() -> None:
    then = KnownDu(0.78, 0.78, 0.78, 0.9, 5, "stated")
    found = drawn([(SURE, then)], within=(0.0, 0.0, 0.0))
    assert gain_range(found, np.ones(1)) == pytest.approx((0.20, 0.20))


def test_the_range_of_a_gain_is_nearly_that_of_squares_added() -> None:
    # both ranges nearly bell-shaped: half-widths add as squares
    before = KnownDu(0.58, 0.56, 0.60, 0.9, 400, "stated")
    after = KnownDu(0.62, 0.60, 0.64, 0.9, 400, "stated")
    low, high = gain_range(drawn([(before, after)], within=(0, 0, 0)), np.ones(1))
    assert (high - low) / 2 == pytest.approx(0.02 * math.sqrt(2), rel=0.03)


def test_the_same_seed_gives_the_same_answer() -> None:
    one, other = (drawn([(SURE, THEN)], within=(0.1, 0, 0), seed=3) for _ in "ab")
    assert np.array_equal(one.then, other.then)
    assert np.array_equal(one.water, other.water)


def test_the_least_tested_number_counts_the_days() -> None:
    assert drawn([(SURE, THEN)], within=(0, 0, 0), draws=2).n_days == 5


def test_zones_of_one_package_share_its_uniformity() -> None:
    found = drawn([(SURE, THEN), (SURE, THEN)], within=(0, 0, 0), draws=50)
    assert np.array_equal(found.then[0], found.then[1])


@pytest.mark.parametrize("days", [0, 1, 2])
def test_under_three_days_of_tests_there_is_no_chance(days: int) -> None:
    assert chance_above_zero(np.ones(9), n_days=days) is None
