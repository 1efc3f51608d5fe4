"""The cheapest place of one watering, given the rest."""

import itertools

import numpy as np
import pytest
from hypothesis import given

from scheduler.watering.timetable import Grid, Job
from scheduler.watering.timetable.insertion import (
    cheapest_place,
    empty_state,
    lift,
    place_cost,
    put,
)
from scheduler.watering.timetable.task import task_of
from tests.scheduler.watering.timetable.made import priced, weeks


def test_a_cycle_goes_to_the_cheapest_minutes() -> None:
    cost = np.ones((1, 30))
    cost[0, 10:15] = 0.5
    task = task_of([Job("A", 1, 5, 0, 10.0, must=(0,))], priced(cost))
    found = cheapest_place(task, empty_state(task), 0)
    assert found is not None
    assert found[1:] == (0, (10,))


def test_of_equal_minutes_the_earliest_are_taken() -> None:
    task = task_of([Job("A", 2, 5, 3, 10.0, must=(0,))], priced(np.ones((1, 30))))
    found = cheapest_place(task, empty_state(task), 0)
    assert found is not None
    assert found[2] == (0, 8)


def test_a_longest_soak_keeps_the_cycles_together() -> None:
    cost = np.ones((1, 60))
    cost[0, [*range(5), *range(55, 60)]] = 0.1  # cheap at both ends of the night
    far = Job("A", 2, 5, 3, 10.0, must=(0,))
    near = Job("A", 2, 5, 3, 10.0, must=(0,), most_soak_min=6)
    places = []
    for job in (far, near):
        task = task_of([job], priced(cost))
        found = cheapest_place(task, empty_state(task), 0)
        assert found is not None
        places.append(found[2])
    assert places[0] == (0, 55)
    assert 8 <= places[1][1] - places[1][0] <= 11


def test_the_change_over_needs_room_but_is_not_priced() -> None:
    cost = np.ones((1, 8))
    cost[0, :2] = 9.0
    task = task_of([Job("A", 1, 6, 0, 1.0, must=(0,))], priced(cost, change_over_min=2))
    found = cheapest_place(task, empty_state(task), 0)
    assert found is not None
    assert found[2] == (0,)
    assert found[0] * task.step_cost == pytest.approx(6.0, rel=1e-5)


def test_a_watering_longer_than_the_night_has_no_place() -> None:
    task = task_of([Job("A", 2, 15, 5, must=(0,))], priced(np.ones((1, 34))))
    assert cheapest_place(task, empty_state(task), 0) is None


def test_a_cycle_longer_than_the_night_has_no_place() -> None:
    task = task_of([Job("A", 1, 35, must=(0,))], priced(np.ones((1, 34))))
    assert cheapest_place(task, empty_state(task), 0) is None


def test_another_watering_of_the_zone_keeps_its_rest() -> None:
    cost = np.ones((4, 20))
    job = Job("A", 1, 5, may=(0, 1, 2, 3), more=2, rest_nights=2)
    task = task_of([job], priced(cost))
    state = empty_state(task)
    put(task, state, 0, 0, (0,))
    found = cheapest_place(task, state, 1)
    assert found is not None
    assert found[1] == 3


def test_a_rival_keeps_its_minutes() -> None:
    jobs = [Job("A", 1, 5, must=(0,)), Job("B", 1, 5, must=(0,), not_with=("A",))]
    task = task_of(jobs, priced(np.ones((1, 20))))
    state = empty_state(task)
    put(task, state, 0, 0, (0,))
    found = cheapest_place(task, state, 1)
    assert found is not None
    assert found[2] == (5,)


def _by_hand(jobs: list[Job], grid: Grid) -> int | None:
    """Cheapest place of the last event, by trying every one."""
    task = task_of(jobs, grid)
    state = empty_state(task)
    e = task.n_events - 1
    for other in range(e):
        found = cheapest_place(task, state, other)
        if found is not None:
            put(task, state, other, found[1], found[2])
    best: int | None = None
    n_nights, n_minutes = grid.is_open.shape[1:]
    row = int(task.clock[e]) * n_nights
    most = task.clock_valves[task.clock[e]]
    job, block, step = int(task.job[e]), int(task.block[e]), int(task.step[e])
    for night in range(n_nights):
        mine = (task.job == job) & (state.night >= 0)
        taken = [int(n) for n in state.night[mine]]
        near = any(abs(night - other) <= task.rest[e] for other in taken)
        if not task.night[e, night] or near:
            continue
        busy = {
            m
            for o in range(e)
            if state.night[o] == night and task.rival[job, task.job[o]]
            for s in state.start[o, : task.cycles[o]]
            for m in range(s, s + task.block[o])
        }
        free = [
            bool(grid.is_open[0, night, m])
            and state.flow_ml[night, m] + task.flow_ml[e] <= task.pump_ml
            and state.valves[row + night, m] + 1 <= most
            and m not in busy
            for m in range(n_minutes)
        ]
        some = [s for s in range(n_minutes - block + 1) if all(free[s : s + block])]
        for starts in itertools.combinations(some, int(task.cycles[e])):
            apart = [b - a for a, b in itertools.pairwise(starts)]
            if all(step <= one <= step + task.reach[e] for one in apart):
                cost = place_cost(task, e, night, starts)
                best = cost if best is None or cost < best else best
    return best


@given(weeks())
def test_one_watering_is_placed_as_well_as_trying_all_places(
    week: tuple[list[Job], Grid],
) -> None:
    jobs, grid = week[0][:3], week[1]
    narrow = Grid(
        grid.is_open[:, :, :30], grid.cost[:, :, :30], grid.pump_l_per_min,
        grid.max_valves, grid.change_over_min, grid.clock_valves,
    )  # fmt: skip
    task = task_of(jobs, narrow)
    state = empty_state(task)
    for other in range(task.n_events - 1):
        found = cheapest_place(task, state, other)
        if found is not None:
            put(task, state, other, found[1], found[2])
    found = cheapest_place(task, state, task.n_events - 1)
    assert (None if found is None else found[0]) == _by_hand(jobs, narrow)


@given(weeks())
def test_what_is_put_and_lifted_leaves_no_trace(week: tuple[list[Job], Grid]) -> None:
    task = task_of(*week)
    state = empty_state(task)
    for e in range(task.n_events):
        found = cheapest_place(task, state, e)
        if found is not None:
            put(task, state, e, found[1], found[2])
    for e in range(task.n_events):
        lift(task, state, e)
    assert not state.flow_ml.any()
    assert not state.valves.any()
