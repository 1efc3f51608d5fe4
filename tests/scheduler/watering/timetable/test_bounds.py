"""No timetable is cheaper than its bounds."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from scheduler.watering.timetable import Grid, Job, Placed, Timetable
from scheduler.watering.timetable.bounds import (
    fill_bound,
    lagrangian_bound,
    lower_bound,
)
from scheduler.watering.timetable.checker import broken_rules
from scheduler.watering.timetable.pack import as_timetable
from scheduler.watering.timetable.search import search
from scheduler.watering.timetable.task import NO_LIMIT, Task, task_of
from tests.scheduler.watering.timetable.made import priced, weeks

# two cheap minutes that no cycle of two minutes has both of
CHEAP_APART = priced(np.array([[1.0, 2.0, 2.0, 1.0, 2.0]]), pump_l_per_min=100.0)


def test_water_is_poured_into_the_cheapest_minutes_first() -> None:
    # 150 L at 100 L/min: a minute at 1, half a minute at 2
    cost = np.array([[3.0, 1.0, 2.0]])
    task = task_of(
        [Job("A", 1, 3, 0, 50.0, must=(0,))], priced(cost, pump_l_per_min=100.0)
    )
    assert fill_bound(task) == pytest.approx(100 * 1.0 + 50 * 2.0, rel=1e-4)


def test_pinned_nights_are_poured_one_by_one() -> None:
    cost = np.array([[1.0, 1.0], [5.0, 5.0]])
    jobs = [Job("A", 1, 2, 0, 50.0, must=(0, 1))]
    task = task_of(jobs, priced(cost, pump_l_per_min=100.0))
    assert fill_bound(task) == pytest.approx(100 * 1.0 + 100 * 5.0)


def test_valves_limit_what_a_minute_takes() -> None:
    cost = np.array([[1.0, 2.0]])
    jobs = [Job(z, 1, 1, 0, 50.0, must=(0,)) for z in "AB"]
    assert fill_bound(task_of(jobs, priced(cost, max_valves=1))) == pytest.approx(150.0)


def test_prices_of_room_prove_what_pouring_cannot() -> None:
    # a cycle of two minutes has a dear one in it, wherever it stands: 60 x (1 + 2)
    task = task_of([Job("A", 1, 2, 0, 60.0, must=(0,))], CHEAP_APART)
    assert fill_bound(task) == pytest.approx(120.0, rel=1e-4)
    assert lagrangian_bound(task, best=180.0, rounds=100) == pytest.approx(
        180, rel=1e-3
    )


def test_waterings_of_a_zone_cannot_share_the_cheapest_night() -> None:
    # 60 L a minute for 2 minutes: at 1 in the first night, at 3 in the second
    cost = np.repeat([[1.0], [3.0]], 9, axis=1)
    job = Job("A", 1, 2, 0, 60.0, may=(0, 1), more=2)
    task = task_of([job], priced(cost, pump_l_per_min=100.0))
    assert lagrangian_bound(task, best=480.0, rounds=3) == pytest.approx(480, rel=1e-4)


def test_more_waterings_than_nights_still_have_a_bound() -> None:
    job = Job("A", 1, 2, 0, 60.0, may=(0,), more=2)
    task = task_of([job], priced(np.ones((1, 9)), pump_l_per_min=100.0))
    assert lagrangian_bound(task, best=240.0, rounds=2) <= 240.0 * (1 + 1e-6)


def test_the_higher_bound_is_given_with_its_name() -> None:
    task = task_of([Job("A", 1, 2, 0, 60.0, must=(0,))], CHEAP_APART)
    assert lower_bound(task, best=180.0, rounds=100)[1] == "lagrangian"


def test_a_bound_that_is_met_needs_no_prices() -> None:
    task = task_of([Job("A", 1, 2, 0, 60.0, must=(0,))], priced(np.ones((1, 9))))
    bound, kind = lower_bound(task, best=120.0, rounds=50)
    assert bound == pytest.approx(120.0)
    assert kind == "fill"


def test_nothing_to_water_costs_nothing() -> None:
    assert fill_bound(task_of([], priced(np.ones((1, 9))))) == 0.0


def _poured_by_program(task: Task) -> float:
    """Cost of the pouring as a linear program: volume by event, night and minute."""
    cost = np.diff(task.cost_sum, axis=2).astype(np.float64)
    cost[~task.is_open] = np.inf
    cheapest = cost.min(axis=0)
    nights, minutes = np.nonzero(np.isfinite(cheapest))
    at = [(e, i) for e in range(task.n_events) for i in range(nights.size)
          if task.night[e, nights[i]]]  # fmt: skip
    room = np.inf
    if task.max_valves < task.n_events:
        room = float(np.sort(task.weight)[::-1][: task.max_valves].sum())
    if task.pump_ml < NO_LIMIT and task.flow_ml.all():
        ratio = float((task.weight / task.flow_ml).max())
        room = min(room, task.pump_ml * ratio)
    each, full = np.zeros((task.n_events, len(at))), np.zeros((nights.size, len(at)))
    for column, (e, i) in enumerate(at):
        each[e, column] = full[i, column] = 1.0
    price = np.array([cheapest[nights[i], minutes[i]] for _, i in at])
    found = linprog(
        price,
        A_ub=full if np.isfinite(room) else None,
        b_ub=np.full(nights.size, room) if np.isfinite(room) else None,
        A_eq=each,
        b_eq=task.volume.astype(float),
    )
    assert found.status == 0, found.message
    return float(found.fun) * task.step_cost


@settings(max_examples=40, deadline=None)
@given(weeks())
def test_no_bound_passes_what_a_linear_program_pours(
    week: tuple[list[Job], Grid],
) -> None:
    task = task_of(*week)
    if not search(task, rounds=5, seed=0).night.min() < 0:
        assert fill_bound(task) <= _poured_by_program(task) * (1 + 1e-6)


@settings(max_examples=40, deadline=None)
@given(weeks(), st.integers(0, 2))
def test_one_night_is_poured_as_the_linear_program_does(
    week: tuple[list[Job], Grid], night: int
) -> None:
    jobs, grid = week
    one = [replace(job, must=(0,), may=(), more=0) for job in jobs]
    n = night % grid.cost.shape[1]
    alone = replace(
        grid, is_open=grid.is_open[:, n : n + 1], cost=grid.cost[:, n : n + 1]
    )
    task = task_of(one, alone)
    if not search(task, rounds=5, seed=0).night.min() < 0:
        assert fill_bound(task) == pytest.approx(_poured_by_program(task), rel=1e-6)


def _cheapest_of_all(jobs: list[Job], grid: Grid) -> float:
    """Every way to start single cycles in one night, counted out."""
    n_minutes = grid.is_open.shape[2]
    places = [range(n_minutes - job.cycle_min + 1) for job in jobs]
    best = np.inf
    for starts in product(*places):
        table = Timetable(
            tuple(
                Placed(0, (start,), job.zone)
                for start, job in zip(starts, jobs, strict=True)
            ),
            (),
            0.0,
        )
        cost = sum(
            float(grid.cost[0, 0, start : start + job.cycle_min].sum())
            * (job.flow_l_per_min or 1.0)
            for start, job in zip(starts, jobs, strict=True)
        )
        if cost < best and not broken_rules(jobs, grid, table):
            best = cost
    return best


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(1, 5), st.sampled_from([20.0, 40.0, 70.0])),
        min_size=1,
        max_size=3,
    ),
    st.lists(st.floats(0.5, 2.0), min_size=9, max_size=9),
    st.sampled_from([None, 1, 2]),
)
def test_counting_out_small_nights_finds_nothing_below_bound_or_above_a_timetable(
    sizes: list[tuple[int, float]], cost: list[float], max_valves: int | None
) -> None:
    jobs = [
        Job(f"{i}", 1, minutes, 0, flow, must=(0,))
        for i, (minutes, flow) in enumerate(sizes)
    ]
    grid = priced(np.array([cost]), pump_l_per_min=100.0, max_valves=max_valves)
    best = _cheapest_of_all(jobs, grid)
    task = task_of(jobs, grid)
    table = as_timetable(task, search(task, rounds=60, seed=0))
    if not table.unplaced:
        assert table.cost >= best * (1 - 1e-5)
    if np.isfinite(best):
        assert lower_bound(task, best=best, rounds=30)[0] <= best * (1 + 1e-5)
    else:
        assert table.unplaced


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 9), st.lists(st.floats(0.5, 2.0), min_size=9, max_size=9))
def test_one_zone_alone_is_placed_as_counting_out_places_it(
    minutes: int, cost: list[float]
) -> None:
    jobs = [Job("A", 1, minutes, 0, 70.0, must=(0,))]
    grid = priced(np.array([cost]), pump_l_per_min=100.0)
    task = task_of(jobs, grid)
    table = as_timetable(task, search(task, rounds=0, seed=0))
    assert table.cost == pytest.approx(_cheapest_of_all(jobs, grid), rel=1e-5)


@settings(max_examples=60, deadline=None)
@given(weeks())
def test_no_timetable_beats_its_bounds(week: tuple[list[Job], Grid]) -> None:
    task = task_of(*week)
    table = as_timetable(task, search(task, rounds=5, seed=0))
    if not table.unplaced:
        most = table.cost * (1 + 1e-6) + 1e-6
        assert fill_bound(task) <= most
        assert lagrangian_bound(task, best=table.cost, rounds=6) <= most
