"""Issued weeks as values: their order, their names."""

import datetime as dt

import pytest

from scheduler.issued import IssuedWeek, IssuedZone, KeyNumbers, told_until, week_name

NUMBERS = KeyNumbers(
    30.0, 1.0, 1.0, 0.0, 0.0, "low half", 1.2, (("average", 1.0), ("low half", 1.2)),
    10.0, 0.7, 6, 1.0, 36.0, 36,
)  # fmt: skip


def week(day: int, revision: int = 1) -> IssuedWeek:
    told = (IssuedZone("Z4", 24, 1, ()),)
    return IssuedWeek("w", dt.date(2026, 6, day), told, revision=revision)


def test_a_later_revision_comes_after_an_earlier_one_with_a_later_start() -> None:
    assert week(10, 2).order < week(8, 3).order


def test_the_tenth_revision_comes_after_the_second() -> None:
    assert week(8, 2).order < week(8, 10).order


def test_the_next_week_comes_after_every_revision_of_this_one() -> None:
    assert week(8, 9).order < week(15).order


@pytest.mark.parametrize(
    ("day", "name"),
    [
        (dt.date(2026, 6, 8), "2026-W24"),
        (dt.date(2026, 6, 14), "2026-W24"),
        (dt.date(2027, 1, 1), "2026-W53"),  # a Friday of the old ISO year
        (dt.date(2024, 12, 30), "2025-W01"),  # a Monday of the new one
    ],
)
def test_a_week_is_named_by_iso_8601(day: dt.date, name: str) -> None:
    assert week_name(day) == name


def test_a_zone_is_found_whatever_its_letters() -> None:
    found = week(8).zone("z4")
    assert found is not None
    assert found.minutes_per_day == 24


def test_a_zone_that_was_not_told_is_none() -> None:
    assert week(8).zone("Z9") is None


def test_the_factor_of_another_rule_is_known() -> None:
    assert NUMBERS.factor_of("average") == 1.0


def test_a_rule_that_is_not_known_has_the_factor_of_the_week() -> None:
    assert NUMBERS.factor_of("share served") == 1.2


def test_weeks_after_the_planned_one_are_none_of_its_past() -> None:
    before, same, after = week(1), week(10), week(15)
    assert told_until((before, same, after), dt.date(2026, 6, 8)) == (before, same)
