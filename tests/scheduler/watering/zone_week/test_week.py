"""One zone's week: whole minutes and what they do."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.field.uniformity import low_half_uniformity, low_quarter_uniformity
from scheduler.root_zone.intake import IntakeModel
from scheduler.trace import entered
from scheduler.units import MM_PER_INCH
from scheduler.watering.zone_week import ZoneWeek
from tests.scheduler.field.made import FIRST_VISIT_ML, MOUTH_CM2
from tests.scheduler.watering.made import (
    BAY,
    BAY_RATE,
    DRY,
    FIRST_SHARE,
    nights,
    store,
    week,
    zone,
)
from tests.strategies import shares

MIST = zone(watered="fixed minutes", fixed_minutes=5.0, fixed_reason="mist")


def levels(made: ZoneWeek, place: str) -> list[str]:
    return [one.level for one in made.findings if place in one.where]


def said(made: ZoneWeek, place: str) -> str:
    return next(one.what for one in made.findings if place in one.where)


# --- the worked example ----------------------------------------


# mean of 24 cans in a 4.25 in mouth over 30 minutes: 0.48 in/h
WORKED_RATE = float(np.mean(FIRST_VISIT_ML)) / MOUTH_CM2 * 10 * 2


def worked(**given: Any) -> ZoneWeek:
    """ETo 1.26 in, Kc 0.85, rain 0.30 in counted half, 0.48 in/h, six nights."""
    base: dict[str, Any] = {
        "share": FIRST_SHARE,
        "net_rate_mm_per_h": WORKED_RATE,
        "etc_mm_per_day": np.full(7, 1.26 * 0.85 * MM_PER_INCH / 7),
        "rain_mm": np.full(7, 0.30 * MM_PER_INCH / 7),
        "allowed_day": nights(0, 1, 2, 3, 4, 5),
    }
    return week(zone(rain_counted=0.5, rule="low quarter"), **(base | given))


def test_the_worked_week_needs_its_printed_depth() -> None:
    assert worked().need_mm / MM_PER_INCH == pytest.approx(0.92, abs=0.005)


def test_the_worked_week_counts_half_of_its_rain() -> None:
    assert worked().effective_rain_mm / MM_PER_INCH == pytest.approx(0.15)


def test_the_worked_week_lists_its_printed_minutes() -> None:
    minutes = [one.minutes_per_day for one in worked().rules][:3]
    assert minutes == pytest.approx([19.2, 23.1, 26.8], abs=0.05)


def test_the_worked_week_gives_whole_minutes_and_says_how_far_off_they_are() -> None:
    made = worked()
    assert (made.minutes_per_day, made.minutes_week) == (27, 162)
    assert made.realised_error == pytest.approx(162 / made.minutes_exact - 1)
    assert made.realised_depth_mm == pytest.approx(162 / 60 * WORKED_RATE)


def test_quarters_after_rounding_follow_the_whole_minutes() -> None:
    made = worked()
    assert np.mean(made.quarters) == pytest.approx(
        made.realised_depth_mm / made.need_mm
    )
    assert made.quarters[0] == pytest.approx(27 / 26.8, abs=0.002)


def test_the_field_bay_runs_three_cycles_of_fifteen() -> None:
    # need 0.45 in at 0.62 in/h, intake 0.25 in/h, 0.10 in on the surface, even cans
    bay = week(
        zone(),
        net_rate_mm_per_h=BAY_RATE,
        intake=BAY,
        etc_mm_per_day=np.array([0.45 * MM_PER_INCH, 0, 0, 0, 0, 0, 0]),
        allowed_day=nights(0),
        max_cycles=4,
    )
    cut = bay.split
    assert (cut.cycles, cut.cycle_minutes, cut.soak_minutes) == (3, 15, 23)
    assert bay.minutes_week == 45


# --- with a balance ----------------------------------------


def test_a_due_night_fills_the_served_position_the_next_morning() -> None:
    made = week(storage=store())
    assert made.day_index == (3,)
    np.testing.assert_allclose(made.served_depletion_mm, [4, 8, 12, 16, 4, 8, 12])


def test_the_driest_positions_stay_down_after_a_watering() -> None:
    made = week(zone(rule="average"), share=FIRST_SHARE, storage=store())
    driest, wettest = np.argmin(FIRST_SHARE), np.argmax(FIRST_SHARE)
    after = made.depletion_mm[made.day_index[0] + 1]
    assert after[driest] > after[wettest]


def test_rain_in_a_balance_is_stored_and_not_taken_off_again() -> None:
    # 30 mm on a bed that is 4 mm down in the morning of the second day: 4 mm fit
    rain = np.array([0.0, 30.0, 0, 0, 0, 0, 0])
    made = week(storage=store(), rain_mm=rain)
    assert made.effective_rain_mm == pytest.approx(4.0)
    assert made.day_index == (4,)
    assert made.need_mm == pytest.approx(16.0)


def test_one_setting_serves_nights_that_need_different_depths() -> None:
    # night 0 needs 6 mm, night 4 needs 16: the clock holds 11 for both
    made = week(
        storage=store(), allowed_day=nights(0, 4), start_depletion_mm=2.0,
        net_rate_mm_per_h=11.0,
    )  # fmt: skip
    assert made.minutes_per_day == 60
    assert made.minutes_week == 120


def test_nothing_due_is_no_minutes_and_a_note() -> None:
    made = week(storage=store(), etc_mm_per_day=np.ones(7))
    assert (made.minutes_per_day, made.minutes_week, made.day_index) == (0, 0, ())
    assert (made.need_mm, made.realised_error, made.quarters) == (0.0, 0.0, ())
    assert levels(made, "nights") == ["note"]


def test_a_week_that_starts_too_dry_warns() -> None:
    made = week(storage=store(), start_depletion_mm=20.0)
    assert "warning" in levels(made, "depletion")
    assert "is used at the start" in said(made, "depletion")


def test_drying_out_before_the_first_allowed_night_warns_and_names_the_day() -> None:
    made = week(storage=store(), start_depletion_mm=12.0, allowed_day=nights(3, 6))
    assert "by the evening of day 2" in said(made, "depletion")
    assert "before the first allowed night, day 4" in said(made, "depletion")


def test_nights_too_far_apart_warn_even_so() -> None:
    made = week(storage=store(), allowed_day=nights(0, 6))
    assert levels(made, "depletion") == ["warning"]
    assert "is passed on 2 day(s) even so" in said(made, "depletion")


def test_a_week_within_what_is_allowed_warns_of_nothing() -> None:
    assert levels(week(storage=store()), "depletion") == []


# --- fixed minutes ----------------------------------------


def test_fixed_minutes_never_follow_the_weather() -> None:
    hot = week(MIST, etc_mm_per_day=np.full(7, 12.0))
    wet = week(MIST, rain_mm=np.full(7, 50.0))
    assert hot.minutes_per_day == wet.minutes_per_day == 5
    assert hot.minutes_week == wet.minutes_week == 35


def test_fixed_minutes_need_no_rate() -> None:
    made = week(MIST, net_rate_mm_per_h=math.nan)
    assert made.minutes_per_day == 5
    assert math.isnan(made.realised_depth_mm)


def test_fixed_minutes_that_are_not_whole_are_noted() -> None:
    made = week(zone(watered="fixed minutes", fixed_minutes=5.4))
    assert made.minutes_per_day == 5
    assert any("5.4 is not whole" in one.what for one in made.findings)


def test_fixed_minutes_beyond_first_runoff_warn_and_stay() -> None:
    seen = IntakeModel("first runoff", 4.0, None, None, entered("x", 4.0))
    made = week(MIST, intake=seen)
    assert made.minutes_per_day == 5
    assert "warning" in levels(made, "fixed_minutes")


def test_fixed_minutes_without_an_allowed_night_are_a_stop() -> None:
    made = week(MIST, allowed_day=nights())
    assert [one.level for one in made.findings] == ["stop"]
    assert made.minutes_week == 0


# --- what cannot be ----------------------------------------


def test_a_rule_that_nothing_serves_is_a_stop_without_minutes() -> None:
    share = np.array([0.0, 1.0, 1.0, 2.0])
    made = week(zone(rule="low quarter"), share=share, storage=store())
    assert levels(made, "rule") == ["stop"]
    assert made.minutes_week == 0


def test_an_et_zone_without_a_rate_is_refused() -> None:
    with pytest.raises(SchedulerError, match="net rate is nan"):
        week(net_rate_mm_per_h=math.nan)


def test_whole_minutes_far_from_the_exact_ones_are_noted() -> None:
    # 0.7 mm a night at 30 mm/h are 1.4 min: one whole minute is 29 % short
    made = week(etc_mm_per_day=np.full(7, 0.7), net_rate_mm_per_h=30.0)
    assert made.realised_error == pytest.approx(1 / 1.4 - 1)
    assert "−29%" in said(made, "minutes")


def test_results_cannot_be_written_to() -> None:
    made = week(storage=store())
    assert not made.served_depletion_mm.flags.writeable
    assert not made.depletion_mm.flags.writeable


# --- laws ----------------------------------------


@given(share=shares(), use=st.floats(0.2, 12.0), rate=st.floats(2.0, 40.0))
@pytest.mark.parametrize("storage", [None, store()], ids=["use", "balance"])
def test_the_clocks_minutes_are_its_cycles_and_its_nights(
    storage: Any, share: FloatArray, use: float, rate: float
) -> None:
    made = week(
        share=share, storage=storage, etc_mm_per_day=np.full(7, use),
        net_rate_mm_per_h=rate,
    )  # fmt: skip
    assert made.minutes_per_day == made.split.cycles * made.split.cycle_minutes
    assert made.minutes_week == made.minutes_per_day * len(made.day_index)
    assert made.realised_depth_mm == pytest.approx(made.minutes_week * rate / 60)


@given(share=shares(), squeeze=st.floats(0.0, 1.0))
@pytest.mark.parametrize("rule", ["low half", "low quarter"])
def test_worse_uniformity_never_shortens_the_week(
    rule: Any, share: FloatArray, squeeze: float
) -> None:
    evener = 1 + squeeze * (share - 1)
    if low_quarter_uniformity(share) < 0.01 or low_half_uniformity(share) < 0.01:
        return  # no number of minutes would do
    one = zone(rule=rule)
    assert week(one, share=evener).minutes_week <= week(one, share=share).minutes_week


@given(use=st.floats(0.0, 10.0), start=st.floats(0.0, 40.0))
def test_the_same_input_gives_the_same_week(use: float, start: float) -> None:
    def again() -> ZoneWeek:
        return week(
            storage=store(), etc_mm_per_day=np.full(7, use), start_depletion_mm=start
        )

    one, two = again(), again()
    assert one.traces == two.traces
    assert one.findings == two.findings


def test_the_week_changes_none_of_its_inputs() -> None:
    use, rain, share = np.full(7, 4.0), DRY.copy(), FIRST_SHARE.copy()
    week(storage=store(), etc_mm_per_day=use, rain_mm=rain, share=share)
    np.testing.assert_array_equal(use, np.full(7, 4.0))
    np.testing.assert_array_equal(share, FIRST_SHARE)
