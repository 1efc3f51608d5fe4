"""Several waterings together: worked by hand, and what one run cannot say."""

import datetime as dt

import numpy as np
import pytest

from scheduler.field.ranges import cell_ranges
from scheduler.field.together import runs_together, together
from tests.scheduler.field.made import FIRST_VISIT_ML, run

FIRST = np.ravel(FIRST_VISIT_ML).astype(float)


def test_two_mirrored_nights_are_even_together() -> None:
    found = together(
        np.array([[1.0, 2.0, 3.0, 4.0], [4.0, 3.0, 2.0, 1.0]]), resamples=None
    )
    assert found is not None
    assert (found.one_run_du_lq, found.measured.du_lq) == (0.4, 1.0)


def test_several_waterings_are_more_even_than_one() -> None:
    rng = np.random.default_rng(3)
    runs = rng.normal(10.0, 2.0, (4, 30)).clip(0)
    found = together(runs, resamples=None)
    assert found is not None
    assert found.measured.du_lq > found.one_run_du_lq


def test_the_same_catch_twice_gains_nothing() -> None:
    found = together(np.stack([FIRST, FIRST]), resamples=None)
    assert found is not None
    assert found.measured.du_lq == pytest.approx(found.one_run_du_lq)


def test_the_range_of_the_sum_is_that_of_its_cans() -> None:
    runs = np.stack([FIRST, FIRST[::-1]])
    found = together(runs, resamples=500)
    assert found is not None
    assert found.du_lq == cell_ranges(runs.sum(axis=0), resamples=500).du_lq


@pytest.mark.parametrize(("n_runs", "is_bound"), [(1, True), (2, False)])
def test_only_one_run_is_an_upper_bound(n_runs: int, is_bound: bool) -> None:
    found = together(np.stack([FIRST] * n_runs), resamples=None)
    assert found is not None
    assert found.is_upper_bound is is_bound


def test_places_that_a_run_lacks_are_left_out() -> None:
    runs = np.stack([FIRST, FIRST])
    runs[1, :4] = np.nan
    found = together(runs, resamples=None)
    assert found is not None
    assert found.measured.n_cans == 20


def test_runs_that_share_three_places_are_not_put_together() -> None:
    runs = np.full((2, 6), np.nan)
    runs[:, :3] = 5.0
    assert together(runs) is None


def test_a_long_run_counts_no_more_than_a_short_one() -> None:
    grid = np.array(FIRST_VISIT_ML, dtype=float)
    pair = [
        [(run(), grid), (run(minutes=30.0 * k), k * grid[:, ::-1])] for k in (1.0, 3.0)
    ]
    short, long = (
        runs_together(one, date=dt.date(2026, 5, 12), resamples=None) for one in pair
    )
    assert short is not None
    assert long is not None
    assert long.measured.du_lq == pytest.approx(short.measured.du_lq)


def test_runs_on_different_grids_are_not_put_together() -> None:
    grid = np.array(FIRST_VISIT_ML, dtype=float)
    caught = [(run(), grid), (run(), grid[:2])]
    assert runs_together(caught, date=dt.date(2026, 5, 12)) is None
