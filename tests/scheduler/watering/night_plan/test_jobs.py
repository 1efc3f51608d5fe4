"""Zones as jobs of the nights."""

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np

from scheduler.site import BlockedHours, Controller
from scheduler.watering.night_plan.jobs import WeekJobs, week_jobs
from scheduler.watering.night_plan.night_hours import night_hours
from tests.scheduler.watering.night_plan.made import (
    DATES,
    Watered,
    eight_zones,
    site,
    zone,
)


def _jobs(*watered: Watered, **given: Any) -> WeekJobs:
    place = site(*(one.zone for one in watered), **given)
    flat = np.ones(390)
    cost = {one.zone.id: flat for one in watered}
    return week_jobs(place, watered, night_hours(place, DATES), cost)


def test_a_zone_is_a_job_of_each_of_its_nights() -> None:
    week = _jobs(Watered(zone("1"), days=(DATES[0], DATES[3])))
    assert [len(some) for some in week.jobs] == [1, 0, 0, 1, 0, 0, 0]


def test_a_zone_without_minutes_is_no_job() -> None:
    assert _jobs(Watered(zone("1"), cycle_minutes=0)).jobs[0] == ()


def test_zones_with_the_same_minutes_share_a_row() -> None:
    assert _jobs(*eight_zones()).grids[0].is_open.shape == (1, 1, 390)


def test_hours_blocked_for_one_zone_give_it_its_own_row() -> None:
    own = BlockedHours(start=dt.time(3), end=dt.time(4), reason="people", zones=("2",))
    week = _jobs(*eight_zones(), blocked_hours=(own,))
    assert [job.kind for job in week.jobs[0]] == [0, 1, 0, 0, 0, 0, 0, 0]
    assert week.grids[0].is_open[1].sum() == 330


def test_the_clock_gives_valves_and_change_over() -> None:
    clock = Controller(max_valves_at_once=3, change_over_minutes=1)
    grid = _jobs(*eight_zones(), controller=clock).grids[0]
    assert (grid.max_valves, grid.change_over_min) == (3, 1)


def test_zones_kept_apart_are_named_as_the_site_names_them() -> None:
    a, b = zone("a", not_with=("B",)), zone("b")
    assert _jobs(Watered(a), Watered(b)).jobs[0][0].not_with == ("b",)


def test_a_zone_without_a_flow_is_said() -> None:
    watered = replace(Watered(zone("1")), zone=zone("1", package=None))
    week = _jobs(watered)
    assert week.unknown_flow == ("1",)
    assert week.jobs[0][0].flow_l_per_min is None
