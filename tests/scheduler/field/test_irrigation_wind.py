"""The usual wind of the hours of watering, and what stands in its way."""

import datetime as dt

import numpy as np
import pytest

from scheduler.arrays import frozen
from scheduler.field.irrigation_wind import irrigation_wind, site_wind
from scheduler.record import WindLog
from scheduler.site import Place, Site, Window

PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC"
)
NIGHT = Window(start=dt.time(22), end=dt.time(2))


def site(*windows: Window) -> Site:
    return Site(name="a", units="us", place=PLACE, windows=windows)


def log(days: int = 10, night: float = 3.0, noon: float = 6.0) -> WindLog:
    start = np.datetime64("2026-05-01T00", "s") + np.arange(days * 24) * np.timedelta64(
        3600, "s"
    )
    hour = np.arange(days * 24) % 24
    speed = np.where((hour >= 22) | (hour < 2), night, noon)
    none = frozen(np.full(speed.size, np.nan))
    return WindLog(start, 3600.0, frozen(speed), none, none, 2.0, "mast", "mast.csv")


def test_only_the_hours_of_watering_count() -> None:
    assert irrigation_wind(site(NIGHT), [log()]).mean_m_per_s == pytest.approx(3.0)


def test_a_window_that_is_half_in_an_hour_counts_half_of_it() -> None:
    late = Window(start=dt.time(21, 30), end=dt.time(22, 30))
    found = irrigation_wind(site(late), [log()])
    assert found.mean_m_per_s == pytest.approx((3.0 + 6.0) / 2)


@pytest.mark.parametrize(
    ("windows", "logs", "why"),
    [
        ((), [log()], "no [[window]]"),
        ((NIGHT,), [], "no [[wind_log]]"),
        ((NIGHT,), [log(days=3)], "no wind log covers"),
    ],
)
def test_why_it_is_not_known_is_said(
    windows: tuple[Window, ...], logs: list[WindLog], why: str
) -> None:
    found = irrigation_wind(site(*windows), logs)
    assert found.mean_m_per_s is None
    assert why in found.why


def test_the_bands_of_a_site_stand_about_its_usual_wind() -> None:
    wind = site_wind(site(NIGHT), [log(night=5.0)])
    assert [wind.band(x) for x in (2.0, 3.9, 4.1, 5.9, 6.1)] == [
        "calm", "calm", "usual", "usual", "windy",
    ]  # fmt: skip
