"""Nights of 23 and 25 hours."""

import datetime as dt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.watering.night_plan.clock_change import changed_night, moments_of

NEW_YORK = "America/New_York"
# US rule since 2007: clocks go forward on 8 March 2026 and back on 1 November, at 2:00
SPRING, AUTUMN = dt.datetime(2026, 3, 8), dt.datetime(2026, 11, 1)  # noqa: DTZ001


def at(day: dt.datetime, hour: int, minute: int = 0) -> dt.datetime:
    return day.replace(hour=hour, minute=minute)


def test_a_run_over_the_skipped_hour_keeps_its_minutes() -> None:
    run = moments_of(at(SPRING, 1, 50), 30, NEW_YORK)
    assert f"{run.start_utc:%H:%M} {run.end_utc:%H:%M}" == "06:50 07:20"
    assert f"{run.end:%H:%M}" == "03:20"


def test_a_run_over_the_repeated_hour_keeps_its_minutes() -> None:
    run = moments_of(at(AUTUMN, 1, 30), 90, NEW_YORK)
    assert run.end_utc - run.start_utc == dt.timedelta(minutes=90)
    assert f"{run.end:%H:%M}" == "02:00"


def test_a_start_that_is_skipped_counts_on_from_the_evening() -> None:
    run = moments_of(at(SPRING, 2, 30), 10, NEW_YORK)
    assert (f"{run.start:%H:%M}", run.said) == ("03:30", "is skipped that night")


def test_a_start_that_comes_twice_is_the_first() -> None:
    run = moments_of(at(AUTUMN, 1, 30), 10, NEW_YORK)
    assert f"{run.start_utc:%H:%M}" == "05:30"
    assert run.said == "comes twice that night, the first is meant"


def test_other_starts_need_no_word() -> None:
    assert moments_of(at(AUTUMN, 2, 30), 10, NEW_YORK).said == ""


@given(
    st.datetimes(dt.datetime(2020, 1, 1), dt.datetime(2030, 1, 1)),  # noqa: DTZ001
    st.integers(1, 300),
    st.sampled_from([NEW_YORK, "Europe/Berlin", "Australia/Lord_Howe", "UTC"]),
)
def test_every_run_lasts_its_minutes(
    start: dt.datetime, minutes: int, zone: str
) -> None:
    run = moments_of(start, minutes, zone)
    assert run.end_utc - run.start_utc == dt.timedelta(minutes=minutes)


def test_an_unknown_zone_is_refused() -> None:
    with pytest.raises(SchedulerError, match="Mars/Base"):
        moments_of(SPRING, 10, "Mars/Base")


def test_the_spring_night_lacks_the_hour_from_two() -> None:
    found = changed_night(dt.date(2026, 3, 7), 22 * 60, 390, NEW_YORK)
    assert found is not None
    assert found.hours == 23
    assert np.flatnonzero(found.skipped)[[0, -1]].tolist() == [240, 299]


def test_the_autumn_night_has_the_hour_from_one_twice() -> None:
    found = changed_night(dt.date(2026, 10, 31), 22 * 60, 390, NEW_YORK)
    assert found is not None
    assert found.hours == 25
    assert np.flatnonzero(found.repeated)[[0, -1]].tolist() == [180, 239]


def test_half_an_hour_is_seen_as_well() -> None:
    # Lord Howe Island moves by half an hour, on 5 October 2025 at 2:00
    found = changed_night(dt.date(2025, 10, 4), 22 * 60, 390, "Australia/Lord_Howe")
    assert found is not None
    assert (found.hours, found.skipped.sum()) == (23.5, 30)


def test_a_usual_night_has_no_change() -> None:
    assert changed_night(dt.date(2026, 6, 8), 22 * 60, 390, NEW_YORK) is None
