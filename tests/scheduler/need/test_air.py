"""Published values of these functions are in tests/checks/test_et_checks.py."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import WeatherError
from scheduler.need import air

WARMTH = st.floats(-30, 50)


def test_pressure_at_sea_level_is_the_standard_one() -> None:
    assert float(air.atmospheric_pressure_kpa(0.0)) == 101.3


def test_vapour_pressure_at_freezing_is_the_triple_point_value() -> None:
    # 0.611 kPa: physics of water, any table of steam
    freezing = float(air.saturation_vapour_pressure_kpa(0.0))
    assert freezing == pytest.approx(0.611, abs=0.001)


@given(WARMTH)
def test_slope_is_the_derivative_of_the_curve(warmth: float) -> None:
    step = 0.01
    rise = air.saturation_vapour_pressure_kpa(warmth + step) - (
        air.saturation_vapour_pressure_kpa(warmth - step)
    )
    slope = float(air.vapour_pressure_slope(warmth))
    # FAO-56 rounds the constant 17.27 x 237.3 to 4098
    assert slope == pytest.approx(float(rise) / (2 * step), rel=1e-4)


@given(WARMTH, st.floats(0, 20), st.floats(0, 1))
def test_humid_air_holds_no_more_than_it_can(
    low: float, span: float, rh: float
) -> None:
    top = low + span
    ea = air.vapour_pressure_from_extremes_kpa(top, low, rh_max=1.0, rh_min=rh)
    assert float(ea) <= float(air.mean_saturation_vapour_pressure_kpa(top, low)) + 1e-12


def test_highest_humidity_alone_is_taken_at_the_lowest_temperature() -> None:
    # FAO-56 equation 18: e0(18 degC) is 2.064 kPa (table 2.3), times 0.82
    ea = air.vapour_pressure_from_rh_max_kpa(18.0, rh_max=0.82)
    assert float(ea) == pytest.approx(2.064 * 0.82, abs=0.001)


def test_wind_measured_at_2_m_stays_as_it_is() -> None:
    # the constants are rounded: 0.02 % off
    at_2m = air.wind_at_2m_m_per_s(3.0, height_m=2.0)
    assert float(at_2m) == pytest.approx(3.0, rel=3e-4)


@given(st.floats(0.5, 49), st.floats(0.01, 1))
def test_wind_is_slower_nearer_the_ground(height: float, more: float) -> None:
    lower, higher = (
        air.wind_height_factor(height),
        air.wind_height_factor(height + more),
    )
    assert float(higher) < float(lower)


@pytest.mark.parametrize("height", [0.1, 60.0, float("nan")])
def test_a_height_outside_the_profile_is_refused(height: float) -> None:
    with pytest.raises(WeatherError, match=r"outside 0\.5 to 50 m"):
        air.wind_at_2m_m_per_s(3.0, height_m=height)


def test_arrays_keep_their_shape() -> None:
    warmth = np.zeros((3, 2))
    assert air.vapour_pressure_slope(warmth).shape == (3, 2)
