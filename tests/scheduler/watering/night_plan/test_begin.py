"""What the nights begin with."""

import numpy as np

from scheduler.field.package_wind import SitePackageWind
from scheduler.record import History, WindLog
from scheduler.watering.night_plan.begin import Beginning, begin_nights
from tests.scheduler.watering.night_plan.made import Watered, line, site, zone


def _log() -> WindLog:
    hours = np.arange(240)
    start = np.datetime64("2026-06-01T00:00", "s") + hours * np.timedelta64(3600, "s")
    none = np.full(hours.size, np.nan)
    speed = 1.0 + (hours % 24) / 24
    return WindLog(start, 3600.0, speed, none, none, 2.0, "mast", "wind/mast.csv")


def _begun(winds: SitePackageWind, logs: tuple[WindLog, ...] = ()) -> Beginning:
    one = Watered(zone("1", rule="low quarter"))
    return begin_nights(site(one.zone), History(wind=logs), (one,), winds)


UNKNOWN = SitePackageWind({}, (("p1", "all runs in nearly one wind"), ("p9", "none")))


def test_a_package_in_use_that_tests_do_not_tell_of_is_said_once() -> None:
    (said,) = _begun(UNKNOWN, (_log(),)).findings
    assert "p1 (all runs in nearly one wind)" in said.what
    assert "p9" not in said.what


def test_without_wind_there_is_nothing_to_say() -> None:
    assert _begun(UNKNOWN).findings == ()


def test_a_package_with_a_line_is_not_guessed_at() -> None:
    assert _begun(SitePackageWind({"p1": line()}), (_log(),)).findings == ()


def test_the_cost_of_the_grid_follows_the_wind() -> None:
    grid = _begun(SitePackageWind({"p1": line()}), (_log(),)).week.grids[0]
    assert np.ptp(grid.cost) > 0.01
