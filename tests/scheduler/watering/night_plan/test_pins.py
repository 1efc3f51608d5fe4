"""Waterings moved by hand stay where they were put when the week is made anew."""

import datetime as dt
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.record import History
from scheduler.watering.night_plan import NightPlan, Pin, night_plan
from scheduler.watering.night_plan.board import pin_of
from scheduler.watering.night_plan.judge import broken_by
from scheduler.watering.timetable import Timetable
from scheduler.watering.timetable.checker import broken_rules
from tests.scheduler.watering.night_plan.made import (
    DATES,
    MONDAY,
    Watered,
    eight_zones,
    site,
    zone,
)


def plan_of(*watered: Watered, pins: tuple[Pin, ...] = (), **given: Any) -> NightPlan:
    place = site(*(one.zone for one in watered), **given)
    plan = night_plan(place, History(), watered, pins=pins)
    assert plan is not None
    return plan


def pin(zone_id: str, *clock: str, to: dt.date = MONDAY) -> Pin:
    starts = tuple(dt.datetime.fromisoformat(one) for one in clock)
    return Pin(zone_id, MONDAY, to, starts)


ONE = Watered(zone("1"))
AT_ONE = pin("1", "2026-06-09T01:00")


def starts(plan: NightPlan, zone_id: str) -> list[str]:
    return [f"{one.start:%a %H:%M}" for one in plan.runs if one.zone == zone_id]


def test_a_moved_watering_starts_where_it_was_put() -> None:
    assert starts(plan_of(ONE, pins=(AT_ONE,)), "1") == ["Tue 01:00"]


def test_a_watering_may_go_to_another_night() -> None:
    there = pin("1", "2026-06-10T23:00", to=DATES[2])
    assert starts(plan_of(ONE, pins=(there,)), "1") == ["Wed 23:00"]


def test_another_night_is_said() -> None:
    there = pin("1", "2026-06-10T23:00", to=DATES[2])
    (said,) = [
        one for one in plan_of(ONE, pins=(there,)).findings if "moved" in one.where
    ]
    assert "Mon to Wed" in said.what


def test_of_two_moves_of_a_watering_the_last_counts() -> None:
    later = pin("1", "2026-06-09T02:00")
    assert starts(plan_of(ONE, pins=(AT_ONE, later)), "1") == ["Tue 02:00"]


def test_cycles_may_be_moved_apart() -> None:
    twice = Watered(zone("1"), cycles=2, cycle_minutes=15, soak_minutes=23)
    apart = pin("1", "2026-06-08T22:00", "2026-06-09T03:00")
    found = starts(plan_of(twice, pins=(apart,)), "1")
    assert found == ["Mon 22:00", "Tue 03:00"]


def test_the_others_stay_where_they_were() -> None:
    some = eight_zones()
    before = plan_of(*some)
    assert before.board is not None
    hand = next(
        p
        for minute in range(0, 391)
        for p in [pin_of(before.board, ("8", 0), 0, (minute,))]
        if not broken_by(before.board, p, "us")
        and f"{p.starts[0]:%a %H:%M}" != starts(before, "8")[0]
    )
    after = plan_of(*some, pins=(hand,))
    assert {one for one in before.runs if one.zone != "8"} == {
        one for one in after.runs if one.zone != "8"
    }


def test_what_stands_in_the_way_makes_room() -> None:
    a, b = Watered(zone("1")), Watered(zone("2"))
    before = plan_of(a, b, pump_gpm=150.0)
    taken = next(one for one in before.runs if one.zone == "2").start
    after = plan_of(a, b, pump_gpm=150.0, pins=(Pin("1", MONDAY, MONDAY, (taken,)),))
    assert starts(after, "1") == [f"{taken:%a %H:%M}"]
    assert len(starts(after, "2")) == 1


@pytest.mark.parametrize(
    ("put", "why"),
    [
        (pin("1", "2026-06-09T04:20"), "taken or closed"),
        (pin("1", "2026-06-08T22:00", "2026-06-08T23:00"), "has 1 cycles now"),
        (pin("2", "2026-06-08T22:00"), "not watered on Mon"),
        (pin("1", "2026-06-20T22:00", to=dt.date(2026, 6, 20)), "outside the week"),
    ],
)
def test_a_pin_that_no_longer_fits_is_let_go_and_said(put: Pin, why: str) -> None:
    plan = plan_of(ONE, pins=(put,))
    (said,) = [one for one in plan.findings if "moved" in one.where]
    assert why in said.what
    assert said.level == "warning"


def test_a_night_that_the_zone_may_not_use_is_refused() -> None:
    only = Watered(zone("1", days=("mon",)))
    there = pin("1", "2026-06-10T23:00", to=DATES[2])
    plan = plan_of(only, pins=(there,))
    assert any("may not be watered on Wed" in one.what for one in plan.findings)
    assert starts(plan, "1")[0].startswith("Mon")


def test_a_night_on_which_it_runs_already_is_refused() -> None:
    daily = Watered(zone("1"), days=DATES)
    there = pin("1", "2026-06-10T23:00", to=DATES[2])
    found = plan_of(daily, pins=(there,)).findings
    assert any("watered on Wed already" in one.what for one in found)


@settings(max_examples=12, deadline=None)  # a whole week each
@given(minute=st.integers(0, 370), name=st.sampled_from(["1", "4", "8"]))
def test_a_week_with_a_pin_breaks_no_rule(minute: int, name: str) -> None:
    night = dt.datetime.combine(MONDAY, dt.time(22)) + dt.timedelta(minutes=minute)
    plan = plan_of(*eight_zones(), pins=(Pin(name, MONDAY, MONDAY, (night,)),))
    board = plan.board
    assert board is not None
    unplaced = tuple(zone_id for zone_id, _ in plan.unplaced)
    table = Timetable(board.placed[0], unplaced, 0.0)
    assert broken_rules(board.week.jobs[0], board.week.grids[0], table) == ()
