"""Which nights water, and what they must store."""

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from scheduler.arrays import FloatArray
from scheduler.units import MM_PER_INCH
from scheduler.watering.zone_week.nights import (
    Demand,
    most_waiting_mm,
    refills,
    replaced_use,
)
from tests.scheduler.watering.made import inputs, nights, store, zone

RAIN_MM = arrays(np.float64, 7, elements=st.floats(0.0, 40.0))
USE_MM = arrays(np.float64, 7, elements=st.floats(0.0, 12.0))
EVERY = zone(watered="every allowed day")


def due(factor: float = 1.0, **given: Any) -> Demand:
    storage = given.pop("storage", store())
    made = inputs(given.pop("one", zone()), storage=storage, **given)
    return refills(made, storage, factor)


# --- without a balance -------------------------------------------------------------


def test_use_less_counted_rain_is_the_need_of_the_worked_week() -> None:
    # ETo 1.26 in, Kc 0.85, rain 0.30 in counted half: 0.92 in
    demand = replaced_use(
        inputs(
            zone(rain_counted=0.5),
            etc_mm_per_day=np.full(7, 1.26 * 0.85 * MM_PER_INCH / 7),
            rain_mm=np.full(7, 0.30 * MM_PER_INCH / 7),
        )
    )
    assert demand.need_mm / MM_PER_INCH == pytest.approx(0.921, abs=1e-6)


def test_all_allowed_nights_share_the_need() -> None:
    assert replaced_use(inputs(allowed_day=nights(0, 3))).nights == (0, 3)


def test_rain_that_covers_the_use_leaves_no_nights() -> None:
    demand = replaced_use(inputs(rain_mm=np.full(7, 9.0)))
    assert (demand.nights, demand.need_mm) == ((), 0.0)


def test_rain_above_the_use_is_not_called_effective() -> None:
    assert replaced_use(inputs(rain_mm=np.full(7, 9.0))).rain_mm == 28.0


def test_without_a_share_rain_is_counted_by_the_event_rule_and_it_is_noted() -> None:
    rain = np.array([0.5 * MM_PER_INCH, 0, 0, 0, 0, 0, 0])
    demand = replaced_use(inputs(zone(rain_counted=None), rain_mm=rain))
    assert demand.rain_mm == pytest.approx(0.4 * MM_PER_INCH)
    assert "Texas A&M" in demand.findings[0].what


def test_a_dry_week_says_nothing_about_rain() -> None:
    assert replaced_use(inputs(zone(rain_counted=None))).findings == []


def test_no_allowed_night_is_a_stop() -> None:
    found = replaced_use(inputs(allowed_day=nights())).findings
    assert [one.level for one in found] == ["stop"]
    assert "share none" in found[0].what


# --- with a balance -----------------------------------------------------------------


def test_a_night_waters_when_waiting_would_pass_the_allowed_depletion() -> None:
    # 4 mm a day, 16 mm allowed: evenings 4, 8, 12, 16; waiting for the next passes 16
    demand = due(etc_mm_per_day=np.full(7, 4.0))
    assert demand.nights == (3,)
    assert demand.need_mm == pytest.approx(16.0)


def test_reaching_the_allowed_depletion_exactly_does_not_pass_it() -> None:
    assert 2 not in due(etc_mm_per_day=np.full(7, 4.0)).nights


def test_a_thirstier_week_waters_twice_and_fills_each_time() -> None:
    # 6 mm a day: evenings 6, 12 (18 would pass), then 6, 12
    demand = due(etc_mm_per_day=np.full(7, 6.0))
    assert demand.nights == (1, 3, 5)
    assert demand.need_mm == pytest.approx(36.0)


def test_the_last_allowed_night_before_a_gap_waters_early() -> None:
    # nights 0 and 4: from 2 mm on, waiting for night 4 would reach 22
    demand = due(allowed_day=nights(0, 4), start_depletion_mm=2.0)
    assert demand.nights == (0, 4)
    assert demand.need_mm == pytest.approx(6.0 + 16.0)


def test_the_look_ahead_runs_over_the_end_of_the_week() -> None:
    # only night 6: seven more days at 4 mm pass 16 before the next such night
    demand = due(allowed_day=nights(6), storage=store(100.0, 40.0))
    assert demand.nights == (6,)


def test_rain_on_the_way_holds_a_watering_back() -> None:
    rain = np.array([0.0, 0, 0, 0, 30.0, 0, 0])
    assert due(rain_mm=rain).nights == ()


def test_a_dry_served_position_waters_earlier() -> None:
    share = np.array([0.5, 0.9, 1.1, 1.5])
    start = np.array([14.0, 6.0, 4.0, 0.0])
    served = due(2.0, share=share, start_depletion_mm=start)
    mean = due(1.0, share=share, start_depletion_mm=start)
    assert served.nights[0] < mean.nights[0]


def test_not_due_is_a_note_with_how_long_it_lasts() -> None:
    found = due(etc_mm_per_day=np.full(7, 1.0)).findings
    assert [one.level for one in found] == ["note"]
    assert "not due this week: 7.0 mm (0.28 in) of the allowed 16.0 mm" in found[0].what
    assert "about 9 days" in found[0].what


def test_without_any_use_no_date_is_told() -> None:
    found = due(etc_mm_per_day=np.zeros(7)).findings
    assert "days after" not in found[0].what


