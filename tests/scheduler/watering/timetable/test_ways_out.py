"""A night that does not fit says why, and what would help."""

import numpy as np
import pytest

from scheduler.unit_table import L_PER_US_GALLON
from scheduler.watering.timetable import Grid, Job, shortest_night
from scheduler.watering.timetable.ways_out import Way, WayOut, overrun
from tests.scheduler.watering.timetable.made import eight_zones, night

WORKED = overrun(eight_zones(), night(pump_gpm=170, change_over_min=2))


def _way(name: Way) -> WayOut:
    return next(one for one in WORKED.ways if one.way == name)


def test_the_worked_night_is_bound_by_its_pump() -> None:
    assert WORKED.binds == "pump"


def test_the_worked_night_fits_without_its_change_over() -> None:
    assert dict(WORKED.without)["change-over"] == 385


def test_the_window_must_open_by_the_missing_minutes() -> None:
    assert _way("window").amount == 5


def test_the_pump_that_is_asked_for_is_enough_and_hardly_more() -> None:
    # zones 1 and 3 together take 175 gpm: then four of the five are left apart
    assert _way("pump").amount / L_PER_US_GALLON == pytest.approx(175, abs=0.5)


def test_a_trim_of_one_percent_saves_a_minute_a_zone() -> None:
    assert (_way("trim").amount, _way("trim").minutes) == (0.01, 389)


def test_less_water_is_the_last_way_out() -> None:
    assert [one.way for one in WORKED.ways][-1] == "trim"


def test_pairs_that_do_not_fit_may_start_freely() -> None:
    found = overrun(eight_zones(), night(pump_gpm=170))
    assert [(one.way, one.minutes) for one in found.ways] == [("free starts", 385)]


def test_two_zones_take_turns_where_that_saves_change_overs() -> None:
    # each starts with six minutes of filling: four zones take 84 min, three take 78
    flat = np.ones((1, 1, 78))
    grid = Grid(flat > 0, flat, 100.0, change_over_min=6)
    jobs = [Job(z, 1, 15, 0, 60.0) for z in "ABCD"]
    found = overrun(jobs, grid)
    assert found.ways[0] == WayOut("alternate nights", 78, zones=("A", "B"))


def test_a_zone_larger_than_three_pumps_is_no_matter_of_a_pump() -> None:
    jobs = [Job("A", 1, 50, 0, 10.0), Job("B", 1, 500, 0, 10.0)]
    flat = np.ones((1, 1, 60))
    found = overrun(jobs, Grid(flat > 0, flat, 25.0))
    assert {one.way for one in found.ways} == {"window"}


def test_each_limit_is_taken_away_in_turn() -> None:
    is_open = np.ones((1, 1, 60), dtype=bool)
    is_open[0, 0, 20:30] = False
    grid = Grid(is_open, np.ones(is_open.shape), 100.0, 1, 1)
    jobs = [Job("A", 2, 15, 9, 60.0, not_with=("B",)), Job("B", 1, 20, 0, 60.0)]
    assert [name for name, _ in overrun(jobs, grid).without] == [
        "pump", "valves at once", "zones kept apart", "change-over", "soaks",
        "blocked hours",
    ]  # fmt: skip


def test_a_cycled_zone_takes_turns_with_twice_its_cycles() -> None:
    flat = np.ones((1, 1, 90))
    grid = Grid(flat > 0, flat, 100.0, change_over_min=1)
    jobs = [
        Job("A", 2, 15, 0, 60.0),
        Job("B", 2, 15, 0, 60.0),
        Job("C", 1, 30, 0, 60.0),
    ]
    for way in overrun(jobs, grid).ways:
        if way.way == "window":
            assert way.amount == shortest_night(jobs, grid).short_min
