"""Numbers of a pair of packages and of a spacing, with formula and source."""

import numpy as np
import pytest

from scheduler.field.overlap import Pattern, pattern
from scheduler.field.profile import Profile, radial_profile
from scheduler.field.trial import Comparison, PackageRuns, comparison
from scheduler.field.trial_traces import pair_traces, pattern_traces


def pair() -> Comparison:
    wind, day = np.array([1.0, 2.0, 1.0, 3.0]), np.array([1, 1, 2, 2])
    a = PackageRuns("a", wind, 0.9 - 0.10 * wind, day)
    b = PackageRuns("b", wind, 0.8 - 0.05 * wind, day)
    return comparison(a, b, wind_m_per_s=1.0)


def cone() -> tuple[Pattern, Profile]:
    profile, _ = radial_profile([0.0, 10.0], [10.0, 0.0], minutes=60)
    assert profile is not None
    at = pattern(profile, spacing_m=10.0, row_spacing_m=14.0, layout="rectangular")
    return at, profile


def test_two_straight_lines_differ_as_found_by_hand() -> None:
    # at 1 m/s 0.80 against 0.75; they meet where 0.1 = 0.05 x wind
    found = {one.name: one.value for one in pair_traces(pair())}
    assert found == pytest.approx(
        {"du_difference": 0.05, "du_lq[a]": 0.80, "du_lq[b]": 0.75,
         "tie_wind_m_per_s": 2.0}
    )  # fmt: skip


def test_the_difference_says_its_verdict_and_rests_on_the_wind() -> None:
    apart = pair_traces(pair(), "the log mast")[0]
    assert pair().verdict in apart.note
    assert apart.find("wind_m_per_s") is not None


def test_a_spacing_has_the_numbers_of_its_pattern() -> None:
    at, profile = cone()
    found = {one.name: one.value for one in pattern_traces(at, profile)}
    assert found["du_lq"] == at.du_lq
    assert found["mean_rate_mm_per_h"] == at.mean_rate_mm_per_h
    assert found["scheduling_coefficient"] == at.scheduling_coefficient


def test_a_window_that_stays_dry_has_no_coefficient() -> None:
    _, profile = cone()
    at = pattern(profile, spacing_m=40.0, row_spacing_m=40.0, layout="rectangular")
    assert np.isinf(at.scheduling_coefficient)
    assert pattern_traces(at, profile)[-1].value is None
