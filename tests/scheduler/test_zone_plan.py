"""One zone through all the rooms; `test_plan` holds the worked weeks."""

import datetime as dt

import numpy as np

from scheduler.field.irrigation_wind import site_wind
from scheduler.proof import zone_learning
from scheduler.record import History
from scheduler.zone_plan import DAYS_AHEAD, Week, zone_plan
from tests.scheduler.test_plan import TODAY, can_test, site, zone

DATES = np.datetime64(TODAY, "D") + np.arange(DAYS_AHEAD)


def week(*, tested: bool = True) -> Week:
    """A week whose weather nobody knows."""
    here = site(zone())
    lessons = zone_learning.lessons_of(here, History(), [], TODAY)
    tests = {"z4": [can_test()]} if tested else {}
    wind = site_wind(here, ())
    shared = (None, None, None, wind, lessons, tests)
    return Week(here, History(), TODAY, DATES, *shared)


def test_the_days_of_a_week_are_seven_dates() -> None:
    assert week().days == tuple(TODAY + dt.timedelta(i) for i in range(7))


def test_a_week_without_weather_asks_for_nothing() -> None:
    eto, days, rain = week().demand
    assert (eto.sum(), rain.sum(), days.size) == (0.0, 0.0, 7)


def test_a_zone_without_weather_is_blocked() -> None:
    plan = zone_plan(zone(), week())
    assert (plan.status, plan.minutes_per_day) == ("blocked", None)


def test_a_zone_that_is_off_is_planned_without_any_test() -> None:
    plan = zone_plan(zone(watered="off", plant=None), week(tested=False))
    assert plan.status == "off"
