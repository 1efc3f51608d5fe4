"""Mean wind and lowest humidity of a stage, from what stations measured."""

import numpy as np
import pytest

from scheduler.need.climate import site_climate
from scheduler.record import Origin
from tests.scheduler.need.made import day, days, plain, series

STAGE = days("2026-07-01", 20)


def test_the_mean_of_the_stage_is_that_of_its_days() -> None:
    wind = np.repeat([1.0, 3.0], 20)
    mean = site_climate([plain(40, wind_m_per_s=wind)]).mean_on(STAGE)
    assert mean is not None
    assert mean.wind_2m_m_per_s == pytest.approx(1.0, abs=0.001)
    assert mean.n_days == 20


def test_the_same_days_of_every_year_count() -> None:
    before = np.datetime64("2025-07-01") + np.arange(20)
    both = plain(40, date=np.concatenate([before, STAGE]))
    mean = site_climate([both]).mean_on(STAGE)
    assert mean is not None
    assert mean.n_days == 40


def test_a_forecast_is_no_measured_air() -> None:
    told = plain(20, origin=Origin(issued=day("2026-07-01")))
    assert site_climate([told]).mean_on(STAGE) is None


# FAO-56 equation 47: at 10 m the factor is 0.748
def test_wind_of_a_mast_is_brought_down_to_two_metres() -> None:
    high = plain(20, wind_m_per_s=4.0, wind_height_m=10.0)
    mean = site_climate([high]).mean_on(STAGE)
    assert mean is not None
    assert mean.wind_2m_m_per_s == pytest.approx(4.0 * 0.748, abs=0.005)


def test_an_impossible_height_counts_as_two_metres() -> None:
    wrong = plain(20, wind_m_per_s=4.0, wind_height_m=500.0)
    mean = site_climate([wrong]).mean_on(STAGE)
    assert mean is not None
    assert mean.wind_2m_m_per_s == pytest.approx(4.0)


# FAO-56 equation 11: 1.70 kPa at 15 degC and 3.17 kPa at 25 degC, so RH min 0.54
def test_a_dew_point_gives_the_lowest_humidity() -> None:
    dew = plain(20, rh_min=None, rh_max=None, dew_point_degc=15.0, tmax_degc=25.0)
    mean = site_climate([dew]).mean_on(STAGE)
    assert mean is not None
    assert mean.rh_min == pytest.approx(0.538, abs=0.002)


@pytest.mark.parametrize("gone", ["wind_m_per_s", "rh_min"])
def test_without_wind_or_humidity_nothing_is_known(gone: str) -> None:
    assert site_climate([plain(20, **{gone: None})]).mean_on(STAGE) is None


def test_a_few_days_do_not_stand_for_a_stage() -> None:
    assert site_climate([plain(9)]).mean_on(STAGE) is None


def test_the_first_station_that_knows_the_stage_is_asked() -> None:
    silent, mast = series(20, name="silent"), plain(20, name="mast")
    mean = site_climate([silent, mast]).mean_on(STAGE)
    assert mean is not None
    assert mean.source == "mast"


def test_a_wind_that_cannot_be_is_left_out() -> None:
    wind = np.full(20, 2.0)
    wind[0] = 99.0
    mean = site_climate([plain(20, wind_m_per_s=wind)]).mean_on(STAGE)
    assert mean is not None
    assert mean.n_days == 19


def test_both_means_are_traced_to_their_station() -> None:
    mean = site_climate([plain(20)]).mean_on(STAGE)
    assert mean is not None
    wind, rh = mean.traces("mid")
    assert wind.value == pytest.approx(2.0, abs=0.001)
    assert rh.value == pytest.approx(0.45)
    assert "20 days of mast" in wind.note
