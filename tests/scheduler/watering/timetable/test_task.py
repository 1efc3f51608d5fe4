"""Jobs as whole numbers."""

import numpy as np
import pytest

from scheduler.errors import SchedulerError
from scheduler.unit_table import L_PER_US_GALLON
from scheduler.watering.timetable import Grid, Job
from scheduler.watering.timetable.task import task_of
from tests.scheduler.watering.timetable.made import night


def test_every_must_and_every_more_is_one_event() -> None:
    flat = np.ones((1, 4, 60))
    task = task_of(
        [Job("A", 1, 9, must=(0,), may=(1, 2, 3), more=2)], Grid(flat > 0, flat)
    )
    assert task.night.astype(int).tolist() == [[1, 0, 0, 0], [0, 1, 1, 1], [0, 1, 1, 1]]


def test_flows_that_just_fit_the_pump_fit_as_whole_numbers() -> None:
    two = [
        Job(z, 1, 9, 0, f * L_PER_US_GALLON, must=(0,))
        for z, f in (("A", 80), ("B", 90))
    ]
    task = task_of(two, night(pump_gpm=170))
    assert task.flow_ml.sum() <= task.pump_ml


def test_the_largest_volume_goes_first() -> None:
    jobs = [Job("A", 1, 10, 0, 10.0, must=(0,)), Job("B", 2, 10, 0, 10.0, must=(0,))]
    assert task_of(jobs, night()).order.tolist() == [1, 0]


def test_rivals_count_both_ways() -> None:
    jobs = [Job("A", 1, 10, must=(0,), not_with=("B",)), Job("B", 1, 10, must=(0,))]
    assert task_of(jobs, night()).rival.tolist() == [[False, True], [True, False]]


@pytest.mark.parametrize(
    ("job", "said"),
    [
        (Job("A", 0, 10, must=(0,)), "0 cycles of 10 min"),
        (Job("A", 1, 10, 0, -3.0, must=(0,)), "a flow of -3 L/min"),
        (Job("A", 1, 10, must=(4,)), "a night outside 0 to 0"),
        (Job("A", 1, 10, must=(0, 0)), "names a night twice"),
        (Job("A", 1, 10, must=(0,), kind=2), "goes by row 2 of 1"),
    ],
)
def test_a_job_that_cannot_be_is_refused(job: Job, said: str) -> None:
    with pytest.raises(SchedulerError, match=said):
        task_of([job], night())


def test_a_zone_given_twice_is_refused() -> None:
    with pytest.raises(SchedulerError, match="zone A is given twice"):
        task_of([Job("A", 1, 9, must=(0,)), Job("A", 1, 9, must=(0,))], night())


def test_a_minute_without_a_cost_is_refused() -> None:
    cost = np.full((1, 1, 10), np.nan)
    with pytest.raises(SchedulerError, match="has no cost"):
        task_of([], Grid(cost < 0, cost))


def test_open_minutes_and_costs_of_two_shapes_are_refused() -> None:
    with pytest.raises(SchedulerError, match="differ"):
        task_of([], Grid(np.ones((1, 1, 9), dtype=bool), np.ones((1, 1, 8))))


def test_valves_at_once_are_the_sum_of_the_clocks() -> None:
    grid = night(max_valves=4, clock_valves=(1, 2))
    with pytest.raises(SchedulerError, match="not those of the clocks"):
        task_of([Job("A", 1, 9, must=(0,))], grid)


def test_a_clock_that_is_not_there_is_refused() -> None:
    grid = night(max_valves=3, clock_valves=(1, 2))
    with pytest.raises(SchedulerError, match="goes by clock 2 of 2"):
        task_of([Job("A", 1, 9, must=(0,), clock=2)], grid)
