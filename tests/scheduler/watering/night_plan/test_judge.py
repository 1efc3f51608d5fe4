"""The rule that a place breaks, in words."""

import datetime as dt
from typing import Any

import pytest

from scheduler.record import History
from scheduler.site import BlockedHours, Controller
from scheduler.unit_table import L_PER_US_GALLON
from scheduler.watering.night_plan import night_plan
from scheduler.watering.night_plan.board import NightBoard, pin_of
from scheduler.watering.night_plan.judge import (
    blocked_by,
    broken_by,
    next_flow_l_per_min,
)
from tests.scheduler.watering.night_plan.made import DATES, Watered, site, zone


def board(*watered: Watered, **given: Any) -> NightBoard:
    plan = night_plan(site(*(one.zone for one in watered), **given), History(), watered)
    assert plan is not None
    assert plan.board is not None
    return plan.board


def judged(
    one: NightBoard, zone_id: str, *starts: int, night: int = 0
) -> tuple[str, ...]:
    return broken_by(one, pin_of(one, (zone_id, 0), night, starts), "us")


A, B = Watered(zone("1")), Watered(zone("2"))
SPRAY = BlockedHours(start=dt.time(22), end=dt.time(23), reason="spraying")


def start_of(one: NightBoard, zone_id: str) -> int:
    return next(p.starts[0] for p in one.placed[0] if p.zone == zone_id)


def test_its_own_place_breaks_nothing() -> None:
    one = board(A, B)
    assert judged(one, "1", start_of(one, "1")) == ()


def test_the_pump_is_named_with_both_flows() -> None:
    one = board(A, B, pump_gpm=150.0)
    (said,) = judged(one, "1", start_of(one, "2"))
    assert said.startswith("pump: ")
    assert said.endswith("it gives 150.0 gpm")


def test_valves_at_once_are_counted() -> None:
    one = board(A, B, pump_gpm=None, controller=Controller(max_valves_at_once=1))
    assert judged(one, "1", start_of(one, "2"))[0].startswith("valves: 2 open at ")


def test_the_window_is_told_by_the_clock() -> None:
    assert judged(board(A), "1", 380) == ("window: it is open 22:00-04:30",)


def test_before_the_window_is_told_as_well() -> None:
    assert judged(board(A), "1", -5) == ("window: it is open 22:00-04:30",)


def test_blocked_hours_give_their_reason() -> None:
    one = board(A, blocked_hours=(SPRAY,))
    assert judged(one, "1", 10) == ("blocked: spraying 22:00-23:00",)


def test_a_soak_that_is_too_short_is_told() -> None:
    twice = Watered(zone("1"), cycles=2, cycle_minutes=15, soak_minutes=23)
    assert judged(board(twice), "1", 0, 25) == ("soak: 10 min before 22:25, 23 asked",)


def test_cycles_over_each_other_are_told() -> None:
    twice = Watered(zone("1"), cycles=2, cycle_minutes=15, soak_minutes=0)
    assert "cycles: two of 1 run at 22:10" in judged(board(twice), "1", 0, 10)


def test_zones_that_must_not_run_together_are_named() -> None:
    alone = Watered(zone("1", not_with=("2",)))
    one = board(alone, B)
    said = judged(one, "1", start_of(one, "2"))
    assert any(text.startswith("not together: 1 and 2") for text in said)


def test_a_night_on_which_it_runs_already_is_told() -> None:
    daily = Watered(zone("1"), days=DATES)
    assert judged(board(daily), "1", 60, night=1) == (
        "night: 1 is watered on Tue already",
    )


def test_another_free_night_breaks_nothing() -> None:
    assert judged(board(A), "1", 60, night=1) == ()


def test_a_change_over_counts_as_running() -> None:
    one = board(A, controller=Controller(change_over_minutes=3))
    assert judged(one, "1", 2) == ("window: it is open 22:00-04:30",)


def test_blocked_hours_of_other_zones_do_not_count() -> None:
    other = SPRAY.model_copy(update={"zones": ("2",)})
    assert blocked_by(board(A, B, blocked_hours=(other,)), "1", 0, 10) is None


@pytest.mark.parametrize(
    ("gpm", "by", "then"),
    [(200, -1, 190), (200, 1, 210), (195, -1, 190), (195, 1, 200), (10, -1, 10)],
)
def test_a_pump_goes_by_round_steps(gpm: float, by: int, then: float) -> None:
    found = next_flow_l_per_min(gpm * L_PER_US_GALLON, "us", by)
    assert found == pytest.approx(then * L_PER_US_GALLON)
