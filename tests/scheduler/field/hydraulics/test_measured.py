"""Which pressures the nozzles had."""

from dataclasses import replace

import pytest

from scheduler.field.hydraulics.measured import (
    effective_kpa,
    head_readings,
    measured_pressure_kpa,
    noted_kpa,
)
from scheduler.site import Package
from scheduler.units import KPA_PER_PSI
from tests.scheduler.field.hydraulics.made import PACKAGE, bucket, gauge, visit
from tests.scheduler.field.made import can_test, run

REGULATED = Package(id="p", regulator_kpa=45 * KPA_PER_PSI)


def test_static_and_line_readings_are_no_heads() -> None:
    test = visit(
        pressures=(
            gauge("head 1", 45),
            gauge("valve", 60, "valve"),
            gauge("head 2", 62, is_static=True),
        )
    )
    assert [one.name for one in head_readings(test)] == ["head 1"]


def test_a_pressure_at_a_bucket_counts_where_no_gauge_names_the_head() -> None:
    test = visit(
        pressures=(gauge("head 1", 45),),
        flows=(
            bucket("head 1", 4.6, pressure_kpa=280.0),
            bucket("head 2", 4.6, pressure_kpa=290.0),
        ),
    )
    found = [one.pressure_kpa for one in head_readings(test)]
    assert found == pytest.approx([45 * KPA_PER_PSI, 290.0])


def test_readings_of_another_run_are_left_out() -> None:
    test = visit(pressures=(gauge("head 1", 45, run="run2"), gauge("head 2", 40)))
    assert [one.name for one in head_readings(test, "run1")] == ["head 2"]


def test_the_effective_pressure_gives_the_mean_flow() -> None:
    # roots 10 and 20: mean 15
    assert effective_kpa([100.0, 400.0]) == pytest.approx(225.0)


def test_heads_count_before_the_pressure_noted_for_the_run() -> None:
    noted = replace(run(), pressure_kpa=200.0)
    test = can_test(noted, pressures=(gauge("head 1", 45),))
    found, how = measured_pressure_kpa(test, "run1", PACKAGE)
    assert found == pytest.approx(45 * KPA_PER_PSI)
    assert how == "read at 1 head"


def test_a_noted_pressure_is_held_down_by_the_regulator() -> None:
    test = can_test(replace(run(), pressure_kpa=60 * KPA_PER_PSI))
    assert noted_kpa(test, None, REGULATED) == pytest.approx([45 * KPA_PER_PSI])
    assert noted_kpa(test, None, None) == pytest.approx([60 * KPA_PER_PSI])
