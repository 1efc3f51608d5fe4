"""Savings held against a cost, and the words for it."""

import dataclasses

import numpy as np
import numpy_financial as npf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.money.chance import drawn
from scheduler.money.gain import KnownDu
from scheduler.money.judged import (
    CostTerms,
    RuleReturn,
    ZoneTerms,
    pumping_saved_money,
    rule_return,
)
from tests.scheduler.money.test_response import by_need

NOW = KnownDu(0.58, 0.56, 0.60, 0.9, 12, "stated")
THEN = KnownDu(0.78, 0.76, 0.80, 0.9, 12, "stated")
COST = CostTerms(((1000.0, 10.0),), 0.05, 20.0, 0.0, 10.0)


def found(
    cost: CostTerms | None = COST,
    price: float | None = 1.0,
    *,
    pump: tuple[float | None, float | None] = (None, None),
    doubts: tuple[str, ...] = (),
) -> RuleReturn:
    terms = (ZoneTerms(by_need(), NOW, THEN, *pump),)
    what_may_be = drawn([(NOW, THEN)], within=(0.0, 0.0, 0.0), draws=2000)
    return rule_return(
        "low quarter", terms, cost, water_money_per_m3=price, drawn=what_may_be,
        doubts=doubts,
    )  # fmt: skip


# 660.4 mm on 1000 m2, 1 / 0.58 - 1 / 0.78
SAVED_M3 = 660.4 * (1 / 0.58 - 1 / 0.78)


def test_water_saved_is_need_times_the_difference_of_factors() -> None:
    assert found().saved_m3 == pytest.approx(SAVED_M3)


def test_net_is_what_is_saved_less_capital_and_repairs() -> None:
    a_year = -float(npf.pmt(0.05, 10, 1000.0)) + 20.0
    assert found().net_money == pytest.approx(SAVED_M3 - a_year)


def test_the_worth_is_that_of_the_flows_year_by_year() -> None:
    flows = [-1000.0, *[SAVED_M3 - 20.0] * 10]
    assert found().net_present_value == pytest.approx(float(npf.npv(0.05, flows)))


def test_the_rate_is_that_of_the_flows_year_by_year() -> None:
    flows = [-1000.0, *[SAVED_M3 - 20.0] * 10]
    assert found().internal_rate == pytest.approx(float(npf.irr(flows)), abs=1e-6)


@settings(max_examples=20, deadline=None)
@given(st.floats(0.0, 2000.0), st.floats(0.0, 300.0))
def test_at_its_break_even_price_it_just_pays(outlay: float, repairs: float) -> None:
    cost = dataclasses.replace(COST, parts=((outlay, 10.0),), repairs_money=repairs)
    tie = found(cost).break_even_price_per_m3
    assert tie is not None
    assert found(cost, tie).net_money == pytest.approx(0.0, abs=1e-6)


def test_the_price_of_water_alone_breaks_even_beside_pumping() -> None:
    tie = found(pump=(0.05, 0.04)).break_even_water_price_per_m3
    assert tie is not None
    assert found(price=tie, pump=(0.05, 0.04)).net_money == pytest.approx(0.0, abs=1e-9)


def test_less_pressure_saves_on_every_cubic_metre() -> None:
    terms = (ZoneTerms(by_need(), NOW, THEN, 0.05, 0.04),)
    saved = pumping_saved_money(terms, np.array([100.0]), np.array([80.0]))
    assert float(np.asarray(saved)) == pytest.approx(100 * 0.05 - 80 * 0.04)


def test_break_even_losses_are_what_is_short() -> None:
    short = found(price=0.1)
    assert short.net_money is not None
    assert short.break_even_losses_money == pytest.approx(-short.net_money)
    saved = dataclasses.replace(COST, other_money=short.break_even_losses_money or 0.0)
    assert found(saved, 0.1).net_money == pytest.approx(0.0, abs=1e-9)


def test_what_surely_returns_more_pays() -> None:
    assert found(price=5.0).verdict == "pays"


def test_what_surely_returns_less_does_not_pay() -> None:
    assert found(price=0.01).verdict == "does not pay"


def test_what_is_too_near_to_call_is_not_proven() -> None:
    tie = found().break_even_price_per_m3
    assert tie is not None
    near = found(price=tie)
    assert near.verdict == "not proven"
    assert "too near to call" in near.why


def test_a_doubt_goes_before_all_money() -> None:
    sure = found(price=5.0, doubts=("DU now not tested",))
    assert (sure.verdict, sure.why) == ("not proven", "DU now not tested")


def test_without_a_price_nothing_is_proven() -> None:
    assert found(price=None).why == "a price, a life or the interest is not entered"


def test_the_average_rule_saves_no_water_and_has_no_break_even() -> None:
    terms = (ZoneTerms(by_need(), NOW, THEN, None, None),)
    draws = drawn([(NOW, THEN)], within=(0.0, 0.0, 0.0), draws=100)
    none = rule_return("average", terms, COST, water_money_per_m3=1.0, drawn=draws)
    assert none.saved_m3 == 0.0
    assert none.break_even_price_per_m3 is None
    assert none.verdict == "does not pay"


def test_the_number_says_where_it_came_from() -> None:
    names = {one.name for one in found().trace.chain()}
    assert {"yearly_cost_money", "saved_m3", "water_price_money_per_m3"} <= names
