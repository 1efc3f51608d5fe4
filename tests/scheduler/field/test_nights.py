"""Another night: worked cases, the crossed design, laws, level, refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.errors import ReadingsError, TooFewCansError
from scheduler.field.nights import (
    COARSE,
    NightRanges,
    another_night_level,
    night_ranges,
    night_ranges_step_by_step,
)
from scheduler.field.ranges import Range, cell_ranges
from tests.scheduler.field.made import FIRST_VISIT_ML
from tests.scheduler.field.simulated import (
    USUAL_NIGHTS,
    Nights,
    low_quarter,
    nights_caught,
    true_nights,
)

FIRST = np.ravel(FIRST_VISIT_ML).astype(float)


def _width(one: Range | None) -> float:
    assert one is not None
    return one.high - one.low


def _of(seed: int, nights: Nights, n_runs: int) -> NightRanges:
    rng = np.random.default_rng(seed)
    depth = nights_caught(rng, nights, n_runs=n_runs, n_positions=32)
    return night_ranges(depth, resamples=1000)


def test_one_run_tells_nothing_of_another_night() -> None:
    found = night_ranges(FIRST[None])
    assert (found.one_night, found.as_many_nights) == (None, None)
    assert found.n_runs == 1


def test_points_are_the_mean_of_runs_and_the_sum_by_position() -> None:
    mirrored = np.array([[1.0, 2.0, 3.0, 4.0], [4.0, 3.0, 2.0, 1.0]])
    found = night_ranges(mirrored, resamples=100)
    assert (found.du_lq, found.pooled_du_lq) == (0.4, 1.0)


def test_the_same_catch_twice_is_as_sure_as_positions_are() -> None:
    # no night differs, so what is left is the range of one run
    found = night_ranges(np.stack([FIRST, FIRST])).one_night
    cell = cell_ranges(FIRST).du_lq
    assert found is not None
    assert found.low == pytest.approx(cell.low, abs=0.004)
    assert found.high == pytest.approx(cell.high, abs=0.004)


def test_a_dry_corner_of_every_night_is_not_taken_for_chance() -> None:
    # positions that keep their catch: many nights do not make the range narrow, as
    # drawing cans anew inside each run would (by the root of the number of runs)
    rng = np.random.default_rng(5)
    kept = FIRST + 0.5 * rng.normal(size=(6, FIRST.size))
    assert _width(night_ranges(kept).one_night) > 0.8 * _width(cell_ranges(FIRST).du_lq)


def test_nights_that_differ_widen_the_range() -> None:
    spread = FIRST - FIRST.mean()
    runs = np.stack([FIRST.mean() + k * spread for k in (0.6, 1.0, 1.4)])
    alike = _width(night_ranges(np.stack([FIRST] * 3)).one_night)
    assert _width(night_ranges(runs).one_night) > 1.5 * alike


def test_more_nights_narrow_the_range() -> None:
    few, many = (
        np.median([_width(_of(i, USUAL_NIGHTS["wind differs"], n).one_night)
                   for i in range(8)])
        for n in (2, 6)
    )  # fmt: skip
    assert many < few


def test_a_position_that_one_run_lacks_is_left_out_of_all() -> None:
    runs = np.stack([FIRST, FIRST[::-1]])
    runs[0, 3] = np.nan
    assert night_ranges(runs, resamples=100).n_positions == 23


def test_coarse_comes_first_and_the_last_is_the_whole() -> None:
    runs = np.stack([FIRST, FIRST[::-1]])
    steps = list(night_ranges_step_by_step(runs, resamples=10_000))
    assert steps[0].resamples == COARSE
    assert steps[-1] == night_ranges(runs, resamples=10_000)
    assert _width(steps[0].one_night) == pytest.approx(
        _width(steps[-1].one_night), rel=0.06
    )


def test_the_same_seed_gives_the_same_range() -> None:
    runs = np.stack([FIRST, FIRST[::-1]])
    assert night_ranges(runs, resamples=500) == night_ranges(runs, resamples=500)


@settings(max_examples=20)
@given(st.integers(0, 10_000), st.integers(2, 6))
def test_a_range_holds_its_point_and_is_possible(seed: int, n_runs: int) -> None:
    found = _of(seed, USUAL_NIGHTS["wind differs, skewed"], n_runs)
    for one, point in (
        (found.one_night, found.du_lq),
        (found.as_many_nights, found.pooled_du_lq),
    ):
        assert one is not None
        assert 0.0 <= one.low <= point <= one.high <= 1.0


@settings(max_examples=20)
@given(st.floats(0.01, 100.0))
def test_the_unit_of_the_cans_does_not_matter(factor: float) -> None:
    runs = np.stack([FIRST, FIRST[::-1]])
    one = night_ranges(runs, resamples=200).one_night
    other = night_ranges(runs * factor, resamples=200).one_night
    assert one is not None
    assert other is not None
    assert other.low == pytest.approx(one.low, abs=1e-4)


def test_order_of_the_runs_does_not_matter() -> None:
    rng = np.random.default_rng(2)
    runs = nights_caught(rng, USUAL_NIGHTS["usual"], n_runs=3, n_positions=24)
    one, other = (night_ranges(x, resamples=500).one_night for x in (runs, runs[::-1]))
    assert one is not None
    assert other is not None
    assert other.low == pytest.approx(one.low, abs=1e-4)


@pytest.mark.parametrize("n_runs", [2, 4])
def test_the_stated_level_is_what_simulation_finds(n_runs: int) -> None:
    # the level is the lowest over kinds of nights, so of this one kind it is a floor;
    # 200 sets tell a level to 0.05 (two standard errors)
    nights = USUAL_NIGHTS["usual"]
    truth, rng, held = true_nights(nights, n_runs)[0], np.random.default_rng(n_runs), 0
    for seed in range(200):
        depth = nights_caught(rng, nights, n_runs=n_runs, n_positions=32)
        one = night_ranges(depth, resamples=400, seed=seed).one_night
        assert one is not None
        held += one.low <= truth <= one.high
    assert held / 200 >= another_night_level(n_runs) - 0.05


def test_the_truth_of_like_nights_is_that_of_normal_theory() -> None:
    # DU = 1 - 1.2711 CV of a bell; CV from positions, night and can together
    alike = USUAL_NIGHTS["alike"]
    cv = (alike.position**2 + alike.night**2 + alike.can**2) ** 0.5
    assert true_nights(alike, 2)[0] == pytest.approx(1 - 1.2711 * cv, abs=0.003)


def test_uniformity_counted_apart_agrees() -> None:
    assert float(low_quarter(FIRST)) == pytest.approx(
        night_ranges(FIRST[None]).du_lq, abs=1e-6
    )


def test_three_shared_positions_are_too_few() -> None:
    with pytest.raises(TooFewCansError):
        night_ranges(np.ones((2, 3)))


def test_a_dry_run_is_refused() -> None:
    with pytest.raises(ReadingsError, match="no water"):
        night_ranges(np.stack([FIRST, np.zeros(24)]))
