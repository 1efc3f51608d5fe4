"""Square root, nozzle and rise: hand-computed, published, laws, refusals."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import ReadingsError
from scheduler.field.hydraulics.laws import (
    flow_at_pressure_l_per_min,
    flow_ratio,
    nozzle_flow_l_per_min,
    pressure_of_rise_kpa,
    pressure_ratio,
    rate_at_pressure_mm_per_h,
)
from scheduler.units import converted

KPA = st.floats(50, 1500)


def test_four_times_the_pressure_is_twice_the_flow() -> None:
    found = flow_at_pressure_l_per_min(10.0, from_kpa=100.0, to_kpa=400.0)
    assert found == pytest.approx(20.0)


def test_a_rate_carried_down_from_45_to_38_psi_falls_by_the_root() -> None:
    found = rate_at_pressure_mm_per_h(12.0, from_kpa=45.0, to_kpa=38.0)
    assert found == pytest.approx(12.0 * math.sqrt(38 / 45))


# Nursery trade magazine: at 15 psi, one psi more is about 3.3 % more flow.
def test_one_psi_at_fifteen_is_a_thirtieth_of_the_flow() -> None:
    assert flow_ratio(16 / 15) - 1 == pytest.approx(0.033, abs=5e-4)


# Jarrett, 2000, Water Management, pp. 336-337: 20 % of pressure, 10 % of flow.
def test_a_fifth_of_pressure_is_a_tenth_of_flow() -> None:
    assert flow_ratio(1.2) - 1 == pytest.approx(0.10, abs=0.006)


# Univ. Florida EP469: 1 psi is about 2.3 ft of rise; handbooks print 2.31.
def test_one_psi_is_two_point_three_one_feet_of_rise() -> None:
    rise_m = converted(2.31, "ft", to="m")
    psi = pressure_of_rise_kpa(rise_m) / converted(1.0, "psi", to="kpa")
    assert psi == pytest.approx(1.0, abs=0.002)


# Hydrant flow by pitot gauge, 29.83 c d^2 sqrt(p): 2.5 in, 25 psi, c 0.90 is 839 gpm
# (fire-service table, from memory).
def test_a_stated_coefficient_gives_the_pitot_table() -> None:
    flow = nozzle_flow_l_per_min(
        63.5,
        pressure_kpa=converted(25.0, "psi", to="kpa"),
        discharge_coefficient=0.90,
    )
    assert converted(flow, "l_per_min", to="gpm") == pytest.approx(839, rel=1e-3)


# Source: definition (Torricelli): a jet without loss runs at sqrt(2 P / density).
def test_a_coefficient_of_one_is_torricelli() -> None:
    flow = nozzle_flow_l_per_min(10.0, pressure_kpa=200.0, discharge_coefficient=1.0)
    speed_m_per_s = math.sqrt(2 * 200_000 / 1000)
    assert flow == pytest.approx(
        math.pi / 4 * 0.01**2 * speed_m_per_s * 60_000, rel=1e-4
    )


@given(flow=st.floats(0.1, 500), a=KPA, b=KPA)
def test_carrying_there_and_back_changes_nothing(
    flow: float, a: float, b: float
) -> None:
    there = flow_at_pressure_l_per_min(flow, from_kpa=a, to_kpa=b)
    assert flow_at_pressure_l_per_min(there, from_kpa=b, to_kpa=a) == pytest.approx(
        flow
    )


@given(ratio=st.floats(0.05, 20), exponent=st.floats(0.1, 1.0))
def test_pressure_ratio_undoes_flow_ratio(ratio: float, exponent: float) -> None:
    flow = flow_ratio(ratio, exponent=exponent)
    assert pressure_ratio(flow, exponent=exponent) == pytest.approx(ratio)


def test_no_pressure_is_refused() -> None:
    with pytest.raises(ReadingsError, match="a pressure ratio of 0 is not possible"):
        flow_at_pressure_l_per_min(10.0, from_kpa=100.0, to_kpa=0.0)
    with pytest.raises(ReadingsError, match="a pressure of 0 kPa is not possible"):
        flow_at_pressure_l_per_min(10.0, from_kpa=0.0, to_kpa=100.0)


def test_no_flow_is_refused() -> None:
    with pytest.raises(ReadingsError, match="a flow ratio of -1 is not possible"):
        pressure_ratio(-1.0)


def test_a_nozzle_without_a_bore_is_refused() -> None:
    with pytest.raises(ReadingsError, match="must be above 0"):
        nozzle_flow_l_per_min(0.0, pressure_kpa=300.0)
