"""Pressures against each other, the nominal, the regulator and height."""

from dataclasses import replace
from typing import Any

import pytest

from scheduler.field.hydraulics.pressure import (
    PressureCheck,
    nozzle_range_kpa,
    pressure_check,
)
from scheduler.site import Package
from scheduler.units import KPA_PER_PSI
from tests.scheduler.field.hydraulics.made import PACKAGE, gauge, visit
from tests.scheduler.field.made import can_test, run


def checked(*readings: Any, package: Package | None = PACKAGE) -> PressureCheck:
    found = pressure_check(visit(pressures=readings), package, units="us")
    assert found is not None
    return found


def said(found: PressureCheck) -> list[str]:
    return [str(one) for one in found.findings]


def test_spread_is_highest_less_lowest_over_mean_and_nominal() -> None:
    found = checked(gauge("head 1", 50), gauge("head 2", 40))
    assert found.spread_over_mean == pytest.approx(10 / 45)
    assert found.spread_over_nominal == pytest.approx(10 / 45)
    assert (found.lowest, found.highest) == ("head 2", "head 1")


def test_flow_spreads_by_the_square_root() -> None:
    found = checked(gauge("head 1", 49), gauge("head 2", 36))
    assert found.flow_spread == pytest.approx((7 - 6) / 6.5)


def test_a_spread_within_a_fifth_is_not_said() -> None:
    assert checked(gauge("head 1", 49), gauge("head 2", 41)).findings == ()


def test_a_spread_above_a_fifth_names_both_heads() -> None:
    (text,) = said(checked(gauge("head 1", 51), gauge("head 24", 39)))
    assert "from 39 psi (head 24) to 51 psi (head 1), 27 % of the mean" in text
    assert "the flows then differ by 13 %" in text


def test_height_explains_its_part() -> None:
    found = checked(
        gauge("head 1", 51, rise_m=0.0), gauge("head 24", 39, rise_m=23.1 * 0.3048)
    )
    # 23.1 ft of rise is 10 psi
    assert found.rise_kpa == pytest.approx(10 * KPA_PER_PSI, rel=0.002)
    (text,) = said(found)
    assert "explains 10 psi of the 12 psi; most of it is height" in text


def test_what_height_does_not_explain_is_friction() -> None:
    found = checked(gauge("head 1", 51, rise_m=0.0), gauge("head 24", 39, rise_m=1.0))
    assert "most of it is friction" in said(found)[0]


@pytest.mark.parametrize(
    ("psi", "words"), [(30, "weak: large drops"), (60, "mists: fine drops")]
)
def test_a_mean_far_off_the_nominal_tells_what_is_seen(psi: float, words: str) -> None:
    (text,) = said(checked(gauge("head 1", psi), gauge("head 2", psi)))
    assert words in text
    assert "36 to 54 psi (20 % around its nominal pressure)" in text


def test_a_stated_range_counts_before_the_rule() -> None:
    package = Package(id="p", pressure_kpa=300.0, highest_pressure_kpa=310.0)
    low, high, is_stated = nozzle_range_kpa(package)
    assert low == pytest.approx(240.0)
    assert (high, is_stated) == (310.0, True)


def test_a_range_without_a_nominal_is_open_at_its_other_end() -> None:
    low, high, _ = nozzle_range_kpa(Package(id="p", lowest_pressure_kpa=200.0))
    assert (low, high) == (200.0, float("inf"))


def test_too_little_before_a_regulator_is_said() -> None:
    package = PACKAGE.model_copy(update={"regulator_kpa": 45 * KPA_PER_PSI})
    inlet = gauge("regulator inlet", 47, "regulator inlet")
    found = checked(gauge("head 1", 45), gauge("head 2", 45), inlet, package=package)
    (text,) = said(found)
    assert "47 psi before a regulator of 45 psi: it needs about 50 psi" in text


@pytest.mark.parametrize(
    ("psi", "words"), [(40, "too little reaches it"), (52, "it does not hold")]
)
def test_a_regulator_that_does_not_hold_is_said(psi: float, words: str) -> None:
    package = PACKAGE.model_copy(update={"regulator_kpa": 45 * KPA_PER_PSI})
    found = checked(gauge("head 1", psi), gauge("head 2", psi), package=package)
    assert words in said(found)[0]


def test_one_head_says_nothing_of_the_spread() -> None:
    found = checked(gauge("head 1", 45))
    assert found.spread_over_mean is None
    assert "the spread over the zone is not known" in said(found)[0]


def test_static_pressure_is_kept_apart() -> None:
    found = checked(gauge("head 1", 45), gauge("valve", 64, "valve", is_static=True))
    assert found.n_heads == 1
    assert found.static_kpa == pytest.approx(64 * KPA_PER_PSI)


def test_without_heads_the_run_tells() -> None:
    test = can_test(replace(run(), pressure_kpa=300.0))
    found = pressure_check(test, PACKAGE, units="us")
    assert found is not None
    assert (found.n_heads, found.mean_kpa) == (0, 300.0)


def test_a_run_that_notes_another_pressure_is_told_which_counts() -> None:
    test = can_test(
        replace(run(), pressure_kpa=30 * KPA_PER_PSI),
        pressures=(gauge("head 1", 45), gauge("head 2", 45)),
    )
    found = pressure_check(test, PACKAGE, units="us")
    assert found is not None
    assert (
        "a run notes 30 psi, and the heads have 45 psi: the heads count"
        in (said(found)[0])
    )


def test_nothing_entered_is_no_check() -> None:
    assert pressure_check(visit(), PACKAGE, units="us") is None


def test_an_open_range_is_said_in_words() -> None:
    package = Package(id="p", lowest_pressure_kpa=30 * KPA_PER_PSI)
    (text,) = said(checked(gauge("head 1", 20), gauge("head 2", 20), package=package))
    assert "is 20 psi, below 30 psi and more (its stated range). Too little" in text
