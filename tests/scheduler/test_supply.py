"""The nouns of water."""

import datetime as dt

import pytest
from pydantic import ValidationError

from scheduler.supply import BlockedHours, Shortage, Window, minutes_between


def test_a_shortage_is_on_from_its_first_to_its_last_day() -> None:
    short = Shortage(cut=0.2, start=dt.date(2026, 6, 1), end=dt.date(2026, 6, 30))
    days = (dt.date(2026, 5, 31), dt.date(2026, 6, 1), dt.date(2026, 6, 30))
    assert [short.is_on(day) for day in days] == [False, True, True]


def test_a_shortage_without_dates_is_always_on() -> None:
    assert Shortage(days=("mon",)).is_on(dt.date(2026, 6, 1))


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({}, "give volume"),
        ({"volume_m3": 10.0, "cut": 0.2}, "not both"),
        ({"cut": 0.2, "start": dt.date(2026, 6, 2), "end": dt.date(2026, 6, 1)},
         "ends before it starts"),
    ],
)  # fmt: skip
def test_a_shortage_that_says_nothing_or_two_things_is_refused(
    given: dict[str, object], told: str
) -> None:
    with pytest.raises(ValidationError, match=told):
        Shortage.model_validate(given)


def test_a_window_may_cross_midnight() -> None:
    assert Window(start=dt.time(22), end=dt.time(4, 30)).minutes == 390


def test_equal_times_are_a_whole_day_apart() -> None:
    assert minutes_between(dt.time(6), dt.time(6)) == 1440


def test_blocked_hours_need_a_reason() -> None:
    with pytest.raises(ValidationError, match="reason"):
        BlockedHours.model_validate({"start": dt.time(3), "end": dt.time(4)})


def test_blocked_hours_are_for_all_zones_if_none_is_named() -> None:
    one = BlockedHours(start=dt.time(3), end=dt.time(4), reason="people")
    assert (one.zones, one.minutes) == ((), 60)
