"""Errors from few groups: by hand, against another library, and as laws.

The other library is statsmodels. Its cluster covariance carries a factor for few
groups, G/(G-1) (N-1)/(N-K), unless it is told not to; ours carries none, but undoes the
leverage of each group. Both agree where that is the same thing.
"""

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import given
from hypothesis import strategies as st

from scheduler.arrays import FloatArray, IntArray
from scheduler.field.student import student_factor
from scheduler.field.trial.clustered import ClusteredFit, clustered_fit, group_sums
from scheduler.field.trial.runs import line_design
from scheduler.field.trial.versus import both_lines
from tests.scheduler.field.trial.made import Made, made_trial

AT_TWO = np.array([1.0, 2.0])


def fitted(design: FloatArray, y: FloatArray, group: IntArray) -> ClusteredFit:
    return clustered_fit(*group_sums(design, y, group))


def one_package(
    seed: int = 1, n_days: int = 6
) -> tuple[FloatArray, FloatArray, IntArray]:
    runs, _ = made_trial(seed, Made(n_days=n_days, winds="unequal"))
    return line_design(runs), runs.du_lq, runs.day


# --- by hand ---------------------------------------------------------------------


def test_the_mean_of_equal_days_has_the_error_of_the_day_means() -> None:
    # day means 2, 4, 9: variance 13, over three days; two degrees of freedom
    y, day = np.array([1.0, 3, 3, 5, 8, 10]), np.array([0, 0, 1, 1, 2, 2])
    fit = fitted(np.ones((6, 1)), y, day)
    assert fit.value(np.ones(1)) == pytest.approx(5.0)
    assert fit.variance(np.ones(1)) == pytest.approx(13 / 3)
    assert fit.degrees(np.ones(1)) == pytest.approx(2.0)


def test_days_of_one_plan_are_the_t_on_the_lines_of_the_days() -> None:
    # every day has the same winds, so the fit is the mean of the lines of the days,
    # and its error that of their values at 2 m/s, with one less degree than days
    wind = np.array([1.0, 2.0, 4.0])
    rng = np.random.default_rng(5)
    du = 0.8 - 0.03 * wind + rng.normal(0, 0.03, (5, 3))
    each = np.array([np.polyval(np.polyfit(wind, one, 1), 2.0) for one in du])
    design = np.stack([np.ones(15), np.tile(wind, 5)], axis=1)
    fit = fitted(design, du.ravel(), np.repeat(np.arange(5), 3))
    assert fit.value(AT_TWO) == pytest.approx(each.mean())
    assert fit.variance(AT_TWO) == pytest.approx(each.var(ddof=1) / 5)
    assert fit.degrees(AT_TWO) == pytest.approx(4.0)


def test_two_samples_of_3_and_27_have_two_and_a_half_degrees() -> None:
    # Imbens and Kolesár, 2016, Rev. Econ. Stat. 98, sections 2 and 3: N1 = 3, N0 = 27
    # have 2.5 degrees; (N0+N1)^2 (N0-1)(N1-1) / (N1^2 (N1-1) + N0^2 (N0-1)) by hand
    is_one = np.repeat([0.0, 1.0], [27, 3])
    design = np.stack([np.ones(30), is_one], axis=1)
    fit = fitted(design, np.arange(30.0), np.arange(30))
    by_hand = 30**2 * 26 * 2 / (9 * 2 + 729 * 26)
    assert by_hand == pytest.approx(2.5, abs=0.05)
    assert fit.degrees(np.array([0.0, 1.0])) == pytest.approx(by_hand)


def test_two_samples_are_those_of_welch() -> None:
    # Welch, 1947: the variance of a difference is s1^2/n1 + s2^2/n2
    y = np.array([1.0, 3, 5, 2, 2, 3, 9])
    is_one = np.array([0.0, 0, 0, 1, 1, 1, 1])
    fit = fitted(np.stack([1 - is_one, is_one], axis=1), y, np.arange(7))
    expected = y[:3].var(ddof=1) / 3 + y[3:].var(ddof=1) / 4
    assert fit.variance(np.array([1.0, -1.0])) == pytest.approx(expected)


# --- against another library -------------------------------------------------------


def test_the_line_is_that_of_ordinary_least_squares() -> None:
    design, y, day = one_package()
    expected = sm.OLS(y, design).fit().params
    assert fitted(design, y, day).coefficients.tolist() == pytest.approx(list(expected))


