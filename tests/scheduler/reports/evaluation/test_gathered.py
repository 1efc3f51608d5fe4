"""What a report is made from: the newest test of each zone, what is due, the rest."""

import datetime as dt

from scheduler.errors import Finding
from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder
from scheduler.reports.evaluation import Told, gathered


def test_zones_with_a_test_are_told_in_the_order_of_the_site(
    tern: dict[str, Told],
) -> None:
    assert list(tern) == ["Z1", "Z2", "Z4", "Z5", "Z6", "Z7", "Z9"]


def test_a_zone_without_a_test_is_a_note_with_the_way_to_one(
    untested: tuple[Finding, ...],
) -> None:
    notes = {one.where: one.fix for one in untested if "has no test" in one.what}
    assert list(notes) == ["zone Z3", "zone Z8"]
    assert "field-sheet --zone Z3" in notes["zone Z3"]


def test_the_newest_test_counts_and_earlier_ones_stand_beside_it(
    tern: dict[str, Told], alder: dict[str, Told]
) -> None:
    assert tern["Z5"].test.test == "2026-05-19-Z5"
    assert [one.test for one in tern["Z5"].others] == ["2026-03-24-Z5"]
    days = [one.date for one in (alder["A1"].test, *alder["A1"].others)]
    assert days == sorted(days, reverse=True)


def test_a_test_of_a_later_day_does_not_count() -> None:
    found = read_site_folder(demo_source() / "tern_hollow")
    assert found.site is not None
    told, _ = gathered(found.site, found.history, dt.date(2026, 4, 1), "us")
    assert [one.test.test for one in told] == ["2026-03-24-Z5"]


def test_only_the_zones_asked_for_are_told() -> None:
    found = read_site_folder(demo_source() / "tern_hollow")
    assert found.site is not None
    day = dt.date(2026, 6, 8)
    told, said = gathered(found.site, found.history, day, "us", zone_ids=["z4"])
    assert [one.plan.zone.id for one in told] == ["Z4"]
    assert all("Z4" in one.where for one in said)


def test_the_next_test_is_the_sites_months_after_this_one(
    tern: dict[str, Told],
) -> None:
    assert tern["Z4"].next_test == dt.date(2027, 5, 12)


def test_the_readings_are_those_of_the_same_test(both: list[Told]) -> None:
    assert all(one.read.name == one.test.test for one in both)
