"""A cool and a hot week beside the planned one."""

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from scheduler.trace import entered
from scheduler.watering.ahead import NeedRange, need_range
from scheduler.watering.zone_week import ZoneWeek
from tests.scheduler.watering.made import inputs, nights, store, week, zone

ETO = entered("eto_mm", 28.0)
USE_MM = arrays(np.float64, 7, elements=st.floats(0.0, 12.0))


def ranged(
    cool: float, hot: float, one: Any = None, **given: Any
) -> tuple[ZoneWeek, NeedRange]:
    """The planned week, and a range whose use is that many times the planned one."""
    made, planned = inputs(one, **given), week(one, **given)
    etc = made.etc_mm_per_day
    found = need_range(
        made, planned, cool=(cool * etc, ETO), hot=(hot * etc, ETO), n_years=9
    )
    return planned, found


def test_without_a_balance_need_and_minutes_go_with_the_use() -> None:
    # 28 mm planned at 12 mm/h on seven nights: 20 min
    _, found = ranged(0.5, 1.5)
    assert (found.low_mm, found.high_mm) == (14.0, 42.0)
    assert (found.minutes_cool, found.minutes_hot) == (10, 30)


def test_the_years_behind_a_range_are_told() -> None:
    assert ranged(0.5, 1.5)[1].n_years == 9


def test_a_hot_week_may_take_one_night_more() -> None:
    # 16 mm allowed: at 4 mm a day one night fills it, at 6 mm a day two
    planned, found = ranged(0.9, 1.5, storage=store())
    assert len(planned.day_index) == 1
    assert found.nights_hot == 3
    assert found.nights_cool == 1


def test_a_cool_week_may_need_no_water_at_all() -> None:
    _, found = ranged(0.4, 1.0, storage=store())
    assert (found.low_mm, found.minutes_cool, found.nights_cool) == (0.0, 0, 0)


def test_a_night_that_slips_past_the_week_does_not_turn_the_range_round() -> None:
    # due on night 4 at 3.5 mm a day; at 4 mm it comes on night 3 and stores less
    planned, found = ranged(0.8, 1.1, etc_mm_per_day=np.full(7, 3.5), storage=store())
    assert planned.day_index == (3,)
    assert found.low_mm <= planned.need_mm <= found.high_mm


def test_an_unchanged_week_is_its_own_range() -> None:
    planned, found = ranged(1.0, 1.0, storage=store())
    assert found.low_mm == pytest.approx(planned.need_mm)
    assert found.minutes_hot == found.minutes_cool == planned.minutes_per_day


def test_a_day_of_a_hot_week_that_uses_less_is_taken_as_planned() -> None:
    # wet ground that dried sooner: 3 mm on one day, 4 planned on each
    made, planned = inputs(), week()
    hot = np.array([3.0, 5.0, 5.0, 5.0, 5.0, 5.0, 5.0])
    found = need_range(
        made, planned, cool=(np.full(7, 3.0), ETO), hot=(hot, ETO), n_years=9
    )
    assert found.high_mm == 34.0


def test_the_need_of_a_hot_week_rests_on_its_eto() -> None:
    _, found = ranged(0.9, 1.1)
    assert found.high.find("eto_mm") is not None
    assert found.high.value == found.high_mm


@settings(max_examples=60, deadline=None)
@given(
    USE_MM,
    st.floats(0.3, 1.0),
    st.floats(1.0, 2.0),
    st.sampled_from([None, store(), store(8.0, 4.8), store(60.0, 30.0)]),
    st.sampled_from(["when due", "every allowed day"]),
    st.sampled_from([(0, 1, 2, 3, 4, 5, 6), (0, 3), (1, 4, 5), (6,)]),
)
def test_hot_needs_at_least_as_much_as_planned_and_cool_at_most(
    use: Any, cool: float, hot: float, storage: Any, watered: str, allowed: Any
) -> None:
    planned, found = ranged(
        cool,
        hot,
        zone(watered=watered),
        etc_mm_per_day=use,
        storage=storage,
        allowed_day=nights(*allowed),
        start_depletion_mm=3.0 if storage else 0.0,
    )
    assert found.low_mm <= planned.need_mm + 1e-9
    assert found.high_mm >= planned.need_mm - 1e-9


def test_a_use_of_next_to_nothing_is_no_use() -> None:
    planned, _ = ranged(
        1.0, 1.0, zone(rule="average"), etc_mm_per_day=np.full(7, 2e-313)
    )
    assert planned.quarters == ()
