"""The line of one package: where it runs, how wide its band is, when it has none."""

from typing import Any

import numpy as np
import pytest

from scheduler.errors import SchedulerError
from scheduler.field.trial import PackageRuns, comparison
from scheduler.field.wind_line import wind_line

WIND = np.tile([1.0, 2.0, 3.0], 4)
DAY = np.repeat(np.arange(4), 3)


def noisy(seed: int = 1, day: Any = DAY) -> PackageRuns:
    du = 0.85 - 0.03 * WIND + np.random.default_rng(seed).normal(0, 0.02, WIND.size)
    return PackageRuns("a", WIND, du, day)


def test_runs_on_a_line_give_that_line() -> None:
    line = wind_line(PackageRuns("a", WIND, 0.85 - 0.03 * WIND, DAY))
    assert line.at(0.0) == pytest.approx(0.85)
    assert line.du_lq[-1] == pytest.approx(0.76)


def test_runs_on_a_line_have_no_band_to_speak_of() -> None:
    line = wind_line(PackageRuns("a", WIND, 0.85 - 0.03 * WIND, DAY))
    assert line.low is not None
    assert line.low == pytest.approx(line.du_lq, abs=1e-9)


def test_the_line_is_that_of_an_independent_fit() -> None:
    runs = noisy()
    slope, intercept = np.polyfit(runs.wind_m_per_s, runs.du_lq, 1)
    line = wind_line(runs)
    assert (line.intercept, line.slope_per_m_per_s) == pytest.approx((intercept, slope))


def test_the_line_is_the_one_that_pairs_are_compared_on() -> None:
    a, b = noisy(1), noisy(2)
    found = comparison(a, b, wind_m_per_s=2.5)
    assert wind_line(a).at(2.5) == pytest.approx(found.du_a)


def test_one_run_a_day_has_the_band_of_a_textbook() -> None:
    # a balanced design of one run a day: at the mean wind of two winds with equal
    # counts the adjusted variance is the sum of both groups' s2/n, as for two means
    wind = np.tile([1.0, 3.0], 4)
    du = np.array([0.80, 0.70, 0.82, 0.74, 0.78, 0.72, 0.80, 0.68])
    line = wind_line(PackageRuns("a", wind, du, np.arange(8)))
    spread = sum(du[i::2].var(ddof=1) / 4 for i in (0, 1)) / 4
    middle = line.wind_m_per_s.size // 2
    assert line.low is not None
    assert line.high is not None
    half = (line.high[middle] - line.low[middle]) / 2
    # Student's 97.5 % point at 6 degrees, from a printed table: 2.447
    assert half == pytest.approx(2.447 * spread**0.5, rel=1e-3)


def test_two_days_give_no_band() -> None:
    assert wind_line(noisy(day=np.repeat([0, 1], 6))).low is None


def test_the_band_stays_within_what_a_uniformity_can_be() -> None:
    du = np.array([0.95, 0.2, 0.9] * 4)
    line = wind_line(PackageRuns("a", WIND, du, DAY), with_m_per_s=9.0)
    assert line.low is not None
    assert line.high is not None
    assert line.low.min() >= 0
    assert line.high.max() <= 1


def test_the_line_is_drawn_on_to_the_wind_asked_for_and_says_so() -> None:
    line = wind_line(noisy(), with_m_per_s=5.0)
    assert line.wind_m_per_s[-1] == 5.0
    assert line.is_outside(5.0)
    assert not line.is_outside(2.0)


def test_one_wind_gives_no_line() -> None:
    one = PackageRuns("a", np.full(4, 2.0), np.full(4, 0.7), np.arange(4))
    with pytest.raises(SchedulerError, match="no line"):
        wind_line(one)
