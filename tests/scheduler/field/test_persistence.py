"""What lasts from run to run, and how often chance gives as much."""

import math

import numpy as np
import pytest

from scheduler.errors import ReadingsError, TooFewCansError
from scheduler.field.persistence import LEVEL, at_least, persistence, relative_map


def noise(seed: int, shape: tuple[int, int] = (4, 6)) -> np.ndarray:
    return 1 + 0.2 * np.random.default_rng((9, seed)).normal(size=shape)


def test_a_place_is_counted_in_each_run_that_it_was_dry_in() -> None:
    one = np.array([[1.0, 5.0, 6.0, 7.0]])
    two = np.array([[1.0, 5.0, 6.0, 7.0]]) * 3
    three = np.array([[9.0, 1.0, 6.0, 7.0]])
    found = persistence([one, two, three])
    assert found.times_driest.tolist() == [[2, 1, 0, 0]]
    np.testing.assert_allclose(found.share_driest, [[2 / 3, 1 / 3, 0, 0]])


def test_the_mean_relative_catch_weighs_runs_alike() -> None:
    one = np.array([[1.0, 3.0, 2.0, 2.0]])
    found = persistence([one, 10 * one[:, ::-1]])
    np.testing.assert_allclose(found.mean_relative, [[0.75, 1.25, 1.25, 0.75]])


def test_a_place_that_one_run_missed_counts_over_the_others() -> None:
    one = np.array([[1.0, 5.0, 6.0, 7.0, 8.0]])
    two = one.copy()
    two[0, 0] = np.nan
    found = persistence([one, two])
    assert found.share_driest[0, 0] == 1.0
    # seen once only, so it cannot have lasted
    assert found.n_always == 0


# Definition: a binomial tail where all chances are equal.
@pytest.mark.parametrize(("times", "runs"), [(0, 3), (1, 3), (2, 3), (3, 3), (4, 5)])
def test_the_tail_of_equal_chances_is_binomial(times: int, runs: int) -> None:
    tail = sum(
        math.comb(runs, k) * 0.25**k * 0.75 ** (runs - k)
        for k in range(times, runs + 1)
    )
    assert at_least(times, [0.25] * runs) == pytest.approx(tail)


def test_two_runs_prove_no_single_place() -> None:
    # 6 of 24 are dry in each run: chance makes a place dry twice one time in 16
    one = noise(1)
    found = persistence([one, one])
    assert np.nanmin(found.p_driest) == pytest.approx(1 / 16)
    assert found.n_always_by_chance == pytest.approx(24 / 16)


def test_one_map_seen_three_times_lasts() -> None:
    found = persistence([noise(1), noise(1) * 2, noise(1)])
    assert found.is_beyond_chance
    assert found.agreement == pytest.approx(1.0)
    assert found.p == pytest.approx(0.001)


def test_a_dry_strip_under_noise_lasts() -> None:
    def drawn(seed: int) -> np.ndarray:
        grid = noise(seed)
        grid[2] *= 0.6
        return grid

    found = persistence([drawn(seed) for seed in (1, 2, 3)])
    assert found.is_beyond_chance
    assert found.times_driest[2].mean() > 2


def test_unlike_runs_pass_the_level_about_as_often_as_it_says() -> None:
    # Definition of a level; 2.5 standard errors of a count of 200.
    wrong = sum(
        persistence([noise(3 * s), noise(3 * s + 1), noise(3 * s + 2)]).is_beyond_chance
        for s in range(200)
    )
    assert wrong / 200 <= LEVEL + 2.5 * (LEVEL * (1 - LEVEL) / 200) ** 0.5


def test_opposite_runs_do_not_last() -> None:
    one = noise(1)
    assert not persistence([one, 2 - one]).is_beyond_chance


def test_the_order_of_the_runs_changes_no_count() -> None:
    runs = [noise(1), noise(2), noise(3)]
    one, two = persistence(runs), persistence(runs[::-1])
    np.testing.assert_array_equal(one.times_driest, two.times_driest)
    assert one.agreement == pytest.approx(two.agreement)


def test_an_even_run_agrees_with_nothing() -> None:
    found = persistence([np.ones((4, 6)), noise(1)])
    assert (found.agreement, found.p) == (0.0, 1.0)


def test_one_run_is_refused() -> None:
    with pytest.raises(ReadingsError, match="nothing that lasts"):
        persistence([noise(1)])


def test_other_grids_are_refused() -> None:
    with pytest.raises(ReadingsError, match="different grids"):
        persistence([noise(1), noise(2, (6, 4))])


def test_runs_that_share_too_few_places_are_refused() -> None:
    one = np.array([[1.0, 2.0, 3.0, 4.0, np.nan]])
    with pytest.raises(TooFewCansError):
        persistence([one, one[:, ::-1]])


def test_a_dry_run_has_no_relative_map() -> None:
    with pytest.raises(ReadingsError, match="no water"):
        relative_map(np.zeros((2, 2)))