def test_every_allowed_day_waters_each_night_if_anything_is_needed() -> None:
    demand = due(one=EVERY, etc_mm_per_day=np.full(7, 1.0), allowed_day=nights(1, 5))
    assert demand.nights == (1, 5)
    assert demand.need_mm == pytest.approx(6.0)


def test_every_allowed_day_is_quiet_in_a_week_that_rains_enough() -> None:
    demand = due(one=EVERY, rain_mm=np.full(7, 40.0), etc_mm_per_day=np.zeros(7))
    assert demand.nights == ()


def test_a_balance_without_any_night_is_a_stop_too() -> None:
    assert [one.level for one in due(allowed_day=nights()).findings] == ["stop"]


# --- laws ---------------------------------------------------------------------------


@given(rain=RAIN_MM, use=USE_MM, start=st.floats(0.0, 40.0))
def test_need_is_never_negative(
    rain: FloatArray, use: FloatArray, start: float
) -> None:
    week: Any = {"rain_mm": rain, "etc_mm_per_day": use}
    assert replaced_use(inputs(**week)).need_mm >= 0.0
    assert due(start_depletion_mm=start, **week).need_mm >= 0.0


@given(rain=RAIN_MM, more=RAIN_MM, use=USE_MM)
def test_more_rain_never_needs_more_water_without_a_balance(
    rain: FloatArray, more: FloatArray, use: FloatArray
) -> None:
    less = replaced_use(inputs(rain_mm=rain, etc_mm_per_day=use))
    wetter = replaced_use(inputs(rain_mm=rain + more, etc_mm_per_day=use))
    assert wetter.need_mm <= less.need_mm + 1e-9


@given(rain=RAIN_MM, more=RAIN_MM, use=USE_MM, start=st.floats(0.0, 40.0))
def test_more_rain_never_needs_more_water_when_every_night_fills(
    rain: FloatArray, more: FloatArray, use: FloatArray, start: float
) -> None:
    # when due, rain can move a watering from next week into this one or out of it;
    # with fixed nights there is nothing to move and the law holds
    week: Any = {"one": EVERY, "etc_mm_per_day": use, "start_depletion_mm": start}
    wetter, less = due(rain_mm=rain + more, **week), due(rain_mm=rain, **week)
    assert wetter.need_mm <= less.need_mm + 1e-9


@given(use=USE_MM, start=st.floats(0.0, 16.0))
def test_watering_when_due_every_night_allowed_never_passes_what_is_allowed(
    use: FloatArray, start: float
) -> None:
    storage = store(40.0, 16.0)  # above any single day's use
    made = inputs(zone(), storage=storage, etc_mm_per_day=use, start_depletion_mm=start)
    demand = refills(made, storage, 1.0)
    depletion = start
    for d in range(7):
        depletion += use[d]
        if d == 0 and depletion > storage.allowed_mm:
            return  # too dry before the first night: nothing could be done
        assert depletion <= storage.allowed_mm + 1e-9
        if d in demand.nights:
            depletion = 0.0


# --- how long a night can wait ------------------------------------------------------


def waiting(d: int, *clock: int, one: Any = None, **given: Any) -> float:
    made = inputs(one or zone(), **({"storage": store()} | given))
    return most_waiting_mm(made, d, clock)


def test_a_night_can_wait_with_what_the_days_to_the_next_one_leave() -> None:
    # 16 mm allowed, two days of 4 mm to the clock's next night
    assert waiting(0, 0, 2) == 8.0


def test_the_last_night_waits_for_the_first_of_next_week() -> None:
    # night 5 to the first allowed night of next week, two days of 4 mm
    assert waiting(5, 0, 5) == 8.0


def test_rain_that_is_known_lengthens_the_wait() -> None:
    rain = np.array([0.0, 3.0, 0.0, 0.0, 0.0, 0.0, 0.0])
    assert waiting(0, 0, 2, rain_mm=rain) == 11.0


def test_days_that_use_more_than_is_allowed_cannot_wait_at_all() -> None:
    assert waiting(0, 0, 5) == 0.0


def test_every_allowed_night_waits_for_nothing() -> None:
    assert waiting(0, 0, 1, one=EVERY) == 0.0


def test_without_a_balance_nothing_tells_how_long_to_wait() -> None:
    assert waiting(0, 0, 1, storage=None) == 0.0


@given(USE_MM)
def test_a_night_that_is_due_lacks_more_than_it_may_wait_with(
    use: FloatArray,
) -> None:
    made = inputs(etc_mm_per_day=use, storage=store())
    demand = refills(made, store(), 1.0)
    for night, lacking in zip(demand.nights, demand.depth_mm, strict=True):
        assert lacking > most_waiting_mm(made, night, demand.nights) - 1e-9


@given(USE_MM, RAIN_MM, st.sampled_from(["when due", "every allowed day"]))
def test_the_nights_together_store_the_need(
    use: FloatArray, rain: FloatArray, watered: str
) -> None:
    demand = due(etc_mm_per_day=use, rain_mm=rain, one=zone(watered=watered))
    assert sum(demand.depth_mm) == pytest.approx(demand.need_mm)


# --- nights that somebody chose ----------------------------------------------------


def test_each_chosen_night_fills_what_was_used_by_then() -> None:
    # 4 mm a day: three days by the third evening, two more by the fifth
    demand = due(chosen_nights=(2, 4))
    assert demand.nights == (2, 4)
    assert demand.depth_mm == pytest.approx((12.0, 8.0))


def test_a_chosen_night_waters_though_it_is_not_due() -> None:
    assert due(chosen_nights=(0,)).depth_mm == pytest.approx((4.0,))
