"""Soaks over an hour that the clock skips."""

import datetime as dt
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.record import History
from scheduler.watering.night_plan import NightPlan, moments_of, night_plan
from scheduler.watering.night_plan.real_soak import real_soak_min
from tests.scheduler.watering.night_plan.made import Watered, site, zone

SPRING = dt.date(2026, 3, 7)
DATES = tuple(SPRING + dt.timedelta(days=d) for d in range(7))
NEW_YORK = "America/New_York"


def plan(*zones: Watered, begun: NightPlan | None = None) -> NightPlan:
    """The nights from the one in which the clocks go forward at two."""
    made = night_plan(site(*(one.zone for one in zones)), History(), zones, begun=begun)
    assert made is not None
    return made


def cycles(zone_id: str, n: int, minutes: int, soak: int) -> Watered:
    one = Watered(zone(zone_id), days=DATES[:1], dates=DATES)
    return replace(one, cycles=n, cycle_minutes=minutes, soak_minutes=soak)


def real_soaks(made: NightPlan, zone_id: str) -> list[float]:
    runs = [
        moments_of(one.start, one.minutes, NEW_YORK)
        for one in made.runs
        if one.zone == zone_id
    ]
    return [(b.start_utc - a.end_utc).total_seconds() / 60 for a, b in pairwise(runs)]


def clock_notes(made: NightPlan) -> list[str]:
    return [one.what for one in made.findings if "clock change" in one.where]


# 22:00 and 03:00 would do by the clock, but only three hours of it pass
LONG = cycles("1", 2, 60, 200)


def test_a_soak_over_the_skipped_hour_is_really_kept() -> None:
    assert real_soaks(plan(LONG), "1") == [200]


def test_the_move_is_said_with_both_times() -> None:
    assert any("lets nothing soak" in one for one in clock_notes(plan(LONG)))


def test_a_plan_that_begins_with_the_moved_cycles_keeps_them() -> None:
    first = plan(LONG)
    assert plan(LONG, begun=first).runs == first.runs


def test_a_night_without_room_says_what_is_short() -> None:
    made = plan(cycles("1", 2, 85, 180))
    assert "1 soaks 155 min instead of 180" in clock_notes(made)[0]


def test_soaks_before_the_change_are_left_alone() -> None:
    made = plan(cycles("1", 2, 20, 30))
    assert not any("lets nothing soak" in one for one in clock_notes(made))


@given(
    n=st.integers(2, 3),
    minutes=st.integers(10, 50),
    soak=st.integers(20, 100),
    other=st.integers(20, 120),
)
def test_every_soak_is_kept_or_said(
    n: int, minutes: int, soak: int, other: int
) -> None:
    made = plan(cycles("1", n, minutes, soak), cycles("2", 1, other, 0))
    said = any("instead of" in one for one in clock_notes(made))
    assert said or all(one >= soak for one in real_soaks(made, "1"))


@pytest.mark.parametrize(("end", "start", "real"), [(0, 4, 2), (3, 4, 1), (1, 3, 0)])
def test_minutes_that_pass(end: int, start: int, real: int) -> None:
    skipped = np.array([False, True, True, False])
    assert real_soak_min(skipped, end, start) == real
