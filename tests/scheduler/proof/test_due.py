"""What is due: tests, leaching checks and readings, and why."""

import datetime as dt
from typing import Any

from scheduler.log import Entry, LeachingPot, Repair, Respacing
from scheduler.proof.due import Due, everything_due, season_start
from scheduler.record import CanTest
from scheduler.site import Plant, Site, Zone
from tests.scheduler.field.made import can_test, run
from tests.scheduler.proof.made import at, day, dial, history, site, zone

TODAY = day(29)
HOLLY = Plant(name="holly", kc=0.8, kc_area="bed")
READ = dial(27, 100.0)


def yard(**given: Any) -> Zone:
    return zone("Z4", watered="every allowed day", plant=HOLLY, **given)


def of_day(date: dt.date) -> CanTest:
    return can_test(run(), run(name="run2"), date=date)


def pot(number: int) -> LeachingPot:
    return LeachingPot(zone="Z4", place="A1", in_ml=400.0, out_ml=80.0, **at(number))


def change(number: int, **given: str) -> Repair:
    return Repair(what="new nozzles", is_change=True, **at(number, **given))


def due(
    *entries: Entry, of: Site | None = None, tests: tuple[CanTest, ...] = ()
) -> list[Due]:
    own = of or site(yard())
    return list(everything_due(own, history(*entries, tests=tests), TODAY))


def words(kind: str, found: list[Due]) -> str:
    return " | ".join(str(one.finding) for one in found if one.kind == kind)


def test_nothing_is_due_where_all_is_fresh() -> None:
    assert due(READ, pot(20), tests=(of_day(day(10)),)) == []


def test_a_test_older_than_a_change_of_hardware_is_due() -> None:
    found = due(READ, pot(25), change(22, zone="Z4"), tests=(of_day(day(10)),))
    assert [(one.kind, one.of, one.last) for one in found] == [("test", "Z4", day(10))]
    assert "its hardware was changed 22 Jun (log.csv:22: new nozzles)" in words(
        "test", found
    )


def test_a_change_of_the_package_makes_tests_of_its_zones_due() -> None:
    found = due(READ, pot(25), change(22, package="rotor"), tests=(of_day(day(10)),))
    assert [one.kind for one in found] == ["test"]


def test_a_change_of_another_zone_does_not() -> None:
    assert due(READ, pot(25), change(22, zone="Z9"), tests=(of_day(day(10)),)) == []


def test_a_change_on_the_day_of_the_test_came_before_it() -> None:
    assert due(READ, pot(25), change(10, zone="Z4"), tests=(of_day(day(10)),)) == []


def test_a_repair_that_changes_nothing_makes_nothing_due() -> None:
    mended = Repair(what="leak mended", zone="Z4", **at(22))
    assert due(READ, pot(20), mended, tests=(of_day(day(10)),)) == []


def test_a_zone_without_a_test_is_due() -> None:
    assert "has no usable test" in words("test", due(READ, pot(20)))


def test_leaching_that_was_never_checked_is_due() -> None:
    found = due(READ, tests=(of_day(day(10)),))
    assert "was never checked" in words("leaching check", found)


def test_a_moved_block_makes_a_check_due() -> None:
    moved = Respacing(zone="Z4", spacing_m=0.4, **at(22))
    found = due(READ, pot(20), moved, tests=(of_day(day(10)),))
    assert "the block was moved 22 Jun" in words("leaching check", found)


def test_a_check_after_the_move_is_fresh() -> None:
    moved = Respacing(zone="Z4", spacing_m=0.4, **at(19))
    assert due(READ, pot(20), moved, tests=(of_day(day(10)),)) == []


def test_changed_hardware_makes_a_check_due_as_well() -> None:
    found = due(READ, pot(20), change(22, zone="Z4"), tests=(of_day(day(10)),))
    assert [one.kind for one in found] == ["test", "leaching check"]


def test_a_check_of_the_season_before_is_due() -> None:
    found = due(READ, pot(-3), tests=(of_day(day(10)),))
    assert "the season turned since" in words("leaching check", found)


def test_a_check_is_due_after_four_weeks() -> None:
    own = history(READ, pot(20), tests=(of_day(day(10)),))
    later = everything_due(site(yard()), own, day(50))
    assert any("4 weeks ago" in one.finding.what for one in later)


def test_zones_in_soil_and_on_fixed_minutes_need_no_check() -> None:
    own = site(
        zone("Z1", grown_in="soil", watered="when due", plant=HOLLY),
        zone("Z8", watered="fixed minutes", fixed_minutes=6.0),
    )
    assert words("leaching check", due(READ, of=own)) == ""


def test_a_meter_that_was_not_read_for_ten_days_is_due() -> None:
    found = due(dial(19, 100.0), pot(20), tests=(of_day(day(10)),))
    assert [(one.kind, one.of) for one in found] == [("meter reading", "pump")]
    assert "10 days ago" in words("meter reading", found)


def test_a_site_without_a_meter_is_told_once() -> None:
    found = due(pot(20), tests=(of_day(day(10)),))
    assert [(one.kind, one.of) for one in found] == [("meter reading", "")]


def test_what_is_dated_after_today_does_not_count() -> None:
    found = due(dial(40, 100.0), pot(40), tests=(of_day(day(10)),))
    assert [one.kind for one in found] == ["leaching check", "meter reading"]


def test_june_is_of_the_season_that_begins_with_it() -> None:
    assert season_start(dt.date(2026, 6, 1)) == dt.date(2026, 6, 1)
    assert season_start(dt.date(2026, 5, 31)) == dt.date(2026, 3, 1)
