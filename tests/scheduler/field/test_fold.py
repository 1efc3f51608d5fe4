"""The fold against a plain sum over heads, its laws, its refusals."""

import math
from itertools import product
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.field.fold import (
    Layout,
    cell_rate_mm_per_h,
    fine_steps,
    layout_row_spacing_m,
    quarter_cells,
)
from scheduler.field.profile import Profile, radial_profile
from scheduler.field.uniformity import low_quarter_uniformity

THROW_M = 10.0
LAYOUTS: tuple[Layout, ...] = ("square", "rectangular", "triangular")


def _profile(depth: list[float], throw_m: float | None = None) -> Profile:
    distance = np.linspace(0.0, THROW_M, len(depth))
    profile, _ = radial_profile(distance, depth, minutes=60, throw_m=throw_m)
    assert profile is not None
    return profile


CONE = _profile([12.0, 0.0])
SHARP = _profile([5.0, 5.0], THROW_M)


def _cell(profile: Profile, x_m: float, y_m: float, layout: Layout, **n: Any) -> Any:
    return cell_rate_mm_per_h(
        profile, spacing_m=x_m, row_spacing_m=y_m, layout=layout, **n
    )


def _naive(
    profile: Profile, x_m: float, y_m: float, layout: Layout, steps: int
) -> FloatArray:
    """Every head within a throw of the cell, by radius and interpolation."""
    n_deep = 2 if layout == "triangular" else 1
    x, y = np.meshgrid(
        (np.arange(steps) + 0.5) * x_m / steps,
        (np.arange(n_deep * steps) + 0.5) * y_m / steps,
    )
    rate = np.zeros(x.shape)
    over_x, over_y = (math.ceil(profile.throw_m / one) + 2 for one in (x_m, y_m))
    for i, j in product(
        range(-over_x, over_x + 1), range(-over_y, n_deep + over_y + 1)
    ):
        head_x = (i + (0.5 if layout == "triangular" and j % 2 else 0.0)) * x_m
        radius = np.hypot(x - head_x, y - j * y_m)
        rate += np.where(
            radius < profile.throw_m,
            np.interp(radius, profile.distance_m, profile.rate_mm_per_h),
            0.0,
        )
    return rate


depths = st.lists(st.floats(0.0, 20.0), min_size=2, max_size=8).map(
    lambda wet: [5.0, *wet, 1.0, 0.0]
)
spacings = st.floats(3.0, 24.0)
layouts = st.sampled_from(LAYOUTS)


@settings(max_examples=60, deadline=None)
@given(depths, spacings, spacings, layouts)
def test_the_fold_equals_the_plain_sum_over_heads(
    depth: list[float], x_m: float, y_m: float, layout: Layout
) -> None:
    profile = _profile(depth)
    folded = _cell(profile, x_m, y_m, layout, steps=24)
    plain = _naive(profile, x_m, y_m, layout, 24)
    # a step of the raster is widest at the head: 1 % of the peak there, nothing on
    # the whole
    assert folded == pytest.approx(plain, abs=0.01 * max(depth))
    assert folded.mean() == pytest.approx(plain.mean(), rel=1e-4, abs=1e-6)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_the_fold_equals_the_plain_sum_for_a_sharp_edge(layout: Layout) -> None:
    assert _cell(SHARP, 7.3, 8.9, layout, steps=40) == pytest.approx(
        _naive(SHARP, 7.3, 8.9, layout, 40)
    )


@settings(max_examples=50, deadline=None)
@given(spacings, spacings)
def test_turning_a_rectangular_layout_turns_its_pattern(x_m: float, y_m: float) -> None:
    turned = _cell(CONE, y_m, x_m, "rectangular", steps=20)
    assert _cell(CONE, x_m, y_m, "rectangular", steps=20) == pytest.approx(turned.T)


@settings(max_examples=50, deadline=None)
@given(spacings, spacings, layouts)
def test_a_pattern_is_its_own_mirror_image(
    x_m: float, y_m: float, layout: Layout
) -> None:
    cell = _cell(CONE, x_m, y_m, layout, steps=20)
    assert np.array_equal(cell, cell[::-1])
    assert np.array_equal(cell, cell[:, ::-1])


@settings(max_examples=50, deadline=None)
@given(spacings, spacings)
def test_the_second_staggered_row_is_the_first_moved_by_half_a_spacing(
    x_m: float, y_m: float
) -> None:
    cell = _cell(CONE, x_m, y_m, "triangular", steps=20)
    assert cell[20:] == pytest.approx(np.roll(cell[:20], 10, axis=1))


