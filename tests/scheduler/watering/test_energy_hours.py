"""Energy of a cubic metre, and what a kilowatt hour costs in each minute of a week."""

import datetime as dt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.site import EnergyPeriod, Supply, Tariff
from scheduler.units import converted
from scheduler.watering.energy_hours import (
    Hours,
    pumping_energy_kwh_per_m3,
    supply_energy_kwh_per_m3,
    week_of_hours,
    week_of_prices,
)


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


def test_a_later_period_overrides_an_earlier_one() -> None:
    def period(start: int, end: int, price: float) -> EnergyPeriod:
        return EnergyPeriod(
            start=dt.time(start), end=dt.time(end), price_money_per_kwh=price
        )

    both = (period(16, 22, 0.3), period(20, 21, 0.5))
    tariff = Tariff(currency="USD", energy_price_money_per_kwh=0.1, period=both)
    assert week_of_prices(tariff)[[16 * 60, 20 * 60, 22 * 60]].tolist() == [
        0.3, 0.5, 0.1,
    ]  # fmt: skip


def test_hours_without_a_price_have_none() -> None:
    dear = EnergyPeriod(
        start=dt.time(16), end=dt.time(17), days=("mon",), price_money_per_kwh=0.3
    )
    prices = week_of_prices(Tariff(currency="USD", period=(dear,)))
    assert np.isfinite(prices).sum() == 60


def test_a_minute_in_two_spans_counts_once() -> None:
    span: Hours = (dt.time(1), dt.time(2), ("mon",))
    assert week_of_hours([span, span]).size == 60
