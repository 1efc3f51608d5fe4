"""Runs of a package: winds that were tested, names, and what gives no line."""

import numpy as np
import pytest

from scheduler.errors import SchedulerError
from scheduler.field.trial.runs import PackageRuns, line_design, refuse_no_line

RUNS = PackageRuns(
    "a", np.array([1.0, 2.0, 3.0]), np.array([0.8, 0.7, 0.6]), np.array([4, 4, 5]),
    ("12 May run1", "12 May run2", "13 May run1"),
)  # fmt: skip


def test_days_are_counted_once() -> None:
    assert RUNS.n_days == 2


def test_a_run_is_named_with_what_it_read() -> None:
    assert RUNS.name_of(1) == "12 May run2 of a (DU 0.70)"


def test_without_a_run_the_others_keep_their_names() -> None:
    less = RUNS.without(1)
    assert less.label == ("12 May run1", "13 May run1")
    assert less.wind_m_per_s.tolist() == [1.0, 3.0]


@pytest.mark.parametrize(("wind", "outside"), [(0.9, True), (1.0, False), (3.1, True)])
def test_outside_is_beyond_the_winds_that_were_tested(
    wind: float, outside: bool
) -> None:
    assert RUNS.is_outside(wind) is outside


def test_winds_that_no_logger_tells_apart_are_one_wind() -> None:
    runs = PackageRuns("a", np.array([2.0, 2.005]), np.ones(2), np.arange(2))
    with pytest.raises(SchedulerError, match="2 runs give no line"):
        refuse_no_line(runs)


def test_a_line_hangs_on_one_and_the_wind() -> None:
    assert line_design(RUNS).tolist() == [[1.0, 1.0], [1.0, 2.0], [1.0, 3.0]]
