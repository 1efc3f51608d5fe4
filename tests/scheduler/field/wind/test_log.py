"""A wind log and its height."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import WeatherError
from scheduler.field.wind import at_height, height_factor
from scheduler.need.air import wind_height_factor
from tests.scheduler.field.wind.made import wind_log

HEIGHTS = st.floats(0.5, 50.0)


def test_ten_metre_wind_becomes_two_metre_wind_as_published() -> None:
    # FAO-56, example 14: 3.2 m/s at 10 m is 2.4 m/s at 2 m
    log = at_height(wind_log([3.2], height_m=10.0), height_m=2.0)
    assert round(float(log.speed_m_per_s[0]), 1) == 2.4


@given(height=HEIGHTS)
def test_the_way_to_two_metres_is_that_of_the_weather_room(height: float) -> None:
    # the published 4.87 is rounded
    assert height_factor(height, to_m=2.0) == pytest.approx(
        float(wind_height_factor(height)), rel=3e-4
    )


@given(low=HEIGHTS, high=HEIGHTS)
def test_up_and_down_again_is_the_wind_of_before(low: float, high: float) -> None:
    there, back = height_factor(low, to_m=high), height_factor(high, to_m=low)
    assert there * back == pytest.approx(1.0)


def test_a_change_of_height_is_carried_and_said() -> None:
    log = at_height(wind_log([3.2], height_m=10.0), height_m=2.0)
    assert log.height_m == 2.0
    assert "measured at 10 m was brought to 2 m: times 0.748" in log.findings[-1].what


def test_a_gust_has_no_value_at_another_height() -> None:
    log = at_height(wind_log([3.2], gust=[6.0], height_m=10.0), height_m=2.0)
    assert np.isnan(log.gust_m_per_s[0])


def test_a_log_at_its_own_height_is_left_alone() -> None:
    log = wind_log([3.2], height_m=2.0)
    assert at_height(log, height_m=2.0) is log


def test_an_unknown_height_is_a_warning_and_changes_nothing() -> None:
    log = at_height(wind_log([3.2], height_m=None), height_m=2.0)
    assert log.speed_m_per_s[0] == 3.2
    assert (log.height_m, log.findings[-1].level) == (None, "warning")
    assert "height of the wind sensor is not known" in log.findings[-1].what


@pytest.mark.parametrize("height", [0.0, 0.2, 80.0, float("nan")])
def test_heights_outside_the_profile_are_refused(height: float) -> None:
    with pytest.raises(WeatherError, match=r"outside 0\.5 to 50 m"):
        height_factor(height, to_m=2.0)


def test_a_row_is_named_by_its_file_line() -> None:
    log = wind_log([2.0, 3.0], line=np.array([4, 9]))
    assert log.place(1, "speed") == "wind/mast.csv:9: speed"


def test_a_row_without_a_file_is_named_by_its_moment() -> None:
    assert wind_log([2.0]).place(0) == "wind/mast.csv: 2026-05-12 10:10:00 UTC"
