"""What wind does to a package, and when the tests tell."""

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from scheduler.field.package_wind import (
    PackageWind,
    SitePackageWind,
    rate_slope,
    site_package_wind,
)
from scheduler.field.trial import PackageRuns
from scheduler.record import CanTest, History
from scheduler.site import Package, Place, Site, Zone
from tests.scheduler.field.made import can_test, run
from tests.scheduler.field.wind.made import NEW_YORK, wind_log

TODAY = dt.date(2026, 6, 8)
LOG = wind_log([1.0, 1.0])


def site() -> Site:
    place = Place(
        latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone=NEW_YORK
    )
    zone = Zone(id="Z4", name="yard", area_m2=900.0, grown_in="pots", watered="off",
                package="a")  # fmt: skip
    return Site(
        name="s", units="us", place=place, zones=(zone,), packages=(Package(id="a"),)
    )


def cans(du: float, mean: float = 50.0) -> Any:
    """Sixteen cans whose driest quarter is `du` of their mean."""
    return np.array([[du] * 4 + [(4 - du) / 3] * 12]) * mean


def day(number: int, *winds: float, slope: float = -0.05, loss: float = 0.0) -> CanTest:
    """Runs of one morning on a line of DU against wind, 0.9 in calm."""
    runs = tuple(
        replace(
            run(cans(0.9 + slope * wind, 50 * (1 - loss * wind)), name=f"run{i}"),
            wind_m_per_s=wind,
        )
        for i, wind in enumerate(winds, 1)
    )
    test = can_test(*runs, date=dt.date(2026, 5, number))
    return replace(test, name=f"2026-05-{number}")


def found(*tests: CanTest, logs: Any = (LOG,)) -> SitePackageWind:
    return site_package_wind(site(), History(tests, wind=logs), TODAY)


THREE = (day(10, 1.0, 2.0), day(11, 2.0, 3.0), day(12, 1.5, 3.5))


def test_the_slope_is_that_of_the_runs() -> None:
    assert found(*THREE).lines["a"].du_per_m_per_s == pytest.approx(-0.05)


def test_it_says_what_it_rests_on() -> None:
    line = found(*THREE).lines["a"]
    assert (line.n_runs, line.n_days) == (6, 3)
    assert (line.tested_low_m_per_s, line.tested_high_m_per_s) == (1.0, 3.5)


@pytest.mark.parametrize(
    ("tests", "why"),
    [
        (THREE[:2], "tested on fewer than 3 days"),
        ((day(10, 1.0), day(11, 1.5), day(12, 1.9)), "all runs in nearly one wind"),
        (tuple(day(d, 1.0, 3.0, slope=0.01) for d in (10, 11, 12)), "DU did not fall"),
    ],
)
def test_tests_that_tell_nothing_of_wind_are_said(
    tests: tuple[CanTest, ...], why: str
) -> None:
    assert found(*tests) == SitePackageWind({}, (("a", why),))


def test_without_a_wind_log_nothing_is_worked_up() -> None:
    assert found(*THREE, logs=()) == SitePackageWind({})


def test_tests_after_today_do_not_count() -> None:
    late = site_package_wind(site(), History(THREE, wind=(LOG,)), dt.date(2026, 5, 11))
    assert not late.lines


def test_water_that_every_day_loses_to_wind_is_seen() -> None:
    line = found(*(day(d, 1.0, 2.0, 3.0, loss=0.04) for d in (10, 11, 12))).lines["a"]
    assert line.rate_per_m_per_s == pytest.approx(-0.04)


def test_rates_that_scatter_tell_no_drift() -> None:
    wind, days = np.array([1.0, 3.0] * 3), np.repeat(np.arange(3), 2)
    rate = np.array([10.0, 9.0, 10.0, 12.0, 11.0, 9.5])
    assert rate_slope(PackageRuns("a", wind, 0.9 - 0.1 * wind, days), rate) == 0.0


def test_a_rate_that_grows_with_wind_is_not_believed() -> None:
    wind, days = np.array([1.0, 3.0] * 3), np.repeat(np.arange(3), 2)
    runs = PackageRuns("a", wind, 0.9 - 0.1 * wind, days)
    assert rate_slope(runs, 10.0 + wind) == 0.0


def test_outside_the_tested_winds_nothing_more_is_lost() -> None:
    line = PackageWind("a", -0.05, -0.02, 1.0, 3.0, 6, 3, 0.9)
    assert line.du_change(9.0, 1.0) == pytest.approx(-0.10)
    assert line.rate_over(9.0, 0.0) == pytest.approx(0.94 / 0.98)
