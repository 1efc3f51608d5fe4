"""The nights that wet the ground of a zone."""

import datetime as dt
from typing import Any

import pytest

from scheduler.site import Place, Site, Window, Zone
from scheduler.watering.wetted import zone_wetting

PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC"
)


def _zone(*, dual: bool = True, **given: Any) -> Zone:
    base = {
        "id": "L1",
        "name": "lawn",
        "area_m2": 900.0,
        "grown_in": "soil",
        "plant": {"name": "lawn", "crop": "turf cool season", "dual": dual},
        "soil": {"field_capacity": 0.3, "wilting_point": 0.1, "root_depth_m": 0.3},
    }
    return Zone.model_validate(base | given)


def _site(*windows: Window) -> Site:
    return Site(name="Tern Hollow", units="us", place=PLACE, windows=windows)


def test_a_zone_whose_ground_is_not_counted_apart_has_none() -> None:
    assert zone_wetting(_site(), _zone(dual=False)) is None


def test_a_zone_without_a_plant_has_none() -> None:
    assert zone_wetting(_site(), _zone(plant=None, watered="off")) is None


def test_days_of_the_windows_and_of_the_zone_must_both_be_open() -> None:
    window = Window(start=dt.time(22), end=dt.time(4), days=("mon", "wed", "fri"))
    made = zone_wetting(_site(window), _zone(days=("wed", "fri", "sun")))
    assert made is not None
    assert made.open_weekdays == (False, False, True, False, True, False, False)


# FAO-56 Table 22: cool season turf 0.40, of 1000 x 0.2 x 0.3 m = 60 mm
def test_watered_when_due_the_allowed_depletion_calls_for_water() -> None:
    made = zone_wetting(_site(), _zone())
    assert made is not None
    assert made.allowed_mm == pytest.approx(24.0)


def test_watered_every_allowed_day_no_depletion_is_asked() -> None:
    made = zone_wetting(_site(), _zone(watered="every allowed day"))
    assert made is not None
    assert made.allowed_mm is None


def test_both_ways_of_watering_say_so_in_words() -> None:
    nightly = zone_wetting(_site(), _zone(watered="every allowed day"))
    due = zone_wetting(_site(), _zone())
    assert nightly is not None
    assert due is not None
    assert nightly.text == "every allowed night wets the ground"
    assert "would pass 24.0 mm (0.94 in)" in due.text
