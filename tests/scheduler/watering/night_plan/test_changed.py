"""A week against the last issued one."""

import datetime as dt

from scheduler.record import History, IssuedRun, IssuedWeek, IssuedZone
from scheduler.watering.night_plan import night_plan
from scheduler.watering.night_plan.changed import (
    ZoneChange,
    last_issued,
    zone_changes,
)
from tests.scheduler.watering.night_plan.made import MONDAY, Watered, site, zone

BEFORE = MONDAY - dt.timedelta(days=7)
ONE = Watered(zone("1"))


def issued(
    minutes: float = 20.0, cycles: int = 1, start: str = "", name: str = "2026-W23"
) -> IssuedWeek:
    runs: tuple[IssuedRun, ...] = ()
    if start:
        at = dt.datetime.fromisoformat(start)
        runs = (IssuedRun("1", at, at + dt.timedelta(minutes=minutes)),)
    return IssuedWeek(
        name, BEFORE, (IssuedZone("1", minutes, cycles, (BEFORE,)),), runs
    )


def change(last: IssuedWeek, one: Watered = ONE) -> ZoneChange:
    night = night_plan(site(one.zone), History(), (one,))
    (found,) = zone_changes(last, (one,), night)
    return found


def test_the_same_setting_is_no_change() -> None:
    assert not change(issued()).is_changed


def test_other_minutes_are_a_change() -> None:
    found = change(issued(28.0))
    assert found.was is not None
    assert found.now is not None
    assert (found.was.minutes_per_day, found.now.minutes_per_day) == (28.0, 20.0)
    assert found.is_changed


def test_other_cycles_are_a_change() -> None:
    assert change(issued(cycles=2)).is_changed


def test_other_nights_are_a_change() -> None:
    tuesday = Watered(zone("1"), days=(MONDAY + dt.timedelta(days=1),))
    assert change(issued(), tuesday).is_changed


def test_the_same_start_is_no_change() -> None:
    assert not change(issued(start="2026-06-01T22:00")).is_changed


def test_another_start_is_a_change() -> None:
    assert change(issued(start="2026-06-01T23:10")).is_changed


def test_a_start_after_midnight_belongs_to_the_night_before() -> None:
    found = change(issued(start="2026-06-02T01:10"))
    assert found.was is not None
    assert found.was.starts == (dt.time(1, 10),)


def test_a_zone_that_is_no_longer_watered_is_a_change() -> None:
    off = Watered(zone("1"), cycles=None)
    (found,) = zone_changes(issued(), (off,), None)
    assert (found.now, found.is_changed) == (None, True)


def test_a_zone_that_is_gone_is_named() -> None:
    (found,) = zone_changes(issued(), (), None)
    assert (found.zone, found.now) == ("1", None)


def test_a_blocked_zone_keeps_its_setting_and_is_no_change() -> None:
    assert zone_changes(issued(), (Watered(zone("1"), status="blocked"),), None) == ()


def test_the_newest_week_counts_and_of_one_week_its_last_revision() -> None:
    weeks = [issued(name="2026-W23"), issued(name="2026-W23-2")]
    found = last_issued(weeks, MONDAY)
    assert found is not None
    assert found.name == "2026-W23-2"


def test_weeks_to_come_do_not_count() -> None:
    assert last_issued([issued()], BEFORE - dt.timedelta(days=1)) is None


def test_each_zone_of_many_keeps_its_own_starts() -> None:
    starts = {"1": "2026-06-01T22:00", "2": "2026-06-01T23:10", "3": "2026-06-02T01:00"}
    at = {one: dt.datetime.fromisoformat(start) for one, start in starts.items()}
    last = IssuedWeek(
        "2026-W23",
        BEFORE,
        tuple(IssuedZone(one, 20.0, 1, (BEFORE,)) for one in starts),
        tuple(IssuedRun(one, at[one], at[one]) for one in reversed(starts)),
    )
    watered = tuple(Watered(zone(one)) for one in starts)
    night = night_plan(site(*(one.zone for one in watered)), History(), watered)
    assert night is not None
    now = {run.zone: run.start.time() for run in night.runs}
    assert [
        (one.zone, one.was and one.was.starts, one.now and one.now.starts)
        for one in zone_changes(last, watered, night)
    ] == [(one, (at[one].time(),), (now[one],)) for one in starts]
