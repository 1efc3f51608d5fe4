"""The coefficient of a zone through a year, with its mark of today."""

import datetime as dt

import numpy as np
import pytest

from scheduler.need.kc_year import kc_year
from scheduler.need.season_days import SeasonDays
from scheduler.site import Plant, Soil, StageCurve, Zone

TODAY = dt.date(2026, 6, 8)
YEAR = np.arange("2025-01-01", "2026-01-01", dtype="datetime64[D]")
WEATHER = SeasonDays("2025", YEAR, np.full(365, 4.0), np.zeros(365), ())
CURVE = StageCurve(start=dt.date(2026, 4, 1), initial_days=20, development_days=30,
                   mid_days=60, late_days=40, kc_initial=0.4, kc_mid=1.0,
                   kc_end=0.7)  # fmt: skip


def _zone(plant: Plant) -> Zone:
    return Zone(id="F1", name="bay", area_m2=900.0, grown_in="soil", plant=plant,
                soil=Soil(texture="loam", root_depth_m=0.3))  # fmt: skip


def _box(**given: object) -> Plant:
    base = {"name": "box", "kc_area": "bed", "kc_from": "weighed"}
    return Plant.model_validate({**base, **given})


def test_months_go_in_steps() -> None:
    months = tuple(0.1 * month for month in range(1, 13))
    found = kc_year(_zone(_box(kc_by_month=months)), TODAY)
    assert found is not None
    assert found.kind == "by month, in steps"
    assert found.kc[[0, 31, 364]] == pytest.approx([0.1, 0.2, 1.2])
    assert found.trace.value == pytest.approx(0.6)


# stages from 1 April: mid-season runs from 21 May to 19 July
def test_a_curve_of_stages_stands_at_mid_season_in_june() -> None:
    found = kc_year(_zone(_box(stages=CURVE)), TODAY)
    assert found is not None
    assert found.kc[found.today] == pytest.approx(1.0)
    assert found.kind == "a curve of four stages from 1 Apr, anew each year"


def test_today_is_marked_by_its_place_in_the_year() -> None:
    found = kc_year(_zone(_box(kc=0.8)), dt.date(2026, 2, 1))
    assert found is not None
    assert found.today == 31


def test_the_last_day_of_a_leap_year_has_a_place() -> None:
    found = kc_year(_zone(_box(kc=0.8)), dt.date(2028, 12, 31))
    assert found is not None
    assert found.today == found.date.size - 1


def test_wet_ground_comes_on_top_of_the_plants() -> None:
    plant = _box(kc=0.3, dual=True, height_m=0.4)
    found = kc_year(_zone(plant), TODAY, days=WEATHER)
    assert found is not None
    assert found.basal is not None
    assert (found.kc >= found.basal).all()
    assert found.kc.max() > 0.3
    assert found.trace.find("ke") is not None


def test_without_a_years_weather_only_the_plants_are_drawn() -> None:
    plant = _box(kc=0.3, dual=True, height_m=0.4)
    found = kc_year(_zone(plant), TODAY)
    assert found is not None
    assert found.kc == pytest.approx(found.basal)
    assert found.trace.name == "kcb"


def test_an_own_correction_is_said() -> None:
    found = kc_year(_zone(_box(kc=0.8, kc_factor=1.25)), TODAY)
    assert found is not None
    assert found.kc[0] == pytest.approx(1.0)
    assert "kc_factor" in found.note
    assert found.trace.find("kc_factor") is not None


def test_a_zone_without_plants_has_no_curve() -> None:
    zone = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", watered="off")
    assert kc_year(zone, TODAY) is None
