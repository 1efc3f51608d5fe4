"""Starts of intervals in UTC, and the choice to make where there is none."""

import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.field.wind import run_wind, stamps_to_utc, utc_of
from tests.scheduler.field.wind.made import NEW_YORK, moment, wind_log


def read(stamps: list[str], **given: Any) -> Any:
    how: dict[str, Any] = {"mark": "start", "interval_s": 300.0} | given
    return stamps_to_utc(stamps, "local", time_zone=NEW_YORK, **how)


def local(text: str) -> dt.datetime:
    return dt.datetime.fromisoformat(text)


def test_a_stamp_at_the_end_of_its_interval_begins_earlier() -> None:
    starts, _ = read(["2013-07-01T06:15"], mark="end")
    assert starts[0] == moment("2013-07-01T10:10")


def test_an_interval_that_ends_after_the_clocks_go_forward_begins_before() -> None:
    # 03:00 daylight time is the moment after 01:59 standard time; durations are in UTC
    starts, said = read(["2013-03-10T03:00"], mark="end", interval_s=3600.0)
    assert (starts[0], said) == (moment("2013-03-10T06:00"), ())


def test_the_repeated_hour_is_refused_with_both_ways_to_write_it() -> None:
    starts, (said,) = read(["2013-11-03T01:30"], where="wind/mast.csv:7")
    assert np.isnat(starts[0])
    assert (said.level, said.where) == ("stop", "wind/mast.csv:7")
    assert "came twice in America/New_York, at offset -04:00 and again at -05:00" in (
        said.what
    )
    assert "2013-11-03T01:30-04:00 or 2013-11-03T01:30-05:00" in said.fix


def test_an_hour_that_never_was_shows_a_clock_without_daylight_time() -> None:
    _, (said,) = read(["2013-03-10T02:30", "2013-03-10T02:35"])
    assert "does not observe daylight time (1 more like this)" in said.what
    assert said.fix.startswith("state the clock as standard")


# --- the start of a run ----------------------------------------------------------


@pytest.mark.parametrize(
    ("date", "begin"),
    [("2013-11-02", "2013-11-02T10:10"), ("2013-11-03", "2013-11-03T11:10")],
)
def test_a_test_the_morning_after_the_clocks_go_back_uses_the_new_offset(
    date: str, begin: str
) -> None:
    start, said = utc_of(
        local(f"{date}T06:10"), time_zone=NEW_YORK, where="test.toml: start"
    )
    assert (start, said) == (moment(begin), ())


def test_half_past_one_on_the_night_of_the_change_is_refused() -> None:
    start, (said,) = utc_of(
        local("2013-11-03T01:30"), time_zone=NEW_YORK, where="test.toml:9: start"
    )
    assert start is None
    assert (said.level, said.where) == ("stop", "test.toml:9: start")


@pytest.mark.parametrize(("hours", "begin"), [(-4, "05:30"), (-5, "06:30")])
def test_an_offset_settles_which_half_past_one_is_meant(hours: int, begin: str) -> None:
    there = dt.timezone(dt.timedelta(hours=hours))
    start, said = utc_of(
        dt.datetime(2013, 11, 3, 1, 30, tzinfo=there), time_zone=NEW_YORK, where="t"
    )
    assert (start, said) == (moment(f"2013-11-03T{begin}"), ())


def test_a_run_through_the_change_of_clocks_keeps_its_minutes() -> None:
    # from 00:50 daylight time for 100 minutes: 04:50 to 06:30 UTC
    start, _ = utc_of(local("2013-11-03T00:50"), time_zone=NEW_YORK, where="t")
    log = wind_log([1.0] * 10 + [3.0] * 10, start="2013-11-03T04:50")
    assert start is not None
    wind = run_wind(log, start_utc=start, minutes=100.0)
    assert (wind.n_rows, wind.mean_m_per_s) == (20, 2.0)
