"""The whole site: the 1.5-acre yard, sums, reference, what is missing."""

import dataclasses

import pytest

from scheduler.errors import QuantityError
from scheduler.money.economics import SiteCost, site_cost, zone_prices
from scheduler.money.judged import RuleReturn
from scheduler.money.retrofit import OptionResult
from scheduler.record import History
from scheduler.site import Site, Tariff
from scheduler.units import converted
from tests.scheduler.money.made import (
    HISTORY,
    PUMP,
    TODAY,
    bay,
    kgal,
    nothing,
    nozzles,
    option,
    per_kgal,
    small_site,
    yard_cost,
)


@pytest.fixture(scope="module")
def yard() -> SiteCost:
    return yard_cost()


def of(cost: SiteCost, name: str) -> OptionResult:
    return next(one for one in cost.options if one.option.id == name)


def under(one: OptionResult, rule: str) -> RuleReturn:
    return next(found for found in one.returns if found.rule == rule)


@pytest.mark.parametrize(
    ("rule", "saved", "price"), [("low half", 196, 5.85), ("low quarter", 468, 2.45)]
)
def test_a_yard_of_one_and_a_half_acres_saves_and_breaks_even(
    yard: SiteCost, rule: str, saved: int, price: float
) -> None:
    found = under(of(yard, "B"), rule)
    assert round(kgal(found.saved_m3)) == saved
    assert found.break_even_price_per_m3 is not None
    tie = converted(found.break_even_price_per_m3, "money_per_m3", to="money_per_kgal")
    assert round(tie, 2) == price


def test_a_yard_of_one_and_a_half_acres_costs_1145_a_year(yard: SiteCost) -> None:
    cost = of(yard, "B").cost
    assert cost is not None
    assert round(cost.yearly_cost_money) == 1145


def test_at_2_78_it_pays_under_the_low_quarter_and_not_under_the_low_half(
    yard: SiteCost,
) -> None:
    quarter, half = (under(of(yard, "B"), r) for r in ("low quarter", "low half"))
    assert quarter.saved_money is not None
    assert half.saved_money is not None
    assert (round(quarter.saved_money), round(half.saved_money)) == (1302, 544)
    assert (quarter.verdict, half.verdict) == ("pays", "does not pay")


def test_at_0_40_neither_rule_pays() -> None:
    # 0.40 for water and pumping together
    cheap = yard_cost(water_per_kgal=0.22)
    for rule in ("low half", "low quarter"):
        assert under(of(cheap, "B"), rule).verdict == "does not pay"


def test_new_nozzles_are_inside_test_noise(yard: SiteCost) -> None:
    for found in of(yard, "A").returns:
        assert found.verdict == "not proven"
        assert "inside test noise" in found.why


def test_tested_on_two_days_nothing_is_proven_and_no_chance_is_told() -> None:
    found = under(of(yard_cost(nothing(), option(tested_days=2)), "B"), "low quarter")
    assert (found.verdict, found.chance_it_pays) == ("not proven", None)
    assert "DU then tested on 2 days" in found.why


def test_options_stand_cheapest_first_and_those_without_a_price_last() -> None:
    blind = option(id="C", price_money=None)
    cost = yard_cost(nothing(), blind, option(), nozzles())
    assert [one.option.id for one in cost.options] == ["A", "B", "C"]


def test_a_missing_price_stays_empty_and_is_named() -> None:
    found = of(yard_cost(nothing(), option(price_money=None)), "B")
    assert found.outlay_money is None
    assert found.missing == ("price: the whole",)
    assert under(found, "low quarter").verdict == "not proven"
    assert round(kgal(under(found, "low quarter").saved_m3)) == 468


def test_without_a_price_of_water_the_break_even_still_stands() -> None:
    cost = yard_cost(water_per_kgal=None)
    found = under(of(cost, "B"), "low quarter")
    assert found.saved_money is None
    assert found.net_money is None
    assert found.break_even_price_per_m3 == pytest.approx(per_kgal(2.4458), rel=1e-4)
    assert any("no price of water" in one.what for one in cost.findings)


def test_what_is_done_nothing_for_is_no_option(yard: SiteCost) -> None:
    assert "now" not in [one.option.id for one in yard.options]


def two_zones(**given: object) -> Site:
    return small_site(bay(), bay(id="Z5", area_m2=500.0, rule="low quarter"), **given)


