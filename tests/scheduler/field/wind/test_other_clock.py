"""Wind of a run by every clock that the log may stand on."""

import pytest

from scheduler.field.wind import other_clock
from tests.scheduler.field.wind.made import (
    M_PER_S_PER_MPH,
    moment,
    morning_log,
    wind_log,
)

BEGIN = moment("2026-05-12T10:10")


def test_both_answers_stand_side_by_side() -> None:
    both = other_clock(morning_log(), start_utc=BEGIN, minutes=40.0)
    local = next(one for one in both.others if one.clock == "local")
    mph = (
        local.wind.mean_m_per_s / M_PER_S_PER_MPH,
        both.declared.wind.mean_m_per_s / M_PER_S_PER_MPH,
    )
    assert mph == pytest.approx((9.1, 2.8))


def test_a_doubtful_clock_is_a_question_with_both_answers() -> None:
    (said,) = other_clock(morning_log(), start_utc=BEGIN, minutes=40.0).findings
    assert said.what == (
        "if the log were local: 9.1 mph, if utc as declared: 2.8 mph: which?"
    )


def test_a_metric_site_reads_the_question_in_its_own_unit() -> None:
    both = other_clock(morning_log(), start_utc=BEGIN, minutes=40.0, system="metric")
    assert "local: 4.1 m/s, if utc as declared: 1.3 m/s" in both.findings[0].what


def test_a_confirmed_clock_is_not_questioned() -> None:
    log = morning_log(clock_is_confirmed=True)
    assert other_clock(log, start_utc=BEGIN, minutes=40.0).findings == ()


def test_a_log_declared_local_looks_where_utc_would_be() -> None:
    # a run at 10:10 UTC is at 06:10 local; were the log in UTC, its rows of the run
    # would be stamped 10:10, which a local clock takes for 14:10 UTC
    log = wind_log([4.0] * 8 + [1.0] * 40 + [2.6] * 8, clock="local",
                   time_zone="America/New_York")  # fmt: skip
    both = other_clock(log, start_utc=BEGIN, minutes=40.0)
    utc = next(one for one in both.others if one.clock == "utc")
    assert utc.wind.mean_m_per_s == pytest.approx(2.6)


def test_clocks_that_hardly_differ_are_no_question() -> None:
    log = wind_log([2.0] * 300, start="2026-05-12T00:00", time_zone="America/New_York")
    both = other_clock(log, start_utc=BEGIN, minutes=40.0)
    assert len(both.others) == 2
    assert both.findings == ()


def test_in_winter_local_and_standard_are_one_clock() -> None:
    log = wind_log([2.0] * 300, start="2026-01-12T00:00", time_zone="America/New_York")
    both = other_clock(log, start_utc=moment("2026-01-12T10:10"), minutes=40.0)
    assert [one.clock for one in both.others] == ["local"]


def test_a_clock_under_which_nothing_is_logged_raises_no_question() -> None:
    log = wind_log([9.0] * 8, time_zone="America/New_York")
    assert other_clock(log, start_utc=BEGIN, minutes=40.0).findings == ()
