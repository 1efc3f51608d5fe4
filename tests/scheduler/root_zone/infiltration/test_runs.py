"""A steady rate on an intake curve: ponding, runoff, clearing."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.root_zone.infiltration import (
    GreenAmpt,
    Horton,
    Steady,
    clearing_min,
    past_intake_share,
    ponding_min,
    run_end,
    runoff_min,
)
from scheduler.root_zone.infiltration.runs import RunEnd

SILT = GreenAmpt(6.5, 57.0)
FALLING = Horton(75.0, 10.0, 2.0)
rates = st.floats(12.0, 120.0)


def _stepped_runoff_min(rate: float, storage_mm: float) -> float:
    """Green-Ampt by small steps of time, for a check made another way."""
    depth, stands, step_h = 1e-6, 0.0, 1e-5
    for count in range(2_000_000):
        capacity = SILT.conductivity_mm_per_h * (1.0 + SILT.front_mm / depth)
        taken = capacity if stands > 0 else min(capacity, rate)
        depth += taken * step_h
        stands = max(stands + (rate - taken) * step_h, 0.0)
        if stands >= storage_mm:
            return count * step_h * 60.0
    raise AssertionError("no runoff")


def test_a_steady_intake_runs_off_when_the_surface_is_full() -> None:
    # 0.62 in/h on 0.25 in/h with 0.10 in: 60 x 0.10 / 0.37 = 16.2 min
    assert float(runoff_min(Steady(6.35), 15.748, storage_mm=2.54)) == pytest.approx(
        16.2, abs=0.05
    )


# Hung and Krinik (1995), equation of the longest run without runoff; computed here
def test_horton_ponds_when_hung_and_krinik_say_so() -> None:
    assert float(ponding_min(FALLING, 40.0)) == pytest.approx(32.05, abs=0.01)


def test_small_steps_of_time_give_the_same_first_runoff() -> None:
    by_steps = _stepped_runoff_min(30.0, 4.0)
    assert float(runoff_min(SILT, 30.0, storage_mm=4.0)) == pytest.approx(
        by_steps, rel=2e-3
    )


@given(rate=rates, storage_mm=st.floats(0.0, 10.0))
def test_storage_never_brings_runoff_sooner(rate: float, storage_mm: float) -> None:
    assert runoff_min(SILT, rate, storage_mm=storage_mm) >= ponding_min(SILT, rate)


@given(rate=rates, before_mm=st.floats(0.0, 60.0))
def test_wetter_ground_never_runs_off_later(rate: float, before_mm: float) -> None:
    dry = runoff_min(SILT, rate, storage_mm=2.0)
    wet = runoff_min(SILT, rate, storage_mm=2.0, infiltrated_mm=before_mm)
    assert wet <= dry + 1e-9


@given(rate=rates, minutes=st.floats(0.5, 200.0), before_mm=st.floats(0.0, 60.0))
def test_what_fell_went_in_or_stands(
    rate: float, minutes: float, before_mm: float
) -> None:
    end = run_end(FALLING, rate, minutes, infiltrated_mm=before_mm)
    fell = rate * minutes / 60.0
    assert end.infiltrated_mm + end.standing_mm == pytest.approx(before_mm + fell)


@given(rate=rates)
def test_the_surface_is_full_when_it_runs_off(rate: float) -> None:
    first = float(runoff_min(FALLING, rate, storage_mm=3.0))
    assert run_end(FALLING, rate, first).standing_mm == pytest.approx(3.0, abs=1e-6)


def test_ground_that_keeps_up_never_runs_off() -> None:
    assert np.isinf(runoff_min(FALLING, 9.0, storage_mm=1.0))


def test_standing_water_goes_in_at_the_rate_of_the_curve() -> None:
    assert clearing_min(Steady(6.0), RunEnd(10.0, 2.0)) == pytest.approx(20.0)


def test_nothing_that_stands_needs_no_time() -> None:
    assert clearing_min(Steady(6.0), RunEnd(10.0, 0.0)) == 0.0


def test_the_wettest_positions_pass_their_intake_first() -> None:
    rate = np.array([10.0, 20.0, 40.0, 80.0])
    shares = past_intake_share(
        Steady(15.0), rate, [2.0, 4.0, 12.0, 60.0], storage_mm=4.0
    )
    assert shares.tolist() == [0.0, 0.25, 0.5, 0.75]


@given(
    rate=st.lists(rates, min_size=4, max_size=36),
    minutes=st.lists(st.floats(0.0, 300.0), min_size=2, max_size=10),
)
def test_the_share_past_its_intake_grows_with_the_minutes(
    rate: list[float], minutes: list[float]
) -> None:
    share = past_intake_share(SILT, np.array(rate), np.sort(minutes), storage_mm=2.0)
    assert np.all(np.diff(share) >= 0)
