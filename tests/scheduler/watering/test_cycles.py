"""Whole-minute cycles that do not run off, with soaks between them."""

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.root_zone.infiltration import Horton
from scheduler.root_zone.intake import IntakeModel, clearing_min, longest_cycle_min
from scheduler.trace import entered
from scheduler.watering.cycles import Split, split, wet_rate_mm_per_h, whole_minutes
from tests.scheduler.watering.made import BAY, BAY_RATE, FIRST_SHARE, FREE
from tests.strategies import shares


def cut(minutes: float, model: IntakeModel = FREE, **given: Any) -> Split:
    base: dict[str, Any] = {
        "wet_rate_mm_per_h": BAY_RATE,
        "min_soak_min": None,
        "rounding": "nearest",
        "max_cycles": None,
    }
    return split(minutes, model=model, **(base | given))


def seen(minutes: float) -> IntakeModel:
    leaf = entered("first_runoff_min", minutes)
    return IntakeModel("first runoff", minutes, None, None, leaf)


def texture(storage_mm: float | None, rate_mm_per_h: float = 3.81) -> IntakeModel:
    leaf = entered("intake_model", "usda rate")
    return IntakeModel("usda rate", None, rate_mm_per_h, storage_mm, leaf)


# --- the worked field bay --------------------------------------------------------


def test_the_field_bay_is_cut_into_three_cycles_of_fifteen() -> None:
    # need 0.45 in at 0.62 in/h on even cans: 43.5 min, longest run 16 min
    bay = cut(0.45 / 0.62 * 60, BAY)
    assert (bay.cycles, bay.cycle_minutes, bay.minutes) == (3, 15, 45)


def test_the_field_bay_soaks_until_its_pond_has_gone() -> None:
    assert cut(43.5, BAY).soak_minutes == 23


def test_the_field_bay_shows_its_limit() -> None:
    assert cut(43.5, BAY).limit_minutes == pytest.approx(16.2, abs=0.05)


def test_four_starts_hold_the_field_bay() -> None:
    assert cut(43.5, BAY, max_cycles=4).findings == ()


def test_five_cycles_do_not_fit_four_starts_and_it_says_what_gives() -> None:
    # measured wet positions shorten the limit: at 0.87 in/h it is 9.7 min
    short = cut(43.5, BAY, wet_rate_mm_per_h=1.4 * BAY_RATE, max_cycles=4)
    assert short.cycles == 4
    assert short.cycle_minutes <= 9
    assert short.minutes < 43
    assert [one.level for one in short.findings] == ["warning"]
    assert "5 cycles of 9 min are needed, the clock has 4 starts" in (
        short.findings[0].what
    )


def test_measured_wet_positions_shorten_the_limit() -> None:
    wet = wet_rate_mm_per_h(BAY_RATE, FIRST_SHARE)
    even = cut(43.5, BAY).limit_minutes
    measured = cut(43.5, BAY, wet_rate_mm_per_h=wet).limit_minutes
    assert even is not None
    assert measured is not None
    assert measured < even


# published: 20 min split as 2 x 10 or 4 x 5, Univ. Nevada turf page; 30 min at most
# 11.14 min each is 3 x 10, equal split
@pytest.mark.parametrize(
    ("minutes", "limit", "cycles", "length"),
    [(20, 10, 2, 10), (20, 5, 4, 5), (30, 11.142857, 3, 10)],
)
def test_published_splits_come_out(
    minutes: float, limit: float, cycles: int, length: int
) -> None:
    made = cut(minutes, seen(limit))
    assert (made.cycles, made.cycle_minutes) == (cycles, length)


def test_the_published_shape_soaks_seventy_minutes() -> None:
    # 1.6 in/h on 0.20 in/h with 0.26 in of storage; landscape manuals, from memory
    clay = IntakeModel("constant intake", None, 5.08, 6.604, entered("x", None))
    made = cut(30.0, clay, wet_rate_mm_per_h=40.64)
    assert (made.cycles, made.cycle_minutes, made.soak_minutes) == (3, 10, 70)


# --- small cases -------------------------------------------------------------------


def test_without_a_limit_it_is_one_run_without_soak() -> None:
    one = cut(43.5)
    assert (one.cycles, one.cycle_minutes, one.soak_minutes) == (1, 44, 0)
    assert one.limit_minutes is None


def test_nothing_to_water_has_no_cycle() -> None:
    none = cut(0.0, BAY)
    assert (none.cycles, none.minutes, none.soak_minutes) == (0, 0, 0)


