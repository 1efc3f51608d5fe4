"""Alfalfa reference becomes grass reference, and is never taken for it."""

import json
from typing import Any

import numpy as np
import pytest

from scheduler.errors import Finding
from scheduler.need.air import wind_height_factor
from scheduler.need.alfalfa import alfalfa_over_grass, as_grass
from scheduler.need.stations import stations_et
from scheduler.need.weather import Weather, filled
from scheduler.record import Origin
from tests.checks.et_computed import ROWS
from tests.scheduler.need.made import place, plain, series

TALL = Origin(reference="alfalfa")


def grass(origin: Origin, **given: Any) -> tuple[list[float], tuple[Finding, ...]]:
    whole, _ = filled(series(**given), place())
    found, said = as_grass(whole, origin)
    return found.stated_eto_mm_per_day.tolist(), said


def test_an_entered_ratio_divides_the_reported_et() -> None:
    told = Origin(reference="alfalfa", alfalfa_over_grass=1.25)
    found, said = grass(told, n_days=2, eto_mm_per_day=[5.0, 7.5])
    assert found == [4.0, 6.0]
    assert [one.level for one in said] == ["note"]


def test_a_day_that_the_station_lost_stays_lost() -> None:
    told = Origin(reference="alfalfa", alfalfa_over_grass=1.25)
    found, _ = grass(told, n_days=2, eto_mm_per_day=[np.nan, 7.5])
    assert np.isnan(found[0])


def test_grass_reference_is_left_as_it_is() -> None:
    found, said = grass(Origin(), n_days=1, eto_mm_per_day=5.0)
    assert (found, said) == ([5.0], ())


def test_a_reference_that_nobody_named_is_taken_for_grass_with_a_warning() -> None:
    found, said = grass(Origin(reference="unsaid"), n_days=1, eto_mm_per_day=5.0)
    assert found == [5.0]
    assert (said[0].level, "taken for grass" in said[0].what) == ("warning", True)


def test_without_ratio_and_weather_alfalfa_reference_is_not_used() -> None:
    found, said = grass(TALL, n_days=3, eto_mm_per_day=6.0)
    assert np.isnan(found).all()
    assert (said[0].level, "it is not used" in said[0].what) == ("warning", True)


def test_days_without_weather_take_the_ratio_of_the_others() -> None:
    warm = np.array([28.0] * 8 + [np.nan])
    found, said = grass(
        TALL, n_days=9, tmax_degc=warm, tmin_degc=15.0, eto_mm_per_day=6.0
    )
    assert found[-1] == pytest.approx(np.mean(6.0 / np.array(found[:8])) ** -1 * 6.0)
    assert "partly filled in" in said[0].what


def test_six_days_are_too_few_for_a_usual_ratio() -> None:
    warm = np.array([28.0] * 6 + [np.nan])
    found, said = grass(
        TALL, n_days=7, tmax_degc=warm, tmin_degc=15.0, eto_mm_per_day=6.0
    )
    assert np.isnan(found[-1])
    assert "1 days stay unknown" in said[0].what


# ASCE-EWRI (2005), appendix C, Greeley CO, July 2000: both references are printed
BOTH = [
    row[11:14]
    for row in ROWS
    if row.startswith("asce_daily_")
    and row.replace("ETos", "ETrs") in ROWS
    and row.endswith("ETos")
]


@pytest.mark.parametrize("doy", BOTH)
def test_the_printed_alfalfa_reference_becomes_the_printed_grass_reference(
    doy: str,
) -> None:
    tall, short = ROWS[f"asce_daily_{doy}_ETrs"], ROWS[f"asce_daily_{doy}_ETos"]
    day = _weather_of(tall["inputs_json"], float(tall["expected"]))
    found, _ = as_grass(day, TALL)
    expected = float(short["expected"])
    assert found.stated_eto_mm_per_day[0] == pytest.approx(expected, abs=0.03)


def _weather_of(inputs: str, reported: float) -> Weather:
    i = json.loads(inputs)
    one, none = np.ones(1), np.array([np.nan])
    day = np.array(["2000-01-01"], dtype="datetime64[D]") + i["doy"] - 1
    return Weather(
        "greeley", "greeley.csv", False, i["lat_deg"], i["elev_m"], day,
        one * i["tmax_c"], one * i["tmin_c"], one * i["ea_kpa"], one * i["rs_mj"],
        one * i["uz_ms"] * wind_height_factor(i["zw_m"]), none, one * reported, {},
        one > 2, one > 2,
    )  # fmt: skip


def test_alfalfa_uses_more_than_grass_on_every_plain_day() -> None:
    whole, _ = filled(plain(), place())
    assert (alfalfa_over_grass(whole) > 1.1).all()


def test_a_days_own_weather_comes_before_its_reported_alfalfa_reference() -> None:
    told, _ = stations_et([plain(eto_mm_per_day=9.0, origin=TALL)], place())
    own, _ = stations_et([plain()], place())
    assert told[0].eto_mm_per_day.tolist() == own[0].eto_mm_per_day.tolist()


def test_alfalfa_reference_of_a_station_never_passes_as_grass() -> None:
    # only temperatures were measured, so the reported value is what is used
    kept: dict[str, Any] = {
        "tmax_degc": 28.0,
        "tmin_degc": 15.0,
        "eto_mm_per_day": 6.0,
    }
    found, _ = stations_et([series(origin=TALL, **kept)], place())
    assert found[0].method == ("stated",) * 3
    assert (found[0].eto_mm_per_day < 6.0 / 1.05).all()
