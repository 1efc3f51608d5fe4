"""A week that begins with the last one."""

import numpy as np

from scheduler.watering.timetable import Grid, Job, Placed
from scheduler.watering.timetable.stability import home_of, repacked
from scheduler.watering.timetable.task import task_of
from tests.scheduler.watering.timetable.made import priced

FALLING = np.linspace(2.0, 1.0, 120)[None]
JOBS = [Job(z, 1, 20, 0, 60.0, must=(0,)) for z in "ABC"]
LAST = [Placed(0, (0,), "A"), Placed(0, (20,), "B"), Placed(0, (40,), "C")]


def _grid(**given: int) -> Grid:
    return priced(FALLING, pump_l_per_min=100.0, **given)


def test_dear_moves_keep_last_week() -> None:
    kept = repacked(JOBS, _grid(), LAST, per_move=1e6)
    assert (list(kept.timetable.placed), kept.moved, kept.known) == (LAST, 0, 3)


def test_free_moves_follow_the_prices() -> None:
    kept = repacked(JOBS, _grid(), LAST, per_move=0.0)
    assert sorted(one.starts[0] for one in kept.timetable.placed) == [60, 80, 100]


def test_a_longer_cycle_moves_only_what_is_in_its_way() -> None:
    longer = [Job("A", 1, 25, 0, 60.0, must=(0,)), *JOBS[1:]]
    kept = repacked(longer, _grid(), LAST, per_move=1e6)
    assert (kept.moved, kept.timetable.unplaced) == (1, ())


def test_a_zone_that_is_new_has_no_home() -> None:
    kept = repacked(JOBS, _grid(), LAST[:2], per_move=1e6)
    assert kept.known == 2


def test_another_number_of_cycles_has_no_home() -> None:
    task = task_of([Job("A", 2, 10, 0, 60.0, must=(0,))], _grid())
    assert home_of(task, LAST, per_move=1.0).night.tolist() == [-1]


def test_the_home_of_a_block_begins_with_its_change_over() -> None:
    task = task_of(JOBS, _grid(change_over_min=2))
    last = [Placed(0, (10,), "A")]
    assert home_of(task, last, per_move=1.0).start[0, 0] == 8
