"""What else changes with an option."""

from typing import Any

import pytest

from scheduler.field.guess import assumed
from scheduler.money.changes import (
    Changes,
    extra_head_m,
    gross_rate_mm_per_h,
    zone_changes,
)
from scheduler.site import Package, Window
from scheduler.units import converted
from tests.scheduler.money.made import PACKAGE, bay, option, season, small_site

NEW = Package(
    id="new", nozzle_flow_l_per_min=11.7, pressure_kpa=276.0, spacing_m=6.0,
    row_spacing_m=9.0, layout="rectangular",
)  # fmt: skip


def changes(water_ratio: float = 0.8, **given: Any) -> Changes:
    zone = bay(assumed_net_rate_mm_per_h=11.0)
    catch, _ = assumed(zone, None)
    assert catch is not None
    site = small_site(zone, packages=(PACKAGE, NEW), **given)
    return zone_changes(
        option(zones=("Z4",), package="new"), site, zone, catch,
        season=season(), water_ratio=water_ratio,
    )  # fmt: skip


def test_the_gross_rate_is_96_25_gpm_over_the_square_feet_of_a_head() -> None:
    head = Package(
        id="a",
        nozzle_flow_l_per_min=converted(4.6, "gpm", to="l_per_min"),
        spacing_m=converted(30.0, "ft", to="m"),
    )
    rate = gross_rate_mm_per_h(head)
    assert rate is not None
    assert converted(rate, "mm_per_h", to="in_per_h") == pytest.approx(
        96.25 * 4.6 / 900, rel=1e-3
    )


def test_the_net_rate_moves_as_the_gross_rate() -> None:
    # 11.7 L/min on 54 m2 for 17.4 on 81
    assert changes().rate_then_mm_per_h == pytest.approx(
        11.0 * (11.7 / 54) / (17.4 / 81)
    )


def test_minutes_are_water_over_rate() -> None:
    found = changes(0.8)
    assert found.rate_then_mm_per_h is not None
    assert found.minutes_ratio == pytest.approx(0.8 * 11.0 / found.rate_then_mm_per_h)


def test_the_flow_at_once_is_the_rate_on_the_area() -> None:
    # 11.7 L/min a head of 54 m2, on 1000 m2
    assert changes().flow_then_l_per_min == pytest.approx(11.7 / 54 * 1000)


def test_a_flow_above_the_pump_does_not_fit() -> None:
    assert changes().fits_pump is True
    pump = small_site().supply
    assert pump is not None
    weak = pump.model_copy(update={"flow_l_per_min": 200.0})
    assert changes(supply=weak).fits_pump is False


def test_the_longest_night_is_held_against_the_window() -> None:
    import datetime as dt

    assert changes().fits_window is None
    short = Window(start=dt.time(4), end=dt.time(4, 10))
    assert changes(windows=(short,)).fits_window is False


def test_a_package_of_less_pressure_asks_for_less_head() -> None:
    site = small_site(bay(), packages=(PACKAGE, NEW))
    found = extra_head_m(option(package="new"), site, bay())
    assert found == pytest.approx((276 - 310) / 9.80665)


def test_without_a_package_nothing_changes() -> None:
    zone = bay(assumed_net_rate_mm_per_h=11.0)
    catch, _ = assumed(zone, None)
    assert catch is not None
    found = zone_changes(
        option(), small_site(zone), zone, catch, season=None, water_ratio=1.0
    )
    assert found.minutes_ratio == 1.0
    assert not found.changes_rate
