import numpy as np

from scheduler.need.weather import day_of_year
from scheduler.need.weather.days import place_of, seen
from tests.scheduler.need.made import series


def test_day_60_is_29_february_only_in_leap_years() -> None:
    both = np.array(["2024-02-29", "2025-03-01"], dtype="datetime64[D]")
    assert day_of_year(both).tolist() == [60, 60]


def test_a_series_without_lines_is_placed_by_its_file() -> None:
    assert place_of(series(line=()), 0, "rain") == "weather/mast.csv: rain"


def test_a_humidity_is_seen_in_per_cent() -> None:
    assert seen("rh_max", 1.21) == "121 %"


def test_a_value_with_one_unit_is_seen_once() -> None:
    assert seen("radiation_mj_per_m2_day", 55.0) == "55.0 MJ/m²/day"
