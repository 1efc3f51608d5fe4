"""What other years had on the same days."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.other_years import (
    day_of_plain_year,
    other_years_sums_mm,
    own_average_eto_mm_per_day,
)
from tests.scheduler.need.made import days, station

JUNE = days("2026-06-08")


def test_the_last_day_of_a_leap_year_is_day_365() -> None:
    assert day_of_plain_year(days("2028-12-31", 1)).tolist() == [365]


def test_each_year_weighs_the_same_whatever_days_it_lacks() -> None:
    # one year knows four days of the window, the other all seven
    two = np.concatenate([np.full(365, 4.0), np.full(400, 6.0)])
    two[155:158] = np.nan  # 5 to 7 June 2024
    found = own_average_eto_mm_per_day(
        station("2024-01-02", two), days("2026-06-08", 1), least_years=2
    )
    assert found.tolist() == [5.0]


def test_a_year_with_three_of_seven_days_does_not_count() -> None:
    lost = np.full(800, 5.0)
    lost[155:159] = np.nan
    found = own_average_eto_mm_per_day(
        station("2024-01-02", lost), days("2026-06-08", 1), least_years=2
    )
    assert np.isnan(found).all()


def test_the_year_of_the_asked_day_is_no_other_year() -> None:
    found = own_average_eto_mm_per_day(station("2026-05-01", np.full(90, 5.0)), JUNE)
    assert np.isnan(found).all()


def test_a_station_that_knows_nothing_says_nothing() -> None:
    nothing = station("2025-01-01", np.full(365, np.nan))
    assert np.isnan(own_average_eto_mm_per_day(nothing, JUNE)).all()
    assert other_years_sums_mm(nothing, JUNE).size == 0


def test_one_sum_a_year_over_the_same_dates() -> None:
    # 2023 all 4, 2024 all 5 (a leap year), 2025 all 6
    eto = np.concatenate([np.full(365, 4.0), np.full(366, 5.0), np.full(365, 6.0)])
    found = other_years_sums_mm(station("2023-01-01", eto), JUNE)
    assert sorted(found.tolist()) == [28.0, 35.0, 42.0]


def test_two_lost_days_take_the_mean_of_their_week_never_zero() -> None:
    eto = np.full(365, 4.0)
    eto[158:160] = np.nan
    assert other_years_sums_mm(station("2025-01-01", eto), JUNE).tolist() == [28.0]


def test_three_lost_days_leave_the_year_out() -> None:
    eto = np.full(365, 4.0)
    eto[158:161] = np.nan
    assert other_years_sums_mm(station("2025-01-01", eto), JUNE).size == 0


def test_a_week_over_new_year_belongs_to_one_year() -> None:
    eto = np.concatenate([np.full(3, 1.0), np.full(4, 2.0)])
    found = other_years_sums_mm(station("2024-12-29", eto), days("2026-12-29"))
    assert found.tolist() == [11.0]


@given(st.integers(0, 3000))
def test_a_steady_climate_answers_with_itself_on_any_day(later: int) -> None:
    steady = station("2019-01-01", np.full(365 * 4, 5.0))
    asked = days("2019-01-01") + later
    found = own_average_eto_mm_per_day(steady, asked)
    assert found == pytest.approx(np.full(7, 5.0))
