"""Packages against wind: lines, ties, days as what repeats, and honest verdicts."""

import math

import numpy as np
import pytest
from scipy.stats import linregress

from scheduler.errors import SchedulerError
from scheduler.field.trial import Comparison, PackageRuns, comparison

WIND = np.array([0.8, 1.6, 2.6, 3.8])


def trial(
    seed: int,
    *,
    n_days: int = 6,
    lines: tuple[tuple[float, float], tuple[float, float]] = (
        (0.84, -0.03),
        (0.78, -0.03),
    ),
    day_sd: float = 0.015,
    run_sd: float = 0.02,
) -> tuple[PackageRuns, PackageRuns]:
    """Both packages on each day in four winds; days shift both alike and each alone."""
    rng = np.random.default_rng(seed)
    runs = []
    shared = rng.normal(0, day_sd, n_days)
    for name, (top, slope) in zip("ab", lines, strict=True):
        wind = np.tile(WIND, n_days) + rng.normal(0, 0.2, WIND.size * n_days)
        day = np.repeat(np.arange(n_days), WIND.size)
        own = rng.normal(0, day_sd / 2, n_days)
        noise = rng.normal(0, run_sd, wind.size)
        du = top + slope * wind + (shared + own)[day] + noise
        runs.append(PackageRuns(name, wind, du, day))
    return runs[0], runs[1]


def compared(seed: int, wind: float = 2.0, **given: object) -> Comparison:
    a, b = trial(seed, **given)  # type: ignore[arg-type]
    return comparison(a, b, wind_m_per_s=wind)


def test_the_lines_are_those_of_another_library() -> None:
    # scipy.stats.linregress on each package alone
    a, b = trial(1)
    found = comparison(a, b, wind_m_per_s=2.0)
    for runs, du in ((a, found.du_a), (b, found.du_b)):
        line = linregress(runs.wind_m_per_s, runs.du_lq)
        assert du == pytest.approx(line.intercept + 2.0 * line.slope)


def test_a_clear_difference_on_many_days_is_proven() -> None:
    assert compared(3, n_days=10).verdict == "better"


def test_turned_around_the_better_one_is_the_worse() -> None:
    a, b = trial(3, n_days=10)
    one = comparison(a, b, wind_m_per_s=2.0)
    two = comparison(b, a, wind_m_per_s=2.0)
    assert two.verdict == "worse"
    assert two.difference == pytest.approx(-one.difference)
    assert two.tie_wind_m_per_s == pytest.approx(one.tie_wind_m_per_s)


@pytest.mark.parametrize("n_days", [1, 2])
def test_fewer_than_three_days_prove_nothing(n_days: int) -> None:
    found = compared(4, n_days=n_days)
    assert found.verdict == "not proven"
    assert f"tested on {n_days} day" in found.why
    assert found.days_needed == 3 - n_days


def test_a_verdict_never_rests_on_one_run() -> None:
    a, b = trial(5, n_days=4, lines=((0.80, -0.03), (0.80, -0.03)), run_sd=0.004)
    du = b.du_lq.copy()
    du[5] -= 0.5
    spoilt = PackageRuns("b", b.wind_m_per_s, du, b.day)
    assert comparison(a, spoilt, wind_m_per_s=2.0).verdict == "not proven"


def test_packages_of_different_days_are_said_to_be_confounded() -> None:
    a, b = trial(6)
    later = PackageRuns("b", b.wind_m_per_s, b.du_lq, b.day + 100)
    assert comparison(a, later, wind_m_per_s=2.0).is_confounded
    assert not comparison(a, b, wind_m_per_s=2.0).is_confounded


def test_a_wind_nobody_tested_in_is_extrapolated() -> None:
    assert compared(7, wind=8.0).is_extrapolated
    assert not compared(7, wind=2.0).is_extrapolated


def test_the_tie_is_where_the_lines_cross() -> None:
    # a falls faster: 0.86 - 0.04 w against 0.78 - 0.02 w meet at 4 m/s
    lines = ((0.86, -0.04), (0.78, -0.02))
    found = compared(8, n_days=12, lines=lines, day_sd=0.002, run_sd=0.004)
    assert found.tie_wind_m_per_s == pytest.approx(4.0, abs=0.5)
    assert found.tie_low_m_per_s < 4.0 < found.tie_high_m_per_s


def test_parallel_lines_tie_nowhere_that_can_be_told() -> None:
    found = compared(9)
    assert (found.tie_low_m_per_s, found.tie_high_m_per_s) == (-math.inf, math.inf)


def test_an_even_trial_says_how_many_more_days_would_settle_it() -> None:
    found = compared(10, n_days=3, lines=((0.80, -0.03), (0.78, -0.03)))
    assert found.verdict == "not proven"
    assert found.days_needed is None or found.days_needed >= 1


def test_the_range_holds_the_truth_as_often_as_it_says() -> None:
    # 200 trials of six days with known lines: 0.06 apart; 95 +- 3 % by binomial noise
    held = 0
    for seed in range(200):
        found = compared(seed)
        held += found.low <= 0.06 <= found.high
    assert held / 200 >= 0.92


def test_a_false_better_or_worse_is_rarer_than_one_in_twenty() -> None:
    same = ((0.80, -0.03), (0.80, -0.03))
    found = [compared(seed, n_days=4, lines=same).verdict for seed in range(200)]
    assert sum(one != "not proven" for one in found) / 200 <= 0.05


@pytest.mark.parametrize("wind", [[2.0], [2.0, 2.0, 2.0]])
def test_no_line_is_drawn_through_one_wind(wind: list[float]) -> None:
    a, _ = trial(11)
    flat = PackageRuns(
        "b", np.array(wind), np.full(len(wind), 0.8), np.arange(len(wind))
    )
    with pytest.raises(SchedulerError, match="two different winds"):
        comparison(a, flat, wind_m_per_s=2.0)
