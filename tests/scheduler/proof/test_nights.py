"""Log, issued weeks and a day in; nights that watered out."""

import datetime as dt

import pytest

from scheduler.issued import IssuedWeek, IssuedZone
from scheduler.log import Log, Watering
from scheduler.proof.nights import night_of
from scheduler.site import AsFound
from tests.scheduler.proof.yard import nights_of, yard

MONDAY = dt.date(2026, 6, 1)


def day(later: int) -> dt.date:
    return MONDAY + dt.timedelta(days=later)


def ran(later: int, minutes: float = 24.0, *, skipped: bool = False) -> Watering:
    return Watering(
        where="log.csv:2", typed="", date=day(later), zone="Z4", minutes=minutes,
        is_skipped=skipped,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("time", "night"), [(None, 1), (dt.time(6, 50), 1), (dt.time(20), 2)]
)
def test_a_morning_check_belongs_to_the_night_before(
    time: dt.time | None, night: int
) -> None:
    assert night_of(day(2), time) == day(night)


def test_each_night_makes_up_for_one_day_where_every_night_waters() -> None:
    assert nights_of(yard(), Log()).days_before(day(3)) == (day(3),)


def test_a_night_after_a_skipped_one_makes_up_for_two_days() -> None:
    log = Log((ran(2, 0.0, skipped=True),))
    assert nights_of(yard(), log).days_before(day(3)) == (day(2), day(3))


def test_days_of_the_clock_as_found_are_asked_first() -> None:
    zone = yard(as_found=AsFound(minutes=24.0, days=("mon", "thu")))
    assert nights_of(zone, Log()).days_before(day(3)) == (day(1), day(2), day(3))


def test_what_was_issued_comes_before_the_clock_as_found() -> None:
    week = IssuedWeek(
        "2026-W23", MONDAY, (IssuedZone("Z4", 24.0, 1, (day(0), day(3))),)
    )
    zone = yard(as_found=AsFound(minutes=24.0))
    assert nights_of(zone, Log(), (week,)).days_before(day(3)) == (
        day(1),
        day(2),
        day(3),
    )


def test_what_was_noted_comes_before_what_was_issued() -> None:
    week = IssuedWeek("2026-W23", MONDAY, (IssuedZone("Z4", 24.0, 1, (day(0),)),))
    assert nights_of(yard(), Log((ran(2),)), (week,)).is_watered(day(2))


def test_a_pot_is_not_taken_to_go_without_water_for_more_than_a_week() -> None:
    zone = yard(as_found=AsFound(minutes=24.0, days=("mon",)))
    log = Log((ran(0, 0.0, skipped=True),))
    assert len(nights_of(zone, log).days_before(day(5))) == 7


def test_minutes_of_a_night_are_summed() -> None:
    nights = nights_of(yard(), Log((ran(2, 10.0), ran(2, 14.0))))
    assert nights.minutes(day(2)) == 24.0


def test_minutes_that_nobody_noted_are_unknown() -> None:
    assert nights_of(yard(), Log()).minutes(day(2)) is None


def test_a_night_is_skipped_only_when_somebody_says_so() -> None:
    nights = nights_of(yard(), Log((ran(2, 0.0, skipped=True),)))
    assert (nights.is_skipped(day(2)), nights.is_skipped(day(3))) == (True, False)
