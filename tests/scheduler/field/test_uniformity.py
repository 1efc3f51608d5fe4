"""Uniformity measures: worked cases, independent libraries, laws, refusals."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from inequality.schutz import Schutz

from scheduler.arrays import FloatArray
from scheduler.errors import ReadingsError, TooFewCansError
from scheduler.field.uniformity import (
    MEASURES,
    christiansen_uniformity,
    coefficient_of_variation,
    low_half_uniformity,
    low_quarter_rounded,
    low_quarter_uniformity,
    quarter_means,
    rating,
    uniformity,
)
from tests.scheduler.field.made import FIRST_VISIT_ML, METRIC_MM
from tests.strategies import caught_depths

# A 22-can set on which the three ways of counting a quarter differ.
TWENTY_TWO = np.array(
    [22, 24, 25, 26, 28, 29, 30, 31, 32, 33, 34, 35, 36, 37, 38, 39, 40, 41, 42, 43,
     44, 46], dtype=float,
)  # fmt: skip
FIRST = np.ravel(FIRST_VISIT_ML).astype(float)

# Which laws each measure obeys; a new measure fails the test below until it is here.
BEST = {"du_lq": 1.0, "du_lh": 1.0, "cu": 1.0, "cv": 0.0}
AT_MOST_ONE = {"du_lq", "du_lh", "cu"}
NEVER_NEGATIVE = {"du_lq", "du_lh", "cv"}


# --- worked by hand ---------------------------------------------------------------


def test_a_quarter_of_22_cans_counts_the_sixth_can_by_half() -> None:
    assert float(low_quarter_uniformity(TWENTY_TWO)) == pytest.approx(0.739, abs=5e-4)


@pytest.mark.parametrize(("how", "expected"), [("floor", 0.728), ("ceil", 0.748)])
def test_whole_cans_give_the_other_two_answers(how: str, expected: float) -> None:
    found = low_quarter_rounded(TWENTY_TWO, how)  # type: ignore[arg-type]
    assert found == pytest.approx(expected, abs=5e-4)


def test_the_first_visit_comes_out_as_worked() -> None:
    found = uniformity(FIRST)
    assert (found.n_cans, round(found.du_lq, 2)) == (24, 0.72)
    assert (round(found.du_lh, 2), round(found.cu, 2)) == (0.83, 0.83)


def test_metric_cans_come_out_as_worked() -> None:
    found = uniformity(np.array(METRIC_MM))
    assert found.du_lq == pytest.approx(0.799, abs=5e-4)
    assert found.du_lh == pytest.approx(0.870, abs=5e-4)


def test_equal_cans_are_perfectly_uniform() -> None:
    assert uniformity(np.full(24, 7.0)).du_lq == pytest.approx(1.0)


def test_quarters_of_the_first_visit_average_to_one() -> None:
    quarters = quarter_means(FIRST / FIRST.mean())
    assert quarters.mean() == pytest.approx(1.0)
    assert quarters[0] == pytest.approx(float(low_quarter_uniformity(FIRST)))


def test_measures_work_along_the_last_axis() -> None:
    both = np.stack([FIRST, TWENTY_TWO.repeat(2)[:24]])
    assert christiansen_uniformity(both).shape == (2,)


# --- outside ----------------------------------------------------------------------


@given(caught_depths())
def test_christiansen_is_one_less_twice_the_schutz_distance(depth: FloatArray) -> None:
    # PySAL `inequality`: the Schutz (Hoover) distance, by other authors; exact relation
    import pandas as pd

    frame = pd.DataFrame({"x": depth})
    distance = Schutz(frame, "x").distance
    assert float(christiansen_uniformity(depth)) == pytest.approx(1 - 2 * distance)


@given(caught_depths())
def test_low_quarter_is_four_times_the_lorenz_curve_at_a_quarter(
    depth: FloatArray,
) -> None:
    # definition of the Lorenz curve: share of all water that the driest part holds
    held = np.concatenate([[0.0], np.cumsum(np.sort(depth))]) / depth.sum()
    part = np.linspace(0.0, 1.0, depth.size + 1)
    lorenz = float(np.interp(0.25, part, held))
    assert float(low_quarter_uniformity(depth)) == pytest.approx(4 * lorenz)


@pytest.mark.parametrize(
    ("du_lq", "word"),
    [
        (0.75, "acceptable"),  # common practice, no source
        (0.80, "very good"),  # common practice, no source; AE194: high
        (0.85, "exceptional"),  # common practice, no source
        (0.59, "low"),  # Haman and Yeager, Univ. Florida AE194: below 60 % is low
    ],
)
def test_the_marks_of_the_trade(du_lq: float, word: str) -> None:
    assert word in rating(du_lq)


# --- laws ---------------------------------------------------------------------------


def test_every_measure_has_its_laws_assigned() -> None:
    assert set(MEASURES) == set(BEST)


@pytest.mark.parametrize("name", MEASURES)
@given(depth=caught_depths(), seed=st.integers(0, 2**32 - 1))
def test_order_of_cans_does_not_matter(name: str, depth: FloatArray, seed: int) -> None:
    shuffled = np.random.default_rng(seed).permutation(depth)
    measure = MEASURES[name]
    assert float(measure(shuffled)) == pytest.approx(float(measure(depth)))


@pytest.mark.parametrize("name", MEASURES)
@given(depth=caught_depths(), by=st.floats(0.01, 100.0))
def test_scaling_all_depths_changes_nothing(
    name: str, depth: FloatArray, by: float
) -> None:
    measure = MEASURES[name]
    assert float(measure(depth * by)) == pytest.approx(float(measure(depth)))


@pytest.mark.parametrize("name", MEASURES)
@given(level=st.floats(0.1, 100.0), n=st.integers(4, 60))
def test_equal_cans_reach_the_best_value(name: str, level: float, n: int) -> None:
    found = float(MEASURES[name](np.full(n, level)))
    assert found == pytest.approx(BEST[name], abs=1e-9)


@pytest.mark.parametrize("name", sorted(AT_MOST_ONE))
@given(depth=caught_depths())
def test_no_uniformity_is_above_one(name: str, depth: FloatArray) -> None:
    assert float(MEASURES[name](depth)) <= 1.0 + 1e-12


@pytest.mark.parametrize("name", sorted(NEVER_NEGATIVE))
@given(depth=caught_depths())
def test_these_measures_are_never_negative(name: str, depth: FloatArray) -> None:
    assert float(MEASURES[name](depth)) >= 0.0


def test_christiansen_may_be_negative_on_very_uneven_cans() -> None:
    assert float(christiansen_uniformity(np.array([0.0, 0.0, 0.0, 9.0]))) < 0


@given(depth=caught_depths())
def test_the_low_half_is_never_below_the_low_quarter(depth: FloatArray) -> None:
    low = float(low_quarter_uniformity(depth))
    assert float(low_half_uniformity(depth)) >= low - 1e-12


# --- refusals -----------------------------------------------------------------------


@pytest.mark.parametrize("name", MEASURES)
def test_three_cans_are_refused_with_their_count(name: str) -> None:
    with pytest.raises(TooFewCansError, match="only 3 cans"):
        MEASURES[name](np.array([1.0, 2.0, 3.0]))


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -1.0])
@pytest.mark.parametrize("name", MEASURES)
def test_a_depth_that_cannot_be_is_refused(name: str, bad: float) -> None:
    with pytest.raises(ReadingsError):
        MEASURES[name](np.array([1.0, 2.0, 3.0, bad]))


@pytest.mark.parametrize("name", MEASURES)
def test_dry_cans_are_no_uniformity(name: str) -> None:
    with pytest.raises(ReadingsError, match="no water"):
        MEASURES[name](np.zeros(8))


def test_variation_divides_by_one_less_than_the_count() -> None:
    depth = np.array([8.0, 10.0, 10.0, 12.0])
    expected = np.sqrt(8 / 3) / 10
    assert float(coefficient_of_variation(depth)) == pytest.approx(expected)
