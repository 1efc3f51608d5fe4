"""Places of last week are kept, or left for a gain."""

import numpy as np
import pytest

from scheduler.watering.timetable import Job
from scheduler.watering.timetable.home import Home, best_place, has_room, no_home
from scheduler.watering.timetable.insertion import empty_state, put
from scheduler.watering.timetable.search import search
from scheduler.watering.timetable.task import task_of
from tests.scheduler.watering.timetable.made import priced


def test_a_home_is_kept_when_moving_does_not_pay() -> None:
    cost = np.ones((1, 30))
    cost[0, 20:] = 0.9
    task = task_of([Job("A", 1, 10, 0, 10.0, must=(0,))], priced(cost))
    home = Home(np.array([0]), np.array([[3]]), round(20.0 / task.step_cost))
    assert search(task, rounds=20, seed=0, home=home).start.tolist() == [[3]]


def test_a_home_is_left_when_moving_pays() -> None:
    cost = np.ones((1, 30))
    cost[0, 20:] = 0.9
    task = task_of([Job("A", 1, 10, 0, 10.0, must=(0,))], priced(cost))
    home = Home(np.array([0]), np.array([[3]]), round(5.0 / task.step_cost))
    assert search(task, rounds=20, seed=0, home=home).start.tolist() == [[20]]


def test_without_a_home_the_cheapest_place_is_taken() -> None:
    cost = np.linspace(2.0, 1.0, 30)[None]
    task = task_of([Job("A", 1, 10, 0, 10.0, must=(0,))], priced(cost))
    found = best_place(task, empty_state(task), 0, no_home(task))
    assert found is not None
    assert found[1:] == (0, (20,))


def test_a_moved_watering_pays_its_move() -> None:
    cost = np.ones((1, 30))
    task = task_of([Job("A", 1, 10, 0, 10.0, must=(0,))], priced(cost))
    taken = Home(np.array([0]), np.array([[25]]), 7)  # its home ends after the night
    found = best_place(task, empty_state(task), 0, taken)
    assert found is not None
    assert found[0] * task.step_cost == pytest.approx(100.0, abs=1e-3)
    assert found[0] % 10 == 7


@pytest.mark.parametrize(
    ("place", "is_free"),
    [
        ((0, (10, 18)), True),
        ((0, (10, 17)), False),  # the soak is too short
        ((0, (5, 18)), False),  # another zone has the minutes
        ((0, (10, 26)), False),  # it ends after the night
        ((1, (10, 18)), False),  # it may not run on that night
    ],
)
def test_a_place_is_free_or_not(
    place: tuple[int, tuple[int, ...]], is_free: bool
) -> None:
    jobs = [Job("A", 1, 10, 0, 60.0, must=(0,)), Job("B", 2, 5, 3, 60.0, must=(0,))]
    task = task_of(jobs, priced(np.ones((2, 30)), pump_l_per_min=100.0))
    state = empty_state(task)
    put(task, state, 0, 0, (0,))
    assert has_room(task, state, 1, place) is is_free
