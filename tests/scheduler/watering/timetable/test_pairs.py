"""Zones that start together, two by two."""

import numpy as np
import pytest

from scheduler.watering.timetable import Job
from scheduler.watering.timetable.pairs import pairs_that_start_together
from tests.scheduler.watering.timetable.made import eight_zones, night


def test_the_worked_night_pairs_as_printed_at_200_gpm() -> None:
    pairs, minutes = pairs_that_start_together(eight_zones(), night(pump_gpm=200))
    assert minutes == 340
    assert {tuple(sorted(one)) for one in pairs} == {
        ("1", "3"), ("2", "5"), ("4", "7"), ("6", "8"),
    }  # fmt: skip


def test_the_worked_night_takes_405_min_in_pairs_at_170_gpm() -> None:
    assert pairs_that_start_together(eight_zones(), night(pump_gpm=170))[1] == 405


def test_each_slot_has_its_change_over() -> None:
    grid = night(pump_gpm=200, change_over_min=2)
    assert pairs_that_start_together(eight_zones(), grid)[1] == 340 + 4 * 2


def test_zones_kept_apart_are_no_pair() -> None:
    two = [Job("A", 1, 10, not_with=("B",)), Job("B", 1, 10)]
    assert pairs_that_start_together(two, night())[1] == 20


def test_one_valve_at_a_time_makes_no_pairs() -> None:
    two = [Job("A", 1, 10), Job("B", 1, 10)]
    assert pairs_that_start_together(two, night(max_valves=1))[1] == 20


@pytest.mark.parametrize("seed", range(5))
def test_many_zones_that_all_fit_pair_longest_with_longest(seed: int) -> None:
    rng = np.random.default_rng(seed)
    minutes = rng.integers(5, 60, 20)
    jobs = [Job(f"{i:02}", 1, int(m), 0, 1.0) for i, m in enumerate(minutes)]
    expected = int(np.sort(minutes)[::-1][::2].sum())
    assert pairs_that_start_together(jobs, night())[1] == expected


def test_of_many_zones_one_that_fits_with_none_stays_alone() -> None:
    jobs = [Job(f"{i:02}", 1, 10, 0, 1.0) for i in range(15)]
    jobs.append(Job("99", 1, 50, 0, 757.0))
    pairs, _ = pairs_that_start_together(jobs, night(pump_gpm=200))
    assert ("99",) in pairs


def test_a_pair_of_one_clock_needs_two_of_its_valves() -> None:
    two = [Job(f"Z{i}", 1, 10, 0, 1.0, clock=0) for i in (1, 2)]
    grid = night(max_valves=3, clock_valves=(1, 2))
    assert pairs_that_start_together(two, grid)[1] == 20
