"""Wind over exactly the window of one run."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import QuantityError
from scheduler.field.wind import checked, run_wind, vector_mean_deg, wind_band
from tests.scheduler.field.wind.made import (
    M_PER_S_PER_MPH,
    moment,
    morning_log,
    wind_log,
)

BEGIN = moment("2026-05-12T10:10")
SPEEDS = st.lists(st.floats(0.0, 20.0), min_size=8, max_size=30)


# --- a morning test against a log in UTC with two rows missing ----------------


def test_six_of_eight_rows_are_three_quarters_of_the_run() -> None:
    wind = run_wind(morning_log(), start_utc=BEGIN, minutes=40.0)
    assert (wind.n_rows, wind.n_expected, wind.share_logged) == (6, 8, 0.75)


def test_the_mean_is_that_of_the_six_rows() -> None:
    wind = run_wind(morning_log(), start_utc=BEGIN, minutes=40.0)
    assert wind.mean_m_per_s == pytest.approx(2.8 * M_PER_S_PER_MPH)


def test_missing_rows_are_said() -> None:
    (said,) = run_wind(morning_log(), start_utc=BEGIN, minutes=40.0).findings
    assert (said.level, said.what) == (
        "note",
        "75 % of the run is logged (6 of 8 rows)",
    )


def test_exactly_the_needed_share_is_enough() -> None:
    assert run_wind(morning_log(), start_utc=BEGIN, minutes=40.0).is_known


def test_a_little_less_than_the_needed_share_is_wind_unknown() -> None:
    wind = run_wind(morning_log(), start_utc=BEGIN, minutes=40.0, needed_share=0.76)
    assert not wind.is_known
    assert wind.band == "unknown"
    assert wind.findings[0].what.endswith("76 % are needed: wind unknown")


def test_what_little_is_logged_can_still_be_shown() -> None:
    wind = run_wind(morning_log(), start_utc=BEGIN, minutes=40.0, needed_share=0.76)
    assert wind.logged_mean_m_per_s == pytest.approx(2.8 * M_PER_S_PER_MPH)


def test_the_highest_row_of_the_window_is_kept_apart_from_the_mean() -> None:
    wind = run_wind(morning_log(), start_utc=BEGIN, minutes=40.0)
    assert wind.highest_m_per_s == pytest.approx(3.2 * M_PER_S_PER_MPH)


# --- the window ----------------------------------------------------------------


def test_a_row_counts_by_the_minutes_that_it_shares_with_the_run() -> None:
    log = wind_log([2.0, 4.0, 9.0])  # 10:10, 10:15, 10:20
    wind = run_wind(log, start_utc=moment("2026-05-12T10:12"), minutes=8.0)
    assert wind.mean_m_per_s == pytest.approx((3 * 2.0 + 5 * 4.0) / 8)


def test_a_run_inside_one_long_row_has_the_wind_of_that_row() -> None:
    log = wind_log([1.0, 3.0], start="2026-05-12T10:00", step_min=60)
    wind = run_wind(log, start_utc=moment("2026-05-12T11:10"), minutes=30.0)
    assert (wind.mean_m_per_s, wind.share_logged) == (3.0, 1.0)


def test_a_log_of_another_day_says_nothing_about_the_run() -> None:
    wind = run_wind(
        wind_log([2.0] * 8), start_utc=moment("2026-05-13T10:10"), minutes=9
    )
    assert (wind.n_rows, wind.share_logged, wind.band) == (0, 0.0, "unknown")
    assert wind.findings[0].what.startswith("none of the run is logged")


def test_a_row_without_a_speed_is_a_gap() -> None:
    wind = run_wind(wind_log([2.0, np.nan, 2.0, 2.0]), start_utc=BEGIN, minutes=20.0)
    assert wind.share_logged == 0.75


def test_rows_of_the_same_moment_do_not_count_twice() -> None:
    log = replace(wind_log([2.0, 4.0], step_min=0), interval_s=300.0)
    wind = run_wind(log, start_utc=BEGIN, minutes=10.0)
    assert (wind.share_logged, wind.logged_mean_m_per_s) == (0.5, 3.0)


def test_the_gust_of_the_run_is_its_highest() -> None:
    log = wind_log([2.0, 2.0, 2.0], gust=[3.0, 5.5, 9.0])
    assert run_wind(log, start_utc=BEGIN, minutes=10.0).gust_m_per_s == 5.5


def test_a_log_without_gusts_has_none() -> None:
    gust = run_wind(wind_log([2.0] * 2), start_utc=BEGIN, minutes=10.0).gust_m_per_s
    assert np.isnan(gust)


def test_the_height_of_the_speeds_goes_with_the_answer() -> None:
    log = wind_log([2.0] * 2, height_m=10.0)
    assert run_wind(log, start_utc=BEGIN, minutes=10.0).height_m == 10.0


@pytest.mark.parametrize("minutes", [0.0, -5.0, 1441.0, float("nan")])
def test_a_run_must_have_minutes(minutes: float) -> None:
    with pytest.raises(QuantityError, match="above 0 and at most 1440"):
        run_wind(wind_log([2.0]), start_utc=BEGIN, minutes=minutes)


# --- direction -------------------------------------------------------------------


def test_directions_on_both_sides_of_north_mean_north() -> None:
    log = wind_log([2.0, 2.0], direction=[350.0, 10.0])
    direction = run_wind(log, start_utc=BEGIN, minutes=10.0).direction_deg
    assert (direction + 180.0) % 360.0 == pytest.approx(180.0)


def test_a_stronger_row_pulls_the_direction_to_itself() -> None:
    # 3 m/s from the east and 4 m/s from the north: atan(3/4) from north
    assert vector_mean_deg([90.0, 0.0], [3.0, 4.0], [1.0, 1.0]) == pytest.approx(
        np.degrees(np.arctan(0.75))
    )


def test_a_calm_row_has_no_direction() -> None:
    assert vector_mean_deg([90.0, 270.0], [2.0, 0.0], [1.0, 1.0]) == pytest.approx(90.0)


@given(angle=st.floats(0.0, 360.0), speed=st.floats(0.1, 30.0))
def test_opposite_winds_have_no_mean_direction(angle: float, speed: float) -> None:
    mean = vector_mean_deg([angle, angle + 180.0], [speed, speed], [1.0, 1.0])
    assert np.isnan(mean)


@given(angle=st.floats(0.0, 359.99), speeds=SPEEDS.filter(lambda s: max(s) > 0.1))
def test_one_direction_is_its_own_mean(angle: float, speeds: list[float]) -> None:
    mean = vector_mean_deg([angle] * len(speeds), speeds, [1.0] * len(speeds))
    assert (mean - angle + 180.0) % 360.0 == pytest.approx(180.0)


# --- bands -----------------------------------------------------------------------


# Limits: Irrigation Association, Recommended Audit Guidelines, 2009, step 2 (5 mph);
# Yacoubi et al., 2012, Engineering 4(10) (stop above 4 m/s).
@pytest.mark.parametrize(
    ("mean", "band"),
    [
        (0.0, "calm"),
        (5.0 * M_PER_S_PER_MPH, "calm"),
        (2.3, "usual"),
        (4.0, "usual"),
        (4.01, "windy"),
        (float("nan"), "unknown"),
    ],
)
def test_bands_end_at_the_limits_for_testing_and_for_operating(
    mean: float, band: str
) -> None:
    assert wind_band(mean) == band


# --- laws ------------------------------------------------------------------------


@given(
    speed=st.floats(0.0, 30.0),
    minutes=st.floats(5.0, 45.0),
    late_s=st.integers(0, 600),
)
def test_the_mean_of_a_constant_wind_is_that_wind(
    speed: float, minutes: float, late_s: int
) -> None:
    begin = BEGIN + np.timedelta64(late_s, "s")
    wind = run_wind(wind_log([speed] * 12), start_utc=begin, minutes=minutes)
    assert wind.mean_m_per_s == pytest.approx(speed)


@given(speeds=SPEEDS, cut_s=st.integers(1, 2399))
def test_a_run_cut_in_two_averages_back(speeds: list[float], cut_s: int) -> None:
    log = wind_log(speeds)
    whole = run_wind(log, start_utc=BEGIN, minutes=40.0, needed_share=0.0)
    first = run_wind(log, start_utc=BEGIN, minutes=cut_s / 60.0)
    second = run_wind(
        log, start_utc=BEGIN + np.timedelta64(cut_s, "s"), minutes=40.0 - cut_s / 60.0
    )
    back = cut_s * first.mean_m_per_s + (2400 - cut_s) * second.mean_m_per_s
    assert back / 2400 == pytest.approx(whole.mean_m_per_s)


@given(speeds=SPEEDS, data=st.data())
def test_the_order_of_the_rows_is_irrelevant(
    speeds: list[float], data: st.DataObject
) -> None:
    log = wind_log(speeds, direction=np.linspace(0.0, 300.0, len(speeds)))
    order = data.draw(st.permutations(range(len(speeds))))
    mixed = replace(
        log,
        start_utc=log.start_utc[order],
        speed_m_per_s=log.speed_m_per_s[order],
        direction_deg=log.direction_deg[order],
    )
    for one, other in ((log, mixed), (checked(log), checked(mixed))):
        first = run_wind(one, start_utc=BEGIN, minutes=33.0)
        again = run_wind(other, start_utc=BEGIN, minutes=33.0)
        assert again.mean_m_per_s == pytest.approx(first.mean_m_per_s, nan_ok=True)
        assert again.direction_deg == pytest.approx(first.direction_deg, nan_ok=True)


@given(speeds=SPEEDS)
def test_the_mean_lies_between_the_lowest_and_the_highest_row(
    speeds: list[float],
) -> None:
    wind = run_wind(wind_log(speeds), start_utc=BEGIN, minutes=40.0)
    assert min(speeds[:8]) - 1e-9 <= wind.mean_m_per_s <= wind.highest_m_per_s + 1e-9


@pytest.mark.parametrize(
    ("mean", "band"), [(2.0, "calm"), (2.6, "usual"), (4.4, "usual"), (4.6, "windy")]
)
def test_above_the_limit_for_testing_the_usual_wind_places_the_bands(
    mean: float, band: str
) -> None:
    # give or take 1 m/s: common practice, no source
    assert wind_band(mean, usual_m_per_s=3.5) == band


@pytest.mark.parametrize("mean", [0.0, 2.2, 3.0, 4.5])
def test_a_usual_wind_within_the_limit_for_testing_moves_no_band(mean: float) -> None:
    assert wind_band(mean, usual_m_per_s=1.5) == wind_band(mean)
