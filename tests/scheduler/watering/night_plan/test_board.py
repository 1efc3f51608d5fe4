"""The board of the nights: cycles by the clock, and waterings held elsewhere."""

import datetime as dt

from scheduler.record import History
from scheduler.site import Supply
from scheduler.watering.night_plan import night_plan
from scheduler.watering.night_plan.board import (
    NightBoard,
    board_cycles,
    board_night,
    moved,
    pin_of,
)
from tests.scheduler.watering.night_plan.made import (
    DATES,
    MONDAY,
    Watered,
    site,
    zone,
)


def board(*watered: Watered) -> NightBoard:
    plan = night_plan(site(*(one.zone for one in watered)), History(), watered)
    assert plan is not None
    assert plan.board is not None
    return plan.board


TWICE = Watered(zone("1"), cycles=2, cycle_minutes=15, soak_minutes=23)


def test_every_run_of_the_plan_is_a_cycle_of_the_board() -> None:
    watered = (TWICE, Watered(zone("2"), days=DATES))
    plan = night_plan(site(*(one.zone for one in watered)), History(), watered)
    assert plan is not None
    assert plan.board is not None
    hours = plan.board.hours
    clock = {
        (one.zone, hours.clock(one.night, one.start_min))
        for one in board_cycles(plan.board)
    }
    assert clock == {(one.zone, one.start) for one in plan.runs}


def test_cycles_are_counted_from_one() -> None:
    found = [(one.cycle, one.cycles) for one in board_cycles(board(TWICE))]
    assert found == [(1, 2), (2, 2)]


def test_the_job_of_a_zone_is_the_one_a_plain_search_finds() -> None:
    one = board(TWICE, Watered(zone("2"), days=DATES), Watered(zone("3")))
    for night, jobs in enumerate(one.week.jobs):
        for name in ("1", "2", "3", "4"):
            plain = next((job for job in jobs if job.zone == name), None)
            assert one.job(name, night) is plain


def test_the_pin_of_a_night_is_the_one_a_plain_search_finds() -> None:
    one = board(TWICE, Watered(zone("2"), days=DATES))
    for key, night in ((("1", 0), 2), (("2", 2), 3)):
        one = moved(one, pin_of(one, key, night, (60,)))
    for night, date in enumerate(one.hours.dates):
        for name in ("1", "2"):
            mine = [p for p in one.pins if (p.zone, p.to_night) == (name, date)]
            assert one.pin(name, night) is next(iter(mine), None)


def test_a_zone_that_was_moved_asks_for_nothing_on_its_old_night() -> None:
    one = board(Watered(zone("1")))
    held = moved(one, pin_of(one, ("1", 0), 2, (60,)))
    assert (held.job("1", 0), held.job("1", 2)) == (None, one.job("1", 0))


def test_a_pin_bears_the_clock_of_its_night() -> None:
    pin = pin_of(board(TWICE), ("1", 0), 1, (120, 158))
    assert (pin.night, pin.to_night) == (MONDAY, DATES[1])
    assert pin.starts[0] == dt.datetime.fromisoformat("2026-06-10T00:00")


def test_a_watering_held_elsewhere_is_there_alone() -> None:
    one = board(Watered(zone("1")))
    held = moved(one, pin_of(one, ("1", 0), 2, (60,)))
    assert [(c.night, c.start_min, c.is_moved) for c in board_cycles(held)] == [
        (2, 60, True)
    ]


def test_a_watering_moved_twice_keeps_its_planned_night() -> None:
    one = board(Watered(zone("1")))
    held = moved(one, pin_of(one, ("1", 0), 2, (60,)))
    again = pin_of(held, ("1", 2), 3, (60,))
    assert (again.night, board_night(held, again)) == (MONDAY, 2)


def test_holding_a_watering_leaves_the_board_as_it_was() -> None:
    one = board(Watered(zone("1")))
    moved(one, pin_of(one, ("1", 0), 2, (60,)))
    assert board_cycles(one)[0].night == 0


def test_a_watering_that_is_not_there_cannot_be_held() -> None:
    one = board(Watered(zone("1")))
    pin = pin_of(one, ("2", 0), 0, (60,))
    assert moved(one, pin) is one


def test_the_pump_of_the_site_is_that_of_the_board() -> None:
    place = site(zone("1")).model_copy(
        update={"supply": Supply(source="well", flow_l_per_min=400.0)}
    )
    plan = night_plan(place, History(), (Watered(zone("1")),))
    assert plan is not None
    assert plan.board is not None
    assert plan.board.week.grids[0].pump_l_per_min == 400.0
