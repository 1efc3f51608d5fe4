"""One zone's year under one rule."""

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.money.factors import evenness
from scheduler.money.rule_cost import Prices, RuleCost, even_need_mm, rule_cost
from scheduler.site import RULES, Pots, Rule
from tests.scheduler.money.made import PRICES, bay, season, small_site


def cost(
    rule: Rule = "low quarter", du_lq: float | None = None, prices: Prices = PRICES
) -> RuleCost:
    one = season()
    assert one.catch is not None
    even = evenness(one.catch, du_lq)
    need = even_need_mm(one, small_site())
    return rule_cost(one, small_site(), rule, even=even, need_mm=need, prices=prices)


def test_a_perfectly_even_zone_gets_nothing_above_its_need() -> None:
    for rule in RULES:
        assert cost(rule, 1.0).above_need_mm == pytest.approx(0.0, abs=1e-9)


def test_the_low_quarter_puts_on_the_need_over_du() -> None:
    # at every due night 1 / DU times the even depth, whole minutes apart
    one = season()
    assert one.catch is not None
    found = cost("low quarter")
    assert found.applied_mm == pytest.approx(
        even_need_mm(one, small_site()) / one.catch.du_lq, rel=0.02
    )


def test_the_average_rule_still_overfills_the_wet_positions() -> None:
    found = cost("average")
    assert found.applied_mm == pytest.approx(
        even_need_mm(season(), small_site()), rel=0.01
    )
    assert found.above_need_mm > 0


def test_the_zones_own_rule_is_the_season_itself() -> None:
    one = season()
    found = cost(one.zone.chosen_rule)
    assert found.applied_mm == pytest.approx(one.applied_mm)
    assert found.deep_percolation_mm == pytest.approx(one.deep_percolation_mm)
    assert found.stress_days == pytest.approx(one.quarters[0].stress_days)


def test_a_stronger_rule_leaves_no_more_stress() -> None:
    stress = [cost(rule).stress_days for rule in ("average", "low half", "low quarter")]
    assert stress == sorted(stress, reverse=True)


@settings(max_examples=20)
@given(st.floats(0.0, 10.0), st.floats(0.1, 8.0))
def test_money_is_linear_in_price(price: float, times: float) -> None:
    once = cost(prices=dataclasses.replace(PRICES, water_money_per_m3=price))
    more = cost(prices=dataclasses.replace(PRICES, water_money_per_m3=price * times))
    assert once.water_money is not None
    assert more.water_money == pytest.approx(times * once.water_money)


def test_money_is_water_and_its_pumping() -> None:
    found = cost()
    assert found.energy_kwh == pytest.approx(found.volume_m3 * 0.349)
    assert found.money == pytest.approx(found.volume_m3 * (0.6868 + 0.349 * 0.12))


def test_without_a_price_of_water_no_money_is_told() -> None:
    found = cost(prices=dataclasses.replace(PRICES, water_money_per_m3=None))
    assert found.money is None
    assert found.energy_money is not None


def test_nitrogen_is_told_only_where_it_was_entered() -> None:
    assert cost().nitrogen_kg is None
    # 20 mg/L in every cubic metre that drains is 0.02 kg
    found = cost(prices=dataclasses.replace(PRICES, nitrogen_mg_per_l=20.0))
    assert found.nitrogen_kg == pytest.approx(found.deep_percolation_mm * 0.02)


def test_leaching_that_is_asked_for_is_no_waste() -> None:
    one = season()
    plain = even_need_mm(one, small_site())
    pots = Pots(top_diameter_mm=266.0, leaching_target=0.2)
    zone = bay(grown_in="pots", soil=None, pots=pots)
    leached = dataclasses.replace(one, zone=zone)
    found = even_need_mm(leached, small_site(zone))
    assert found == pytest.approx(plain / 0.8, rel=0.02)
