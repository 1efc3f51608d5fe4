"""Gauges, buckets and meter cards made by hand for the tests of hydraulics."""

from typing import Any

from scheduler.record import BucketFlow, CanTest, MeterCard, PressureReading
from scheduler.site import Package, Zone
from scheduler.units import KPA_PER_PSI, L_PER_US_GALLON
from tests.scheduler.field.made import can_test, run

WHERE = "tests/2026-05-12-Z4/test.toml:20"
# Heads 30 x 30 ft, 4.6 gpm at 45 psi: 96.25 x 4.6 / 900 = 0.492 in/h.
PACKAGE = Package(
    id="yard-30",
    nozzle_flow_l_per_min=4.6 * L_PER_US_GALLON,
    pressure_kpa=45 * KPA_PER_PSI,
    spacing_m=9.144,
)
# 24 heads of 900 ft2
ZONE = Zone(
    id="Z4",
    name="yard",
    area_m2=21600 * 0.09290304,
    grown_in="pots",
    watered="off",
    package="yard-30",
)


def gauge(name: str, psi: float, place: Any = "head", **given: Any) -> PressureReading:
    return PressureReading(WHERE, name, place, psi * KPA_PER_PSI, **given)


def bucket(name: str, gpm: float, seconds: float = 30.0, **given: Any) -> BucketFlow:
    litres = gpm * L_PER_US_GALLON * seconds / 60
    return BucketFlow(WHERE, name, "head", litres, seconds, **given)


def card(start: float, stop: float, unit: str = "gal", **given: Any) -> MeterCard:
    return MeterCard(WHERE, start, stop, unit, **given)


def visit(**given: Any) -> CanTest:
    """The worked first visit: 0.48 in/h caught, 98 % of what the package delivers."""
    return can_test(run(), **given)
