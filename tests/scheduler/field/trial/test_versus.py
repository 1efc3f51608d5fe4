"""Packages against wind: lines, ties, days as what repeats, and honest verdicts."""

import math

import numpy as np
import pytest
from scipy.stats import linregress

from scheduler.errors import SchedulerError
from scheduler.field.trial import Comparison, PackageRuns, comparison
from tests.bench.trial_truth import EQUAL, Held, held
from tests.scheduler.field.trial.made import Made, made_trial


def compared(seed: int, wind: float = 2.0, **made: object) -> Comparison:
    a, b = made_trial(seed, Made(**made))  # type: ignore[arg-type]
    return comparison(a, b, wind_m_per_s=wind)


def test_the_lines_are_those_of_another_library() -> None:
    # scipy.stats.linregress on each package alone
    a, b = made_trial(1, Made())
    found = comparison(a, b, wind_m_per_s=2.0)
    for runs, du in ((a, found.du_a), (b, found.du_b)):
        line = linregress(runs.wind_m_per_s, runs.du_lq)
        assert du == pytest.approx(line.intercept + 2.0 * line.slope)


def test_a_clear_difference_on_many_days_is_proven() -> None:
    assert compared(3, n_days=10).verdict == "better"


def test_turned_around_the_better_one_is_the_worse() -> None:
    a, b = made_trial(3, Made(n_days=10))
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


def test_a_package_of_two_days_proves_nothing_whatever_the_other_has() -> None:
    a, b = made_trial(5, Made(n_days=8, lines=((0.9, -0.03), (0.6, -0.03))))
    few = b.day < 2
    short = PackageRuns("b", b.wind_m_per_s[few], b.du_lq[few], b.day[few])
    found = comparison(a, short, wind_m_per_s=2.0)
    assert (found.verdict, found.is_too_short) == ("not proven", True)
    assert found.why == "b was tested on 2 days; 3 are the least"


def test_a_package_of_one_day_has_no_range() -> None:
    # one day tells nothing of how days differ, however many runs it has
    a, b = made_trial(5, Made(n_days=8))
    first = b.day == 0
    one = PackageRuns("b", b.wind_m_per_s[first], b.du_lq[first], b.day[first])
    found = comparison(a, one, wind_m_per_s=2.0)
    assert (found.low, found.high) == (-math.inf, math.inf)
    assert (found.tie_low_m_per_s, found.tie_high_m_per_s) == (-math.inf, math.inf)


# --- one bad run -------------------------------------------------------------------


def steady(b_du: float, n_days: int = 3) -> tuple[PackageRuns, PackageRuns]:
    """Nearly the same lines every day; a at 0.80, b at `b_du`, in the same winds."""
    rng = np.random.default_rng(2)
    wind, day = np.tile([1.0, 2.0, 3.0], n_days), np.repeat(np.arange(n_days), 3)
    a, b = (
        PackageRuns(name, wind, du + rng.normal(0, 0.002, wind.size), day)
        for name, du in (("a", 0.80), ("b", b_du))
    )
    return a, b


def spoilt(runs: PackageRuns, run: int, by: float) -> PackageRuns:
    du = runs.du_lq.copy()
    du[run] += by
    label = tuple(f"test {i}" for i in range(du.size))
    return PackageRuns(runs.package, runs.wind_m_per_s, du, runs.day, label)


def test_a_verdict_that_hangs_on_one_run_is_not_given_and_the_run_is_named() -> None:
    # without its first run b has one wind less and two days that know the line
    wind, day = np.array([1.0, 3.0, 2.0, 2.0]), np.array([0, 0, 1, 2])
    a = PackageRuns("a", wind, np.array([0.80, 0.801, 0.799, 0.80]), day)
    b = PackageRuns("b", wind, np.array([0.76, 0.762, 0.741, 0.742]), day)
    found = comparison(a, b, wind_m_per_s=2.0)
    assert found.low > 0
    assert found.verdict == "not proven"
    assert found.hangs_on in found.why
    assert found.hangs_on


def test_one_bad_run_makes_no_verdict() -> None:
    a, b = steady(0.80, n_days=4)
    assert comparison(a, spoilt(b, 5, -0.5), wind_m_per_s=2.0).verdict == "not proven"


def test_one_bad_run_that_hides_a_difference_is_named() -> None:
    a, b = steady(0.75)
    assert comparison(a, b, wind_m_per_s=2.0).verdict == "better"
    found = comparison(a, spoilt(b, 4, +0.4), wind_m_per_s=2.0)
    assert found.verdict == "not proven"
    assert found.hangs_on.startswith("test 4 of b")


def test_equal_packages_hang_on_no_run() -> None:
    assert compared(1, lines=EQUAL).hangs_on == ""


# --- days, winds, ties -------------------------------------------------------------


def test_packages_of_different_days_are_said_to_be_confounded() -> None:
    a, b = made_trial(6, Made())
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


# --- a second look ------------------------------------------------------------------


def test_from_eight_days_on_the_days_are_resampled_beside() -> None:
    assert compared(1, n_days=7).bootstrap is None
    found = compared(1, n_days=8)
    assert found.method == "t on days"
    assert found.bootstrap is not None
    assert found.low < found.bootstrap.low < found.bootstrap.high < found.high


# --- truth: small seeded pieces of the campaign `trial_truth` ------------------------


@pytest.fixture(scope="module", params=["equal", "unequal"])
def shares(request: pytest.FixtureRequest) -> Held:
    made = Made(n_days=4, lines=EQUAL, winds=request.param)
    return held(made, trials=120)


def test_the_range_holds_the_truth_as_often_as_it_says(shares: Held) -> None:
    assert shares.difference >= 0.91  # 95 % less two errors of 120 trials


def test_the_range_of_the_tie_holds_the_truth_as_often_as_it_says(shares: Held) -> None:
    assert shares.tie >= 0.91


def test_a_false_better_or_worse_is_rarer_than_one_in_twenty(shares: Held) -> None:
    assert shares.false <= 0.05


def test_a_bad_run_makes_no_false_verdicts() -> None:
    found = held(Made(n_days=6, lines=EQUAL, has_bad_run=True), trials=60)
    assert found.false <= 0.05


@pytest.mark.parametrize("wind", [[2.0], [2.0, 2.0, 2.0]])
def test_no_line_is_drawn_through_one_wind(wind: list[float]) -> None:
    a, _ = made_trial(11, Made())
    flat = PackageRuns(
        "b", np.array(wind), np.full(len(wind), 0.8), np.arange(len(wind))
    )
    with pytest.raises(SchedulerError, match="two different winds"):
        comparison(a, flat, wind_m_per_s=2.0)
