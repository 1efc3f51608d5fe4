"""Ranges by resampling cans: worked case, another library, laws, stated level."""

import numpy as np
import pytest
from hypothesis import given, settings
from scipy.stats import bootstrap

from scheduler.arrays import FloatArray
from scheduler.errors import TooFewCansError
from scheduler.field.ranges import (
    MEASURES,
    cans_resampled,
    cell_ranges,
    centre_and_spread,
    range_factors,
    range_level,
    uneven,
)
from scheduler.field.student import student_factor
from scheduler.field.uniformity import low_quarter_uniformity
from tests.scheduler.field.made import FIRST_VISIT_ML
from tests.scheduler.field.simulated import alike_cell, caught, true_measures
from tests.strategies import caught_depths

FIRST = np.ravel(FIRST_VISIT_ML).astype(float)


def test_plain_percentiles_of_the_first_visit_are_the_worked_ones() -> None:
    # worked apart by plain 5-to-95 percentiles of resamples as about 0.67 to 0.79
    ends = np.percentile(cans_resampled(FIRST)[0], [5, 95])
    assert ends == pytest.approx([0.67, 0.79], abs=0.01)


def test_the_range_stands_lower_than_plain_percentiles() -> None:
    # resampled uniformity is biased upwards: plain percentiles of such tests lie wholly
    # above the truth one time in six or more, which the corrected range does not
    drawn, found = cans_resampled(FIRST)[0], cell_ranges(FIRST).du_lq
    low, high = np.percentile(drawn, [5, 95])
    assert found.low < low
    assert found.high < high


def test_the_spread_is_that_of_another_library() -> None:
    # scipy.stats.bootstrap, its standard error of log(1 - DU), 20,000 resamples; 0.004
    # is the noise of resampling
    theirs = bootstrap(
        (FIRST,),
        lambda cans, axis=-1: uneven(low_quarter_uniformity(cans)),
        n_resamples=20_000,
        vectorized=True,
        method="percentile",
        rng=np.random.default_rng(1),
    )
    drawn = cans_resampled(FIRST)[0]
    centre, spread = centre_and_spread(float(low_quarter_uniformity(FIRST)), drawn)
    assert spread == pytest.approx(theirs.standard_error, abs=0.004)
    bias = theirs.bootstrap_distribution.mean() - uneven(low_quarter_uniformity(FIRST))
    at = float(uneven(low_quarter_uniformity(FIRST)))
    assert centre == pytest.approx(at - float(bias), abs=0.006)


def test_the_range_of_the_mean_is_that_of_student() -> None:
    # bell-shaped cans: Student's t with n - 1 degrees of freedom is exact at 90 %
    rng = np.random.default_rng(4)
    depth = rng.normal(10.0, 1.0, 36)
    half = student_factor(35, 0.90) * depth.std(ddof=1) / 6.0
    found = cell_ranges(depth).mean
    assert (found.high - found.low) / 2 == pytest.approx(half, rel=0.04)


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


@pytest.mark.parametrize(("kind", "cv"), [("normal", 0.2), ("skewed", 0.35)])
@pytest.mark.parametrize("n_cans", [24, 36])
def test_the_stated_level_is_what_simulation_finds(
    kind: str, cv: float, n_cans: int
) -> None:
    # bell-shaped and gamma cans whose true DU is known; 400 tests tell a level to 0.03
    # (two standard errors), 0.02 more is what the level itself is stated to
    truth, held = true_measures(kind, cv)[0], 0
    rng = np.random.default_rng(n_cans)
    for seed in range(400):
        depth = caught(rng, kind, cv, (n_cans,))
        found = cell_ranges(depth, resamples=800, seed=seed).du_lq
        held += found.low <= truth <= found.high
    assert held / 400 == pytest.approx(range_level(n_cans), abs=0.05)


def test_the_known_truth_is_that_of_normal_theory() -> None:
    # DU = 1 - 1.2711 CV, CU = 1 - 0.7979 CV of a bell-shaped catch
    du_lq, cu, mean = true_measures("normal", 0.2)
    assert (du_lq, cu) == pytest.approx(
        (1 - 1.27111 * 0.2, 1 - 0.79788 * 0.2), abs=1e-4
    )
    assert mean == pytest.approx(1.0, abs=1e-4)


@pytest.mark.parametrize("measure", MEASURES)
@pytest.mark.parametrize("n_cans", [24, 30, 36, 48, 60])
def test_from_24_cans_nine_ranges_in_ten_hold_the_truth(
    n_cans: int, measure: str
) -> None:
    assert range_level(n_cans, measure) == 0.9
    assert range_factors(n_cans, measure).lowest >= 0.88


def test_more_cans_than_in_the_table_are_taken_as_its_last() -> None:
    assert range_factors(200) == range_factors(60)


@pytest.mark.parametrize("measure", MEASURES)
def test_no_range_claims_more_than_nine_in_ten(measure: str) -> None:
    assert max(range_level(n, measure) for n in range(4, 61)) <= 0.9


def test_cans_alike_side_by_side_know_their_cell_better_than_the_zone() -> None:
    # exponential correlation 0.5 between neighbours: the grid sees its own cell well,
    # and is one draw of what other cells of the zone are like
    rng, held = np.random.default_rng(2), np.zeros(2)
    zone = true_measures("normal", 0.2)[0]
    for seed in range(100):
        cans, ground = alike_cell(rng, rows=4, columns=6, neighbour=0.5, cv=0.2)
        one = cell_ranges(cans, resamples=400, seed=seed).du_lq
        cell = float(low_quarter_uniformity(ground))
        held += [one.low <= truth <= one.high for truth in (cell, zone)]
    assert held[0] / 100 > 0.9 > held[1] / 100
