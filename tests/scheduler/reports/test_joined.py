"""Findings that zones share are said once; nothing else is lost."""

from scheduler.errors import Finding
from scheduler.reports.joined import joined


def note(where: str, what: str = "rests on one run") -> Finding:
    return Finding("note", where, what, "repeat it")


def test_what_zones_share_is_said_once_with_all_of_them() -> None:
    (one,) = joined([note("zone Z2"), note("zone Z4"), note("zone Z5")])
    assert one.where == "zones Z2, Z4, Z5"


def test_the_field_stays_behind_the_zones() -> None:
    (one,) = joined([note("zone Z2: intake"), note("zone Z4: intake")])
    assert one.where == "zones Z2, Z4: intake"


def test_other_fields_are_not_joined() -> None:
    assert len(joined([note("zone Z2: intake"), note("zone Z2: rule")])) == 2


def test_another_level_is_another_finding() -> None:
    stop = Finding("stop", "zone Z2", "rests on one run", "repeat it")
    assert len(joined([note("zone Z4"), stop])) == 2


def test_files_keep_their_own_lines() -> None:
    found = joined([note("a.csv:3"), note("a.csv:4")])
    assert [one.where for one in found] == ["a.csv:3", "a.csv:4"]


def test_a_finding_said_twice_is_said_once() -> None:
    assert joined([note("zone Z2"), note("zone Z2")]) == [note("zone Z2")]
