"""What the clock holds, and what the week takes for granted about it."""

import datetime as dt

import pytest

from scheduler.issued import IssuedWeek, IssuedZone
from scheduler.site import AsFound, Controller, Place, Site, Window
from scheduler.watering.clock import (
    as_found_min,
    clock_findings,
    newest_issued,
    was_minutes,
)
from tests.scheduler.watering.made import zone

PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC"
)
WINDOW = Window(start=dt.time(22), end=dt.time(4))
FOUND = AsFound(minutes=10.0, cycles=3)


def site(percent: int = 100, *, has_window: bool = True) -> Site:
    return Site(
        name="Tern Hollow",
        units="us",
        place=PLACE,
        zones=(zone(),),
        windows=(WINDOW,) if has_window else (),
        controller=Controller(percent_adjust=percent),
    )


def week(name: str, day: int, minutes: float, zone_id: str = "Z4") -> IssuedWeek:
    told = IssuedZone(zone_id, minutes, 1, ())
    return IssuedWeek(name, dt.date(2026, 6, day), (told,))


def test_the_clock_as_found_runs_its_cycles_adjusted_by_percent() -> None:
    assert as_found_min(zone(as_found=FOUND), 150) == pytest.approx(45.0)


def test_a_clock_that_nobody_wrote_down_is_not_recorded() -> None:
    assert was_minutes(zone(), site(), ()) == (None, "not recorded")


def test_the_newest_issued_week_of_the_zone_counts() -> None:
    weeks = (week("b", 8, 25.0), week("a", 1, 20.0), week("c", 15, 9.0, "Z5"))
    assert was_minutes(zone(as_found=FOUND), site(), weeks) == (25.0, "issued week b")


def test_a_revision_replaces_its_week() -> None:
    found = newest_issued(zone(), (week("W24-2", 8, 22.0), week("W24", 8, 25.0)))
    assert found is not None
    assert found[1].minutes_per_day == 22.0


def test_a_clock_at_100_percent_within_windows_needs_no_word() -> None:
    assert clock_findings(site()) == ()


def test_minutes_are_meant_at_100_percent_and_another_setting_is_a_warning() -> None:
    (said,) = clock_findings(site(80))
    assert (said.level, "80 %" in said.what) == ("warning", True)


def test_hours_that_were_not_entered_are_said_to_be_open() -> None:
    (said,) = clock_findings(site(has_window=False))
    assert (said.level, said.where) == ("note", "site.toml: window")
