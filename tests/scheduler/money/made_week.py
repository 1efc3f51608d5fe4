"""A made-up site of three zones that waters this week, with prices by the hour."""

import datetime as dt
from functools import cache
from typing import Any

import numpy as np

from scheduler.money.economics import SiteCost, site_cost
from scheduler.money.with_week import WithWeek, with_week
from scheduler.option import Option
from scheduler.plan import WeekPlan, build_week
from scheduler.record import DailySeries, History
from scheduler.site import (
    EnergyPeriod,
    Package,
    Site,
    Supply,
    Tariff,
    Window,
    Zone,
)
from tests.scheduler.money.made import PACKAGE, TODAY, bay, small_site
from tests.scheduler.need.made import series
from tests.scheduler.test_plan import can_test

# half the rate on the same ground, and 5 m less of head
GENTLE = Package(
    id="gentle", nozzle_flow_l_per_min=8.7, pressure_kpa=310.0 - 49.03325, spacing_m=9.0
)
# three times the flow at once
STRONG = Package(id="strong", nozzle_flow_l_per_min=52.2, spacing_m=9.0)
WINDOW = Window(start=dt.time(22), end=dt.time(2))
PUMP = Supply(source="well", flow_l_per_min=450.0, head_m=70.0, pumping_efficiency=0.5)
TARIFF = Tariff(
    currency="USD", water_price_money_per_m3=0.6, energy_price_money_per_kwh=0.10,
    demand_price_money_per_kw=8.0, interest=0.06,
    period=(
        EnergyPeriod(start=dt.time(22), end=dt.time(23), price_money_per_kwh=0.30),
    ),
)  # fmt: skip


def every_day() -> DailySeries:
    """Two years with ETo 5 mm and no rain (made up)."""
    n = 365 + 365
    first = np.datetime64("2025-01-01")
    return series(n, date=first + np.arange(n), rain_mm=0.0, eto_mm_per_day=5.0)


HISTORY = History(tests=(can_test(),), weather=(every_day(),))


def small_bay(name: str, **given: Any) -> Zone:
    """A bay whose rate and uniformity are assumed."""
    return bay(
        id=name, watered="every allowed day", assumed_du_lq=0.7,
        assumed_net_rate_mm_per_h=12.0, **given,
    )  # fmt: skip


def better(**given: Any) -> Option:
    base: dict[str, Any] = {
        "id": "B", "name": "better", "deed": "re-space", "zones": ("Z4",),
        "du_lq": 0.85, "du_lq_low": 0.8, "du_lq_high": 0.9, "tested_days": 4,
        "price_money": 500.0, "life_years": 10.0,
    }  # fmt: skip
    return Option(**(base | given))


def week_site(*options: Option, **given: Any) -> Site:
    base: dict[str, Any] = {
        "windows": (WINDOW,), "supply": PUMP, "tariff": TARIFF,
        "packages": (PACKAGE, GENTLE, STRONG),
    }  # fmt: skip
    zones = (bay(watered="every allowed day"), small_bay("Z5"), small_bay("Z6"))
    return small_site(*zones, options=options or (better(),), **(base | given))


OPTIONS = (
    better(),
    better(id="G", package="gentle", price_money=600.0),
    better(id="S", package="strong", price_money=700.0),
    better(id="N", du_lq=None, du_lq_low=None, du_lq_high=None, price_money=800.0),
    better(id="D", done_on=dt.date(2026, 6, 1), price_money=900.0),
)


@cache
def plan() -> WeekPlan:
    return build_week(week_site(*OPTIONS), HISTORY, TODAY)


@cache
def cost() -> SiteCost:
    return site_cost(week_site(*OPTIONS), HISTORY, TODAY)


@cache
def around() -> WithWeek:
    return with_week(plan(), HISTORY, cost())
