"""Whether a clock's runs fit into what the nights hold."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from scheduler.watering.clock_view.nouns import ClockRun
from scheduler.watering.clock_view.room import Room, night_holds, week_holds

ROOM = Room(
    first=dt.date(2026, 6, 8),
    anchor_min=1320,
    is_open={zone: np.ones((2, 60), dtype=bool) for zone in ("Z1", "Z2")},
    flow_l_per_min={"Z1": 60.0, "Z2": 50.0, "Z9": 60.0},
    soak_min={"Z1": 15},
    apart=frozenset(),
    pump_l_per_min=115.0,
    most_valves=2,
    delay_min=0,
)
TOGETHER = [ClockRun(1320, "Z1", 20), ClockRun(1330, "Z2", 20)]


def test_a_week_within_its_nights_holds() -> None:
    assert week_holds(ROOM, TOGETHER)


@pytest.mark.parametrize(
    "limit",
    [
        {"pump_l_per_min": 100.0},
        {"most_valves": 1},
        {"apart": frozenset({("Z1", "Z2"), ("Z2", "Z1")})},
        {"beside": {0: [("Z9", 15, 25)]}},
        {"is_open": dict.fromkeys(("Z1", "Z2"), np.zeros((2, 60), dtype=bool))},
    ],
)
def test_no_limit_is_passed(limit: dict[str, object]) -> None:
    assert not week_holds(replace(ROOM, **limit), TOGETHER)  # type: ignore[arg-type]


def test_a_run_past_the_last_night_does_not_hold() -> None:
    assert not week_holds(ROOM, [ClockRun(1320 + 2 * 1440, "Z1", 20)])


def test_a_short_soak_does_not_hold() -> None:
    assert not night_holds(ROOM, 0, [("Z1", 0, 10), ("Z1", 20, 30)], [])