def test_volumes_of_zones_sum_to_the_sites() -> None:
    cost = site_cost(two_zones(), HISTORY, TODAY)
    assert len(cost.zones) == 2
    total = cost.total
    assert total.volume_m3 == pytest.approx(sum(z.own.volume_m3 for z in cost.zones))
    assert total.above_need_m3 == pytest.approx(
        sum(z.own.above_need_m3 for z in cost.zones)
    )
    assert total.energy_kwh == pytest.approx(
        sum(z.own.energy_kwh or 0.0 for z in cost.zones)
    )


def test_the_site_is_linear_in_the_price_of_water() -> None:
    once, twice, none = (
        site_cost(two_zones(), HISTORY, TODAY, water_money_per_m3=price).total.money
        for price in (0.5, 1.0, 0.0)
    )
    assert None not in (once, twice, none)
    assert (twice or 0) - (none or 0) == pytest.approx(2 * ((once or 0) - (none or 0)))


def test_zones_are_held_against_the_best_tested_one() -> None:
    found = site_cost(two_zones(), HISTORY, TODAY).reference
    assert found is not None
    assert found[1] == "the best tested zone, Z4"


@pytest.fixture(scope="module")
def tried() -> SiteCost:
    return site_cost(two_zones(), HISTORY, TODAY, tried_du={"Z4": 0.95})


def test_a_tried_uniformity_changes_the_water_of_its_zone_alone(
    tried: SiteCost,
) -> None:
    own = site_cost(two_zones(), HISTORY, TODAY)
    water = [one.own.above_need_m3 for one in tried.zones]
    was = [one.own.above_need_m3 for one in own.zones]
    assert water[0] < was[0]
    assert water[1] == was[1]


def test_a_tried_uniformity_has_no_range(tried: SiteCost) -> None:
    assert tried.zones[0].above_need_low_m3 is None


def test_the_best_tested_zone_stays_what_was_tested(tried: SiteCost) -> None:
    assert tried.reference == site_cost(two_zones(), HISTORY, TODAY).reference


def test_zones_are_held_against_a_target() -> None:
    cost = site_cost(two_zones(), HISTORY, TODAY, reference=0.9)
    assert cost.zones[0].reference is not None
    assert cost.zones[0].reference.saved_m3 > 0


def test_a_reference_that_was_never_tested_is_refused() -> None:
    with pytest.raises(QuantityError, match="neither a DU nor a tested package"):
        site_cost(two_zones(), HISTORY, TODAY, reference="wonder-40")


def test_the_demand_charge_stands_apart() -> None:
    tariff = Tariff(currency="USD", demand_price_money_per_kw=12.0)
    cost = site_cost(small_site(tariff=tariff), HISTORY, TODAY)
    assert cost.demand is not None
    # 757 L/min against 70.41 m at 55 %: 15.8 kW
    assert cost.demand.power_kw == pytest.approx(15.8, abs=0.1)
    assert cost.demand.money_a_month == pytest.approx(12.0 * cost.demand.power_kw)
    assert cost.total.money is None


def test_a_pump_without_head_leaves_pumping_out_and_says_so() -> None:
    site = small_site(supply=PUMP.model_copy(update={"head_m": None}))
    cost = site_cost(site, HISTORY, TODAY)
    assert cost.total.energy_kwh is None
    assert any("pumping is not in any sum" in one.what for one in cost.findings)


def test_only_the_zone_that_is_asked_for() -> None:
    cost = site_cost(two_zones(), HISTORY, TODAY, zone_ids=("z5",))
    assert [one.zone_id for one in cost.zones] == ["Z5"]


def test_without_weather_there_is_no_zone_and_a_reason() -> None:
    cost = site_cost(two_zones(), dataclasses.replace(HISTORY, weather=()), TODAY)
    assert cost.zones == ()
    assert cost.findings


def test_prices_that_nobody_entered_are_none() -> None:
    found = zone_prices(small_site(tariff=None, supply=None), bay(), None)
    assert found.money_per_m3 is None
    assert found.energy_kwh_per_m3 is None


def test_an_empty_history_is_no_error() -> None:
    assert site_cost(small_site(), History(), TODAY).zones == ()


def test_prices_are_told_where_the_need_is_entered_and_no_season_run(
    yard: SiteCost,
) -> None:
    assert yard.zones == ()
    assert yard.prices is not None
    assert yard.prices.pumping_money_per_m3 is not None
