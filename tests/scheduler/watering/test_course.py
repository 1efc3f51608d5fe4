"""Depletion evening by evening, behind and ahead."""

import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.root_zone.intake import intake_model
from scheduler.site import AsFound
from scheduler.trace import entered
from scheduler.watering.course import Course, zone_course
from scheduler.watering.start import DaysBehind, start_depletion
from scheduler.watering.zone_week import ZoneWeekInput, zone_week
from tests.scheduler.watering.made import FIRST_SHARE, store, zone

MONDAY = dt.date(2026, 6, 8)
NONE = entered("any", 0.0)
BEHIND = DaysBehind(
    dates=tuple(MONDAY - dt.timedelta(14 - d) for d in range(14)),
    etc_mm_per_day=np.full(14, 4.0),
    rain_mm=np.zeros(14),
    share=FIRST_SHARE,
    net_rate_mm_per_h=12.0,
)
CLOCK = AsFound(minutes=20.0)


def course(behind: DaysBehind | None = BEHIND, **given: Any) -> Course | None:
    bay = zone(as_found=CLOCK, **given)
    start = start_depletion(bay, store(), behind)[0]
    inputs = ZoneWeekInput(
        bay, FIRST_SHARE, 12.0, 0.7, 0.8, np.full(7, 4.0), np.zeros(7), store(),
        start, np.ones(7, dtype=bool), intake_model(bay)[0], "nearest", None,
        tuple(MONDAY + dt.timedelta(d) for d in range(7)),
    )  # fmt: skip
    week = zone_week(inputs, rate_trace=NONE, du_trace=NONE, etc_trace=NONE)
    return zone_course(inputs, week, behind)


def test_the_days_behind_come_before_the_week() -> None:
    found = course()
    assert found is not None
    assert (len(found.dates), found.n_behind) == (21, 14)
    assert found.dates[14] == MONDAY


# full on the first morning, no water yet: 4 mm are used everywhere
def test_the_first_evening_lacks_one_days_use() -> None:
    found = course()
    assert found is not None
    assert found.served_mm[0] == pytest.approx(4.0)
    assert found.quarter_mm[0] == pytest.approx([4.0] * 4)


# 20 min at 12 mm/h put on 4 mm a night
def test_the_clock_that_was_found_waters_the_nights_behind() -> None:
    found = course()
    assert found is not None
    assert found.watering_mm[:14] == pytest.approx([4.0] * 14)


# the wettest quarter is filled by the last night behind and uses 4 mm the next day
def test_the_week_goes_on_where_the_days_behind_end() -> None:
    found = course()
    assert found is not None
    assert found.quarter_mm[13:15, 3] == pytest.approx([4.0, 4.0])


def test_a_drier_quarter_is_never_less_depleted() -> None:
    found = course()
    assert found is not None
    assert (np.diff(found.quarter_mm, axis=1) <= 1e-9).all()


def test_an_entered_depletion_leaves_the_days_behind_out() -> None:
    found = course(start_depletion_mm=5.0)
    assert found is not None
    assert (found.n_behind, len(found.dates)) == (0, 7)


def test_unknown_days_behind_are_left_out() -> None:
    found = course(behind=None)
    assert found is not None
    assert found.n_behind == 0


def test_evenings_past_the_allowed_line_are_named() -> None:
    days = (MONDAY, MONDAY + dt.timedelta(1))
    two = np.array([5.0, 7.0])
    found = Course(days, 0, two, np.zeros((2, 4)), np.zeros(2), 6.0)
    assert found.passed_on() == (days[1],)
