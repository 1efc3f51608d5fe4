"""Edge and interior apart, and when that is worth saying."""

import numpy as np
import pytest

from scheduler.field.edges import edge_findings, edge_split
from scheduler.field.uniformity import christiansen_uniformity
from scheduler.record import CanLayout

LAYOUT = CanLayout(edge_rows=(0,), edge_columns=())


def grid(edge: float, seed: int = 1) -> np.ndarray:
    made = 10 * (1 + 0.1 * np.random.default_rng(seed).normal(size=(4, 8)))
    made[0] *= edge
    return made


def test_the_ratio_is_that_of_the_two_means() -> None:
    found = edge_split(np.array([[3.0] * 4, [2.0] * 4, [2.0] * 4]), LAYOUT)
    assert found is not None
    assert found.ratio == pytest.approx(1.5)
    assert (found.n_edge, found.n_interior) == (4, 8)


def test_each_part_has_its_own_measures() -> None:
    made = grid(1.5)
    found = edge_split(made, LAYOUT)
    assert found is not None
    assert found.interior is not None
    assert found.interior.cu == pytest.approx(
        float(christiansen_uniformity(made[1:].ravel()))
    )


def test_end_rows_at_half_as_much_again_are_a_finding() -> None:
    # Overton, 2014, Tree Planters' Notes 57(2): end rows got about 1.5 times the rate
    found = edge_split(grid(1.5), LAYOUT)
    (said,) = edge_findings(found, "tests/t")
    assert said.level == "warning"
    assert "times as much as the 24 inside" in said.what


def test_an_edge_like_the_interior_is_no_finding() -> None:
    assert edge_findings(edge_split(grid(1.0), LAYOUT), "tests/t") == ()


def test_noise_is_seldom_called_an_edge() -> None:
    # Definition of a level; 2.5 standard errors of a count of 100.
    wrong = sum(
        bool(edge_findings(edge_split(grid(1.0, seed), LAYOUT), "t"))
        for seed in range(100)
    )
    assert wrong <= 10


def test_a_short_edge_has_a_mean_but_no_uniformity() -> None:
    found = edge_split(np.ones((3, 8)), CanLayout(edge_columns=(0,)))
    assert found is not None
    assert (found.n_edge, found.edge) == (3, None)


@pytest.mark.parametrize("layout", [CanLayout(), CanLayout(edge_rows=(0, 1, 2, 3))])
def test_without_both_parts_nothing_is_split(layout: CanLayout) -> None:
    assert edge_split(grid(1.0), layout) is None
