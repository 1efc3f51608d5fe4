"""The guarded door to the ET library; published days are in tests/checks."""

from typing import Any

import numpy as np
import pandas as pd
import pyet
import pytest
import refet
from hypothesis import given
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.errors import WeatherError
from scheduler.need.penman_monteith import BLOCK, penman_monteith_eto_mm_per_day

# FAO-56 Example 18 (p. 72): Uccle, 6 July, ETo 3.88 (printed 3.9)
UCCLE: dict[str, Any] = {
    "tmax_degc": 21.5,
    "tmin_degc": 12.3,
    "vapour_pressure_kpa": 1.409,
    "radiation_mj_per_m2_day": 22.07,
    "wind_2m_m_per_s": 2.078,
    "latitude_deg": 50.8,
    "elevation_m": 100.0,
    "day_of_year": 187,
}


def _eto(**changes: Any) -> FloatArray:
    return penman_monteith_eto_mm_per_day(**(UCCLE | changes))


def test_the_published_day_comes_out() -> None:
    # 0.005: half of the last digit that the worked example carries
    assert float(_eto()) == pytest.approx(3.88, abs=0.005)


def test_the_published_day_of_the_library_authors_comes_out_for_tall_grass() -> None:
    # RefET test suite, Fallon NV, 1 July 2015: ETrs 10.6261 mm/day; wind at 2 m is
    # the suite's own 1.976 m/s, so 0.005 covers the rounding of its inputs
    etr = penman_monteith_eto_mm_per_day(
        tmax_degc=39.333333,
        tmin_degc=19.25,
        vapour_pressure_kpa=1.220667417,
        radiation_mj_per_m2_day=28.22196276,
        wind_2m_m_per_s=1.976111757722194,
        latitude_deg=39.4575,
        elevation_m=1208.5,
        day_of_year=182,
        is_tall=True,
    )
    assert float(etr) == pytest.approx(10.6261, abs=0.005)


def _random_days(n: int) -> dict[str, Any]:
    rng = np.random.default_rng(20240)
    tmin = rng.uniform(-5, 25, n)
    tmax = tmin + rng.uniform(2, 20, n)
    held = 0.6108 * np.exp(17.27 * tmin / (tmin + 237.3))
    return {
        "tmax_degc": tmax,
        "tmin_degc": tmin,
        "vapour_pressure_kpa": held * rng.uniform(0.3, 1.0, n),
        "radiation_mj_per_m2_day": rng.uniform(3, 25, n),
        "wind_2m_m_per_s": rng.uniform(0.5, 7, n),
        "day_of_year": np.arange(n) % 365 + 1.0,
    }


def test_another_library_by_other_authors_agrees_on_2000_days() -> None:
    given = _random_days(2000)
    # from 2025, a year of 365 days, so that its index has our days of the year
    index = pd.DatetimeIndex(
        [pd.Timestamp(2025, 1, 1) + pd.Timedelta(days=i % 365) for i in range(365)]
    )
    theirs = []
    for start in range(0, 2000, 365):
        part = {name: values[start : start + 365] for name, values in given.items()}
        days = index[: len(part["tmax_degc"])]
        one = {name: pd.Series(values, index=days) for name, values in part.items()}
        theirs.append(
            pyet.pm_asce(
                (one["tmax_degc"] + one["tmin_degc"]) / 2,
                one["wind_2m_m_per_s"],
                rs=one["radiation_mj_per_m2_day"],
                tmax=one["tmax_degc"],
                tmin=one["tmin_degc"],
                ea=one["vapour_pressure_kpa"],
                elevation=270.0,
                lat=np.radians(36.0),
            ).to_numpy()
        )
    ours = penman_monteith_eto_mm_per_day(**given, latitude_deg=36.0, elevation_m=270.0)
    # The two round constants differently (4098 x 0.6108 against 2503, sigma 4.903e-9
    # against 4.901e-9): up to 0.002 mm/day; 0.005 is half of what anybody prints.
    np.testing.assert_allclose(ours, np.concatenate(theirs), atol=0.005, rtol=0)


# --- shapes and the library's traps ---------------------------------------------


def test_a_single_day_has_no_axis() -> None:
    assert _eto().shape == ()


def test_whole_numbers_are_welcome() -> None:
    # the library itself raises a casting error on these
    whole = _eto(latitude_deg=51, elevation_m=100, tmax_degc=22, tmin_degc=12)
    assert float(whole) == pytest.approx(3.9, abs=0.1)


