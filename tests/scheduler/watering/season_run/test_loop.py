"""The plain season: worked cases, the book's examples, laws."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.root_zone.balance import run_balance
from scheduler.root_zone.storage import Storage
from scheduler.trace import entered
from scheduler.watering.season_run.loop import season_loop
from tests.scheduler.watering.season_run.made import even, season

seeds = st.integers(0, 10_000)


def test_a_due_zone_waters_before_its_allowed_depletion_is_passed() -> None:
    # 4 mm a day, 16 allowed: evenings 4, 8, 12, 16; the fifth day would pass it
    nights = season_loop(even(10, etc_mm=4.0)).watering_mm[:, 0]
    assert np.flatnonzero(nights).tolist() == [4, 8]


def test_a_due_watering_fills_the_served_position() -> None:
    assert season_loop(even(10, etc_mm=4.0)).watering_mm[4, 0] == pytest.approx(16.0)


def test_minutes_are_whole() -> None:
    # 16 mm at 5.3 min a mm: 84.8 min become 85
    run = season_loop(even(6, etc_mm=4.0, min_per_mm=np.array([5.3])))
    assert run.minutes.tolist() == [85]


def test_cycles_keep_to_the_longest_run() -> None:
    # 43.5 min with 16.2 min to runoff: 3 x 15 = 45, as on the worked field bay
    run = season_loop(
        even(6, etc_mm=4.0, min_per_mm=np.array([43.5 / 16]),
             longest_min=np.array([16.2]))
    )  # fmt: skip
    assert run.minutes.tolist() == [45]


def test_fixed_minutes_never_follow_use() -> None:
    run = season_loop(even(10, etc_mm=4.0, fixed_mm=np.array([2.0])))
    assert run.watering_mm[:, 0].tolist() == [2.0] * 10


def test_no_open_night_leaves_the_ground_to_dry() -> None:
    run = season_loop(even(30, etc_mm=4.0, is_open=np.zeros((30, 1), dtype=bool)))
    assert run.waterings.tolist() == [0]
    assert run.end_mm.max() <= 40.0


# FAO-56 (1998), example 37, p. 168: ten days without water, Dr at the end of each
def test_ten_days_without_water_are_those_of_the_book() -> None:
    dry = even(
        10, etc_mm=6.0, total_mm=np.array([160.0]), allowed_mm=np.array([64.0]),
        start_mm=np.array([55.0]), is_open=np.zeros((10, 1), dtype=bool),
    )  # fmt: skip
    ends = season_loop(dry, with_trace=True).depletion_mm[:, 0, 0]
    book = [61.0, 67.0, 72.8, 78.3, 83.4, 88.2, 92.6, 96.9, 100.8, 104.5]
    assert ends == pytest.approx(book, abs=0.06)


@given(seed=seeds)
def test_what_came_went_or_stayed(seed: int) -> None:
    assert season_loop(season(seed=seed)).closure_error_mm < 1e-9


@given(seed=seeds)
def test_the_balance_of_the_week_gives_the_same_days(seed: int) -> None:
    one = season(n_days=20, seed=seed)
    run = season_loop(one, with_trace=True)
    share = one.share[0, :, 0]
    week = run_balance(
        np.full(share.size, one.start_mm[0]),
        etc_mm_per_day=one.etc_mm_per_day[:, 0],
        rain_mm=one.rain_mm[:, 0],
        watering_mm=run.watering_mm[:, :1] * share,
        storage=Storage(
            float(one.total_mm[0]), float(one.allowed_mm[0]), entered("raw", None)
        ),
    )
    assert run.depletion_mm[:, :-1, 0] == pytest.approx(week.depletion_mm, abs=1e-9)
    assert run.percolation_mm[:, 0] == pytest.approx(
        week.percolation_mm.sum(axis=0), abs=1e-9
    )


@given(seed=seeds)
def test_a_drier_position_never_drains_more(seed: int) -> None:
    one = season(seed=seed, rain_mm=np.zeros((60, 1)))
    run = season_loop(one)
    order = np.argsort(one.share[0, :, 0])
    assert np.all(np.diff(run.percolation_mm[order, 0]) >= -1e-9)


@given(seed=seeds)
def test_a_drier_position_is_never_stressed_less(seed: int) -> None:
    one = season(seed=seed)
    run = season_loop(one)
    order = np.argsort(one.share[0, :, 0])
    assert np.all(np.diff(run.stress_days[order, 0]) <= 0)


def test_shares_by_day_are_those_of_the_watering() -> None:
    share = np.ones((6, 4, 1))
    share[4, :, 0] = [0.5, 0.5, 1.5, 1.5]  # the only night that waters
    run = season_loop(even(6, etc_mm=4.0, share=share))
    assert run.applied_mm[:, 0].tolist() == [8.0, 8.0, 24.0, 24.0]
