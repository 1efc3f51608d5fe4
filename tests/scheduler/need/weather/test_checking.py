from typing import Any

import numpy as np
import pytest

from scheduler.errors import Finding
from scheduler.need.weather import checked
from tests.scheduler.need.made import plain, series


def _only(findings: tuple[Finding, ...]) -> Finding:
    assert len(findings) == 1, [str(one) for one in findings]
    return findings[0]


def test_a_plain_file_has_no_finding() -> None:
    assert checked(plain())[1] == ()


# An airport log once held 1,048 mph; a public data set of 2013 still does.
def test_an_absurd_wind_is_read_as_not_measured() -> None:
    kept, findings = checked(plain(wind_m_per_s=[2.0, 469.0, 2.5]))
    assert np.isnan(kept.wind_m_per_s).tolist() == [False, True, False]
    assert _only(findings).where == "weather/mast.csv:3: wind"


def test_the_finding_quotes_the_value_in_both_units_and_the_day() -> None:
    what = _only(checked(plain(wind_m_per_s=[2.0, 469.0, 2.5]))[1]).what
    assert "469.0 m/s (1,049.1 mph) on 2026-07-02" in what


def test_several_bad_days_make_one_finding_with_their_number() -> None:
    findings = checked(plain(4, wind_m_per_s=[99.0, 2.0, 98.0, -1.0]))[1]
    assert "(and 2 more days)" in _only(findings).what


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("tmax_degc", 95.0),  # degrees Fahrenheit read as Celsius
        ("tmin_degc", -70.0),
        ("rh_max", 1.2),
        ("rh_mean", -0.1),
        ("rh_min", 0.0),  # a dead sensor
        ("dew_point_degc", 55.0),
        ("vapour_pressure_kpa", 15.0),  # hectopascal read as kilopascal
        ("radiation_mj_per_m2_day", -1.0),
        ("sunshine_h", 25.0),
        ("rain_mm", -2.0),
        ("rain_mm", 600.0),
        ("eto_mm_per_day", 25.0),
    ],
)
def test_a_value_outside_nature_is_read_as_not_measured(
    field: str, value: float
) -> None:
    odd: dict[str, Any] = {field: [value, np.nan, np.nan]}
    kept, findings = checked(plain(**odd))
    assert np.isnan(getattr(kept, field)[0])
    assert findings[0].level == "warning"


def test_swapped_temperatures_lose_both_values_of_that_day() -> None:
    kept, findings = checked(plain(tmin_degc=[15.0, 30.0, 15.0]))
    assert np.isnan(kept.tmax_degc[1])
    assert np.isnan(kept.tmin_degc[1])
    assert "above the highest of that day" in _only(findings).what


def test_swapped_humidities_lose_both_values_of_that_day() -> None:
    kept, _ = checked(plain(rh_min=[0.45, 0.95, 0.45]))
    assert np.isnan([kept.rh_max[1], kept.rh_min[1]]).all()


def test_humidity_just_above_one_is_one() -> None:
    kept, findings = checked(plain(rh_max=1.03))
    assert kept.rh_max.tolist() == [1.0, 1.0, 1.0]
    assert findings == ()


def test_a_dew_point_above_the_highest_temperature_is_refused() -> None:
    assert np.isnan(checked(plain(dew_point_degc=30.0))[0].dew_point_degc).all()


def test_more_vapour_than_the_air_holds_is_refused() -> None:
    # saturation at 28 degC is 3.78 kPa (FAO-56 table 2.3)
    kept, _ = checked(plain(vapour_pressure_kpa=[3.7, 4.2, 1.0]))
    assert np.isnan(kept.vapour_pressure_kpa).tolist() == [False, True, False]


def test_radiation_above_the_atmosphere_is_refused() -> None:
    # FAO-56 table 2.6: Ra at 36 degrees north in July is 41.2 MJ/m2/day
    kept, findings = checked(plain(radiation_mj_per_m2_day=[22.0, 44.0, 30.0]))
    assert np.isnan(kept.radiation_mj_per_m2_day).tolist() == [False, True, False]
    assert "more than arrives above the atmosphere" in _only(findings).what


def test_sunshine_longer_than_the_day_is_refused() -> None:
    # FAO-56 table 2.7: 14.3 h of daylight at 36 degrees north in July
    kept, _ = checked(plain(sunshine_h=[14.0, 16.0, 9.0]))
    assert np.isnan(kept.sunshine_h).tolist() == [False, True, False]


def _varied(n_days: int, **changes: Any) -> Any:
    swing = np.arange(n_days) * 0.1
    base = {
        "tmax_degc": 28.0 + swing,
        "tmin_degc": 15.0 + swing,
        "radiation_mj_per_m2_day": 20.0 + swing,
        "wind_m_per_s": 2.0 + swing,
    }
    return plain(n_days, **(base | changes))


def test_a_sensor_that_hangs_for_a_week_is_reported_but_kept() -> None:
    wind = [1.0, 2.0, 3.1, 3.1, 3.1, 3.1, 3.1, 3.1, 3.1, 2.0]
    kept, findings = checked(_varied(10, wind_m_per_s=wind))
    assert kept.wind_m_per_s.tolist() == wind
    found = _only(findings)
    assert found.where == "weather/mast.csv:4: wind"
    assert "on 7 days in a row from 2026-07-03" in found.what


def test_six_equal_days_are_not_a_stuck_sensor() -> None:
    wind = [1.0, 2.0, 3.1, 3.1, 3.1, 3.1, 3.1, 3.1, 3.0, 2.0]
    assert checked(_varied(10, wind_m_per_s=wind))[1] == ()


def test_missing_days_are_counted_and_never_zero() -> None:
    date = np.array(["2026-07-01", "2026-07-04", "2026-07-05"], dtype="datetime64[D]")
    kept, findings = checked(plain(date=date))
    found = _only(findings)
    assert found.where == "weather/mast.csv:3: date"
    assert "2 days are missing, the first is 2026-07-02" in found.what
    assert kept.date.tolist() == date.tolist()


def test_a_file_without_any_day_passes() -> None:
    assert checked(series(0))[1] == ()


def test_the_input_stays_as_it_was() -> None:
    given = plain(wind_m_per_s=[2.0, 469.0, 2.5])
    checked(given)
    assert given.wind_m_per_s[1] == 469.0
