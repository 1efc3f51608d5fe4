"""The daily balance: published examples, order of a day, closure."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.root_zone.balance import balance_day, run_balance, stress_ks
from scheduler.root_zone.storage import Storage
from scheduler.trace import entered

TRACE = entered("allowed_depletion_mm", None)


def store(total_mm: float, allowed_mm: float) -> Storage:
    return Storage(total_mm, allowed_mm, TRACE)


def test_a_drying_week_comes_out_as_published() -> None:
    # FAO-56 Example 37 (p. 168): TAW 160, RAW 64, ETc 6, no water added
    days = run_balance(
        np.array([55.0]),
        etc_mm_per_day=np.full(10, 6.0),
        rain_mm=np.zeros(10),
        watering_mm=np.zeros((10, 1)),
        storage=store(160.0, 64.0),
    )
    printed = [61.0, 67.0, 72.8, 78.3, 83.4, 88.2, 92.6, 96.9, 100.8, 104.5]
    # the book rounds every day; 0.15 is what that adds up to
    np.testing.assert_allclose(days.depletion_mm[:, 0], printed, atol=0.15)


def test_stress_uses_the_depletion_at_the_start_of_the_day() -> None:
    # FAO-56 Example 37, day 3: Dr 67.0 gives Ks 0.97
    found = stress_ks(np.array([67.0]), total_mm=160.0, allowed_mm=64.0)
    assert float(found[0]) == pytest.approx(0.97, abs=0.005)


def test_water_comes_early_drains_and_then_plants_take_theirs() -> None:
    # FAO-56 Example 38 (p. 172), day 1: Dr 23, 40 mm, ETc 4.5: DP 17, Dr end ETc
    day = balance_day(
        np.array([23.0]),
        etc_mm=4.5,
        rain_mm=0.0,
        watering_mm=np.array([40.0]),
        storage=store(39.0, 23.0),
    )
    assert float(day.percolation_mm[0]) == pytest.approx(17.0)
    assert float(day.depletion_mm[0]) == pytest.approx(4.5)


def test_rain_is_stored_up_to_the_deficit_and_no_further() -> None:
    day = balance_day(
        np.array([5.0, 30.0]),
        etc_mm=0.0,
        rain_mm=20.0,
        watering_mm=np.zeros(2),
        storage=store(40.0, 20.0),
    )
    assert day.stored_rain_mm.tolist() == [5.0, 20.0]


@given(
    start=st.floats(0, 40),
    etc=st.lists(st.floats(0, 12), min_size=1, max_size=20),
    rain=st.floats(0, 60),
    depth=st.floats(0, 30),
)
def test_nothing_is_lost(
    start: float, etc: list[float], rain: float, depth: float
) -> None:
    n = len(etc)
    share = np.array([0.5, 0.9, 1.1, 1.5])
    days = run_balance(
        np.full(4, start),
        etc_mm_per_day=np.array(etc),
        rain_mm=np.full(n, rain),
        watering_mm=np.outer(np.ones(n), share * depth),
        storage=store(40.0, 20.0),
    )
    came = n * (rain + share * depth)
    gone = days.etc_mm.sum(axis=0) + days.percolation_mm.sum(axis=0)
    change = start - days.depletion_mm[-1]
    np.testing.assert_allclose(came, gone + change, atol=1e-9)
    assert abs(days.closure_error_mm) <= 1e-9


@given(rain=st.floats(0, 40), more=st.floats(0, 40))
def test_more_rain_never_leaves_it_drier(rain: float, more: float) -> None:
    def after(depth: float) -> float:
        day = balance_day(
            np.array([20.0]),
            etc_mm=4.0,
            rain_mm=depth,
            watering_mm=np.zeros(1),
            storage=store(40.0, 20.0),
        )
        return float(day.depletion_mm[0])

    assert after(rain + more) <= after(rain) + 1e-12


def test_negative_water_is_refused() -> None:
    with pytest.raises(SchedulerError):
        run_balance(
            np.array([5.0]),
            etc_mm_per_day=np.array([4.0]),
            rain_mm=np.array([-1.0]),
            watering_mm=np.zeros((1, 1)),
            storage=store(40.0, 20.0),
        )
