"""Ranges by resampling cans: worked case, another library, laws, stated level."""

import numpy as np
import pytest
from hypothesis import given, settings
from scipy.stats import bootstrap

from scheduler.arrays import FloatArray
from scheduler.errors import TooFewCansError
from scheduler.field.ranges import cell_ranges, range_level
from scheduler.field.uniformity import low_quarter_uniformity
from tests.scheduler.field.made import FIRST_VISIT_ML
from tests.strategies import caught_depths

FIRST = np.ravel(FIRST_VISIT_ML).astype(float)


def test_the_range_of_the_first_visit_covers_the_plain_one() -> None:
    # worked by plain 5-to-95 percentiles as about 0.67 to 0.79; the corrected range
    # reaches lower, because resampled uniformity is biased upwards
    found = cell_ranges(FIRST).du_lq
    assert found.low < 0.67
    assert found.high == pytest.approx(0.79, abs=0.02)


STATISTICS = {
    "du_lq": lambda cans, axis=-1: low_quarter_uniformity(cans),
    "mean": lambda cans, axis=-1: np.mean(cans, axis=axis),
}


@pytest.mark.parametrize("name", STATISTICS)
def test_another_library_gives_the_same_corrected_range(name: str) -> None:
    # scipy.stats.bootstrap, BCa, 20,000 resamples; 0.006 is the noise of resampling
    depth = FIRST / FIRST.mean()
    theirs = bootstrap(
        (depth,),
        STATISTICS[name],
        n_resamples=20_000,
        vectorized=True,
        method="BCa",
        rng=np.random.default_rng(1),
    ).confidence_interval
    ours = getattr(cell_ranges(depth), name)
    assert ours.low == pytest.approx(theirs.low, abs=0.006)
    assert ours.high == pytest.approx(theirs.high, abs=0.006)


def test_the_same_seed_gives_the_same_range() -> None:
    assert cell_ranges(FIRST) == cell_ranges(FIRST)


def test_one_dry_can_widens_the_range_without_making_it_absurd() -> None:
    one_dry = np.concatenate([[0.0], np.linspace(33, 55, 21)])
    found = cell_ranges(one_dry).du_lq
    assert 0.1 < found.low < float(low_quarter_uniformity(one_dry)) < found.high


def test_equal_cans_have_no_range() -> None:
    found = cell_ranges(np.full(24, 5.0))
    assert (found.du_lq.low, found.cu.high) == (1.0, 1.0)


@settings(max_examples=25)
@given(caught_depths(min_cans=8))
def test_a_range_is_ordered_and_possible(depth: FloatArray) -> None:
    found = cell_ranges(depth, resamples=500)
    assert 0.0 <= found.du_lq.low <= found.du_lq.high <= 1.0 + 1e-6


def test_three_cans_have_no_range() -> None:
    with pytest.raises(TooFewCansError):
        cell_ranges(np.ones(3))


def test_more_cans_hold_the_truth_more_often() -> None:
    assert range_level(8) < range_level(24) < range_level(48)


@pytest.mark.parametrize("n_cans", [24, 36])
def test_the_stated_level_is_what_simulation_finds(n_cans: int) -> None:
    # independent bell-shaped cans, CV 0.2: true DU 1 - 1.2711 x 0.2 (normal theory);
    # 400 tests tell a level to 0.03 (two standard errors), 0.05 leaves room for CV
    truth, held = 1 - 1.27111 * 0.2, 0
    rng = np.random.default_rng(n_cans)
    for seed in range(400):
        depth = rng.normal(1.0, 0.2, n_cans).clip(0)
        found = cell_ranges(depth, resamples=800, seed=seed).du_lq
        held += found.low <= truth <= found.high
    assert held / 400 == pytest.approx(range_level(n_cans), abs=0.05)


@pytest.mark.parametrize("measure", ["du_lq", "cu", "mean"])
def test_fewer_cans_hold_the_truth_less_often(measure: str) -> None:
    levels = [range_level(n, measure) for n in range(4, 61)]
    assert levels == sorted(levels)


def test_a_range_of_four_cans_is_not_called_as_sure_as_one_of_eight() -> None:
    # simulated: at four cans the range holds the truth about every other time
    assert range_level(4) < 0.6
