"""Every day of one season: measured, or said to stand in."""

from typing import Any

import numpy as np
import pytest

from scheduler.errors import Finding
from scheduler.need.season_days import SeasonDays, full_years, season_days
from scheduler.record import Origin
from tests.scheduler.need.made import day, station

YEAR = np.full(365, 3.0)


def _typical(rain: Any = 2.0) -> Any:
    return station(
        "1990-01-01", YEAR, name="airport", is_typical_year=True,
        rain_mm=np.full(365, rain),
    )  # fmt: skip


def _days(
    *series: Any, year: int | None = None
) -> tuple[SeasonDays, tuple[Finding, ...]]:
    found, said = season_days(series, None, year=year)
    assert found is not None, said
    return found, said


def test_a_forecast_is_no_year_with_weather() -> None:
    told = station(
        "2025-01-01", np.full(365, 5.0), origin=Origin(issued=day("2025-01-01"))
    )
    assert full_years([told]) == ()


def test_the_last_full_year_is_taken() -> None:
    two = station("2024-01-01", np.full(366 + 365, 3.0))
    assert _days(two)[0].name == "2025"


def test_a_year_with_a_summer_only_is_not_full() -> None:
    assert full_years([station("2025-05-01", np.full(120, 3.0))]) == ()


def test_a_leap_year_has_its_day() -> None:
    found, _ = _days(station("2024-01-01", np.full(366, 3.0)))
    assert found.date.size == 366


def test_without_a_full_year_the_typical_one_is_used_and_said() -> None:
    found, said = _days(_typical())
    assert found.name == "typical year airport"
    assert "how years differ" in said[0].what


def test_rain_of_a_typical_year_goes_with_its_season() -> None:
    assert _days(_typical())[0].rain_mm.sum() == pytest.approx(730.0)


def test_rain_of_a_typical_year_never_falls_on_a_real_one() -> None:
    real = station("2025-01-01", YEAR, rain_mm=np.full(365, np.nan))
    assert _days(real, _typical(), year=2025)[0].rain_mm.sum() == 0.0


def test_rain_that_nobody_knows_is_said() -> None:
    real = station("2025-01-01", YEAR, rain_mm=np.full(365, np.nan))
    _, said = _days(real)
    assert "rain of 365 days is not known" in said[-1].what


def test_days_that_a_typical_year_lends_are_said() -> None:
    half = station("2025-01-01", np.full(200, 3.0))
    _, said = _days(half, _typical(), year=2025)
    assert "165 days: same days of a typical year" in said[0].what


def test_a_year_without_weather_stops() -> None:
    found, said = season_days([], None, year=2025)
    assert found is None
    assert said[0].level == "stop"


def test_a_site_without_any_weather_stops() -> None:
    found, said = season_days([], None, year=None)
    assert found is None
    assert "full years: none" in said[0].what


def test_a_short_typical_year_stops() -> None:
    short = station("1990-01-01", np.full(30, 3.0), is_typical_year=True)
    assert season_days([short], None, year=None)[0] is None


def test_a_year_of_which_no_day_is_measured_is_no_season() -> None:
    found, (said,) = season_days([station("2024-01-01", YEAR)], None, year=2030)
    assert found is None
    assert "no daily weather for 2030 (full years: 2024)" in said.what
    assert "name no year" in said.fix


def test_a_typical_year_of_several_years_is_refused() -> None:
    long = station("1990-01-01", np.full(1254, 3.0), is_typical_year=True)
    found, (said,) = season_days([long], None, year=None)
    assert found is None
    assert said.level == "stop"
    assert "1254 days" in said.what
