"""The programs of a planned week, clock by clock."""

from scheduler.site import AsFound, Controller
from tests.scheduler.test_plan import zone
from tests.scheduler.test_week_changes import week


def test_the_clock_is_told_percent_from_what_was_keyed_in() -> None:
    clock = week(zone()).clock
    assert clock is not None
    (way,) = clock.percent_ways
    assert (way.was_minutes, way.now_minutes, way.percent) == (24.0, 27, 112)


def test_a_clock_found_at_another_percent_gives_no_percent_way() -> None:
    clock = week(zone(), site={"controller": Controller(percent_adjust=80)}).clock
    assert clock is not None
    assert clock.percent_ways == ()


def test_other_cycles_give_no_percent_way() -> None:
    twice = AsFound(minutes=12.0, cycles=2)
    clock = week(zone(as_found=twice)).clock
    assert clock is not None
    assert clock.percent_ways == ()


def test_a_zone_on_the_second_clock_is_told_its_percent_there() -> None:
    both = {
        "controller": Controller(id="N", percent_adjust=80),
        "more_controllers": (Controller(id="S"),),
    }
    (clock,) = week(zone(controller="S", station=4), site=both).clocks
    (way,) = clock.percent_ways
    assert (clock.id, clock.place, clock.programs[0].stations[0].number) == ("S", 1, 4)
    assert (way.was_minutes, way.percent) == (24.0, 112)
