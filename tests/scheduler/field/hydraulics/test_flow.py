"""Bucket flows against each other, the package and new nozzles."""

from typing import Any

import pytest

from scheduler.field.hydraulics.flow import FlowCheck, flow_check
from scheduler.field.hydraulics.pressure import pressure_check
from scheduler.site import Package
from scheduler.units import KPA_PER_PSI, L_PER_US_GALLON
from tests.scheduler.field.hydraulics.made import PACKAGE, bucket, gauge, visit


def checked(
    *flows: Any, pressures: Any = (), package: Package | None = PACKAGE
) -> FlowCheck:
    test = visit(flows=flows, pressures=pressures)
    pressure = pressure_check(test, package, units="us")
    found = flow_check(test, package, pressure, units="us")
    assert found is not None
    return found


def said(found: FlowCheck, level: str = "warning") -> list[str]:
    return [str(one) for one in found.findings if one.level == level]


def test_a_bucket_of_two_and_a_half_gallons_in_32_s_is_4_7_gpm() -> None:
    found = checked(bucket("head 1", 2.5 / 32 * 60, 32.0))
    assert found.mean_l_per_min == pytest.approx(4.6875 * L_PER_US_GALLON)


def test_the_package_is_carried_to_the_measured_pressure() -> None:
    found = checked(bucket("head 1", 4.2), pressures=(gauge("head 1", 36),))
    assert found.is_package_carried
    assert found.package_flow_l_per_min == pytest.approx(
        4.6 * (36 / 45) ** 0.5 * L_PER_US_GALLON
    )


def test_a_head_is_judged_at_its_own_pressure() -> None:
    flows = (bucket("head 1", 4.6), bucket("head 2", 4.6))
    found = checked(*flows, pressures=(gauge("head 1", 45), gauge("head 2", 36)))
    assert [one.flow_over_new for one in found.heads] == pytest.approx(
        [1.0, (45 / 36) ** 0.5]
    )
    assert found.n_worn == 1


def test_an_entered_new_flow_counts_before_the_package() -> None:
    new = {
        "new_flow_l_per_min": 4.0 * L_PER_US_GALLON,
        "new_pressure_kpa": 45 * KPA_PER_PSI,
        "pressure_kpa": 45 * KPA_PER_PSI,
    }
    (head,) = checked(bucket("head 1", 4.6, **new)).heads
    assert head.flow_over_new == pytest.approx(1.15)
    assert head.new_from == "new flow as entered"


# Vogt, 2010: a bore of 1/4 in at 50 psi gives 12.648 gpm.
def test_a_stamped_bore_gives_the_new_flow() -> None:
    flow = bucket("head 1", 12.648, nozzle_mm=6.35, pressure_kpa=50 * KPA_PER_PSI)
    (head,) = checked(flow, package=None).heads
    assert head.flow_over_new == pytest.approx(1.0, abs=1e-4)
    assert head.new_from == "stamped bore"


# Oregon wear and maintenance study of 12 systems: new nozzles cut the mean rate by
# 13 %, so the old ones gave 1 / 0.87 of new, and barely moved the uniformity.
def test_wear_is_said_as_a_higher_rate_not_a_lower_du() -> None:
    found = checked(bucket("head 1", 4.6 / 0.87))
    assert found.flow_over_new == pytest.approx(1.149, abs=1e-3)
    assert "Wear shows as a higher rate, often not as a lower DU" in said(found)[0]


def test_ten_percent_over_new_is_not_yet_worn() -> None:
    assert checked(bucket("head 1", 4.6 * 1.09)).n_worn == 0


def test_uneven_nozzles_are_not_blamed_on_an_even_pressure() -> None:
    flows = (bucket("head 1", 4.6), bucket("head 2", 4.6), bucket("head 3", 3.4))
    gauges = tuple(gauge(f"head {i}", 45) for i in (1, 2, 3))
    text = said(checked(*flows, pressures=gauges))[0]
    assert "head 3 3.4 gpm" in text
    assert "pressure does not explain it" in text


def test_uneven_pressure_is_blamed_where_it_makes_the_spread() -> None:
    flows = tuple(
        bucket(f"head {psi}", 4.6 * (psi / 45) ** 0.5) for psi in (60, 45, 32)
    )
    gauges = tuple(gauge(f"head {psi}", psi) for psi in (60, 45, 32))
    assert "pressure makes most of it" in said(checked(*flows, pressures=gauges))[0]


def test_too_little_from_the_buckets_asks_for_dirt_size_and_hose() -> None:
    (text,) = said(checked(bucket("head 1", 3.5), bucket("head 2", 3.5)))
    assert "76 % of the package's 4.6 gpm" in text
    assert "a hose that holds water back" in text


def test_a_hose_over_the_nozzle_is_always_noted() -> None:
    assert "a hose over the nozzle" in said(checked(bucket("head 1", 4.6)), "note")[0]


def test_a_bucket_full_in_a_moment_is_noted() -> None:
    notes = said(checked(bucket("head 1", 4.6, 5.0)), "note")
    assert any("half a second on the stopwatch is 10 %" in one for one in notes)


def test_buckets_without_pressure_cannot_tell_wear_from_pressure() -> None:
    notes = said(checked(bucket("head 1", 4.6)), "note")
    assert any("wear and pressure cannot be told apart" in one for one in notes)


def test_no_bucket_is_no_check() -> None:
    assert flow_check(visit(), PACKAGE, None, units="us") is None
