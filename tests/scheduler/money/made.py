"""Made-up sites for the tests of money: a yard of 1.5 acres, a small bay."""

import datetime as dt
from functools import cache
from typing import Any

import numpy as np

from scheduler.money.economics import SiteCost, site_cost
from scheduler.money.rule_cost import Prices
from scheduler.option import Option
from scheduler.record import DailySeries, History
from scheduler.season import SeasonPlan, ZoneSeason, run_season
from scheduler.site import Package, Place, Plant, Site, Soil, Supply, Tariff, Zone
from scheduler.units import converted
from tests.scheduler.need.made import series
from tests.scheduler.test_plan import can_test

TODAY = dt.date(2026, 6, 8)
PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    time_zone="America/New_York",
)  # fmt: skip
PUMP = Supply(
    source="well", flow_l_per_min=757.0, head_m=70.4088, pumping_efficiency=0.55
)
PACKAGE = Package(id="p", nozzle_flow_l_per_min=17.4, pressure_kpa=310.0, spacing_m=9.0)
PRICES = Prices(0.6868, 0.349, 0.12)


def kgal(value_m3: float) -> float:
    return converted(value_m3, "m3", to="kgal")


def per_kgal(value: float) -> float:
    """Money per cubic metre of a price per thousand gallons."""
    return converted(value, "money_per_kgal", to="money_per_m3")


def year() -> DailySeries:
    """A year with ETo 4 mm and 2 mm of rain each day (made up)."""
    return series(
        365, date=np.datetime64("2025-01-01") + np.arange(365), rain_mm=2.0,
        eto_mm_per_day=4.0,
    )  # fmt: skip


def bay(**given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": "Z4", "name": "bay", "area_m2": 1000.0, "grown_in": "soil",
        "package": "p", "watered": "when due", "rain_counted": 1.0,
        "plant": Plant(name="box", kc=1.0, kc_area="bed", kc_from="table"),
        "soil": Soil(texture="loam", root_depth_m=0.4, slope=0.01),
    }  # fmt: skip
    return Zone(**(base | given))


def small_site(*zones: Zone, **given: Any) -> Site:
    base: dict[str, Any] = {
        "name": "Tern Hollow", "units": "us", "place": PLACE, "packages": (PACKAGE,),
        "supply": PUMP,
        "tariff": Tariff(
            currency="USD", water_price_money_per_m3=0.6868,
            energy_price_money_per_kwh=0.12, interest=0.06,
        ),
    }  # fmt: skip
    return Site(zones=zones or (bay(),), **(base | given))


HISTORY = History(tests=(can_test(),), weather=(year(),))


@cache
def plan() -> SeasonPlan:
    return run_season(small_site(), HISTORY, TODAY)


def season() -> ZoneSeason:
    return plan().zones[0]


def nothing(**given: Any) -> Option:
    """Doing nothing, with a stated uniformity of 0.58."""
    base: dict[str, Any] = {
        "id": "now", "name": "as it is", "deed": "do nothing", "zones": ("Y1",),
        "du_lq": 0.58, "du_lq_low": 0.555, "du_lq_high": 0.605, "tested_days": 12,
    }  # fmt: skip
    return Option(**(base | given))


def option(**given: Any) -> Option:
    """Re-spacing of the 1.5-acre yard, with invented prices."""
    base: dict[str, Any] = {
        "id": "B", "name": "re-spacing", "deed": "re-space", "zones": ("Y1",),
        "du_lq": 0.78, "du_lq_low": 0.755, "du_lq_high": 0.805, "tested_days": 12,
        "price_money": 9600.0, "life_years": 12.0, "interest": 0.06,
        "season_need_mm": converted(26.0, "in", to="mm"),
    }  # fmt: skip
    return Option(**(base | given))


def nozzles(**given: Any) -> Option:
    """New nozzles of the 1.5-acre yard."""
    base: dict[str, Any] = {
        "id": "A", "name": "new nozzles", "deed": "tune up", "du_lq": 0.62,
        "du_lq_low": 0.58, "du_lq_high": 0.66, "price_money": 900.0, "life_years": 5.0,
    }  # fmt: skip
    return option(**(base | given))


def yard_cost(*options: Option, water_per_kgal: float | None = 2.60) -> SiteCost:
    """1.5 acres without weather: water 2.60 and pumping 0.18 per kgal."""
    yard = Zone(
        id="Y1", name="yard", area_m2=converted(1.5, "acre", to="m2"), watered="off",
        grown_in="pots", assumed_du_lq=0.58, assumed_net_rate_mm_per_h=12.0,
    )  # fmt: skip
    price = None if water_per_kgal is None else per_kgal(water_per_kgal)
    energy = PUMP.head_m or 0.0
    # the price of a kWh at which pumping a thousand gallons costs 0.18
    kwh = 9806.65 * energy / 0.55 / 3.6e6
    tariff = Tariff(
        currency="USD", water_price_money_per_m3=price,
        energy_price_money_per_kwh=per_kgal(0.18) / kwh,
    )  # fmt: skip
    site = small_site(
        yard, options=options or (nothing(), nozzles(), option()), tariff=tariff
    )
    return site_cost(site, History(), TODAY)
