"""Days resampled with all their runs: against a loop, and what is dropped."""

import numpy as np
import pytest

from scheduler.errors import SchedulerError
from scheduler.field.trial.resampled import RESAMPLES, day_bootstrap
from scheduler.field.trial.runs import PackageRuns
from tests.scheduler.field.trial.made import Made, made_trial


def test_it_agrees_with_a_loop_of_fits() -> None:
    # numpy.polyfit on the runs of drawn days, other draws: equal but for luck
    pair = made_trial(1, Made(n_days=9))
    rng = np.random.default_rng(0)
    found = []
    for _ in range(1500):
        days = rng.integers(9, size=9)
        du = []
        for runs in pair:
            rows = np.concatenate([np.flatnonzero(runs.day == day) for day in days])
            line = np.polyfit(runs.wind_m_per_s[rows], runs.du_lq[rows], 1)
            du.append(np.polyval(line, 2.0))
        found.append(du[0] - du[1])
    low, high = np.quantile(found, [0.025, 0.975])
    ours = day_bootstrap(*pair, wind_m_per_s=2.0)
    assert (ours.low, ours.high) == pytest.approx((low, high), abs=0.002)


def test_the_same_call_gives_the_same_range() -> None:
    pair = made_trial(2, Made(n_days=8))
    one, two = (day_bootstrap(*pair, wind_m_per_s=2.0) for _ in range(2))
    assert one == two


def test_resamples_without_a_line_are_dropped_and_counted() -> None:
    # b has two winds on one day of eight; (7/8)^8 of the resamples hold none of it
    a, _ = made_trial(3, Made(n_days=8))
    b = PackageRuns("b", np.array([1.0, 3.0]), np.array([0.8, 0.7]), np.array([0, 0]))
    found = day_bootstrap(a, b, wind_m_per_s=2.0)
    assert found.n_used + found.n_dropped == RESAMPLES
    assert found.n_dropped / RESAMPLES == pytest.approx((7 / 8) ** 8, abs=0.02)


def test_a_resample_of_one_wind_has_no_line() -> None:
    # b has one wind a day, on two days: a line needs both in the resample
    a, _ = made_trial(3, Made(n_days=8))
    b = PackageRuns("b", np.array([1.0, 3.0]), np.array([0.8, 0.7]), np.array([0, 1]))
    found = day_bootstrap(a, b, wind_m_per_s=2.0)
    has_both = 1 - 2 * (7 / 8) ** 8 + (6 / 8) ** 8
    assert found.n_used / RESAMPLES == pytest.approx(has_both, abs=0.02)


def test_fewer_than_eight_days_are_not_resampled() -> None:
    with pytest.raises(SchedulerError, match="7 days are too few"):
        day_bootstrap(*made_trial(4, Made(n_days=7)), wind_m_per_s=2.0)


def test_without_any_line_it_is_refused() -> None:
    a, _ = made_trial(5, Made(n_days=8))
    b = PackageRuns("b", np.ones(8), np.full(8, 0.8), np.arange(8))
    with pytest.raises(SchedulerError, match="no resample"):
        day_bootstrap(a, b, wind_m_per_s=2.0)
