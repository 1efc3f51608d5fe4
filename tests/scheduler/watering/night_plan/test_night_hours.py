"""Windows and blocked hours by the minute."""

import datetime as dt

from scheduler.site import BlockedHours, Window
from scheduler.watering.night_plan.night_hours import night_hours
from tests.scheduler.watering.night_plan.made import DATES, NIGHT, site


def _minutes(*windows: Window, blocked: tuple[BlockedHours, ...] = ()) -> list[int]:
    hours = night_hours(site(windows=windows, blocked_hours=blocked), DATES)
    return [int(n) for n in hours.is_open.sum(axis=1)]


def test_a_night_that_crosses_midnight_has_all_its_minutes() -> None:
    assert _minutes(NIGHT) == [390] * 7


def test_a_minute_after_midnight_bears_the_next_date() -> None:
    hours = night_hours(site(), DATES)
    assert hours.clock(0, 389) == dt.datetime.fromisoformat("2026-06-09T04:29")


def test_days_of_a_window_name_the_night() -> None:
    early = Window(start=dt.time(4), end=dt.time(6), days=("mon",))
    late = Window(start=dt.time(22), end=dt.time(2), days=("mon",))
    hours = night_hours(site(windows=(late, early)), DATES)
    assert hours.is_open.sum(axis=1).tolist() == [360, 0, 0, 0, 0, 0, 0]
    assert hours.clock(0, 0) == dt.datetime.fromisoformat("2026-06-08T22:00")
    assert hours.is_open[0, 360]


def test_a_window_in_the_morning_is_that_of_its_own_day() -> None:
    morning = Window(start=dt.time(5), end=dt.time(9), days=("mon",))
    hours = night_hours(site(windows=(morning,)), DATES)
    assert hours.clock(0, 0) == dt.datetime.fromisoformat("2026-06-08T05:00")


def test_without_a_window_every_minute_is_open() -> None:
    assert _minutes() == [1440] * 7


def test_two_windows_that_overlap_are_one() -> None:
    long = Window(start=dt.time(23), end=dt.time(5))
    assert _minutes(NIGHT, long) == [420] * 7


def test_blocked_hours_go_by_the_calendar_day() -> None:
    # Tuesday's early hours belong to Monday's night
    spraying = BlockedHours(
        start=dt.time(3), end=dt.time(4), days=("tue",), reason="spraying"
    )
    assert _minutes(NIGHT, blocked=(spraying,)) == [330, 390, 390, 390, 390, 390, 390]


def test_blocked_hours_may_cross_midnight() -> None:
    people = BlockedHours(
        start=dt.time(23), end=dt.time(1), days=("mon",), reason="people"
    )
    assert _minutes(NIGHT, blocked=(people,))[:2] == [270, 390]


def test_blocked_hours_of_the_day_before_the_week_reach_into_no_night() -> None:
    frost = BlockedHours(
        start=dt.time(21), end=dt.time(23), days=("sun",), reason="frost stand-by"
    )
    assert _minutes(NIGHT, blocked=(frost,)) == [390] * 6 + [330]


def test_hours_blocked_for_one_zone_leave_the_others_open() -> None:
    own = BlockedHours(
        start=dt.time(3), end=dt.time(4), reason="restriction", zones=("1",)
    )
    hours = night_hours(site(blocked_hours=(own,)), DATES)
    assert hours.is_open.sum(axis=1).tolist() == [390] * 7
    assert hours.without([own]).sum(axis=1).tolist() == [330] * 7


def test_an_hour_that_the_clock_skips_is_closed() -> None:
    hours = night_hours(site(), [dt.date(2026, 3, 7), dt.date(2026, 3, 8)])
    assert hours.is_open.sum(axis=1).tolist() == [330, 390]
    assert list(hours.changes) == [0]


def test_an_hour_that_comes_twice_is_open_once() -> None:
    hours = night_hours(site(), [dt.date(2026, 10, 31)])
    assert (hours.is_open.sum(), hours.changes[0].hours) == (390, 25)
