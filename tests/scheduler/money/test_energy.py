"""Energy of a lift, its price by the hour, and the charge on power."""

import datetime as dt

import pytest

from scheduler.money.energy import (
    energy_price,
    head_of_pressure_m,
    pump_power_kw,
)
from scheduler.site import EnergyPeriod, Tariff, Window
from scheduler.units import converted
from scheduler.watering.energy_hours import pumping_energy_kwh_per_m3
from tests.scheduler.money.made import bay, small_site


def test_one_psi_holds_2_31_feet_of_water() -> None:
    head = head_of_pressure_m(converted(1.0, "psi", to="kpa"))
    assert converted(head, "m", to="ft") == pytest.approx(2.31, abs=0.005)


def tariff(**given: float) -> Tariff:
    dear = EnergyPeriod(
        start=dt.time(16), end=dt.time(23), days=("mon",), price_money_per_kwh=0.30
    )
    return Tariff(currency="USD", period=(dear,), **given)


def test_the_price_is_the_mean_over_the_hours_of_watering() -> None:
    # Monday 22:00 to 02:00: one hour of four at 0.30
    window = Window(start=dt.time(22), end=dt.time(2), days=("mon",))
    site = small_site(tariff=tariff(energy_price_money_per_kwh=0.10), windows=(window,))
    assert energy_price(site, bay()) == pytest.approx(0.15)


def test_an_hour_without_a_price_leaves_the_price_unknown() -> None:
    window = Window(start=dt.time(22), end=dt.time(2), days=("mon",))
    assert energy_price(small_site(tariff=tariff(), windows=(window,)), bay()) is None


def test_without_a_tariff_there_is_no_price() -> None:
    assert energy_price(small_site(tariff=None), bay()) is None


def test_power_is_flow_times_energy() -> None:
    # 1000 L/min against 10 m without loss: 16.67 L/s x 9.80665 x 10 m = 1.634 kW
    per_m3 = pumping_energy_kwh_per_m3(10.0, efficiency=1.0)
    power = pump_power_kw(1000.0, energy_kwh_per_m3=per_m3)
    assert power == pytest.approx(1.634, abs=0.001)
