"""Student's factor against scipy and printed tables."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import t

from scheduler.errors import SchedulerError
from scheduler.field.student import student_factor, student_level


@pytest.mark.parametrize(
    ("degrees", "printed"), [(1, 12.706), (2, 4.303), (4, 2.776), (10, 2.228)]
)
def test_the_printed_table_comes_out(degrees: float, printed: float) -> None:
    # two-sided 5 % points, any table of Student's t
    assert student_factor(degrees) == pytest.approx(printed, abs=0.0006)


@given(st.floats(1, 500), st.floats(0.5, 0.99))
def test_it_agrees_with_another_library(degrees: float, level: float) -> None:
    expected = t.ppf((1 + level) / 2, degrees)
    assert student_factor(degrees, level) == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize(("degrees", "level"), [(0.5, 0.95), (4, 1.0), (4, 0.0)])
def test_what_cannot_be_is_refused(degrees: float, level: float) -> None:
    with pytest.raises(SchedulerError):
        student_factor(degrees, level)


@given(st.floats(-8, 8), st.floats(1, 500))
def test_the_level_agrees_with_another_library(ratio: float, degrees: float) -> None:
    expected = t.cdf(abs(ratio), degrees) - t.cdf(-abs(ratio), degrees)
    assert student_level(ratio, degrees) == pytest.approx(expected, abs=1e-7)


@given(st.floats(1, 100), st.floats(0.5, 0.99))
def test_factor_and_level_are_each_other_s_way_back(
    degrees: float, level: float
) -> None:
    factor = student_factor(degrees, level)
    assert student_level(factor, degrees) == pytest.approx(level, abs=1e-7)


def test_less_than_one_degree_has_no_level() -> None:
    with pytest.raises(SchedulerError, match="degrees of freedom"):
        student_level(2.0, 0.5)
