"""The wind of the hours that a site waters in."""

import datetime as dt

import numpy as np
import pytest

from scheduler.field.irrigation_wind import (
    at_two_metres,
    irrigation_wind,
    run_wind_at_two_metres,
    site_wind,
    watered_minutes,
    wind_of_hours,
)
from scheduler.field.wind import usual_wind
from scheduler.field.wind_during import WindDuring
from scheduler.record import WindLog
from scheduler.site import Place, Site, Window
from tests.scheduler.field.wind.made import NEW_YORK, wind_log

PLACE = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
              time_zone=NEW_YORK)  # fmt: skip
NIGHT = Window(start=dt.time(22, 0), end=dt.time(4, 30))


def site(*windows: Window) -> Site:
    return Site(name="s", units="us", place=PLACE, windows=windows)


def night_log(n_days: int, start: str = "2026-05-01T04:00", **given: float) -> WindLog:
    """Hourly rows from a local midnight (UTC-4): 1 m/s at night, 4 m/s by day."""
    hour = np.arange(24 * n_days) % 24
    speed = np.where((hour >= 22) | (hour < 4), 1.0, np.where(hour == 4, 3.0, 4.0))
    return wind_log(speed, start=start, step_min=60, **given)


def test_half_an_hour_counts_half() -> None:
    # six hours of 1 m/s and half an hour of 3 m/s
    found = irrigation_wind(site(NIGHT), [night_log(10)])
    assert found.mean_m_per_s == pytest.approx((6 * 1.0 + 0.5 * 3.0) / 6.5)


def test_months_stand_apart_with_their_days() -> None:
    found = irrigation_wind(site(NIGHT), [night_log(40)])
    assert np.flatnonzero(np.isfinite(found.by_month_m_per_s)).tolist() == [4, 5]
    assert (found.n_days[4], found.n_days[5]) == (31, 9)


def test_a_window_of_two_days_counts_less_than_one_of_seven() -> None:
    week = Window(start=dt.time(1, 0), end=dt.time(2, 0))
    twice = Window(start=dt.time(12, 0), end=dt.time(13, 0), days=("mon", "thu"))
    minutes = watered_minutes([week, twice])
    assert (minutes[1], minutes[12], minutes.sum()) == (420, 120, 540)


def test_a_mast_of_10_m_is_brought_to_2_m_and_said() -> None:
    # FAO-56, equation 47: 4.87 / ln(67.8 x 10 - 5.42) = 0.748
    two = irrigation_wind(site(NIGHT), [night_log(10)])
    ten = irrigation_wind(site(NIGHT), [night_log(10, height_m=10.0)])
    assert two.mean_m_per_s is not None
    assert ten.mean_m_per_s == pytest.approx(0.748 * two.mean_m_per_s, rel=1e-3)
    assert (ten.sensor_height_m, ten.height_m) == (10.0, 2.0)
    assert any("brought to 2 m" in one.what for one in ten.findings)


def test_a_height_beyond_the_equation_is_said_and_left() -> None:
    log, (said,) = at_two_metres(night_log(10, height_m=80.0))
    assert log.height_m == 80.0
    assert said.level == "warning"


def test_the_log_that_knows_most_months_is_taken() -> None:
    short, long = night_log(10, height_m=2.0), night_log(40, height_m=10.0)
    assert irrigation_wind(site(NIGHT), [short, long]).sensor_height_m == 10.0


def test_a_log_of_a_few_nights_knows_no_hours() -> None:
    log = night_log(5)
    assert wind_of_hours(log, usual_wind(log, NEW_YORK), [NIGHT]) is None


def test_where_it_comes_from_is_said_with_its_height() -> None:
    ten = irrigation_wind(site(NIGHT), [night_log(10, height_m=10.0)])
    expected = "irrigation hours in 1 month of the log mast, brought from 10 to 2 m"
    assert ten.source == expected


@pytest.mark.parametrize(
    ("windows", "logs", "why"),
    [
        ((), (night_log(10),), "no [[window]]"),
        ((NIGHT,), (), "no [[wind_log]]"),
        ((NIGHT,), (night_log(5),), "7 days"),
    ],
)
def test_why_it_is_not_known_is_said(
    windows: tuple[Window, ...], logs: tuple[WindLog, ...], why: str
) -> None:
    found = irrigation_wind(site(*windows), logs)
    assert found.mean_m_per_s is None
    assert found.n_months == 0
    assert why in found.why


def test_the_bands_of_a_site_stand_about_its_usual_wind() -> None:
    # an hour of 5 m/s every night, at 2 m
    windy = wind_log([5.0] * 24 * 10, start="2026-05-01T04:00", step_min=60)
    wind = site_wind(site(NIGHT), [windy])
    assert [wind.band(x) for x in (2.0, 3.9, 4.1, 5.9, 6.1)] == [
        "calm", "calm", "usual", "usual", "windy",
    ]  # fmt: skip


def test_a_run_logged_at_ten_metres_is_brought_to_two() -> None:
    # FAO-56, equation 47: 0.748 at 10 m
    found = run_wind_at_two_metres(WindDuring(4.0, height_m=10.0))
    assert found == pytest.approx(4.0 * 0.748, abs=0.002)


@pytest.mark.parametrize("height_m", [None, 2.0, 0.3])
def test_a_height_that_no_equation_carries_leaves_the_wind(
    height_m: float | None,
) -> None:
    assert run_wind_at_two_metres(WindDuring(4.0, height_m=height_m)) == 4.0


def test_an_unknown_wind_stays_unknown() -> None:
    assert run_wind_at_two_metres(WindDuring()) is None
