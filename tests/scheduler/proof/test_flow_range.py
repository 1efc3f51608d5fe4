"""Flow of a zone: buckets, counted heads, ground, cans; and how far it may be off."""

import datetime as dt

import pytest

from scheduler.proof.flow_range import flow_range
from scheduler.record import BucketFlow, CanTest
from scheduler.site import Package
from tests.scheduler.proof.made import ROTOR, day, zone

SPACED = Package(id="rotor", nozzle_flow_l_per_min=10.0, spacing_m=9.0)


def of_day(number: int, litres: float | None, condition: str = "as found") -> CanTest:
    flows = () if litres is None else (BucketFlow("t", "head 1", "head", litres, 60.0),)
    return CanTest(
        f"t{number}",
        f"tests/t{number}",
        "Z1",
        day(number),
        condition,
        91.5,
        flows=flows,
    )


def flow(package: Package | None, *tests: CanTest, heads: float | None = 10) -> float:
    found = flow_range(zone(heads=heads), package, tests, day(30))
    assert found is not None
    return found.flow_l_per_min


def test_ten_heads_of_ten_litres_draw_a_hundred() -> None:
    assert flow(ROTOR) == 100.0


def test_worn_nozzles_may_draw_15_percent_more() -> None:
    found = flow_range(zone(), ROTOR, (), day(30))
    assert found is not None
    assert (found.low_l_per_min, round(found.high_l_per_min, 6)) == (90.0, 115.0)


def test_heads_that_nobody_counted_follow_from_the_ground_and_are_less_sure() -> None:
    found = flow_range(zone(heads=None, area_m2=810.0), SPACED, (), day(30))
    assert found is not None
    assert found.flow_l_per_min == pytest.approx(100.0)
    assert found.high_l_per_min == pytest.approx(120.0)


def test_buckets_count_before_the_package() -> None:
    assert flow(SPACED, of_day(1, 12.0)) == pytest.approx(900.0 / 81.0 * 12.0)


def test_buckets_of_a_day_to_come_do_not_count() -> None:
    found = flow_range(zone(), SPACED, (of_day(20, 12.0),), day(10))
    assert found is not None
    assert found.flow_l_per_min == 100.0


def test_buckets_of_another_condition_do_not_count() -> None:
    old, new = of_day(1, 12.0), of_day(20, None, "after tune-up")
    assert flow(SPACED, old, new) == 100.0


def test_without_nozzles_the_rate_on_the_ground_is_the_least_flow() -> None:
    one = zone(package=None, heads=None, assumed_net_rate_mm_per_h=12.0)
    found = flow_range(one, None, (), day(30))
    assert found is not None
    assert found.flow_l_per_min == pytest.approx(180.0)


def test_with_nothing_known_there_is_no_flow() -> None:
    assert flow_range(zone(package=None), None, (), dt.date(2026, 6, 8)) is None
