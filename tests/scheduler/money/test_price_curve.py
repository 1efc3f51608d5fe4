"""Chance along the price of water: never falls with it, agrees with the verdict."""

import numpy as np
import pytest

from scheduler.money.chance import drawn
from scheduler.money.price_curve import PriceCurve, price_curve
from tests.scheduler.money.made import nothing, option, per_kgal, yard_cost


def curve_of(option_id: str = "B", water_per_kgal: float | None = 2.60) -> PriceCurve:
    cost = yard_cost(water_per_kgal=water_per_kgal)
    found = next(one for one in cost.options if one.option.id == option_id)
    assert found.curve is not None
    return found.curve


def test_dearer_water_never_makes_it_less_sure() -> None:
    assert (np.diff(curve_of().chance) >= 0).all()


def test_water_for_nothing_does_not_pay_for_9600() -> None:
    assert curve_of().chance[0] == 0.0


def test_far_above_the_break_even_it_is_sure() -> None:
    assert curve_of().chance[-1] > 0.95


def test_at_the_price_of_today_it_is_the_chance_of_the_verdict() -> None:
    cost = yard_cost()
    found = next(one for one in cost.options if one.option.id == "B")
    assert found.curve is not None
    assert found.own is not None
    at = np.interp(per_kgal(2.60), found.curve.water_money_per_m3, found.curve.chance)
    assert found.own.chance_it_pays == pytest.approx(float(at), abs=0.04)


def test_without_a_price_there_is_a_curve_about_the_break_even() -> None:
    assert curve_of(water_per_kgal=None).water_money_per_m3[-1] > 0


def test_under_three_days_of_tests_there_is_no_curve() -> None:
    cost = yard_cost(nothing(tested_days=2), option())
    assert cost.options[0].curve is None


def test_without_a_price_of_the_hardware_there_is_no_curve() -> None:
    cost = yard_cost(nothing(), option(price_money=None))
    assert cost.options[0].curve is None


def test_without_a_zone_there_is_no_curve() -> None:
    none = drawn([], within=(0.0, 0.0, 0.0), draws=1)
    found = price_curve("own rule", (), None, water_money_per_m3=1.0, drawn=none)
    assert found is None
