"""The search over a whole week."""

import numpy as np
from hypothesis import given, settings

from scheduler.watering.timetable import Grid, Job
from scheduler.watering.timetable.pack import as_timetable
from scheduler.watering.timetable.search import chances, price_of_change, search
from scheduler.watering.timetable.task import task_of
from tests.scheduler.watering.timetable.made import eight_zones, night, priced, weeks


def test_the_same_seed_draws_the_same_chance() -> None:
    np.testing.assert_array_equal(chances(5, 3), chances(5, 3))


def test_flat_prices_leave_nothing_to_change() -> None:
    assert price_of_change(task_of(eight_zones(), night())) == 0.0


def test_searching_longer_is_never_dearer() -> None:
    rng = np.random.default_rng(4)
    cost = rng.uniform(1.0, 2.0, (1, 120))
    jobs = [Job(f"{i}", 2, 9, 4, 40.0, must=(0,)) for i in range(6)]
    task = task_of(jobs, priced(cost, pump_l_per_min=100.0))
    costs = [
        as_timetable(task, search(task, rounds=rounds, seed=1)).cost
        for rounds in (0, 40, 160)
    ]
    assert costs == sorted(costs, reverse=True)


def test_events_that_the_first_pass_left_out_find_a_place() -> None:
    # the longest first fills the first minutes and leaves no hole for the last one
    jobs = [
        Job("A", 1, 30, 0, 60.0, must=(0,)), Job("B", 1, 30, 0, 40.0, must=(0,)),
        Job("C", 1, 20, 0, 50.0, must=(0,)), Job("D", 1, 20, 0, 50.0, must=(0,)),
        Job("E", 1, 10, 0, 90.0, must=(0,)),
    ]  # fmt: skip
    task = task_of(jobs, priced(np.ones((1, 60)), pump_l_per_min=100.0))
    assert (search(task, rounds=200, seed=0).night >= 0).all()


@settings(max_examples=30)
@given(weeks())
def test_the_same_input_gives_the_same_week(week: tuple[list[Job], Grid]) -> None:
    task = task_of(*week)
    a, b = (search(task, rounds=10, seed=2) for _ in range(2))
    np.testing.assert_array_equal(a.night, b.night)
    np.testing.assert_array_equal(a.start, b.start)


@settings(max_examples=30)
@given(weeks())
def test_what_the_state_says_runs_is_what_was_placed(
    week: tuple[list[Job], Grid],
) -> None:
    task = task_of(*week)
    state = search(task, rounds=10, seed=2)
    flow = np.zeros_like(state.flow_ml)
    for e in np.flatnonzero(state.night >= 0):
        for s in state.start[e, : task.cycles[e]]:
            flow[state.night[e], s : s + task.block[e]] += task.flow_ml[e]
    np.testing.assert_array_equal(flow, state.flow_ml)
