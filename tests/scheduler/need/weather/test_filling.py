"""Fill-in rules of FAO-56 chapter 3; Example 20 is among tests/checks."""

import numpy as np
import pytest

from scheduler.errors import Finding
from scheduler.need import air, sun
from scheduler.need.weather import Weather, day_of_year, filled
from tests.scheduler.need.made import place, plain, series


def _about(findings: tuple[Finding, ...], quantity: str) -> Finding:
    (found,) = [one for one in findings if one.where.endswith(quantity)]
    return found


def _ea(weather: Weather) -> float:
    return float(weather.vapour_pressure_kpa[0])


def test_measured_weather_needs_no_rule() -> None:
    weather, findings = filled(plain(), place())
    assert findings == ()
    assert not weather.guessed.any()


# --- humidity, by priority ------------------------------------------------


def test_measured_vapour_pressure_comes_first() -> None:
    weather, _ = filled(plain(vapour_pressure_kpa=1.5, dew_point_degc=10.0), place())
    assert _ea(weather) == 1.5


def test_dew_point_comes_before_humidity() -> None:
    # FAO-56 table 2.3: 1.498 kPa at 13 degC
    weather, _ = filled(plain(dew_point_degc=13.0), place())
    assert _ea(weather) == pytest.approx(1.498, abs=0.001)


def test_both_extremes_come_before_the_mean() -> None:
    weather, findings = filled(plain(rh_mean=0.2), place())
    # equation 17 by hand: e0(15) 1.705, e0(28) 3.780 (table 2.3)
    assert _ea(weather) == pytest.approx((1.705 * 0.9 + 3.780 * 0.45) / 2, abs=0.002)
    assert findings == ()


def test_highest_humidity_alone_is_a_note() -> None:
    weather, findings = filled(plain(rh_min=None, rh_mean=0.2), place())
    assert _ea(weather) == pytest.approx(1.705 * 0.9, abs=0.001)
    assert _about(findings, "humidity").level == "note"


def test_mean_humidity_alone_is_a_note() -> None:
    weather, findings = filled(plain(rh_min=None, rh_max=None, rh_mean=0.6), place())
    assert _ea(weather) == pytest.approx((1.705 + 3.780) / 2 * 0.6, abs=0.002)
    assert "equation 19" in _about(findings, "humidity").what


def test_without_humidity_the_dew_point_is_the_lowest_temperature() -> None:
    weather, findings = filled(plain(rh_min=None, rh_max=None), place())
    assert _ea(weather) == pytest.approx(1.705, abs=0.001)
    assert _about(findings, "humidity").level == "warning"
    assert weather.guessed.all()


def test_in_an_arid_place_the_dew_point_lies_2_degrees_lower() -> None:
    weather, findings = filled(plain(rh_min=None, rh_max=None), place(is_arid=True))
    # FAO-56 table 2.3: 1.498 kPa at 13 degC
    assert _ea(weather) == pytest.approx(1.498, abs=0.001)
    assert "minus 2 °C" in _about(findings, "humidity").what


def test_each_day_takes_the_best_that_day_has() -> None:
    weather, findings = filled(
        plain(dew_point_degc=[np.nan, 13.0, np.nan], rh_max=[0.9, np.nan, np.nan]),
        place(),
    )
    kept = weather.vapour_pressure_kpa
    assert kept[1] == pytest.approx(1.498, abs=0.001)
    assert kept[2] == pytest.approx(1.705, abs=0.001)
    found = _about(findings, "humidity")
    assert "on 1 of 3 days" in found.what
    assert "first on 2026-07-03" in found.what
    assert found.where == "weather/mast.csv:4: humidity"


# --- radiation ---------------------------------------------------------------


def _clear() -> float:
    day = day_of_year(plain().date)
    above = sun.extraterrestrial_radiation_mj_per_m2_day(36.0, day)
    return float(sun.clear_sky_radiation_mj_per_m2_day(above, elevation_m=270.0)[0])


def test_sunshine_hours_stand_in_for_radiation_as_a_note() -> None:
    weather, findings = filled(
        plain(radiation_mj_per_m2_day=None, sunshine_h=9.0), place()
    )
    day = day_of_year(plain().date)
    above = sun.extraterrestrial_radiation_mj_per_m2_day(36.0, day)
    expected = (0.25 + 0.5 * 9.0 / sun.daylight_h(36.0, day)) * above
    assert weather.radiation_mj_per_m2_day == pytest.approx(expected)
    assert _about(findings, "radiation").level == "note"


