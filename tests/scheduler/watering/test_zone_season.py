"""What a zone's season rests on."""

import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.field.guess import assumed
from scheduler.need.season_days import SeasonDays
from scheduler.need.zone_use import zone_use
from scheduler.root_zone.storage import zone_storage
from scheduler.site import Place, Plant, Site, Window, Zone
from scheduler.watering.season_run import SeasonInput
from scheduler.watering.zone_season import season_etc, season_input

PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC"
)
DATES = np.datetime64("2025-06-01") + np.arange(7)
DAYS = SeasonDays("2025", DATES, np.full(7, 5.0), np.full(7, 2.0), ())


def _zone(**given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": "F1",
        "name": "bay",
        "area_m2": 900.0,
        "grown_in": "soil",
        "plant": Plant(name="box", kc=0.8, kc_area="bed", kc_from="weighed"),
        "rule": "average",
        "soil": {"texture": "loam", "root_depth_m": 0.4},
        "assumed_net_rate_mm_per_h": 12.0,
    }
    return Zone.model_validate(base | given)


def _made(zone: Zone, *windows: Window) -> tuple[SeasonInput, float]:
    site = Site(name="Tern Hollow", units="us", place=PLACE, windows=windows)
    use, _ = zone_use(zone, DATES)
    storage, _ = zone_storage(zone)
    catch, _ = assumed(zone, None)
    assert use is not None
    assert storage is not None
    assert catch is not None
    return season_input(zone, site, DAYS, (catch, use, storage))


def test_use_is_reference_et_times_the_coefficient() -> None:
    use, _ = zone_use(_zone(), DATES)
    assert use is not None
    assert season_etc(use, DAYS) == pytest.approx(np.full(7, 4.0))


def test_rain_counts_as_far_as_the_zone_says() -> None:
    made, _ = _made(_zone(rain_counted=0.5))
    assert made.rain_mm[:, 0] == pytest.approx(np.full(7, 1.0))


def test_the_night_before_a_day_belongs_to_the_date_before() -> None:
    # 1 June 2025 is a Sunday: a night that begins on Sunday waters Monday
    sundays = Window(start=dt.time(22), end=dt.time(4), days=("sun",))
    made, _ = _made(_zone(), sundays)
    assert np.flatnonzero(made.is_open[:, 0]).tolist() == [1]


def test_the_average_rule_serves_the_mean_position() -> None:
    made, factor = _made(_zone())
    assert (factor, float(made.served_share[0])) == (1.0, 1.0)


def test_fixed_minutes_are_a_depth_of_every_open_night() -> None:
    made, _ = _made(_zone(watered="fixed minutes", fixed_minutes=30.0))
    assert float(made.fixed_mm[0]) == pytest.approx(6.0)
