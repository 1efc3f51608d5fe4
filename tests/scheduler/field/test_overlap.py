"""Overlap of one profile: a published pattern, independent values, laws, refusals."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.field.overlap import Pattern, pattern, scheduling_coefficient, sweep
from scheduler.field.profile import Profile, radial_profile


def _profile(distance: Any, depth: Any, throw_m: float | None = None) -> Profile:
    found, _ = radial_profile(distance, depth, minutes=60, throw_m=throw_m)
    assert found is not None
    return found


# All of radius 1 and peak 1; a spacing of x % of the wetted diameter is x / 50.
CONE = _profile([0.0, 1.0], [1.0, 0.0])
_PART = np.sin(np.linspace(0.0, np.pi / 2, 500))  # close cans where it falls steeply
ELLIPSE = _profile(_PART, np.sqrt(1 - _PART**2).round(12))
DISC = _profile([0.0, 1.0], [1.0, 1.0], throw_m=1.0)
SHAPES = {"tri": CONE, "ell": ELLIPSE, "disc": DISC}


def _square(shape: str, pct: float, **more: Any) -> Pattern:
    return pattern(
        SHAPES[shape], spacing_m=pct / 50, row_spacing_m=None, layout="square", **more
    )


def _equilateral(pct: float) -> Pattern:
    return pattern(CONE, spacing_m=pct / 50, row_spacing_m=None, layout="triangular")


FIFTY_SEVENTY = pattern(CONE, spacing_m=1.0, row_spacing_m=1.4, layout="rectangular")


# --- published -------------------------------------------------------------------
# von Bernuth and Mecham, Defining the run time multiplier (n.d.), pp. 1-2, figure 1:
# four heads, triangular profile, peak 10, 50 by 70 % of the wetted diameter. Their grid
# is coarse and holds the edges, hence the tolerances.


@pytest.mark.parametrize(
    ("measure", "published", "tolerance"),
    [
        ("mean_rate_mm_per_h", 0.78, 0.035),
        ("cu", 0.805, 0.015),
        ("du_lh", 0.810, 0.016),
        ("du_lq", 0.772, 0.03),
        ("lowest_rate_mm_per_h", 0.54, 0.06),
    ],
)
def test_the_published_pattern_of_a_triangular_profile_comes_out(
    measure: str, published: float, tolerance: float
) -> None:
    assert getattr(FIFTY_SEVENTY, measure) == pytest.approx(published, abs=tolerance)


def test_the_published_low_on_the_long_edge_comes_out_at_the_spacing_it_implies() -> (
    None
):
    # the same figure prints 6.2 half way between two heads: 68.75 % rather than 70 %
    grid = pattern(
        CONE, spacing_m=1.0, row_spacing_m=1.375, layout="rectangular"
    ).rate_mm_per_h
    assert grid[50, 0] == pytest.approx(0.62, abs=0.01)


# --- computed independently on a fine grid of cell centres, no publication --------

SQUARE_CU = [
    ("tri", 50, 0.9635769554), ("ell", 50, 0.855233791),
    ("tri", 55, 0.9741508236), ("ell", 55, 0.8558263205),
    ("tri", 60, 0.9054557298), ("ell", 60, 0.877),
    ("tri", 65, 0.832961895), ("ell", 65, 0.866196165),
    ("tri", 70, 0.7599358277), ("ell", 70, 0.8357366145),
    ("tri", 40, 0.976), ("ell", 40, 0.969),
]  # fmt: skip
SQUARE_DU = [
    ("tri", 50, 0.9497954438), ("ell", 50, 0.798),
    ("tri", 55, 0.9564830217), ("ell", 55, 0.7896860383),
    ("tri", 60, 0.8473727312), ("ell", 60, 0.7695469302),
    ("tri", 65, 0.7084546293), ("ell", 65, 0.7766131186),
    ("tri", 70, 0.5814078085), ("ell", 70, 0.7813944269),
    ("tri", 40, 0.972), ("ell", 40, 0.954),
]  # fmt: skip
# a sharp edge moves with the grid, hence 0.01
DISCS = [
    (40, 0.862, 0.815), (50, 0.828, 0.734), (55, 0.734, 0.718),
    (60, 0.764, 0.697), (65, 0.776, 0.555), (70, 0.698, 0.624),
]  # fmt: skip
EQUILATERAL = [
    (50, 0.9654849655, 0.9355684027),
    (60, 0.9542361912, 0.9436409024),
    (70, 0.8875820583, 0.8770003401),
]


@pytest.mark.parametrize(("shape", "pct", "cu"), SQUARE_CU)
def test_christiansen_of_square_layouts(shape: str, pct: int, cu: float) -> None:
    assert _square(shape, pct).cu == pytest.approx(cu, abs=0.002)


@pytest.mark.parametrize(("shape", "pct", "du"), SQUARE_DU)
def test_low_quarter_of_square_layouts(shape: str, pct: int, du: float) -> None:
    assert _square(shape, pct).du_lq == pytest.approx(du, abs=0.003)


@pytest.mark.parametrize(("pct", "cu", "du"), DISCS)
def test_square_layouts_of_a_uniform_disc(pct: int, cu: float, du: float) -> None:
    found = _square("disc", pct)
    assert (found.cu, found.du_lq) == pytest.approx((cu, du), abs=0.01)


@pytest.mark.parametrize(("pct", "cu", "du"), EQUILATERAL)
def test_equilateral_layouts(pct: int, cu: float, du: float) -> None:
    assert _equilateral(pct).cu == pytest.approx(cu, abs=0.002)
    assert _equilateral(pct).du_lq == pytest.approx(du, abs=0.003)


@pytest.mark.parametrize(
    ("measure", "expected"),
    [
        ("mean_rate_mm_per_h", 0.7479983019),
        ("du_lh", 0.7995343131),
        ("du_lq", 0.7474819603),
    ],
)
def test_fifty_by_seventy_on_a_fine_grid(measure: str, expected: float) -> None:
    assert getattr(FIFTY_SEVENTY, measure) == pytest.approx(expected, abs=0.002)


@pytest.mark.parametrize(
    ("share", "expected"),
    [(0.01, 1.256), (0.02, 1.242148264), (0.05, 1.227171871), (0.1, 1.226636816)],
)
def test_scheduling_coefficient_of_a_square_layout(
    share: float, expected: float
) -> None:
    found = _square("tri", 60, window_share=share, steps=200)
    assert found.scheduling_coefficient == pytest.approx(expected, abs=0.006)


def test_scheduling_coefficient_barely_moves_with_the_grid() -> None:
    coarse = _square("tri", 60)
    assert coarse.scheduling_coefficient == pytest.approx(1.227171871, abs=0.006)


# --- scheduling coefficient by hand -----------------------------------------------


def test_a_mean_of_12_over_a_driest_7_is_the_published_1_7() -> None:
    # landscape irrigation design notes, section 4 (web page, publisher unknown)
    grid = np.array([[7.0, 13.0], [13.0, 15.0]])
    found = scheduling_coefficient(grid, window_rows=1, window_columns=1)
    assert found == pytest.approx(1.7, abs=0.02)


def test_the_driest_window_runs_over_the_border_into_the_next_cell() -> None:
    grid = np.array([[1.0, 5.0, 5.0, 1.0]] * 2)
    found = scheduling_coefficient(grid, window_rows=1, window_columns=2)
    assert found == pytest.approx(3.0)


def test_a_window_is_contiguous() -> None:
    grid = np.array([[1.0, 5.0, 1.0, 5.0]] * 2)
    found = scheduling_coefficient(grid, window_rows=1, window_columns=2)
    assert found == pytest.approx(1.0)


def test_a_window_that_stays_dry_has_no_finite_coefficient() -> None:
    grid = np.array([[0.0, 0.3, 0.1, 0.0]] * 3)
    found = scheduling_coefficient(grid, window_rows=2, window_columns=2)
    assert math.isinf(found)


@settings(max_examples=50, deadline=None)
@given(st.integers(1, 6), st.integers(1, 5), st.integers(0, 100))
def test_no_window_is_wetter_than_the_mean_at_its_driest(
    rows: int, columns: int, seed: int
) -> None:
    grid = np.random.default_rng(seed).uniform(0.5, 9.0, (6, 5))
    found = scheduling_coefficient(grid, window_rows=rows, window_columns=columns)
    assert found >= 1 - 1e-12


@pytest.mark.parametrize(("rows", "columns"), [(0, 1), (1, 0), (3, 1), (1, 3)])
def test_a_window_larger_than_the_cell_is_refused(rows: int, columns: int) -> None:
    with pytest.raises(SchedulerError, match="window of"):
        scheduling_coefficient(
            np.ones((2, 2)), window_rows=rows, window_columns=columns
        )


def test_a_window_of_a_narrow_cell_is_as_wide_as_the_cell() -> None:
    # 0.4 by 1.6: a square of the whole area is wider than the cell, so the window
    # is the cell itself
    narrow = pattern(
        CONE, spacing_m=0.4, row_spacing_m=1.6, layout="rectangular", window_share=1.0
    )
    turned = pattern(
        CONE, spacing_m=1.6, row_spacing_m=0.4, layout="rectangular", window_share=1.0
    )
    assert narrow.scheduling_coefficient == pytest.approx(1.0)
    assert turned.scheduling_coefficient == pytest.approx(1.0)


# --- laws ---------------------------------------------------------------------------

depths = st.lists(st.floats(0.0, 20.0), min_size=2, max_size=8).map(
    lambda wet: _profile(np.linspace(0.0, 1.0, len(wet) + 3), [5.0, *wet, 1.0, 0.0])
)
spacings = st.floats(0.4, 2.2)


@settings(max_examples=50, deadline=None)
@given(depths, spacings, spacings, st.floats(0.5, 0.95))
def test_closer_spacing_raises_the_rate_by_the_ratio_of_areas(
    profile: Profile, x_m: float, y_m: float, closer: float
) -> None:
    wide, near = (
        pattern(
            profile, spacing_m=x, row_spacing_m=y_m, layout="rectangular", steps=16
        ).mean_rate_mm_per_h
        for x in (x_m, closer * x_m)
    )
    assert near == pytest.approx(wide / closer)


@settings(max_examples=50, deadline=None)
@given(depths, spacings, spacings)
def test_turning_the_layout_changes_no_measure(
    profile: Profile, x_m: float, y_m: float
) -> None:
    one, turned = (
        pattern(profile, spacing_m=x, row_spacing_m=y, layout="rectangular", steps=20)
        for x, y in ((x_m, y_m), (y_m, x_m))
    )
    for measure in ("du_lq", "du_lh", "cu", "mean_rate_mm_per_h"):
        assert getattr(one, measure) == pytest.approx(getattr(turned, measure))


@settings(max_examples=50, deadline=None)
@given(spacings, st.floats(0.5, 40.0), st.floats(0.1, 50.0))
def test_scaling_depth_and_distance_leaves_uniformity_alone(
    x_m: float, times: float, depth: float
) -> None:
    plain = pattern(
        CONE, spacing_m=x_m, row_spacing_m=None, layout="triangular", steps=40
    )
    other = pattern(
        _profile([0.0, times], [depth, 0.0]),
        spacing_m=times * x_m,
        row_spacing_m=None,
        layout="triangular",
        steps=40,
    )
    assert other.du_lq == pytest.approx(plain.du_lq, abs=1e-4)
    assert other.mean_rate_mm_per_h == pytest.approx(depth * plain.mean_rate_mm_per_h)


@settings(max_examples=50, deadline=None)
@given(depths, spacings, spacings, st.sampled_from(["rectangular", "triangular"]))
def test_a_sweep_gives_what_each_pattern_gives(
    profile: Profile, x_m: float, y_m: float, layout: Any
) -> None:
    swept = sweep(
        profile,
        spacings_m=np.array([x_m, 1.1]),
        row_spacings_m=np.array([0.9, y_m]),
        layout=layout,
        steps=20,
    )
    alone = pattern(profile, spacing_m=x_m, row_spacing_m=y_m, layout=layout, steps=20)
    assert swept.du_lq[0, 1] == pytest.approx(alone.du_lq)
    assert swept.cu[0, 1] == pytest.approx(alone.cu)
    assert swept.mean_rate_mm_per_h[0, 1] == pytest.approx(alone.mean_rate_mm_per_h)


@pytest.mark.parametrize("shape", ["tri", "ell"])
def test_the_coarser_steps_of_a_sweep_move_uniformity_by_less_than_0_002(
    shape: str,
) -> None:
    m = np.array([0.8, 1.0, 1.1, 1.3])
    swept = sweep(SHAPES[shape], spacings_m=m, row_spacings_m=m, layout="square")
    fine = [_square(shape, 50 * x).du_lq for x in m]
    assert swept.du_lq.diagonal() == pytest.approx(fine, abs=0.002)


# --- what a pattern says ------------------------------------------------------------


@pytest.mark.parametrize("shape", SHAPES)
def test_the_grid_is_off_the_water_of_the_profile_by_less_than_a_thousandth(
    shape: str,
) -> None:
    assert abs(_square(shape, 60).mass_balance_error) < 1e-3


def test_a_pattern_that_misses_water_says_so() -> None:
    rough = _square("disc", 60, steps=8)
    assert abs(rough.mass_balance_error) > 1e-3
    assert "steps" in rough.findings[0].fix


def test_dry_ground_between_heads_is_a_warning() -> None:
    (warning,) = _square("tri", 110).findings
    assert warning.level == "warning"
    assert "of the ground gets no water" in warning.what


def test_a_good_layout_has_no_finding() -> None:
    assert _square("tri", 50).findings == ()


def test_heads_per_area_is_one_over_the_ground_of_a_head() -> None:
    assert FIFTY_SEVENTY.heads_per_m2 == pytest.approx(1 / 1.4)


@pytest.mark.parametrize("share", [0.0, 1.5, math.nan])
def test_a_window_that_is_no_share_is_refused(share: float) -> None:
    with pytest.raises(SchedulerError, match="of the area"):
        _square("tri", 50, window_share=share)


@pytest.mark.parametrize(("bad", "words"), [([], "no spacing"), ([1.0, 9.0], "throw")])
def test_a_sweep_over_spacings_that_cannot_be_is_refused(
    bad: list[float], words: str
) -> None:
    with pytest.raises(SchedulerError, match=words):
        sweep(
            CONE,
            spacings_m=np.array([1.0]),
            row_spacings_m=np.array(bad),
            layout="square",
        )
