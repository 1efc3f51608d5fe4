"""A zone, its package and tests in; its flow with a range out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.field.before_after import same_condition
from scheduler.field.evidence import is_of_other_package, zone_catch
from scheduler.field.hydraulics import best_gross_rate
from scheduler.record import CanTest
from scheduler.site import Package, Zone
from scheduler.trace import Trace, entered
from scheduler.watering.zone_flow import MIN_PER_H, zone_flow

# Common practice, no source: heads of a zone agree within 10 %; worn nozzles give 5 to
# 15 % more than new ones; edges make a count from the area wrong by up to a fifth.
BUCKETS = (0.90, 1.10)
COUNTED = (0.90, 1.15)
BY_AREA = (0.85, 1.20)
# Net is 70 to 100 % of gross (common practice, no source).
BY_CANS = (1.00, 1.0 / 0.70)
ASSUMED = (0.70, 1.60)


@dataclass(frozen=True, slots=True)
class FlowRange:
    """Flow of a zone with the lowest and highest that is likely. [L/min].

    `is_of_buckets` says whether it was measured at the heads, in a test.
    """

    flow_l_per_min: float
    low_l_per_min: float
    high_l_per_min: float
    trace: Trace
    is_of_buckets: bool = False


def flow_range(
    zone: Zone, package: Package | None, tests: Sequence[CanTest], on: dt.date
) -> FlowRange | None:
    """Flow of a zone and how far it may be off.

    Parameters
    ----------
    zone : Zone
        For its area and heads.
    package : Package or None
        For the flow of a nozzle and the ground of a head.
    tests : sequence of CanTest
        Tests of the zone; of buckets the newest up to `on` count, if no other condition
        was tested since, else what cans caught where no nozzle is known.
    on : date
        The day it is asked for.

    Returns
    -------
    FlowRange or None
        None where neither nozzles nor cans tell anything.

    References
    ----------
    Source: common practice, no source, for the ranges; flows by definition.

    Examples
    --------
    >>> yard = Zone(id="Z4", name="yard", area_m2=900.0, grown_in="pots",
    ...             watered="off", heads=10)
    >>> rotor = Package(id="rotor", nozzle_flow_l_per_min=17.0)
    >>> found = flow_range(yard, rotor, (), dt.date(2026, 6, 8))
    >>> found.flow_l_per_min, round(found.high_l_per_min, 1)
    (170.0, 195.5)
    """
    own = [
        one for one in tests if one.date <= on and not is_of_other_package(one, zone)
    ]
    newest = sorted(own, key=lambda one: one.date, reverse=True)
    for test in newest:
        # buckets of another condition measured other nozzles
        if test.flows and same_condition(test.condition, newest[0].condition):
            gross = best_gross_rate(test, None, package, zone)
            if gross.bucket_mm_per_h is not None:
                return _from_buckets(zone, test, gross.bucket_mm_per_h)
    found = zone_flow(zone, package, None)
    if found is not None:
        return _ranged(found, COUNTED if zone.heads is not None else BY_AREA)
    caught = zone_catch(zone, package, own, on)[0]
    if caught is None:
        return None
    found = zone_flow(zone, package, caught.net_rate_mm_per_h)
    spread = ASSUMED if caught.basis == "assumed" else BY_CANS
    return None if found is None else _ranged(found, spread)


def _from_buckets(zone: Zone, test: CanTest, gross_mm_per_h: float) -> FlowRange:
    trace = Trace(
        "flow_l_per_min",
        zone.area_m2 * gross_mm_per_h / MIN_PER_H,
        "area_m2 x gross_rate_mm_per_h of the buckets / 60",
        "measured",
        (
            entered("area_m2", zone.area_m2, "zones.toml"),
            entered("gross_rate_mm_per_h", gross_mm_per_h, test.where),
        ),
    )
    return _ranged(trace, BUCKETS)


def _ranged(trace: Trace, spread: tuple[float, float]) -> FlowRange:
    assert isinstance(trace.value, float), "a flow is a number"
    low, high = (trace.value * one for one in spread)
    return FlowRange(trace.value, low, high, trace, spread is BUCKETS)
