"""No timetable is cheaper than its bounds."""

import numpy as np
import pytest
from hypothesis import given, settings

from scheduler.watering.timetable import Grid, Job
from scheduler.watering.timetable.bounds import (
    fill_bound,
    lagrangian_bound,
    lower_bound,
)
from scheduler.watering.timetable.pack import as_timetable
from scheduler.watering.timetable.search import search
from scheduler.watering.timetable.task import task_of
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


@settings(max_examples=60, deadline=None)
@given(weeks())
def test_no_timetable_beats_its_bounds(week: tuple[list[Job], Grid]) -> None:
    task = task_of(*week)
    table = as_timetable(task, search(task, rounds=5, seed=0))
    if not table.unplaced:
        most = table.cost * (1 + 1e-6) + 1e-6
        assert fill_bound(task) <= most
        assert lagrangian_bound(task, best=table.cost, rounds=6) <= most
