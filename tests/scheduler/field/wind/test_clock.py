"""What moments the stamps of a logger stand for."""

import datetime as dt
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.field.wind import clock_stamps, read_clock
from tests.scheduler.field.wind.made import NEW_YORK

# The nights of 2013 in New York: clocks forward at 02:00 on 10 March, back at 02:00 on
# 3 November (United States Energy Policy Act of 2005, section 110).
REPEATED = ["2013-11-03T00:50", "2013-11-03T01:10", "2013-11-03T01:30"]


def utc(stamps: list[str], clock: str, *, step_min: float = 0.0,
        zone: str = NEW_YORK) -> list[str]:  # fmt: skip
    reading = read_clock(stamps, clock, time_zone=zone, step_s=60 * step_min)
    # a NaT is an empty text
    return [str(one)[5:16].replace("T", " ") for one in reading.utc]


@pytest.mark.parametrize(
    ("clock", "moment"),
    [
        ("local", "07-01 10:10"),
        ("standard", "07-01 11:10"),
        ("utc", "07-01 06:10"),
        ("+01:00", "07-01 05:10"),
        ("-05:30", "07-01 11:40"),
        ("UTC-5", "07-01 11:10"),
    ],
)
def test_a_summer_stamp_is_read_by_its_clock(clock: str, moment: str) -> None:
    assert utc(["2013-07-01T06:10"], clock) == [moment]


def test_the_morning_after_the_clocks_go_back_is_five_hours_from_utc() -> None:
    assert utc(["2013-11-03T06:10", "2013-11-02T06:10"], "local") == [
        "11-03 11:10",
        "11-02 10:10",
    ]


def test_standard_time_is_winter_time_south_of_the_equator_too() -> None:
    stamps = ["2013-01-15T12:00", "2013-07-15T12:00"]
    moments = ["01-15 02:00", "07-15 02:00"]
    assert utc(stamps, "standard", zone="Australia/Sydney") == moments


def test_zones_of_half_hours_are_read_exactly() -> None:
    assert utc(["2013-07-15T12:00"], "local", zone="Asia/Kolkata") == ["07-15 06:30"]


# --- the hour that comes twice -----------------------------------------------


def test_a_single_stamp_in_the_repeated_hour_is_refused() -> None:
    reading = read_clock(["2013-11-03T01:30"], "local", time_zone=NEW_YORK)
    assert np.isnat(reading.utc[0])
    assert reading.is_repeated[0]


def test_the_hours_around_the_repeated_one_are_plain() -> None:
    stamps = ["2013-11-03T00:59", "2013-11-03T02:00"]
    assert utc(stamps, "local") == ["11-03 04:59", "11-03 07:00"]


def _night(step_min: int) -> list[str]:
    """Local stamps from midnight through both passes to 03:00."""
    start, step = np.datetime64("2013-11-03T04:00"), np.timedelta64(step_min, "m")
    moments = start + np.arange(4 * 60 // step_min) * step
    local = clock_stamps(moments, "local", time_zone=NEW_YORK)
    return [str(one) for one in local]


@pytest.mark.parametrize("step_min", [5, 10, 15, 20, 30, 60])
def test_both_passes_in_order_need_no_offset(step_min: int) -> None:
    read = read_clock(
        _night(step_min), "local", time_zone=NEW_YORK, step_s=60 * step_min
    )
    assert np.all(np.diff(read.utc) == np.timedelta64(60 * step_min, "s"))


def test_a_log_that_begins_with_its_newest_row_is_read_from_its_end() -> None:
    night = _night(10)
    newest = utc(night[::-1], "local", step_min=10)
    assert newest[::-1] == utc(night, "local", step_min=10)


def test_one_pass_alone_is_refused() -> None:
    one_pass = list(dict.fromkeys(_night(10)))
    read = read_clock(one_pass, "local", time_zone=NEW_YORK, step_s=600)
    assert read.is_repeated.sum() == 6


def test_a_row_that_stands_twice_is_not_taken_for_the_second_pass() -> None:
    stamps = ["2013-11-03T01:10", "2013-11-03T01:20", "2013-11-03T01:20"]
    read = read_clock(stamps, "local", time_zone=NEW_YORK, step_s=600)
    assert read.is_repeated.all()


def test_a_night_sorted_by_its_stamps_is_refused() -> None:
    read = read_clock(sorted(_night(10)), "local", time_zone=NEW_YORK, step_s=600)
    assert read.is_repeated.sum() == 12


@pytest.mark.parametrize("clock", ["standard", "utc", "-05:00"])
def test_a_clock_without_daylight_time_repeats_nothing(clock: str) -> None:
    reading = read_clock(REPEATED, clock, time_zone=NEW_YORK)
    assert not reading.is_repeated.any()


# --- the hour that never was -----------------------------------------------------


def test_a_stamp_that_never_was_has_no_moment() -> None:
    stamps = ["2013-03-10T01:59", "2013-03-10T02:30", "2013-03-10T03:00"]
    assert utc(stamps, "local") == ["03-10 06:59", "", "03-10 07:00"]
    reading = read_clock(stamps, "local", time_zone=NEW_YORK)
    assert reading.is_skipped.tolist() == [False, True, False]


# --- laws and refusals -----------------------------------------------------------

MOMENTS = st.datetimes(
    dt.datetime.fromisoformat("2000-01-01"), dt.datetime.fromisoformat("2037-12-31")
)
ZONES = st.sampled_from(
    [NEW_YORK, "Europe/Berlin", "Australia/Lord_Howe", "Africa/Casablanca", "UTC"]
)


@given(
    moment=MOMENTS,
    zone=ZONES,
    clock=st.sampled_from(["local", "standard", "utc", "+05:45"]),
)
def test_what_a_clock_shows_is_read_back(
    moment: dt.datetime, zone: str, clock: str
) -> None:
    there = np.array([moment], dtype="datetime64[s]")
    shown = clock_stamps(there, clock, time_zone=zone)
    reading = read_clock(shown, clock, time_zone=zone)
    assert reading.is_repeated[0] or reading.utc[0] == there[0]
    assert not reading.is_skipped[0]


@given(moment=MOMENTS, zone=ZONES)
def test_a_local_clock_shows_what_the_standard_library_says(
    moment: dt.datetime, zone: str
) -> None:
    expected = moment.replace(tzinfo=dt.UTC).astimezone(ZoneInfo(zone))
    shown = clock_stamps([np.datetime64(moment, "s")], "local", time_zone=zone)
    assert str(shown[0]) == expected.strftime("%Y-%m-%dT%H:%M:%S")


@pytest.mark.parametrize("clock", ["summer", "+25:00", "+1:75", "EST"])
def test_an_unknown_clock_is_refused_with_what_to_write(clock: str) -> None:
    with pytest.raises(SchedulerError, match="local, standard, utc, or a fixed offset"):
        read_clock(["2013-07-01T06:10"], clock, time_zone=NEW_YORK)


@pytest.mark.parametrize("zone", ["America/Nowhere", "", "../etc"])
def test_an_unknown_zone_is_refused_with_what_to_write(zone: str) -> None:
    with pytest.raises(SchedulerError, match="write it like America/New_York"):
        read_clock(["2013-07-01T06:10"], "local", time_zone=zone)


def test_stamps_of_remote_years_are_read_without_failing() -> None:
    assert utc(["0001-01-01T00:00", "9999-12-31T23:00"], "utc")[0] == "01-01 00:00"
    read = read_clock(["9999-12-31T23:00"], "local", time_zone=NEW_YORK)
    assert not np.isnat(read.utc[0])
