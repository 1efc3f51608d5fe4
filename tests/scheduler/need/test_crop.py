"""Published curves and climate adjustments are in tests/checks/test_et_checks.py."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.crop import (
    Stages,
    climate_term,
    day_of_season,
    depletion_part,
    kc_climate_adjusted,
    stage_curve_kc,
)
from tests.scheduler.need.made import day, days


@given(st.integers(-50, 300))
def test_the_curve_stays_between_its_coefficients(on: int) -> None:
    kc = stage_curve_kc(
        on, Stages(25, 25, 30, 20), kc_initial=0.15, kc_mid=1.19, kc_end=0.35
    )
    assert 0.15 <= float(kc) <= 1.19


def test_the_standard_climate_changes_nothing() -> None:
    kc = kc_climate_adjusted(1.15, wind_2m_m_per_s=2.0, rh_min=0.45, height_m=2.0)
    assert float(kc) == pytest.approx(1.15)


@pytest.mark.parametrize(("kc_tab", "height"), [(0.44, 2.0), (1.15, 0.05)])
def test_low_coefficients_and_low_plants_stay_as_tabled(
    kc_tab: float, height: float
) -> None:
    kc = kc_climate_adjusted(kc_tab, wind_2m_m_per_s=5.0, rh_min=0.2, height_m=height)
    assert float(kc) == kc_tab


def test_a_storm_counts_as_the_upper_bound_of_wind() -> None:
    def kc(wind: float) -> float:
        return float(
            kc_climate_adjusted(1.1, wind_2m_m_per_s=wind, rh_min=0.45, height_m=1.0)
        )

    assert kc(12.0) == kc(6.0) > kc(5.0)


# --- the term of wind and dry air -----------------------------------------------


# FAO-56 equation 72 in Example 32 (p. 150): 3 m/s, 20 %, 1 m: Kc max 1.30
def test_dry_wind_adds_a_tenth() -> None:
    term = climate_term(wind_2m_m_per_s=3.0, rh_min=0.2, height_m=1.0)
    assert float(term) == pytest.approx(0.10, abs=0.005)


@given(st.floats(0.0, 8.0), st.floats(0.0, 1.0), st.floats(0.0, 12.0))
def test_more_wind_never_lowers_the_coefficient(
    wind: float, rh: float, height: float
) -> None:
    def term(speed: float) -> float:
        return float(climate_term(wind_2m_m_per_s=speed, rh_min=rh, height_m=height))

    assert term(wind + 1.0) >= term(wind)


# --- days of the season ---------------------------------------------------------


def test_the_day_before_a_start_is_the_last_of_the_season_before() -> None:
    before = day_of_season(day("2026-05-01"), days("2027-04-30", 2), every_year=True)
    assert before.tolist() == [365, 1]


def test_a_season_that_happens_once_is_counted_on() -> None:
    on = day_of_season(day("2026-05-01"), days("2027-05-01", 1), every_year=False)
    assert on.tolist() == [366]


def test_a_season_that_happens_once_has_days_before_it() -> None:
    on = day_of_season(day("2026-05-01"), days("2026-04-30", 1), every_year=False)
    assert on.tolist() == [0]


def test_a_start_on_leap_day_begins_in_march_of_a_plain_year() -> None:
    on = day_of_season(day("2024-02-29"), days("2026-02-28", 2), every_year=True)
    assert on.tolist() == [365, 1]


@given(st.integers(0, 20000))
def test_every_date_is_on_a_day_of_some_season(offset: int) -> None:
    date = np.array([np.datetime64("1990-01-01") + offset])
    on = int(day_of_season(day("2026-03-20"), date, every_year=True)[0])
    assert 1 <= on <= 366


# --- the part of the water that is used without stress --------------------------


def test_at_five_millimetres_the_table_stands() -> None:
    assert float(depletion_part(0.4, etc_mm_per_day=5.0)) == pytest.approx(0.4)


@given(st.floats(0.1, 0.8), st.floats(0.0, 15.0), st.floats(0.0, 5.0))
def test_more_use_never_allows_more_depletion(
    part: float, use: float, more: float
) -> None:
    low = float(depletion_part(part, etc_mm_per_day=use + more))
    assert 0.1 <= low <= float(depletion_part(part, etc_mm_per_day=use)) <= 0.8
