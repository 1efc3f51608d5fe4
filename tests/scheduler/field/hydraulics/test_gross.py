"""The best known gross rate, and what its trace says."""

from dataclasses import replace

import pytest

from scheduler.field.hydraulics.gross import (
    area_per_head_m2,
    best_gross_rate,
    of_run,
)
from scheduler.site import Package
from scheduler.trace import Trace, entered
from scheduler.units import KPA_PER_PSI
from tests.scheduler.field.hydraulics.made import PACKAGE, ZONE, bucket, gauge, visit
from tests.scheduler.field.made import GROSS_MM_PER_H, can_test, run


def test_without_readings_it_is_the_package_at_nominal() -> None:
    found = best_gross_rate(visit(), None, PACKAGE)
    assert found.basis == "nominal"
    assert found.rate_mm_per_h == pytest.approx(GROSS_MM_PER_H, rel=1e-4)


def test_a_measured_pressure_carries_it_and_is_flagged() -> None:
    found = best_gross_rate(visit(pressures=(gauge("head 1", 38),)), None, PACKAGE)
    assert found.rate_mm_per_h == pytest.approx(
        GROSS_MM_PER_H * (38 / 45) ** 0.5, rel=1e-4
    )
    assert found.is_estimated
    assert found.trace is not None
    assert found.trace.note.startswith("estimated")


def test_buckets_count_before_a_carried_package() -> None:
    test = visit(
        pressures=(gauge("head 1", 38),),
        flows=(bucket("head 1", 5.0), bucket("head 2", 5.2)),
    )
    found = best_gross_rate(test, None, PACKAGE)
    assert (found.basis, found.is_estimated) == ("buckets", False)
    # 96.25 x 5.1 / 900 in/h
    assert found.rate_mm_per_h == pytest.approx(96.25 * 5.1 / 900 * 25.4, rel=1e-4)
    assert found.trace is not None
    assert found.trace.note == (
        "best known: buckets, before the package carried to the measured pressure"
    )


def test_the_chain_reaches_down_to_each_bucket() -> None:
    found = best_gross_rate(visit(flows=(bucket("head 7", 5.0),)), None, PACKAGE)
    assert found.trace is not None
    leaf = found.trace.find("bucket 1 flow_l_per_min")
    assert leaf is not None
    assert leaf.note == "head 7, 30 s"


def test_buckets_of_another_run_do_not_count() -> None:
    test = visit(flows=(bucket("head 1", 5.0, run="run2"),))
    assert best_gross_rate(test, run(), PACKAGE).basis == "nominal"
    assert best_gross_rate(test, None, PACKAGE).basis == "buckets"


def test_each_run_is_carried_to_its_own_pressure() -> None:
    low = replace(run(), pressure_kpa=36 * KPA_PER_PSI)
    found = best_gross_rate(can_test(low), low, PACKAGE)
    assert found.rate_mm_per_h == pytest.approx(
        GROSS_MM_PER_H * (36 / 45) ** 0.5, rel=1e-4
    )


def test_heads_and_area_stand_in_for_a_spacing() -> None:
    zone = ZONE.model_copy(update={"heads": 24.0})
    bare = Package(id="p", nozzle_flow_l_per_min=PACKAGE.nozzle_flow_l_per_min)
    assert area_per_head_m2(bare, zone) == pytest.approx(900 * 0.09290304)
    found = best_gross_rate(visit(), None, bare, zone)
    assert found.rate_mm_per_h == pytest.approx(GROSS_MM_PER_H, rel=1e-4)


def test_nothing_known_is_said_as_unknown() -> None:
    found = best_gross_rate(visit(flows=(bucket("head 1", 5.0),)), None, None)
    assert (found.basis, found.rate_mm_per_h, found.trace) == ("unknown", None, None)


def test_a_chain_of_a_run_carries_the_run_in_every_name() -> None:
    one = of_run(Trace("a", 1.0, "", "", (entered("b", 2.0),)), "run 2 ")
    assert [each.name for each in one.chain()] == ["run 2 b", "run 2 a"]
