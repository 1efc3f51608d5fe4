"""What roots in soil reach."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from scheduler.arrays import FloatArray
from scheduler.field.smoothing import smoothed_shares
from scheduler.field.uniformity import low_quarter_uniformity

ROW, COLUMN = (one.ravel() for one in np.indices((3, 4)))
maps = arrays(np.float64, (1, 12), elements=st.floats(0.2, 2.0))


def smooth(share: FloatArray, spread_m: float) -> FloatArray:
    return smoothed_shares(share, (ROW, COLUMN), (1.5, 1.0), spread_m=spread_m)


@given(share=maps)
def test_roots_that_reach_no_neighbour_change_nothing(share: FloatArray) -> None:
    own = share / share.mean()
    assert smooth(own, 0.9) == pytest.approx(own)


@given(share=maps)
def test_roots_that_reach_everything_are_all_alike(share: FloatArray) -> None:
    assert smooth(share, 20.0) == pytest.approx(np.ones((1, 12)))


@given(share=maps, spread=st.floats(0.5, 6.0))
def test_the_mean_stays_one(share: FloatArray, spread: float) -> None:
    assert smooth(share, spread).mean() == pytest.approx(1.0)


def test_only_neighbours_within_the_spread_count() -> None:
    share = np.ones((1, 12))
    share[0, 5] = 2.0  # row 1, column 1: its row is 1 m, its column 1.5 m apart
    found = smooth(share, 1.0)[0]
    above = np.flatnonzero(found > found.min() + 1e-9)
    assert [(int(ROW[i]), int(COLUMN[i])) for i in above] == [(1, 0), (1, 1), (1, 2)]


def test_a_checkered_map_becomes_more_even() -> None:
    share = np.where((ROW + COLUMN) % 2 == 0, 0.6, 1.4)[None]
    before, after = share[0], smooth(share, 1.5)[0]
    assert low_quarter_uniformity(after) > low_quarter_uniformity(before)
