"""Known causes put into maps, and the cause that is named first."""

from collections.abc import Callable

import numpy as np
import pytest

from scheduler.arrays import FloatArray
from scheduler.field.basis import RunBearing, head_places
from scheduler.field.causes import CHECKS, likely_causes
from scheduler.record import CanLayout

SHAPE = (6, 6)
# rows to the east, the wind from the south-west blows to the upper right
LAYOUT = CanLayout(1.5, 1.5, 90.0, (), True, (0,), ())
WIND = (RunBearing(225.0, 3.0),)
ROW, COLUMN = np.indices(SHAPE)


def strip() -> FloatArray:
    return np.where(ROW == 2, 0.65, 1.0)


def gradient() -> FloatArray:
    return np.asarray(1.25 - 0.5 * COLUMN / 5)


def away() -> FloatArray:
    return np.asarray(
        np.min(
            [np.hypot(ROW - r, COLUMN - c) for r, c in head_places(LAYOUT, SHAPE)], 0
        )
    )


def ring() -> FloatArray:
    return np.asarray(1.25 - 0.5 * away() / away().max())


def doughnut() -> FloatArray:
    far = away() / away().max()
    return np.asarray(0.7 + 2.4 * (far - 0.55) ** 2)


def corner() -> FloatArray:
    return np.where((ROW < 2) & (COLUMN < 2), 0.5, 1.0)


def downwind() -> FloatArray:
    return np.asarray(0.7 + 0.6 * (COLUMN + 5 - ROW) / 10)


def edge() -> FloatArray:
    return np.where(ROW == 0, 1.5, 1.0)  # Overton, 2014, Tree Planters' Notes 57(2)


def single() -> FloatArray:
    return np.where((ROW == 3) & (COLUMN == 3), 0.3, 1.0)


def noisy(grid: FloatArray, seed: int, cv: float = 0.12) -> FloatArray:
    rng = np.random.default_rng((41, seed))
    return np.asarray(grid * np.maximum(1 + cv * rng.normal(size=grid.shape), 0.02))


@pytest.mark.parametrize(
    ("made", "kind"),
    [
        (strip, "strip"), (gradient, "gradient"), (ring, "ring"), (doughnut, "ring"),
        (corner, "corner"), (downwind, "downwind"), (edge, "edge"),
        (single, "single cans"),
    ],
)  # fmt: skip
def test_a_known_cause_is_named_first_in_most_seeds(
    made: Callable[[], FloatArray], kind: str
) -> None:
    firsts = [
        likely_causes(noisy(made(), seed), LAYOUT, winds=WIND)[0].kind
        for seed in range(20)
    ]
    assert firsts.count(kind) >= 17, firsts


def test_one_dry_head_of_a_row_of_heads_is_found() -> None:
    heads = tuple((1.5, column) for column in (-0.5, 3.5, 7.5, 11.5))
    layout = CanLayout(heads=heads)
    row, column = np.indices((4, 12))
    dry = 1 - 0.6 * np.exp(-((np.hypot(row - 1.5, column - 3.5) / 2) ** 2))
    firsts = [likely_causes(noisy(dry, seed), layout)[0] for seed in range(20)]
    assert sum(one.kind == "one head" for one in firsts) >= 17
    assert "column 4.5" in firsts[0].where


def test_pure_noise_seldom_gets_a_cause() -> None:
    # about 5 % for shapes and half of that for single cans; 2.5 standard errors more
    maps = [noisy(np.ones(SHAPE), 1000 + seed) for seed in range(120)]
    firsts = [likely_causes(one, LAYOUT, winds=WIND)[0].kind for one in maps]
    assert (120 - firsts.count("no shape")) / 120 <= 0.13


def test_noise_without_a_shape_says_what_was_nearest_with_its_p() -> None:
    found = likely_causes(noisy(np.ones(SHAPE), 1000), LAYOUT)[0]
    assert (found.kind, found.is_beyond_chance) == ("no shape", False)
    assert "nearest" in found.evidence


def test_the_evidence_of_a_strip_is_its_catch_over_that_of_the_others() -> None:
    found = likely_causes(strip() * (1 + 0.001 * COLUMN))[0]
    assert found.where == "row 3"
    assert "6 cans caught 0.65 of what the others caught" in found.evidence


def test_a_slope_is_said_with_both_ends() -> None:
    found = likely_causes(gradient())[0]
    assert "falls from 1.25 of the mean at column A to 0.75 at column F" in (
        found.evidence
    )


def test_a_doughnut_is_called_one() -> None:
    assert "doughnut" in likely_causes(doughnut(), LAYOUT)[0].where


def test_wind_along_a_row_cannot_be_told_from_pressure_and_that_is_said() -> None:
    rising = noisy(gradient()[:, ::-1], 3, 0.05)
    west = (RunBearing(270.0, 3.0),)
    first = likely_causes(rising, LAYOUT, winds=west)[0]
    assert first.kind in ("downwind", "gradient")
    assert "cannot tell it from" in first.evidence


def test_a_dry_lee_is_not_blamed_on_the_wind() -> None:
    west = (RunBearing(270.0, 3.0),)  # falls towards the east, where the wind blows to
    found = likely_causes(noisy(gradient(), 3, 0.05), LAYOUT, winds=west)
    assert found[0].kind == "gradient"


def test_every_kind_says_what_to_check_first() -> None:
    found = likely_causes(noisy(strip(), 1), LAYOUT, winds=WIND)
    assert all(one.checks for one in found)
    assert all(CHECKS.values())


def test_a_hole_in_the_map_does_not_hide_the_strip() -> None:
    grid = noisy(strip(), 5)
    grid[2, 3] = np.nan
    assert likely_causes(grid, LAYOUT)[0].kind == "strip"


def test_too_few_cans_get_no_cause() -> None:
    assert likely_causes(np.array([[1.0, 2.0, 3.0, 4.0]])) == ()


def test_equal_cans_get_no_cause() -> None:
    assert likely_causes(np.ones(SHAPE)) == ()
