"""The shortest night, free starts beside pairs."""

import numpy as np
import pytest

from scheduler.watering.timetable import Grid, Job, Timetable, shortest_night
from scheduler.watering.timetable.checker import broken_rules
from tests.scheduler.watering.timetable.made import eight_zones, night


@pytest.mark.parametrize(
    ("pump_gpm", "change_over_min", "free", "short"),
    [(200, 0, 310, 0), (170, 0, 385, 0), (170, 1, 390, 0), (170, 2, 395, 5)],
)
def test_free_starts_of_the_worked_night_take_the_printed_minutes(
    pump_gpm: float, change_over_min: int, free: int, short: int
) -> None:
    grid = night(pump_gpm=pump_gpm, change_over_min=change_over_min)
    found = shortest_night(eight_zones(), grid)
    assert (found.free_min, found.short_min) == (free, short)


@pytest.mark.parametrize(
    ("pump_gpm", "pairs", "short"), [(200, 340, 0), (170, 405, 15)]
)
def test_pairs_of_the_worked_night_take_the_printed_minutes(
    pump_gpm: float, pairs: int, short: int
) -> None:
    found = shortest_night(eight_zones(), night(pump_gpm=pump_gpm))
    assert (found.pairs_min, found.pairs_short_min) == (pairs, short)


def test_the_shortest_night_breaks_no_rule() -> None:
    grid = night(pump_gpm=170, change_over_min=1)
    found = shortest_night(eight_zones(), grid)
    assert broken_rules(eight_zones(), grid, Timetable(found.placed, (), 0.0)) == ()


def test_another_zone_runs_in_the_soak() -> None:
    jobs = [Job("A", 2, 15, 20, 60.0), Job("B", 1, 20, 0, 60.0)]
    flat = np.ones((1, 1, 60))
    assert shortest_night(jobs, Grid(flat > 0, flat, 100.0)).free_min == 50


def test_blocked_minutes_lengthen_the_night() -> None:
    is_open = np.ones((1, 1, 60), dtype=bool)
    is_open[0, 0, 10:25] = False
    grid = Grid(is_open, np.ones(is_open.shape), 100.0)
    jobs = [Job(z, 1, 20, 0, 60.0) for z in "AB"]
    assert shortest_night(jobs, grid).free_min == 25 + 40


def test_zones_kept_apart_follow_one_another() -> None:
    jobs = [Job("A", 1, 20, not_with=("B",)), Job("B", 1, 10)]
    assert shortest_night(jobs, night()).free_min == 30


def test_a_night_without_zones_takes_no_time() -> None:
    assert shortest_night([], night()).free_min == 0


def test_the_shortest_night_keeps_the_valves_of_each_clock() -> None:
    two = [Job(f"Z{i}", 1, 10, 0, 1.0, must=(0,), clock=0) for i in (1, 2)]
    grid = night(max_valves=3, clock_valves=(1, 2))
    assert shortest_night(two, grid).free_min == 20