def test_stations_in_columns_equal_stations_one_by_one() -> None:
    given = _random_days(40)
    day = given.pop("day_of_year")
    grid: dict[str, Any] = {
        name: np.stack([v, v[::-1], v + 0.1], axis=1) for name, v in given.items()
    }
    latitude, height = np.array([10.0, 36.0, 55.0]), np.array([0.0, 270.0, 1500.0])
    together = penman_monteith_eto_mm_per_day(
        **grid, latitude_deg=latitude, elevation_m=height, day_of_year=day
    )
    for s in range(3):
        column: dict[str, Any] = {name: v[:, s] for name, v in grid.items()}
        alone = penman_monteith_eto_mm_per_day(
            **column,
            latitude_deg=latitude[s],
            elevation_m=height[s],
            day_of_year=day,
        )
        np.testing.assert_array_equal(together[:, s], alone)


def test_blocks_change_nothing() -> None:
    n = 2 * BLOCK + 7
    given = _random_days(n)
    whole = refet.Daily(
        tmin=given["tmin_degc"],
        tmax=given["tmax_degc"],
        rs=given["radiation_mj_per_m2_day"],
        # the library multiplies wind "at 2 m" by 1.0002; the adapter undoes that
        uz=given["wind_2m_m_per_s"] * np.log(67.8 * 2.0 - 5.42) / 4.87,
        zw=2.0,
        elev=270.0,
        lat=36.0,
        doy=given["day_of_year"],
        ea=given["vapour_pressure_kpa"],
        method="asce",
    ).eto()
    ours = penman_monteith_eto_mm_per_day(**given, latitude_deg=36.0, elevation_m=270.0)
    np.testing.assert_allclose(ours, np.maximum(whole, 0.0), rtol=1e-12)


def test_no_days_give_no_eto() -> None:
    assert _eto(tmax_degc=np.zeros(0), tmin_degc=np.zeros(0)).shape == (0,)


def test_a_day_of_frost_under_a_clear_sky_counts_as_no_et() -> None:
    frosty = _eto(
        tmax_degc=-10.0,
        tmin_degc=-15.0,
        vapour_pressure_kpa=0.28,
        radiation_mj_per_m2_day=5.0,
        day_of_year=355,
    )
    assert float(frosty) == 0.0


@given(
    st.floats(-40, 35),
    st.floats(0, 24),
    st.floats(0.01, 6),
    st.floats(0, 40),
    st.floats(0.5, 20),
)
def test_eto_is_never_negative(
    low: float, span: float, ea: float, rs: float, wind: float
) -> None:
    eto = _eto(
        tmax_degc=low + span,
        tmin_degc=low,
        vapour_pressure_kpa=ea,
        radiation_mj_per_m2_day=rs,
        wind_2m_m_per_s=wind,
    )
    assert float(eto) >= 0.0


@given(st.floats(0.5, 8), st.floats(0.5, 19))
def test_more_sun_never_needs_less(wind: float, more: float) -> None:
    dull = _eto(wind_2m_m_per_s=wind, radiation_mj_per_m2_day=11.0)
    bright = _eto(wind_2m_m_per_s=wind, radiation_mj_per_m2_day=11.0 + more)
    assert float(bright) >= float(dull)


# --- refusals ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"tmax_degc": 10.0}, "tmax_degc is 10, below tmin_degc"),
        ({"radiation_mj_per_m2_day": -1.0}, "radiation_mj_per_m2_day is -1, outside"),
        ({"wind_2m_m_per_s": np.nan}, "wind_2m_m_per_s is missing"),
        ({"vapour_pressure_kpa": None}, "vapour_pressure_kpa is missing"),
        ({"vapour_pressure_kpa": 14.0}, "outside 0 to 8"),
        ({"latitude_deg": 89.0}, "latitude_deg is 89"),
        ({"elevation_m": 9000.0}, "elevation_m is 9000"),
        ({"day_of_year": 0}, "day_of_year is 0"),
        ({"tmax_degc": np.inf}, "tmax_degc is inf"),
    ],
)
def test_what_the_library_would_swallow_is_refused(
    change: dict[str, Any], says: str
) -> None:
    with pytest.raises(WeatherError) as caught:
        _eto(**change)
    assert says in caught.value.what


def test_the_refusal_names_the_day_and_the_station() -> None:
    wind = np.full((400, 90), 2.0)
    wind[399, 4] = np.nan
    with pytest.raises(WeatherError) as caught:
        _eto(wind_2m_m_per_s=wind, day_of_year=np.arange(400) % 365 + 1)
    assert caught.value.where == "day 400, station 5 (day of year 35)"
