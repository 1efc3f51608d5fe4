"""What the planned week adds to a year, in one answer."""

from scheduler.money.with_week import with_week
from tests.scheduler.money.made_week import HISTORY, around, cost, plan


def test_every_option_has_its_nights_in_the_order_of_the_year() -> None:
    told = [one.option_id for one in around().nights]
    assert told == [one.option.id for one in cost().options]


def test_an_option_that_is_not_there_has_none() -> None:
    assert around().nights_of("X") is None


def test_one_zone_alone_tells_its_own_week() -> None:
    found = with_week(plan(), HISTORY, cost(), ["Z5"])
    assert [one.zone_id for one in found.week.zones] == ["Z5"]
