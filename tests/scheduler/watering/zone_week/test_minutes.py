"""What the clock is told, before it is run through the balance."""

import math
from typing import Any

import numpy as np
import pytest

from scheduler.watering.zone_week import clocked, clocked_in_short, zone_adequacy
from scheduler.watering.zone_week.minutes import at_wet_mm_per_h
from tests.scheduler.watering.made import BAY, FIRST_SHARE, inputs, store, week, zone


def test_minutes_are_need_over_rate() -> None:
    # 28 mm on seven nights at 12 mm/h
    assert clocked(inputs()).cut.minutes == 20


def test_the_rule_that_rules_is_the_chosen_row() -> None:
    found = clocked(inputs(zone(rule="low quarter"), share=FIRST_SHARE))
    assert found.chosen.rule == found.adequate.ruled_by == "low quarter"


def test_positions_that_caught_nothing_leave_no_night() -> None:
    dry = np.array([0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 2.0, 2.0])
    found = clocked(inputs(zone(rule="low quarter"), share=dry))
    assert (found.demand.nights, math.isinf(found.adequate.factor)) == ((), True)


@pytest.mark.parametrize("rule", ["average", "low half", "low quarter"])
@pytest.mark.parametrize("storage", [None, store()])
def test_in_short_it_says_the_same(rule: str, storage: Any) -> None:
    made = inputs(zone(rule=rule), share=FIRST_SHARE, storage=storage, intake=BAY)
    whole = clocked(made)
    demand, minutes = clocked_in_short(made, zone_adequacy(made))
    assert (demand.nights, minutes) == (whole.demand.nights, whole.cut.minutes)


def test_in_short_a_week_that_is_not_due_has_no_minutes() -> None:
    made = inputs(storage=store(), etc_mm_per_day=np.full(7, 0.5))
    assert clocked_in_short(made, zone_adequacy(made))[1] == 0


def test_the_week_runs_what_the_clock_is_told() -> None:
    told, run = clocked(inputs(storage=store())), week(storage=store())
    assert (told.demand.nights, told.cut.minutes) == (
        run.day_index,
        run.minutes_per_day,
    )
    assert run.night_need_mm == told.demand.depth_mm


def test_an_even_catch_wets_as_fast_everywhere() -> None:
    assert at_wet_mm_per_h(inputs()) == pytest.approx(12.0)
