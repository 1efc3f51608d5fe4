"""Which reference a table's own ET is for."""

import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.files.text_file import TextFile
from scheduler.files.weather_csv import read_station
from scheduler.files.weather_reference import reported_et
from scheduler.record import DailySeries
from scheduler.site import Place, Station

PLACE = Place(latitude_deg=38.0, longitude_deg=-75.0, elevation_m=12.0, time_zone="UTC")


def read(header: str, cells: str = "5", **given: Any) -> tuple[DailySeries, list[str]]:
    station = Station(name="quellan", file="weather/q.csv", **given)
    text = f"date,{header}\n2026-05-01,{cells}\n"
    series, said = read_station(TextFile("weather/q.csv", text, ""), station, PLACE)
    assert series is not None
    return series, [f"{one.level} {one}" for one in said]


@pytest.mark.parametrize(
    ("header", "reference"),
    [
        ("ETo (mm)", "grass"),
        ("Grass reference ET (mm)", "grass"),
        ("ETr (mm)", "alfalfa"),
        ("ETrs (mm/day)", "alfalfa"),
        ("Alfalfa reference ET (mm)", "alfalfa"),
        ("Reference ET (mm)", "unsaid"),
        ("Reference evapotranspiration (mm)", "unsaid"),
    ],
)
def test_the_name_of_a_column_tells_its_reference(header: str, reference: str) -> None:
    series, said = read(header)
    assert (series.origin.reference, said) == (reference, [])
    assert series.eto_mm_per_day.tolist() == [5.0]


@pytest.mark.parametrize("reference", ["grass", "alfalfa"])
def test_the_site_says_what_a_plain_name_does_not(reference: str) -> None:
    series, said = read("Reference ET (mm)", reference=reference)
    assert (series.origin.reference, said) == (reference, [])


def test_the_grass_column_is_taken_where_both_stand() -> None:
    series, _ = read("ETr (mm),ETo (mm)", "6,5")
    assert (series.origin.reference, series.eto_mm_per_day[0]) == ("grass", 5.0)


def test_the_alfalfa_column_is_taken_where_the_site_asks_for_it() -> None:
    series, _ = read("ETr (mm),ETo (mm)", "6,5", reference="alfalfa")
    assert (series.origin.reference, series.eto_mm_per_day[0]) == ("alfalfa", 6.0)


def test_a_column_named_for_alfalfa_is_never_read_as_grass() -> None:
    series, said = read("ETr (mm)", reference="grass")
    assert np.isnan(series.eto_mm_per_day).all()
    assert said[0].startswith("stop weather/q.csv: ETr: the column is alfalfa")


def test_the_sites_word_makes_alfalfa_of_a_column_named_for_grass() -> None:
    series, said = read("ETo (mm)", reference="alfalfa")
    assert series.origin.reference == "alfalfa"
    assert said[0].startswith("note")


def test_what_the_site_says_goes_with_the_days() -> None:
    series, _ = read(
        "ETr (mm)",
        distance_km=12.5,
        alfalfa_over_grass=1.2,
        is_forecast=True,
        issued=dt.date(2026, 5, 1),
    )
    origin = series.origin
    assert (origin.distance_km, origin.alfalfa_over_grass) == (12.5, 1.2)
    assert origin.issued == dt.date(2026, 5, 1)


def test_a_table_without_et_reports_none() -> None:
    station = Station(name="q", file="q.csv")
    assert reported_et({}, station, "q.csv")[0] is None