def test_fewer_cycles_win_when_rounding_keeps_them_within_the_limit() -> None:
    # 48.5 / 3 = 16.17 is 16 whole minutes
    assert cut(48.5, seen(16.2)).cycles == 3


def test_rounding_never_pushes_a_cycle_past_the_limit() -> None:
    # 50 / 3 = 16.67 would be 17
    made = cut(50.0, seen(16.9))
    assert (made.cycles, made.cycle_minutes) == (4, 13)


@pytest.mark.parametrize(
    ("minutes", "rounding", "whole"),
    [
        (7.4, "nearest", 7),
        (7.5, "nearest", 8),
        (7.4, "up", 8),
        (7.0, "up", 7),
        (0.1, "nearest", 1),
        (0.0, "up", 0),
    ],
)
def test_minutes_round_as_the_site_says(
    minutes: float, rounding: Any, whole: int
) -> None:
    assert whole_minutes(minutes, rounding) == whole


def test_a_stated_soak_longer_than_clearing_is_kept() -> None:
    assert cut(43.5, BAY, min_soak_min=60.0).soak_minutes == 60


def test_a_stated_soak_shorter_than_clearing_gives_way() -> None:
    assert cut(43.5, BAY, min_soak_min=5.0).soak_minutes == 23


def test_a_stated_soak_serves_where_clearing_is_unknown() -> None:
    made = cut(40.0, seen(15.0), min_soak_min=45.0)
    assert made.soak_minutes == 45
    assert made.findings == ()


def test_a_guessed_soak_says_that_it_has_no_source() -> None:
    made = cut(40.0, seen(15.0))
    assert made.soak_minutes == 30
    assert "common practice, no source" in made.findings[0].what
    assert "min_soak_min" in made.findings[0].fix


# --- a rate above what the soil takes in -----------------------------------------


def test_a_rate_above_the_table_with_unknown_storage_stays_one_run_and_warns() -> None:
    one = cut(43.5, texture(None))
    assert one.cycles == 1
    assert one.findings[0].level == "warning"
    assert "above the highest rate" in one.findings[0].what
    assert "first runoff" in one.findings[0].fix


def test_a_rate_above_the_table_uses_storage_where_it_is_known() -> None:
    one = cut(43.5, texture(6.6))
    assert one.cycles > 1
    assert "cut into cycles" in one.findings[0].what


def test_a_rate_below_the_table_says_nothing() -> None:
    assert cut(43.5, texture(None, rate_mm_per_h=50.8)).findings == ()


def test_a_limit_below_a_minute_cannot_be_cured_by_cycles() -> None:
    shallow = IntakeModel("constant intake", None, 6.35, 0.0, entered("x", None))
    one = cut(43.5, shallow)
    assert one.cycles == 1
    assert "a clock holds whole minutes" in one.findings[0].what


def test_findings_of_pots_speak_of_absorption() -> None:
    pots = IntakeModel(
        "constant intake", None, 6.35, None, entered("x", None), "zone P1", "pots"
    )
    found = cut(43.5, pots).findings
    assert "absorption of" in found[0].what
    assert found[0].where == "zone P1"


def test_a_watering_longer_than_a_day_warns() -> None:
    assert "longer than a day" in cut(2000.0).findings[0].what


# --- wet positions ---------------------------------------------------------------


def test_a_quarter_of_the_positions_may_pass_the_wet_rate() -> None:
    share = np.linspace(0.5, 1.5, 24)
    wet = wet_rate_mm_per_h(10.0, share, 0.25)
    assert np.mean(10.0 * share > wet) == pytest.approx(0.25)


@given(share=shares(), wet_share=st.floats(0.01, 0.99))
def test_at_most_the_chosen_share_passes_the_wet_rate(
    share: FloatArray, wet_share: float
) -> None:
    wet = wet_rate_mm_per_h(10.0, share, wet_share)
    assert np.mean(10.0 * share > wet + 1e-9) <= wet_share + 1e-9


# --- laws -------------------------------------------------------------------------

MINUTES = st.floats(0.01, 600.0)
LIMITS = st.floats(1.0, 60.0)
ROUNDINGS: Any = st.sampled_from(["nearest", "up"])


