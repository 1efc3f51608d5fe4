"""Energy of a lift, its price by the hour, and the charge on power."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.money.energy import (
    energy_price,
    head_of_pressure_m,
    pump_power_kw,
    pumping_energy_kwh_per_m3,
    supply_energy_kwh_per_m3,
)
from scheduler.site import EnergyPeriod, Supply, Tariff, Window
from scheduler.units import converted
from tests.scheduler.money.made import bay, small_site


def kwh_per_kgal(head_ft: float, efficiency: float) -> float:
    head_m = converted(head_ft, "ft", to="m")
    per_m3 = pumping_energy_kwh_per_m3(head_m, efficiency=efficiency)
    return per_m3 * converted(1.0, "kgal", to="m3")


def test_a_thousand_gallons_lifted_a_foot_take_0_00314_kwh() -> None:
    # published constant of pump tests: 3.14 kWh per million gallons and foot
    assert kwh_per_kgal(1.0, 1.0) == pytest.approx(0.00314, rel=2e-3)


def test_an_acre_foot_lifted_a_foot_takes_1_024_kwh() -> None:
    # UC ANR and others print 1.024 kWh per acre-foot and foot at 100 % (from memory)
    per_m3 = pumping_energy_kwh_per_m3(0.3048, efficiency=1.0)
    assert per_m3 * converted(1.0, "acre_ft", to="m3") == pytest.approx(1.024, rel=1e-3)


def test_231_feet_at_55_percent_take_1_32_kwh_a_thousand_gallons() -> None:
    assert round(kwh_per_kgal(231.0, 0.55), 2) == 1.32


def test_one_psi_holds_2_31_feet_of_water() -> None:
    head = head_of_pressure_m(converted(1.0, "psi", to="kpa"))
    assert converted(head, "m", to="ft") == pytest.approx(2.31, abs=0.005)


@given(st.floats(1, 300), st.floats(0.2, 1.0))
def test_energy_is_in_proportion_to_the_head(head: float, efficiency: float) -> None:
    once = pumping_energy_kwh_per_m3(head, efficiency=efficiency)
    assert pumping_energy_kwh_per_m3(2 * head, efficiency=efficiency) == pytest.approx(
        2 * once
    )


def test_less_pressure_lowers_the_lift() -> None:
    pump = Supply(source="well", head_m=70.0, pumping_efficiency=0.5)
    lower, _ = supply_energy_kwh_per_m3(pump, -7.0)
    assert lower == pytest.approx(0.9 * (supply_energy_kwh_per_m3(pump)[0] or 0.0))


def test_without_an_efficiency_no_energy_is_told() -> None:
    assert supply_energy_kwh_per_m3(Supply(source="well", head_m=70.0))[0] is None


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
