"""Which way each day goes, and Hargreaves; published days are in tests/checks."""

from typing import Any

import numpy as np
import pandas as pd
import pyet
import pytest

from scheduler.errors import Finding
from scheduler.need.reference_et import hargreaves_eto_mm_per_day, reference_et
from scheduler.need.weather import checked, filled
from tests.scheduler.need.made import place, plain, series

# --- Hargreaves -------------------------------------------------------------


def test_hargreaves_below_freezing_is_never_negative() -> None:
    eto = hargreaves_eto_mm_per_day(
        tmax_degc=-20.0, tmin_degc=-35.0, latitude_deg=50.0, day_of_year=20
    )
    assert float(eto) == 0.0


def test_hargreaves_agrees_with_another_library() -> None:
    index = pd.DatetimeIndex([pd.Timestamp(2025, 7, 15)])
    theirs = pyet.hargreaves(
        pd.Series([20.7], index), pd.Series([26.6], index), pd.Series([14.8], index),
        lat=np.radians(45.7167), method=0,
    )  # fmt: skip
    ours = hargreaves_eto_mm_per_day(
        tmax_degc=26.6, tmin_degc=14.8, latitude_deg=45.7167, day_of_year=196
    )
    # they divide by the latent heat at the day's temperature, FAO-56 by 2.45
    assert float(ours) == pytest.approx(float(theirs.iloc[0]), abs=0.05)


# --- which way a day goes -----------------------------------------------------------


def _worked(**changes: Any) -> tuple[Any, tuple[Finding, ...]]:
    return reference_et(filled(plain(**changes), place())[0])


def test_measured_weather_wins_over_a_stated_eto() -> None:
    eto, _ = _worked(eto_mm_per_day=9.0)
    assert eto.method == ("penman-monteith",) * 3
    assert (eto.eto_mm_per_day < 9.0).all()


def test_a_stated_eto_wins_over_guessed_weather() -> None:
    eto, findings = _worked(wind_m_per_s=[np.nan, 2.0, 2.0], eto_mm_per_day=5.5)
    assert eto.method == ("stated", "penman-monteith", "penman-monteith")
    assert [one.level for one in findings] == ["note"]


def test_a_file_with_only_dates_and_eto_works_without_a_word() -> None:
    weather, _ = filled(series(eto_mm_per_day=[5.0, 5.5, 6.0]), place())
    eto, findings = reference_et(weather)
    assert eto.eto_mm_per_day.tolist() == [5.0, 5.5, 6.0]
    assert (eto.method, findings) == (("stated",) * 3, ())


def test_a_day_without_anything_is_missing_and_never_zero() -> None:
    eto, findings = _worked(tmax_degc=[28.0, np.nan, 28.0])
    assert eto.method[1] == "missing"
    assert np.isnan(eto.eto_mm_per_day).tolist() == [False, True, False]
    assert "the first is 2026-07-02" in findings[0].what


def test_temperatures_alone_go_through_penman_monteith() -> None:
    weather, _ = filled(series(tmax_degc=28.0, tmin_degc=15.0), place())
    assert reference_et(weather)[0].method == ("penman-monteith",) * 3


def test_the_coldest_and_driest_day_that_passes_the_checks_has_an_eto() -> None:
    polar = plain(tmax_degc=-58.0, tmin_degc=-60.0, rh_max=0.01, rh_min=0.01)
    sound, _ = checked(polar)
    eto, _ = reference_et(filled(sound, place())[0])
    assert np.isfinite(eto.eto_mm_per_day).all()


def test_hargreaves_is_used_only_when_asked_and_only_where_all_is_guessed() -> None:
    warm = series(tmax_degc=28.0, tmin_degc=15.0, wind_m_per_s=[np.nan, 2.0, np.nan])
    eto, _ = reference_et(filled(warm, place())[0], from_temperature="hargreaves")
    assert eto.method == ("hargreaves", "penman-monteith", "hargreaves")
    alone = hargreaves_eto_mm_per_day(
        tmax_degc=28.0, tmin_degc=15.0, latitude_deg=36.0, day_of_year=182
    )
    assert eto.eto_mm_per_day[0] == pytest.approx(float(alone))


def test_a_station_that_reports_alfalfa_is_found_out() -> None:
    own = reference_et(filled(plain(10), place())[0])[0].eto_mm_per_day
    _, findings = reference_et(filled(plain(10, eto_mm_per_day=1.25 * own), place())[0])
    assert "125 %" in findings[0].what
    assert "alfalfa" in findings[0].fix


def test_a_station_that_agrees_within_its_margin_is_left_alone() -> None:
    own = reference_et(filled(plain(10), place())[0])[0].eto_mm_per_day
    _, findings = reference_et(filled(plain(10, eto_mm_per_day=1.1 * own), place())[0])
    assert findings == ()


def test_the_note_of_the_trace_counts_methods_and_guesses() -> None:
    eto, _ = _worked(wind_m_per_s=[np.nan, 2.0, 2.0])
    assert eto.trace_note.startswith("penman-monteith on 3 days; wind: 2 m/s")
    assert eto.trace_note.endswith("on 1 days")
