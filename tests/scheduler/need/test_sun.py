"""Published values of these functions are in tests/checks/test_et_checks.py."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need import sun

LATITUDES = st.floats(-60, 60)
DAYS = st.integers(1, 365)


@given(DAYS)
def test_every_day_at_the_equator_has_twelve_hours(day: int) -> None:
    assert float(sun.daylight_h(0.0, day)) == pytest.approx(12.0)


@given(LATITUDES, DAYS)
def test_daylight_of_mirrored_latitudes_adds_up_to_a_day(
    latitude: float, day: int
) -> None:
    both = sun.daylight_h(latitude, day) + sun.daylight_h(-latitude, day)
    assert float(both) == pytest.approx(24.0)


def test_the_sun_does_not_set_beyond_the_circle_in_midsummer() -> None:
    assert float(sun.daylight_h(70.0, 172)) == pytest.approx(24.0)


def test_the_sun_does_not_rise_beyond_the_circle_in_midwinter() -> None:
    assert float(sun.extraterrestrial_radiation_mj_per_m2_day(70.0, 355)) == 0.0


@given(LATITUDES, DAYS, st.floats(0, 3000))
def test_a_clear_sky_passes_less_than_arrives(
    latitude: float, day: int, height: float
) -> None:
    above = sun.extraterrestrial_radiation_mj_per_m2_day(latitude, day)
    clear = sun.clear_sky_radiation_mj_per_m2_day(above, elevation_m=height)
    assert 0 <= float(clear) <= float(above)


def test_full_sunshine_is_three_quarters_of_what_arrives() -> None:
    # FAO-56 equation 36: as + bs = 0.75
    rs = sun.sunshine_radiation_mj_per_m2_day(
        12.0, daylight_h=12.0, extraterrestrial_mj_per_m2_day=40.0
    )
    assert float(rs) == pytest.approx(30.0)


def test_radiation_above_a_clear_sky_cools_no_more_than_a_clear_sky() -> None:
    def rnl(rs: float) -> float:
        return float(
            sun.net_longwave_mj_per_m2_day(
                25.0,
                15.0,
                vapour_pressure_kpa=1.5,
                radiation_mj_per_m2_day=rs,
                clear_sky_mj_per_m2_day=28.0,
            )
        )

    assert rnl(30.0) == rnl(28.0) > rnl(20.0)


def test_days_in_rows_meet_stations_in_columns() -> None:
    day, latitude = np.arange(1, 366)[:, None], np.array([10.0, 50.0])
    ra = sun.extraterrestrial_radiation_mj_per_m2_day(latitude, day)
    alone = sun.extraterrestrial_radiation_mj_per_m2_day(50.0, 200)
    assert ra.shape == (365, 2)
    assert ra[199, 1] == pytest.approx(float(alone))