def test_at_a_coast_the_same_span_of_temperature_means_more_sun() -> None:
    # FAO-56 equation 50: kRs 0.19 against 0.16
    gone = plain(radiation_mj_per_m2_day=None)
    inland, _ = filled(gone, place())
    coast, _ = filled(gone, place(is_coastal=True))
    ratio = coast.radiation_mj_per_m2_day / inland.radiation_mj_per_m2_day
    assert ratio == pytest.approx(0.19 / 0.16)


def test_radiation_from_temperature_never_exceeds_a_clear_sky() -> None:
    hot = plain(radiation_mj_per_m2_day=None, tmax_degc=45.0, tmin_degc=5.0)
    weather, _ = filled(hot, place())
    assert float(weather.radiation_mj_per_m2_day[0]) == pytest.approx(_clear())


def test_a_sensor_far_above_a_clear_sky_is_held_and_reported() -> None:
    weather, findings = filled(plain(radiation_mj_per_m2_day=38.0), place())
    assert float(weather.radiation_mj_per_m2_day[0]) == pytest.approx(1.05 * _clear())
    assert "held at 5 % above a clear sky" in _about(findings, "radiation").what


# --- wind -----------------------------------------------------------------------


def test_wind_is_brought_down_from_its_height() -> None:
    # FAO-56 Example 14: 3.2 m/s at 10 m are 2.4 m/s at 2 m
    weather, _ = filled(plain(wind_m_per_s=3.2, wind_height_m=10.0), place())
    assert float(weather.wind_2m_m_per_s[0]) == pytest.approx(2.4, abs=0.05)


def test_an_unknown_height_is_taken_as_2_m_with_a_warning() -> None:
    weather, findings = filled(plain(wind_height_m=None), place())
    assert weather.wind_2m_m_per_s.tolist() == [2.0, 2.0, 2.0]
    found = _about(findings, "wind")
    assert (found.level, "wind_height_m" in found.fix) == ("warning", True)


def test_an_impossible_height_is_taken_as_2_m_with_a_warning() -> None:
    _, findings = filled(plain(wind_height_m=0.1), place())
    assert "taken as 2 m" in _about(findings, "wind").what


def test_missing_wind_is_2_m_per_s_with_a_warning() -> None:
    weather, findings = filled(plain(wind_m_per_s=None), place())
    assert weather.wind_2m_m_per_s.tolist() == [2.0, 2.0, 2.0]
    assert _about(findings, "wind").level == "warning"


def test_missing_wind_says_nothing_about_the_height_of_its_sensor() -> None:
    _, findings = filled(plain(wind_m_per_s=None, wind_height_m=None), place())
    assert len(findings) == 1


def test_wind_never_falls_below_half_a_metre_per_second() -> None:
    weather, findings = filled(plain(wind_m_per_s=[0.0, 2.0, 2.0]), place())
    assert float(weather.wind_2m_m_per_s[0]) == air.LOWEST_WIND_M_PER_S
    assert _about(findings, "wind").level == "note"


# --- days that are not complete -------------------------------------------------


def test_a_day_without_temperatures_stays_unknown() -> None:
    weather, _ = filled(plain(tmax_degc=[28.0, np.nan, 28.0]), place())
    assert np.isnan(weather.tmax_degc).tolist() == [False, True, False]


def test_a_file_with_only_dates_and_eto_needs_no_rule() -> None:
    weather, findings = filled(series(eto_mm_per_day=5.0), place())
    assert findings == ()
    assert np.isnan(weather.wind_2m_m_per_s).all()


def test_guesses_that_a_stated_eto_makes_idle_are_not_reported() -> None:
    warm = series(tmax_degc=28.0, tmin_degc=15.0, eto_mm_per_day=[5.0, 5.0, np.nan])
    _, findings = filled(warm, place())
    assert len(findings) == 3
    assert all("on 1 of 3 days" in one.what for one in findings)


def test_the_flags_name_quantity_rule_and_days() -> None:
    weather, _ = filled(plain(wind_m_per_s=[np.nan, 2.0, 2.0]), place())
    used = {rule: days.tolist() for rule, days in weather.filled.items() if days.any()}
    assert list(used.values()) == [[True, False, False]]
    assert next(iter(used)).startswith("wind: 2 m/s")


def test_days_of_which_only_temperatures_were_measured_are_known() -> None:
    weather, _ = filled(
        series(tmax_degc=28.0, tmin_degc=15.0, wind_m_per_s=[np.nan, 2.0, np.nan]),
        place(),
    )
    assert weather.only_temperature.tolist() == [True, False, True]
