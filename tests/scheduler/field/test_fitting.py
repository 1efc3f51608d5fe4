"""Shapes held against a map: what is taken, in which order, and what noise gives."""

import numpy as np
import pytest

from scheduler.field.basis import shapes_of
from scheduler.field.fitting import LEVEL, fits
from scheduler.record import CanLayout

ALL = np.ones((6, 6), dtype=bool)
SHAPES = shapes_of(ALL, CanLayout(has_corner_heads=True))


def noise(seed: int, cv: float = 0.1) -> np.ndarray:
    return 1 + cv * np.random.default_rng(seed).normal(size=(6, 6))


def test_a_clear_strip_explains_nearly_all() -> None:
    grid = noise(1, 0.01)
    grid[2] *= 0.5
    first = fits(grid.ravel(), SHAPES)[0]
    assert (first.basis.kind, first.basis.where) == ("strip", (0, 2, 2))
    assert first.share > 0.95


def test_two_dry_lines_are_both_found() -> None:
    grid = noise(2, 0.03)
    grid[1] *= 0.6
    grid[:, 4] *= 0.7
    found = [one.basis.where for one in fits(grid.ravel(), SHAPES) if one.share > 0.1]
    assert {(0, 1, 1), (1, 4, 4)} <= set(found)


def test_a_shape_that_lives_off_a_better_one_is_said_to_be_covered() -> None:
    grid = noise(3, 0.03)
    grid[5] *= 0.5  # a dry end row also looks like a slope
    slope = next(
        one for one in fits(grid.ravel(), SHAPES) if one.basis.kind == "gradient"
    )
    assert (slope.is_beyond_chance, slope.covered) == (False, True)


def test_shares_of_what_was_found_never_pass_the_whole() -> None:
    for seed in range(5):
        grid = noise(seed) * np.linspace(0.7, 1.3, 6)
        shares = [one.share for one in fits(grid.ravel(), SHAPES)]
        assert sum(max(0.0, one) for one in shares[:1]) <= 1.0


def test_the_same_map_gives_the_same_answer() -> None:
    one, two = (fits(noise(7).ravel(), SHAPES) for _ in range(2))
    assert [(a.p, a.share) for a in one] == [(b.p, b.share) for b in two]


def test_scaling_all_catches_changes_nothing() -> None:
    one, two = fits(noise(8).ravel(), SHAPES), fits(5 * noise(8).ravel(), SHAPES)
    assert [a.p for a in one] == pytest.approx([b.p for b in two])


def test_equal_cans_show_no_shape() -> None:
    assert fits(np.ones(36), SHAPES) == ()


def test_noise_passes_the_level_about_as_often_as_the_level_says() -> None:
    # Definition of a level; 2.5 standard errors of a count of 200.
    wrong = sum(
        any(one.p <= LEVEL and one.is_beyond_chance for one in fits(grid, SHAPES))
        for grid in (noise(100 + seed).ravel() for seed in range(200))
    )
    assert wrong / 200 <= LEVEL + 2.5 * (LEVEL * (1 - LEVEL) / 200) ** 0.5
