"""The price of a litre by the minute."""

import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.site import EnergyPeriod, Supply, Tariff
from scheduler.watering.energy_hours import pumping_energy_kwh_per_m3
from scheduler.watering.night_plan.night_hours import night_hours
from scheduler.watering.night_plan.tariff_hours import NightPrice, night_price
from tests.scheduler.watering.night_plan.made import DATES, site

DEAR = EnergyPeriod(
    start=dt.time(18), end=dt.time(0), days=("mon",), price_money_per_kwh=0.5
)
PUMP = Supply(source="well", head_m=100.0, pumping_efficiency=0.5)
PRICES: dict[str, Any] = {
    "currency": "USD", "water_price_money_per_m3": 0.2,
    "energy_price_money_per_kwh": 0.1, "period": (DEAR,),
}  # fmt: skip


def _price(supply: Supply = PUMP, **given: Any) -> NightPrice:
    place = site(tariff=Tariff(**(PRICES | given)), supply=supply)
    return night_price(place, night_hours(place, DATES))


def test_water_and_the_energy_of_the_hour_are_on_one_scale() -> None:
    # Monday 22:00 to 24:00 is dear, all other open minutes are not
    kwh = pumping_energy_kwh_per_m3(100.0, efficiency=0.5)
    dear, cheap = 0.2 + 0.5 * kwh, 0.2 + 0.1 * kwh
    over = _price().over_mean
    assert over is not None
    assert over[0, 119] / over[0, 120] == pytest.approx(dear / cheap)


def test_the_night_after_the_days_of_a_period_is_cheap() -> None:
    over = _price().over_mean
    assert over is not None
    assert np.ptp(over[1:]) == 0


def test_the_mean_over_the_open_minutes_is_one() -> None:
    price = _price()
    assert price.over_mean is not None
    assert price.over_mean.mean() == pytest.approx(1.0)


def test_water_that_costs_nothing_leaves_the_energy() -> None:
    over = _price(water_price_money_per_m3=0.0).over_mean
    assert over is not None
    assert over[0, 0] / over[1, 0] == pytest.approx(5.0)


@pytest.mark.parametrize(
    ("given", "lacks"),
    [
        ({"water_price_money_per_m3": None}, "the price of water"),
        ({"supply": Supply(source="well")}, "head and pumping_efficiency"),
        ({"energy_price_money_per_kwh": None}, "energy in the hours outside"),
    ],
)
def test_a_price_that_lacks_leaves_water_alone_and_is_said(
    given: dict[str, Any], lacks: str
) -> None:
    price = _price(**given)
    assert price.over_mean is None
    assert lacks in price.findings[0].fix


def test_the_charge_on_power_is_in_no_minute() -> None:
    with_charge = _price(demand_price_money_per_kw=20.0).over_mean
    assert with_charge is not None
    assert (with_charge == _price().over_mean).all()


def test_periods_that_touch_no_open_minute_change_nothing() -> None:
    noon = EnergyPeriod(start=dt.time(12), end=dt.time(13), price_money_per_kwh=0.9)
    price = _price(period=(noon,))
    assert (price.over_mean, price.findings) == (None, ())


def test_one_price_at_all_hours_is_water_alone() -> None:
    assert _price(period=()).source.startswith("water alone")
