"""Hypothesis strategies that several tests share."""

import numpy as np
from hypothesis import strategies as st

from scheduler.arrays import FloatArray


def caught_depths(
    min_cans: int = 4, max_cans: int = 60
) -> st.SearchStrategy[FloatArray]:
    """Depths as cans could have caught them: some water, dry cans allowed."""
    one = st.one_of(st.just(0.0), st.floats(0.1, 100.0))
    return (
        st.lists(one, min_size=min_cans, max_size=max_cans)
        .filter(lambda cans: sum(cans) > 0.5)
        .map(lambda cans: np.array(cans, dtype=np.float64))
    )


def shares(min_cans: int = 4, max_cans: int = 60) -> st.SearchStrategy[FloatArray]:
    """Catches over their mean."""
    return caught_depths(min_cans, max_cans).map(lambda cans: cans / cans.mean())