@pytest.mark.parametrize("spacing_m", [8.0, 11.0, 14.0])
def test_staggered_rows_half_a_spacing_apart_are_a_square_layout_turned_by_45_degrees(
    spacing_m: float,
) -> None:
    # geometry: the same heads, looked at along the diagonal
    staggered = _cell(CONE, spacing_m, spacing_m / 2, "triangular", steps=200)
    side = spacing_m / math.sqrt(2)
    square = _cell(CONE, side, side, "square", steps=200)
    both = [low_quarter_uniformity(one.ravel()) for one in (staggered, square)]
    assert both[0] == pytest.approx(both[1], abs=5e-4)


@settings(max_examples=60, deadline=None)
@given(depths, st.floats(3.0, 40.0), st.floats(3.0, 40.0), layouts)
def test_the_grid_holds_the_water_of_the_profile(
    depth: list[float], x_m: float, y_m: float, layout: Layout
) -> None:
    profile = _profile(depth)
    held = _cell(profile, x_m, y_m, layout).mean() * x_m * y_m / 60
    assert held == pytest.approx(profile.flow_l_per_min, rel=1e-3)


@settings(max_examples=60, deadline=None)
@given(spacings, spacings, layouts)
def test_the_grid_holds_the_water_of_a_sharp_edge(
    x_m: float, y_m: float, layout: Layout
) -> None:
    held = _cell(SHARP, x_m, y_m, layout).mean() * x_m * y_m / 60
    assert held == pytest.approx(SHARP.flow_l_per_min, rel=1e-3)


def test_the_mean_of_a_cone_is_its_volume_over_the_cell() -> None:
    # geometry: peak 1, radius 1, cells 1.2 by 1.2: pi / 3 / 1.44
    cone, _ = radial_profile([0.0, 1.0], [1.0, 0.0], minutes=60)
    assert cone is not None
    assert _cell(cone, 1.2, 1.2, "square").mean() == pytest.approx(
        0.7272205217, abs=1e-4
    )


def test_heads_out_of_each_others_reach_add_nothing() -> None:
    cell = _cell(CONE, 30.0, 30.0, "square")
    assert cell.max() <= 12.0
    assert cell[cell.shape[0] // 2].max() == 0.0


def test_quarter_cells_hold_the_distribution_of_the_whole_cell() -> None:
    m = np.array([7.0, 9.0])
    found = quarter_cells(
        CONE, spacings_m=m, row_spacings_m=m, layout="triangular", steps=20
    )
    quarter = list(found)[1][0]
    whole = _cell(CONE, 9.0, 7.0, "triangular", steps=20)
    assert np.sort(np.repeat(quarter, 8)) == pytest.approx(np.sort(whole.ravel()))


def test_a_sharp_edge_gets_finer_steps() -> None:
    assert fine_steps(SHARP, widest_m=5.0) == 2 * fine_steps(CONE, widest_m=5.0)


def test_a_square_layout_has_rows_as_far_apart_as_heads() -> None:
    rows_m = layout_row_spacing_m(
        CONE, spacing_m=9.0, row_spacing_m=None, layout="square"
    )
    assert rows_m == 9.0


def test_staggered_rows_are_equilateral_when_nothing_is_said() -> None:
    rows_m = layout_row_spacing_m(
        CONE, spacing_m=9.0, row_spacing_m=None, layout="triangular"
    )
    assert math.hypot(4.5, rows_m) == pytest.approx(9.0)


def test_a_rectangular_layout_without_row_spacing_is_refused() -> None:
    with pytest.raises(SchedulerError, match="no row spacing"):
        cell_rate_mm_per_h(
            CONE, spacing_m=9.0, row_spacing_m=None, layout="rectangular"
        )


@pytest.mark.parametrize("spacing_m", [0.0, -3.0, 0.3, 41.0, math.inf, math.nan])
def test_a_spacing_that_does_not_suit_the_throw_is_refused(spacing_m: float) -> None:
    with pytest.raises(SchedulerError, match="does not suit a throw of 10 m"):
        _cell(CONE, 9.0, spacing_m, "rectangular")


@pytest.mark.parametrize("steps", [0, 7])
def test_too_few_steps_are_refused(steps: int) -> None:
    with pytest.raises(SchedulerError, match="steps per spacing"):
        _cell(CONE, 9.0, 9.0, "square", steps=steps)
