"""Depletion on the first morning: entered, from the clock as found, or half."""

import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.root_zone.storage import Storage
from scheduler.site import AsFound, Plant, Zone
from scheduler.trace import entered
from scheduler.watering.start import DaysBehind, start_depletion

STORE = Storage(40.0, 18.0, entered("allowed_depletion_mm", 18.0))
MONDAY = dt.date(2026, 5, 25)


def zone(**given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": "Z1", "name": "bay", "area_m2": 100.0, "grown_in": "soil",
        "plant": Plant(name="oaks", kc=0.8, kc_area="bed"),
    }  # fmt: skip
    return Zone(**(base | given))


def behind(etc_mm: float = 4.0, rain_mm: float = 0.0) -> DaysBehind:
    return DaysBehind(
        dates=tuple(MONDAY + dt.timedelta(n) for n in range(14)),
        etc_mm_per_day=np.full(14, etc_mm),
        rain_mm=np.full(14, rain_mm),
        share=np.array([0.8, 1.0, 1.2]),
        net_rate_mm_per_h=12.0,
    )


def test_what_was_entered_is_taken() -> None:
    found, trace, _ = start_depletion(zone(start_depletion_mm=7.0), STORE, behind())
    assert found.tolist() == [7.0]
    assert trace.source == "entered"


def test_no_more_than_everything_can_be_gone() -> None:
    found, _, _ = start_depletion(zone(start_depletion_mm=99.0), STORE, behind())
    assert found.tolist() == [40.0]


def test_without_any_record_half_of_the_allowed_is_assumed_and_said() -> None:
    found, _, (finding,) = start_depletion(zone(), STORE, behind())
    assert found.tolist() == [9.0]
    assert "as_found" in finding.fix


def test_a_clock_that_waters_enough_each_night_leaves_it_full() -> None:
    daily = zone(as_found=AsFound(minutes=60.0))
    found, _, _ = start_depletion(daily, STORE, behind())
    assert found.tolist() == [0.0, 0.0, 0.0]


def test_a_clock_that_waters_too_little_leaves_the_dry_position_driest() -> None:
    # 10 minutes at 12 mm/h give 2 mm a night, 4 mm are used
    short = zone(as_found=AsFound(minutes=10.0))
    found, _, _ = start_depletion(short, STORE, behind())
    assert found[0] > found[1] > found[2] > 0


def test_the_last_night_counts_for_the_first_morning() -> None:
    # one 20-minute night a week, on Sunday: 4 mm of the week's use come back
    sunday = zone(as_found=AsFound(minutes=20.0, days=("sun",)))
    never = zone(as_found=AsFound(minutes=0.0))
    wet, _, _ = start_depletion(sunday, STORE, behind(1.0))
    dry, _, _ = start_depletion(never, STORE, behind(1.0))
    assert dry[1] - wet[1] == pytest.approx(8.0)


def test_rain_leaves_it_wetter() -> None:
    short = zone(as_found=AsFound(minutes=10.0))
    dry, _, _ = start_depletion(short, STORE, behind())
    wet, _, _ = start_depletion(short, STORE, behind(rain_mm=1.0))
    assert (wet <= dry).all()


def test_no_balance_needs_no_start() -> None:
    found, trace, _ = start_depletion(zone(), None, behind())
    assert found.tolist() == [0.0]
    assert trace.value is None