@pytest.mark.parametrize("contrast", [[1.0, 0.0], [0.0, 1.0], [1.0, 2.0]])
def test_with_one_run_a_day_the_error_is_hc2(contrast: list[float]) -> None:
    design, y, _ = one_package(2)
    expected = sm.OLS(y, design).fit(cov_type="HC2").cov_params()
    c = np.array(contrast)
    found = fitted(design, y, np.arange(y.size)).variance(c)
    assert found == pytest.approx(c @ expected @ c)


def test_days_of_one_plan_have_the_cluster_error_times_g_over_g_less_one() -> None:
    wind = np.tile([0.8, 1.6, 3.8], 6)
    day = np.repeat(np.arange(6), 3)
    rng = np.random.default_rng(3)
    y = 0.8 - 0.03 * wind + rng.normal(0, 0.02, 6)[day] + rng.normal(0, 0.02, 18)
    design = np.stack([np.ones(18), wind], axis=1)
    bare = {"groups": day, "use_correction": False}
    expected = sm.OLS(y, design).fit(cov_type="cluster", cov_kwds=bare).cov_params()
    found = fitted(design, y, day).variance(AT_TWO)
    assert found == pytest.approx(6 / 5 * AT_TWO @ expected @ AT_TWO)


def test_with_many_uneven_days_the_corrected_cluster_error_is_near() -> None:
    # the factor for few groups and the adjustment differ by what one day weighs
    design, y, day = one_package(4, n_days=80)
    kwds = {"groups": day, "use_correction": True}
    expected = sm.OLS(y, design).fit(cov_type="cluster", cov_kwds=kwds).cov_params()
    found = fitted(design, y, day).variance(AT_TWO)
    assert found == pytest.approx(AT_TWO @ expected @ AT_TWO, rel=0.05)


def test_ranges_of_ordinary_samples_are_those_of_the_library() -> None:
    # equal groups of one column: the classical t
    y = np.array([0.71, 0.74, 0.69, 0.78, 0.73])
    low, high = sm.OLS(y, np.ones((5, 1))).fit().conf_int(0.05)[0]
    fit = fitted(np.ones((5, 1)), y, np.arange(5))
    half = student_factor(float(fit.degrees(np.ones(1)))) * np.sqrt(
        fit.variance(np.ones(1))
    )
    assert (y.mean() - half, y.mean() + half) == pytest.approx((low, high))


# --- laws --------------------------------------------------------------------------


@given(st.integers(0, 50), st.integers(3, 9))
def test_degrees_lie_between_one_and_one_less_than_days(seed: int, n_days: int) -> None:
    design, y, day = one_package(seed, n_days)
    fit = fitted(design, y, day)
    assert 1.0 <= fit.degrees(AT_TWO) <= n_days - 1 + 1e-9


def test_names_and_order_of_the_days_do_not_matter() -> None:
    design, y, day = one_package()
    turned = fitted(design[::-1], y[::-1], -7 * day[::-1])
    straight = fitted(design, y, day)
    assert turned.variance(AT_TWO) == pytest.approx(straight.variance(AT_TWO))
    assert turned.degrees(AT_TWO) == pytest.approx(straight.degrees(AT_TWO))


def test_fits_in_one_go_are_those_one_by_one() -> None:
    sums = [group_sums(*one_package(seed)) for seed in (1, 2)]
    both = clustered_fit(*(np.stack(one) for one in zip(*sums, strict=True)))
    alone = [float(clustered_fit(*one).degrees(AT_TWO)) for one in sums]
    assert both.degrees(AT_TWO).tolist() == pytest.approx(alone)


def test_a_day_that_moves_both_packages_alike_moves_no_difference() -> None:
    calm = Made(n_days=5, day_sd=0.0, own_sd=0.0)
    a, b = made_trial(6, calm)
    shift = np.random.default_rng(1).normal(0, 0.1, 5)
    # same winds for both, so that the shift is the same to both lines
    b = type(b)("b", a.wind_m_per_s, b.du_lq, b.day)
    moved = [type(a)(r.package, r.wind_m_per_s, r.du_lq + shift[r.day], r.day)
             for r in (a, b)]  # fmt: skip
    contrast = np.array([1.0, 2.0, -1.0, -2.0])
    before, after = both_lines(a, b), both_lines(*moved)
    assert after.value(contrast) == pytest.approx(before.value(contrast))
    assert after.variance(contrast) == pytest.approx(before.variance(contrast))