@given(minutes=MINUTES, limit=LIMITS, rounding=ROUNDINGS)
def test_cycles_sum_to_the_run_time(
    minutes: float, limit: float, rounding: Any
) -> None:
    made = cut(minutes, seen(limit), rounding=rounding)
    assert made.cycles * made.cycle_minutes == made.minutes > 0


@given(minutes=MINUTES, limit=LIMITS, rounding=ROUNDINGS, starts=st.integers(1, 8))
def test_no_cycle_is_beyond_the_limit(
    minutes: float, limit: float, rounding: Any, starts: int
) -> None:
    for most in (None, starts):
        made = cut(minutes, seen(limit), rounding=rounding, max_cycles=most)
        assert made.cycle_minutes <= limit + 1e-6
        assert most is None or made.cycles <= most


@given(minutes=MINUTES, limit=LIMITS)
def test_rounding_moves_each_cycle_by_at_most_half_a_minute(
    minutes: float, limit: float
) -> None:
    made = cut(minutes, seen(limit))
    assume(minutes >= 0.5)
    assert abs(made.minutes - minutes) <= made.cycles / 2 + 1e-6


@given(minutes=MINUTES, limit=LIMITS)
def test_rounding_up_is_never_short(minutes: float, limit: float) -> None:
    assert cut(minutes, seen(limit), rounding="up").minutes >= minutes - 1e-6


@given(minutes=MINUTES, rate=st.floats(7.0, 60.0), storage=st.floats(1.0, 15.0))
def test_soaks_are_long_enough_to_clear(
    minutes: float, rate: float, storage: float
) -> None:
    model = IntakeModel("constant intake", None, 6.35, storage, entered("x", None))
    made = cut(minutes, model, wet_rate_mm_per_h=rate)
    if made.cycles > 1:
        clear = clearing_min(model, rate, made.cycle_minutes)
        assert clear is not None
        assert made.soak_minutes >= clear - 1e-6


# --- chain and refusals -----------------------------------------------------------


def test_the_chain_names_cycles_limit_and_soak() -> None:
    names = [one.name for one in cut(43.5, BAY).trace.chain()]
    assert names[-1] == "minutes_per_day"
    assert {"limit_minutes", "cycles", "cycle_minutes", "soak_minutes"} < set(names)


@pytest.mark.parametrize("minutes", [-1.0, math.inf, math.nan])
def test_minutes_that_cannot_be_are_refused(minutes: float) -> None:
    with pytest.raises(SchedulerError, match="a watering of"):
        cut(minutes)


# --- ground whose intake falls as it fills ----------------------------------------


def falling(storage_mm: float = 2.0, least_cycles: int = 1) -> IntakeModel:
    return IntakeModel(
        "curve", None, None, storage_mm, entered("intake_model", "Horton"),
        stated=Horton(75.0, 10.0, 2.0), least_cycles=least_cycles,
    )  # fmt: skip


@given(minutes=st.floats(1.0, 150.0), rate=st.floats(15.0, 60.0))
def test_no_cycle_runs_off_where_nothing_is_said(minutes: float, rate: float) -> None:
    model = falling()
    one = cut(minutes, model, wet_rate_mm_per_h=rate)
    assume(not one.findings)
    before = (one.cycles - 1) * one.cycle_minutes * rate / 60.0
    last = longest_cycle_min(model, rate, infiltrated_mm=before)
    assert one.cycle_minutes <= last + 1e-6


def test_ground_that_fills_needs_more_cycles_than_its_first_run_suggests() -> None:
    # first run 49 min at 40 mm/h: two would do if the ground stayed as it began
    one = cut(96.0, falling(), wet_rate_mm_per_h=40.0)
    assert one.limit_minutes == pytest.approx(49.0, abs=0.1)
    assert one.cycles > 2


def test_ground_that_cannot_hold_a_minute_is_said() -> None:
    one = cut(60.0, falling(0.0), wet_rate_mm_per_h=40.0)
    assert "runs off after" in one.findings[0].what


def test_a_dry_mix_gets_the_pulses_that_were_asked_for() -> None:
    free = replace(FREE, least_cycles=3)
    assert cut(30.0, free).cycles == 3


def test_pulses_never_outnumber_the_minutes() -> None:
    assert cut(2.0, replace(FREE, least_cycles=5)).cycles == 2


@pytest.mark.parametrize(("exact", "whole"), [(14.9, 14), (15.0, 15), (0.4, 1)])
def test_minutes_of_a_short_watering_go_down(exact: float, whole: int) -> None:
    assert whole_minutes(exact, "down") == whole
