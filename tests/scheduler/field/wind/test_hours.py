"""The usual wind of a site by local hour and month."""

import csv
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.field.wind import (
    WindLog,
    at_height,
    usual_by_hour_m_per_s,
    usual_wind,
)
from tests.scheduler.field.wind.made import (
    M_PER_S_PER_MPH,
    NEW_YORK,
    extract_text,
    real_log,
    wind_log,
)


def test_a_row_belongs_to_the_local_hour_of_its_middle() -> None:
    log = wind_log([2.0, 4.0], start="2026-07-01T14:30", step_min=60)
    usual = usual_wind(log, NEW_YORK)
    assert usual.mean_m_per_s[6, 11:13].tolist() == [2.0, 4.0]


def test_hours_follow_the_clocks_of_the_site_through_the_year() -> None:
    summer = usual_wind(wind_log([2.0], start="2026-07-01T14:00"), NEW_YORK)
    winter = usual_wind(wind_log([2.0], start="2026-01-01T14:00"), NEW_YORK)
    assert (summer.n_rows[6, 10], winter.n_rows[0, 9]) == (1, 1)


def test_an_hour_without_rows_has_no_usual_wind() -> None:
    usual = usual_wind(wind_log([2.0]), NEW_YORK)
    assert np.isnan(usual.mean_m_per_s[0, 0])
    assert usual.n_rows[0, 0] == 0


def test_rows_without_a_speed_are_not_counted() -> None:
    log = wind_log([2.0, np.nan, 4.0], start="2026-07-01T14:00")
    usual = usual_wind(log, NEW_YORK)
    assert (usual.n_rows.sum(), usual.mean_m_per_s[6, 10]) == (2, 3.0)


def test_days_are_counted_apart_from_rows() -> None:
    log = wind_log([2.0] * 24 * 12 * 2, start="2026-07-01T04:00")  # two local days
    usual = usual_wind(log, NEW_YORK)
    assert (usual.n_rows[6, 10], usual.n_days[6, 10]) == (24, 2)


def test_months_without_wind_and_with_few_days_are_said() -> None:
    none, few = usual_wind(wind_log([2.0]), NEW_YORK).findings
    assert none.what.startswith("no wind is logged in January, February")
    assert few.what == "less than 7 days are logged in May"


def test_a_whole_year_needs_no_word() -> None:
    log = wind_log([2.0] * 24 * 365, start="2026-01-01T05:00", step_min=60)
    assert usual_wind(log, NEW_YORK).findings == ()


def test_the_gust_of_an_hour_is_its_highest() -> None:
    log = wind_log([2.0, 4.0], start="2026-07-01T14:00", gust=[3.0, 6.0])
    usual = usual_wind(log, NEW_YORK)
    assert usual.gust_m_per_s[6, 10] == 6.0
    assert np.isnan(usual.gust_m_per_s[6, 11])


def test_calm_is_up_to_five_miles_an_hour() -> None:
    speed = [5.0 * M_PER_S_PER_MPH, 5.1 * M_PER_S_PER_MPH, 1.0, 9.0]
    usual = usual_wind(wind_log(speed, start="2026-07-01T14:00"), NEW_YORK)
    assert usual.calm_share[6, 10] == 0.5


def mornings_log(height_m: float) -> WindLog:
    """Three mornings of an hour, two days apart."""
    one = wind_log([2.0] * 12, height_m=height_m)
    starts = [one.start_utc + np.timedelta64(2 * day, "D") for day in range(3)]
    none = np.full(36, np.nan)
    return replace(
        one, start_utc=np.concatenate(starts), speed_m_per_s=np.full(36, 2.0),
        gust_m_per_s=none, direction_deg=none,
    )  # fmt: skip


@pytest.mark.parametrize("height_m", [2.0, 10.0])
def test_a_logger_that_was_away_for_half_a_day_is_said(height_m: float) -> None:
    # from first to last row 97 hours, three of them logged; also brought down to 2 m
    log = at_height(mornings_log(height_m), height_m=2.0)
    said = usual_wind(log, NEW_YORK).findings[-1]
    assert said.what.startswith("2 breaks of more than 12 hours, the longest of 47")
    assert "3 % of the time" in said.what
    assert "carried" in said.fix


def test_a_gap_of_half_a_day_is_no_break() -> None:
    log = wind_log([2.0, 2.0], step_min=12 * 60)
    assert not any("break" in one.what for one in usual_wind(log, NEW_YORK).findings)


def test_no_wind_at_all_is_no_number() -> None:
    usual = usual_wind(wind_log([np.nan]), NEW_YORK)
    assert np.isnan(usual_by_hour_m_per_s(usual)).all()


@given(st.lists(st.floats(0.0, 20.0), min_size=1, max_size=100))
def test_counts_and_means_hold_all_the_wind_of_the_log(speed: list[float]) -> None:
    usual = usual_wind(wind_log(speed, step_min=47), NEW_YORK)
    assert usual.n_rows.sum() == len(speed)
    total = np.nansum(usual.mean_m_per_s * usual.n_rows)
    assert total == pytest.approx(sum(speed))


# --- what the trade says, against a real log ----------------------------------------
# Common practice, no source: wind is highest in the early afternoon and drops again at
# about 17:00. At the coastal airport of Newark, May to August 2013, the first half
# holds loosely: the highest hour begins at 15:00. The second half does not hold by the
# clocks on the wall, which show daylight time: at 17:00 the wind is within 3 % of its
# height, and it falls between 18:00 and 20:00. By standard time the fall is where the
# practice says. So a site looks at its own log before it waters in the evening.


def season_by_hour(time_zone: str = NEW_YORK) -> FloatArray:
    return usual_by_hour_m_per_s(usual_wind(real_log("EWR"), time_zone), range(5, 9))


def test_real_wind_is_highest_in_the_afternoon() -> None:
    assert np.argmax(season_by_hour()) == 15


def test_real_wind_has_not_dropped_at_five_by_daylight_time() -> None:
    wind = season_by_hour()
    assert wind[17] > 0.97 * wind.max()


@pytest.mark.parametrize(("time_zone", "hour"), [(NEW_YORK, 18), ("Etc/GMT+5", 17)])
def test_real_wind_falls_most_an_hour_after_five_by_standard_time(
    time_zone: str, hour: int
) -> None:
    assert np.argmin(np.diff(season_by_hour(time_zone))) == hour


def test_real_wind_is_lowest_before_sunrise() -> None:
    wind = season_by_hour()
    assert np.argmin(wind) == 4
    assert wind[4] < 0.55 * wind.max()


def test_real_hours_and_months_are_those_of_the_publisher_s_local_clock() -> None:
    rows = csv.DictReader(
        line for line in extract_text("EWR").split("\n") if line[:1] != "#"
    )
    july_at_three = [
        float(row["wind_speed (mph)"]) * M_PER_S_PER_MPH
        for row in rows
        if (row["month"], row["hour"]) == ("7", "3")
    ]
    usual = usual_wind(real_log("EWR"), NEW_YORK)
    assert usual.n_rows[6, 3] == len(july_at_three)
    assert usual.mean_m_per_s[6, 3] == pytest.approx(np.mean(july_at_three))
