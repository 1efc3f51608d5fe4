"""What drives the answer, ranked."""

import pytest

from scheduler.money.gain import KnownDu
from scheduler.money.judged import CostTerms, ZoneTerms
from scheduler.money.sensitivity import Sensitivity, sensitivities
from tests.scheduler.money.test_judged import COST, NOW, THEN, found
from tests.scheduler.money.test_response import by_need


def ranked(
    then: KnownDu = THEN,
    within: tuple[float, float, float] = (0.0, 0.0, 0.0),
    pump: float | None = None,
) -> tuple[Sensitivity, ...]:
    terms = (ZoneTerms(by_need(), NOW, then, pump, pump),)
    return sensitivities(
        "low quarter", terms, COST, water_money_per_m3=1.0, within=within
    )


def of(name: str, found: tuple[Sensitivity, ...]) -> Sensitivity:
    return next(one for one in found if one.driver == name)


def test_the_strongest_driver_stands_first() -> None:
    swings = [one.swing_money for one in ranked()]
    assert swings == sorted(swings, reverse=True)


def test_a_price_that_nobody_doubts_is_moved_by_a_tenth() -> None:
    water = of("price of water", ranked())
    assert (water.low, water.high) == ("-10%", "+10%")
    assert water.swing_money == pytest.approx(0.2 * found().saved_m3)


def test_a_price_is_moved_as_far_as_it_may_be_off() -> None:
    water = of("price of water", ranked(within=(0.25, 0.0, 0.0)))
    assert water.swing_money == pytest.approx(0.5 * found().saved_m3)


def test_a_dearer_outlay_leaves_less() -> None:
    outlay = of("outlay", ranked())
    assert outlay.net_high_money < outlay.net_low_money
    assert outlay.swing_money == pytest.approx(0.2 * COST.capital_money)


def test_interest_is_moved_by_two_points() -> None:
    interest = of("interest", ranked())
    ends = [CostTerms(COST.parts, r, 20.0, 0.0, 10.0) for r in (0.03, 0.07)]
    expected = ends[1].yearly_cost_money - ends[0].yearly_cost_money
    assert interest.swing_money == pytest.approx(expected)


def test_a_uniformity_is_moved_over_its_own_range() -> None:
    then = of("DU then", ranked())
    assert (then.low, then.high) == ("0.76", "0.80")
    assert then.net_high_money > then.net_low_money


def test_a_uniformity_without_a_range_is_not_moved() -> None:
    told = ranked(KnownDu(0.78, None, None, 0.9, 0, "stated"))
    assert "DU then" not in [one.driver for one in told]


def test_a_difference_is_moved_from_now() -> None:
    apart = KnownDu(0.78, 0.15, 0.25, 0.95, 5, "both", is_difference=True)
    then = of("DU then", ranked(apart))
    assert (then.low, then.high) == ("0.73", "0.83")


def test_the_rule_is_a_driver() -> None:
    assert of("rule", ranked()).low == "average"


def test_energy_is_a_driver_only_where_it_has_a_price() -> None:
    assert "price of energy" not in [one.driver for one in ranked()]
    energy = of("price of energy", ranked(pump=0.05))
    assert energy.swing_money == pytest.approx(0.2 * 0.05 * found().saved_m3)
