"""The DU to be expected of one package in a wind."""

import numpy as np
import pytest
import statsmodels.api as sm

from scheduler.errors import SchedulerError
from scheduler.field.trial import PackageRuns, expected_du
from tests.scheduler.field.trial.made import Made, made_trial


def test_it_is_the_line_of_another_library_with_its_range() -> None:
    # one run a day: statsmodels OLS with HC2 gives line and error; the degrees of
    # freedom are those of `clustered_fit`, so the range is only compared in its middle
    runs, _ = made_trial(1, Made(n_days=6))
    runs = PackageRuns("a", runs.wind_m_per_s, runs.du_lq, np.arange(runs.du_lq.size))
    line = sm.OLS(runs.du_lq, sm.add_constant(runs.wind_m_per_s)).fit(cov_type="HC2")
    found = expected_du(runs, wind_m_per_s=2.0)
    assert found.du_lq == pytest.approx(line.params @ [1.0, 2.0])
    assert found.low is not None
    assert found.high is not None
    assert (found.low + found.high) / 2 == pytest.approx(found.du_lq)
    error = np.sqrt([1.0, 2.0] @ line.cov_params() @ [1.0, 2.0])
    assert 1.96 * error < (found.high - found.low) / 2 < 2.3 * error


@pytest.mark.parametrize("days", [[0, 0, 0], [0, 0, 1]])
def test_on_fewer_than_three_days_there_is_no_range(days: list[int]) -> None:
    wind = np.array([1.0, 2.0, 3.0])
    runs = PackageRuns("a", wind, 0.9 - 0.1 * wind, np.array(days))
    found = expected_du(runs, wind_m_per_s=1.5)
    assert found.du_lq == pytest.approx(0.75)
    assert (found.low, found.high) == (None, None)


def test_beyond_the_tested_wind_it_is_extrapolated_and_cut() -> None:
    wind, day = np.array([1.0, 2.0, 1.0, 2.0]), np.array([1, 1, 2, 2])
    runs = PackageRuns("a", wind, 1.1 - 0.3 * wind, day)
    found = expected_du(runs, wind_m_per_s=5.0)
    assert (found.du_lq, found.is_extrapolated, found.is_cut) == (0.0, True, True)


def test_its_range_holds_the_truth_as_often_as_it_says() -> None:
    # 0.84 - 0.03 x 2 m/s; 95 % less two errors of 200 trials
    made = Made(n_days=5)
    ranges = [
        expected_du(made_trial(seed, made)[0], wind_m_per_s=2.0) for seed in range(200)
    ]
    inside = [one.low is not None and one.high is not None
              and one.low <= 0.78 <= one.high for one in ranges]  # fmt: skip
    assert np.mean(inside) >= 0.92


def test_one_wind_gives_none() -> None:
    runs = PackageRuns("a", np.ones(2), np.array([0.8, 0.7]), np.arange(2))
    with pytest.raises(SchedulerError, match="two different winds"):
        expected_du(runs, wind_m_per_s=1.0)
