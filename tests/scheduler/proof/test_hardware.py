"""When hardware was changed, and which tests hold since."""

from typing import Any

import pytest

from scheduler.log import Repair
from scheduler.proof.hardware import changed_on, standing_tests
from scheduler.record import CanTest, History
from tests.scheduler.field.made import can_test
from tests.scheduler.proof.made import at, day, history, zone

YARD = zone("Z4")
TESTS: tuple[CanTest, ...] = tuple(can_test(date=day(i)) for i in (1, 10, 20))


def change(number: int, **given: Any) -> Repair:
    base: dict[str, Any] = {"what": "new nozzles", "is_change": True}
    return Repair(**at(number, **(base | given)))


def held(*changes: Repair, on: int = 30) -> list[int]:
    past: History = history(*changes, tests=TESTS)
    return [one.date.day for one in standing_tests(YARD, past, day(on))]


def test_the_newest_change_is_the_one_that_is_told() -> None:
    log = history(change(5, zone="Z4"), change(9, zone="Z4")).log
    found = changed_on(YARD, log, day(1), day(29))
    assert found is not None
    assert found.date == day(9)


@pytest.mark.parametrize(
    "other", [{"zone": "Z9"}, {"package": "drip"}, {"zone": "Z4", "is_change": False}]
)
def test_what_does_not_change_the_zone_is_no_change(other: dict[str, Any]) -> None:
    assert changed_on(YARD, history(change(5, **other)).log, day(1), day(29)) is None


def test_without_a_change_every_test_up_to_the_day_holds() -> None:
    assert held(on=15) == [1, 10]


def test_a_change_ends_what_older_tests_say() -> None:
    assert held(change(5, zone="Z4")) == [10, 20]


def test_a_change_of_the_package_ends_it_too() -> None:
    assert held(change(15, package="rotor")) == [20]


def test_a_change_to_come_ends_nothing() -> None:
    assert held(change(25, zone="Z4"), on=20) == [1, 10, 20]
