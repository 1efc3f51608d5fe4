"""Power of the largest quarter hour and energy by its price, counted by hand."""

import datetime as dt

import pytest

from scheduler.money.power import power_week
from scheduler.site import EnergyPeriod, Site, Supply, Tariff
from scheduler.watering.night_plan import PlannedRun
from tests.scheduler.money.made import PLACE

MONDAY = dt.date(2026, 6, 8)
# 36 kJ lift a cubic metre by 3.67098 m: exactly 0.01 kWh
PER_M3_M = 36_000.0 / 9806.65
PUMP = Supply(source="well", head_m=100 * PER_M3_M, pumping_efficiency=1.0)


def at(hour: int, minute: int = 0, day: int = 8) -> dt.datetime:
    return dt.datetime.combine(dt.date(2026, 6, day), dt.time(hour, minute))


def run(zone: str, start: dt.datetime, minutes: int, flow: float | None) -> PlannedRun:
    return PlannedRun(zone, MONDAY, start, start + dt.timedelta(minutes=minutes), flow)


def site(**given: object) -> Site:
    prices = {"currency": "USD", "energy_price_money_per_kwh": 0.1,
              "demand_price_money_per_kw": 5.0}  # fmt: skip
    tariff = Tariff.model_validate(prices | given)
    return Site(name="a", units="us", place=PLACE, supply=PUMP, tariff=tariff)


def test_an_hour_of_a_thousand_litres_a_minute_is_sixty_kilowatt_hours() -> None:
    # 60 m3 at 1 kWh
    found = power_week(site(), (run("A", at(22), 60, 1000.0),))
    assert found.energy_kwh == pytest.approx(60.0)
    assert found.power_kw == pytest.approx(60.0)
    assert found.energy_money == pytest.approx(6.0)
    assert found.demand_money_a_month == pytest.approx(300.0)


def test_the_largest_quarter_hour_is_a_mean_by_the_clock() -> None:
    # 5 of the 15 minutes from 22:00 and 10 of those from 22:15
    found = power_week(site(), (run("A", at(22, 10), 15, 1000.0),))
    assert found.power_kw == pytest.approx(60.0 * 10 / 15)
    assert found.at == at(22, 15)


def test_zones_that_run_together_add_up() -> None:
    both = (run("A", at(22), 30, 600.0), run("B", at(22, 15), 30, 400.0))
    found = power_week(site(), both)
    assert found.power_kw == pytest.approx(60.0)
    assert found.at == at(22, 15)
    assert found.flow_l_per_min == pytest.approx(1000.0)


def test_one_pump_lifts_all_to_the_head_of_the_zone_that_asks_for_most() -> None:
    both = (run("A", at(22), 15, 500.0), run("B", at(22), 15, 500.0))
    found = power_week(site(), both, {"A": 10 * PER_M3_M, "B": -10 * PER_M3_M})
    assert found.power_kw == pytest.approx(60.0 * 1.1)


def test_energy_is_told_by_its_price_over_the_end_of_a_period() -> None:
    dear = EnergyPeriod(start=dt.time(20), end=dt.time(23), price_money_per_kwh=0.3)
    found = power_week(site(period=(dear,)), (run("A", at(22, 30), 60, 1000.0),))
    told = [
        (one.price_money_per_kwh, round(one.energy_kwh, 6)) for one in found.by_price
    ]
    assert told == [(0.1, 30.0), (0.3, 30.0)]
    assert found.energy_money == pytest.approx(30 * 0.1 + 30 * 0.3)


def test_a_period_of_weekdays_holds_on_its_own_day_after_midnight() -> None:
    tuesday = EnergyPeriod(
        start=dt.time(0), end=dt.time(6), days=("tue",), price_money_per_kwh=0.5
    )
    found = power_week(site(period=(tuesday,)), (run("A", at(1, day=9), 60, 1000.0),))
    assert [one.price_money_per_kwh for one in found.by_price] == [0.5]


def test_money_is_linear_in_the_prices() -> None:
    runs = (run("A", at(22), 60, 1000.0),)
    one = power_week(site(), runs)
    two = power_week(
        site(energy_price_money_per_kwh=0.2, demand_price_money_per_kw=10.0), runs
    )
    assert one.energy_money is not None
    assert two.energy_money == pytest.approx(2 * one.energy_money)
    assert one.demand_money_a_month is not None
    assert two.demand_money_a_month == pytest.approx(2 * one.demand_money_a_month)


def test_without_a_head_nothing_is_worked_out_and_it_says_why() -> None:
    bare = site().model_copy(update={"supply": None})
    found = power_week(bare, (run("A", at(22), 60, 1000.0),))
    assert (found.power_kw, found.energy_kwh) == (None, None)
    assert "head or pumping_efficiency" in found.why
    assert found.flow_l_per_min == 1000.0


def test_without_a_price_of_a_kilowatt_the_power_still_stands() -> None:
    found = power_week(
        site(demand_price_money_per_kw=None), (run("A", at(22), 60, 1000.0),)
    )
    assert found.power_kw == pytest.approx(60.0)
    assert found.demand_money_a_month is None
    assert "demand_price_money_per_kw" in found.why


def test_hours_without_a_price_leave_the_money_empty() -> None:
    found = power_week(
        site(energy_price_money_per_kwh=None), (run("A", at(22), 60, 1000.0),)
    )
    assert found.energy_kwh == pytest.approx(60.0)
    assert found.energy_money is None
    assert "no price in some planned hours" in found.why


def test_a_flow_that_nobody_knows_is_named() -> None:
    found = power_week(site(), (run("A", at(22), 60, None),))
    assert found.why.startswith("the flow of A is not known")


def test_every_number_says_where_it_comes_from() -> None:
    found = power_week(site(), (run("A", at(22), 60, 1000.0),))
    told = {one.name: one.value for end in found.traces for one in end.chain()}
    assert told["power_kw"] == found.power_kw
    assert told["energy_kwh"] == found.energy_kwh
    assert told["demand_money"] == found.demand_money_a_month
    assert told["energy_money"] == found.energy_money
    assert told["energy_kwh_per_m3"] == pytest.approx(1.0)
