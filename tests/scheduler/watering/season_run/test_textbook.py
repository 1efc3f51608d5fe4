"""Every way of running a season against the one written down from the book."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.watering.season_run import SeasonInput, SeasonResult
from scheduler.watering.season_run.compiled import season_compiled
from scheduler.watering.season_run.lanes import season_lanes
from scheduler.watering.season_run.loop import season_loop
from tests.scheduler.watering.season_run.made import even, season
from tests.scheduler.watering.season_run.textbook import day_of, textbook_season

Way = Callable[[SeasonInput], SeasonResult]
WAYS: list[Way] = [season_loop, season_lanes, season_compiled]


def assert_agrees(one: SeasonInput, way: Way) -> None:
    """Every sum of every position, and every night."""
    book, run = textbook_season(one), way(one)
    for name in ("applied_mm", "used_mm", "percolation_mm", "end_mm", "stress_days"):
        np.testing.assert_allclose(
            getattr(run, name), getattr(book, name), atol=1e-6, err_msg=name
        )
    np.testing.assert_allclose(run.watering_mm, book.watering_mm, atol=1e-9)
    assert run.minutes.tolist() == book.minutes.tolist()


# FAO-56 (1998), example 37, p. 168: 160 mm held, 64 of it readily; 6 mm used a day
def test_ten_days_without_water_are_those_of_the_book() -> None:
    book = [61.0, 67.0, 72.8, 78.3, 83.4, 88.2, 92.6, 96.9, 100.8, 104.5]
    depletion, ends = 55.0, []
    for _ in book:
        depletion, *_ = day_of(depletion, 0.0, 6.0, 160.0, 64.0)
        ends.append(depletion)
    assert ends == pytest.approx(book, abs=0.06)


def test_water_above_the_depletion_drains() -> None:
    assert day_of(4.0, 10.0, 3.0, 40.0, 16.0) == (3.0, 6.0, 3.0, False)


@pytest.mark.parametrize("way", WAYS)
@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_every_way_agrees_with_the_book(way: Way, seed: int) -> None:
    assert_agrees(season(n_zones=3, seed=seed), way)


@pytest.mark.parametrize("way", WAYS)
def test_every_way_agrees_where_the_ground_runs_dry(way: Way) -> None:
    dry = {"rain_mm": np.zeros((60, 1)), "is_open": np.arange(60)[:, None] % 20 == 0}
    assert_agrees(season(total_mm=np.array([30.0]), **dry), way)


@pytest.mark.parametrize("way", WAYS)
def test_every_way_agrees_on_fixed_minutes_and_shares_by_day(way: Way) -> None:
    share = np.random.default_rng(1).uniform(0.4, 1.6, (30, 4, 1))
    assert_agrees(even(30, etc_mm=4.0, fixed_mm=np.array([3.0]), share=share), way)


# 3 days of 1.7 mm are 5.1 mm, but not in floating point: the order of terms decides
@pytest.mark.parametrize("way", WAYS)
def test_every_way_agrees_where_a_night_is_due_by_a_hair(way: Way) -> None:
    tie = even(30, etc_mm=1.7, allowed_mm=np.array([5.1]), total_mm=np.array([10.2]))
    assert way(tie).minutes.tolist() == textbook_season(tie).minutes.tolist()
