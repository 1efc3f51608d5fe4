"""What the wind of its minute costs a litre."""

import numpy as np
import pytest

from scheduler.record import WindLog
from scheduler.watering.night_plan.calm import (
    CALM_WORTH,
    DuLine,
    NightWind,
    minute_cost,
    night_wind,
)
from scheduler.watering.night_plan.night_hours import night_hours
from tests.scheduler.watering.night_plan.made import DATES, site, zone

HOURS = night_hours(site(), DATES)
RISING = NightWind(np.linspace(1.0, 3.0, 390), "made up")
LINES = {"p1": DuLine(0.9, -0.1)}


def _log(hours: np.ndarray) -> WindLog:
    start = np.datetime64("2026-06-01T00:00", "s") + hours * np.timedelta64(3600, "s")
    none = np.full(hours.size, np.nan)
    speed = (hours % 24).astype(np.float64)
    return WindLog(start, 3600.0, speed, none, none, 2.0, "mast", "wind/mast.csv")


def test_each_minute_has_the_usual_wind_of_its_hour() -> None:
    wind = night_wind([_log(np.arange(240))], HOURS, "UTC").by_minute_m_per_s
    assert wind is not None
    assert wind[[0, 119, 120, 389]].tolist() == [22.0, 23.0, 0.0, 4.0]


def test_hours_that_no_log_knows_have_no_wind() -> None:
    wind = night_wind([_log(np.arange(6, 12))], HOURS, "UTC")
    assert (wind.by_minute_m_per_s, wind.source) == (
        None,
        "no wind log knows these hours",
    )


def test_without_wind_all_minutes_cost_the_same() -> None:
    cost = minute_cost(zone("1"), NightWind(None, ""), HOURS, LINES)
    assert (cost == 1.0).all()


def test_without_a_line_the_calmer_minute_is_a_little_cheaper() -> None:
    cost = minute_cost(zone("2"), RISING, HOURS, LINES)
    assert cost[-1] - cost[0] == pytest.approx(2 * CALM_WORTH)


def test_low_quarter_pays_for_the_lost_uniformity() -> None:
    # DU 0.8 at 1 m/s, 0.6 at 3 m/s, 0.7 at the mean
    cost = minute_cost(zone("1", rule="low quarter"), RISING, HOURS, LINES)
    assert cost[[0, -1]] == pytest.approx([0.7 / 0.8, 0.7 / 0.6])


def test_low_half_pays_less_than_low_quarter() -> None:
    # 0.4 + 0.6 DU: 0.88, 0.76 and 0.82 at the mean
    cost = minute_cost(zone("1", rule="low half"), RISING, HOURS, LINES)
    assert cost[[0, -1]] == pytest.approx([0.82 / 0.88, 0.82 / 0.76])


def test_average_pays_for_no_uniformity() -> None:
    cost = minute_cost(zone("1", rule="average"), RISING, HOURS, LINES)
    assert np.ptp(cost) == pytest.approx(2 * CALM_WORTH)


def test_a_line_drawn_too_far_still_has_a_cost() -> None:
    gale = NightWind(np.full(390, 40.0), "made up")
    cost = minute_cost(zone("1", rule="low quarter"), gale, HOURS, LINES)
    assert np.isfinite(cost).all()
