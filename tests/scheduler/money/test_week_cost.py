"""A planned week in money: sums, linear in price, zones that nobody can tell."""

from dataclasses import replace

import pytest

from scheduler.money.economics import SiteCost, site_cost
from scheduler.money.week_cost import WeekCost, week_cost
from scheduler.plan import build_week
from scheduler.record import History
from scheduler.site import Site
from tests.scheduler.money.made import TODAY, bay
from tests.scheduler.money.made_week import HISTORY, TARIFF, cost, plan, week_site


def at_price(money_per_m3: float) -> WeekCost:
    return week_cost(plan(), replace(cost(), water_money_per_m3=money_per_m3))


def of_site(site: Site) -> WeekCost:
    """Without the season, which the week does not need."""
    made: SiteCost = site_cost(
        site.model_copy(update={"options": ()}), History(), TODAY
    )
    return week_cost(build_week(site, HISTORY, TODAY), made)


def test_the_zones_add_up_to_the_site() -> None:
    found = week_cost(plan(), cost())
    for name in ("volume_m3", "above_need_m3", "passed_m3", "above_need_money"):
        parts = sum(getattr(one, name) for one in found.zones)
        assert getattr(found, name) == pytest.approx(parts)


def test_money_is_linear_in_the_price_of_water_without_pumping() -> None:
    pumping = at_price(0.0).money
    one, three = at_price(1.0).money, at_price(3.0).money
    assert pumping is not None
    assert one is not None
    assert three is not None
    assert three - pumping == pytest.approx(3 * (one - pumping))


def test_a_volume_is_minutes_times_rate_times_area() -> None:
    zone, told = plan().zones[1], week_cost(plan(), cost()).zones[1]
    minutes = zone.minutes_week
    assert minutes is not None
    # 12 mm/h on 1000 m2 are 0.2 m3 a minute
    assert told.volume_m3 == pytest.approx(minutes * 0.2)


def test_quarters_hold_the_water_of_the_zone() -> None:
    told = week_cost(plan(), cost()).of("z4")
    assert told is not None
    assert told.above_need_m3 is not None
    depth = sum(one.above_need_mm for one in told.quarters) / 4
    assert depth * 1000.0 / 1000.0 == pytest.approx(told.above_need_m3)


def test_energy_is_that_of_the_pump() -> None:
    told = week_cost(plan(), cost()).zones[0]
    assert told.volume_m3 is not None
    # 9.80665 x 70 m / 0.5 / 3.6e6 x 1000
    assert told.energy_kwh == pytest.approx(told.volume_m3 * 0.381370, rel=1e-5)


def test_one_zone_can_be_asked_for_alone() -> None:
    assert [one.zone_id for one in week_cost(plan(), cost(), ["z5"]).zones] == ["Z5"]


def test_fixed_minutes_are_water_of_which_nothing_is_said() -> None:
    fixed = bay(watered="fixed minutes", fixed_minutes=20.0, fixed_reason="plugs")
    found = of_site(week_site().model_copy(update={"zones": (fixed,)}))
    told = found.zones[0]
    assert told.volume_m3 is not None
    assert (told.above_need_m3, told.why[:21]) == (None, "its minutes are fixed")
    assert found.unknown == ("Z4",)


def test_a_blocked_zone_says_so_and_counts_for_nothing() -> None:
    blocked = bay(id="Z7", package=None)  # no test, no rate
    told = of_site(week_site().model_copy(update={"zones": (blocked,)})).zones[0]
    assert (told.volume_m3, told.why[:13]) == (None, "it is blocked")


def test_without_a_price_there_is_water_and_no_money() -> None:
    site = week_site()
    tariff = TARIFF.model_copy(update={"water_price_money_per_m3": None})
    found = of_site(site.model_copy(update={"tariff": tariff}))
    assert found.volume_m3 > 0
    assert found.money is None


def test_the_number_says_where_it_came_from() -> None:
    trace = week_cost(plan(), cost()).zones[0].trace
    names = {one.name for one in trace.chain()}
    assert {"above_need_m3", "need_mm", "minutes_per_day", "area_m2"} <= names
