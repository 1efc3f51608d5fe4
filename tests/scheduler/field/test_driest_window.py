"""Driest window: worked by hand, against a plain search, laws, refusals.

Published values are in tests/checks (rows SC-* and PUB-SC-1).
"""

import math
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.errors import ReadingsError, SchedulerError
from scheduler.field.driest_window import driest_window, driest_windows

NONE = float("nan")
DRY_CORNER = np.array(
    [
        [4.0, 5.0, 10.0, 10.0, 10.0],
        [5.0, 6.0, 10.0, 10.0, 10.0],
        [10.0, 10.0, 10.0, 10.0, 2.0],
        [10.0, 10.0, 10.0, 10.0, 10.0],
    ]
)


def test_a_dry_corner_is_found_by_hand() -> None:
    found = driest_window(DRY_CORNER, window_rows=2, window_columns=2)
    assert found is not None
    assert (found.row, found.column) == (0, 0)
    # 4 + 5 + 5 + 6 is a mean of 5; all 20 cans have a mean of 172 / 20
    assert found.scheduling_coefficient == pytest.approx(8.6 / 5)
    assert found.share == pytest.approx(0.2)


def test_one_dry_can_is_another_window_than_a_dry_corner() -> None:
    found = driest_window(DRY_CORNER, window_rows=1, window_columns=1)
    assert found is not None
    assert (found.row, found.column) == (2, 4)


def test_a_window_with_a_missing_can_does_not_count() -> None:
    grid = DRY_CORNER.copy()
    grid[0, 0] = NONE
    found = driest_window(grid, window_rows=2, window_columns=2)
    assert found is not None
    assert (found.row, found.column) != (0, 0)


def test_no_whole_window_is_no_answer() -> None:
    grid = np.array([[5.0, NONE], [NONE, 5.0]])
    assert driest_window(grid, window_rows=1, window_columns=2) is None


def test_a_repeating_cell_has_windows_over_its_border() -> None:
    grid = np.array([[1.0, 9.0, 9.0, 1.0]])
    apart = driest_window(grid, window_rows=1, window_columns=2)
    over = driest_window(grid, window_rows=1, window_columns=2, wraps=True)
    assert apart is not None
    assert over is not None
    assert (apart.driest_over_mean, over.driest_over_mean) == (1.0, 0.2)


def test_a_dry_window_has_no_finite_coefficient() -> None:
    found = driest_window(np.array([[0.0, 9.0, 9.0]]), window_rows=1, window_columns=1)
    assert found is not None
    assert found.scheduling_coefficient == math.inf


@given(
    st.lists(st.floats(0.5, 50.0), min_size=12, max_size=12),
    st.integers(1, 3),
    st.integers(1, 4),
)
def test_a_plain_search_finds_the_same_window(
    cans: list[float], rows: int, columns: int
) -> None:
    grid = np.reshape(cans, (3, 4))
    plain = min(
        float(grid[i : i + rows, j : j + columns].mean())
        for i, j in product(range(4 - rows), range(5 - columns))
    )
    found = driest_window(grid, window_rows=rows, window_columns=columns)
    assert found is not None
    assert found.driest_over_mean * grid.mean() == pytest.approx(plain, rel=1e-9)


@given(st.floats(0.1, 1000.0))
def test_another_unit_changes_nothing(factor: float) -> None:
    def coefficients(grid: FloatArray) -> list[float]:
        return [one.scheduling_coefficient for one in driest_windows(grid)]

    assert coefficients(DRY_CORNER * factor) == pytest.approx(coefficients(DRY_CORNER))


def test_twenty_four_cans_have_windows_of_one_and_two_cans() -> None:
    # 1, 2 and 5 % of 24 cans are nearest to one can, 10 % (2.4 cans) to two
    found = driest_windows(np.arange(1.0, 25.0).reshape(4, 6))
    assert [one.window_rows * one.window_columns for one in found] == [1, 2]
    assert [one.share for one in found] == pytest.approx([1 / 24, 2 / 24])


def test_ten_percent_of_a_large_grid_is_a_near_square() -> None:
    found = driest_windows(np.arange(1.0, 101.0).reshape(10, 10))
    sizes = [(one.window_rows, one.window_columns) for one in found]
    assert sizes[0] == (1, 1)
    assert all(max(size) <= 2 * min(size) for size in sizes)
    assert found[-1].share == pytest.approx(0.09)  # 3 x 3; 10 cans are no near-square


def test_both_ways_round_are_tried() -> None:
    standing = np.full((4, 6), 10.0)
    standing[1:3, 2] = 1.0
    assert driest_windows(standing)[-1].window_rows == 2


def test_larger_windows_are_never_drier_than_the_driest_can() -> None:
    found = driest_windows(DRY_CORNER)
    assert found[0].driest_over_mean <= found[-1].driest_over_mean


def test_a_window_larger_than_the_grid_is_refused() -> None:
    with pytest.raises(SchedulerError, match="a window of 5 by 1"):
        driest_window(DRY_CORNER, window_rows=5, window_columns=1)


def test_a_grid_without_water_is_refused() -> None:
    with pytest.raises(ReadingsError, match="no water caught"):
        driest_windows(np.zeros((2, 3)))


def test_a_list_of_cans_has_windows_of_one_can_only() -> None:
    found = driest_windows(np.arange(1.0, 41.0)[None])
    assert [(one.window_rows, one.window_columns) for one in found] == [(1, 1)]
