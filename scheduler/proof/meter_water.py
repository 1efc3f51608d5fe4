"""A meter's interval in; what zones were to give, frost and hand water, out."""

import datetime as dt
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.log import FrostNight, HandWater, MeterReading
from scheduler.proof.dial import DialInterval
from scheduler.proof.flow_range import FlowRange, flow_range
from scheduler.proof.hardware import standing_tests
from scheduler.proof.meter_causes import L_PER_M3
from scheduler.proof.told import told_nights
from scheduler.record import History
from scheduler.site import Site, Zone


@dataclass(frozen=True, slots=True)
class ZoneWater:
    """One zone's part of an interval; None where minutes or flow are not known.

    Attributes
    ----------
    told_m3, ran_m3 : float or None
        Water of the minutes as told, and with what the log says of them. [m3]
    low_m3, high_m3 : float or None
        `ran_m3` at the lowest and highest flow. [m3]
    told_min, ran_min : float or None
        The minutes. [min]
    sources : tuple of str
        What the minutes rest on.
    nights_on : tuple of date
        Nights on which something was to run.
    """

    zone: str
    told_m3: float | None
    ran_m3: float | None
    low_m3: float | None
    high_m3: float | None
    told_min: float | None
    ran_min: float | None
    flow: FlowRange | None
    sources: tuple[str, ...]
    nights_on: tuple[dt.date, ...] = ()


def zones_of(site: Site, reading: MeterReading) -> tuple[Zone, ...]:
    """Zones that run through a meter; all of them where nobody said.

    Parameters
    ----------
    site : Site
        The zones.
    reading : MeterReading
        A reading of the meter.

    Returns
    -------
    tuple of Zone
        In the order of the site.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> one = MeterReading(where="", typed="", date=dt.date(2026, 6, 1), meter="pump",
    ...                    reading=1.0, unit="m3")
    >>> zones_of(Site(name="Tern Hollow", units="us", place=place), one)
    ()
    """
    named = {one.casefold() for one in reading.zones}
    return tuple(z for z in site.zones if not named or z.id.casefold() in named)


def zone_water(
    site: Site, history: History, zone: Zone, dial: DialInterval
) -> ZoneWater:
    """Minutes and water of one zone between two readings.

    Parameters
    ----------
    site : Site
        Package and clock.
    history : History
        Tests, issued weeks and log.
    zone : Zone
        The zone.
    dial : DialInterval
        The readings.

    Returns
    -------
    ZoneWater
        With None where minutes or flow are not known.

    References
    ----------
    Source: definition (minutes x flow).

    Examples
    --------
    >>> from scheduler.proof.dial import dial_intervals
    >>> from scheduler.site import AsFound, Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> bay = Zone(id="Z1", name="bay", area_m2=100.0, grown_in="soil", watered="off",
    ...            as_found=AsFound(minutes=30.0), assumed_net_rate_mm_per_h=10.0)
    >>> site = Site(name="Tern Hollow", units="us", place=place, zones=(bay,))
    >>> days = [dt.date(2026, 6, 1), dt.date(2026, 6, 8)]
    >>> dials, _ = dial_intervals(
    ...     MeterReading(where="", typed="", date=day, meter="pump", reading=i * 3.5,
    ...                  unit="m3") for i, day in enumerate(days)
    ... )
    >>> found = zone_water(site, History(), bay, dials[0])
    >>> found.told_min, round(found.ran_m3, 2)
    (210.0, 3.5)
    """
    found = told_nights(zone, site, history, dial.nights)
    last = dial.stop.date
    tests = standing_tests(zone, history, dial.nights[-1] if dial.nights else last)
    flow = flow_range(zone, site.package_of(zone), tests, last)
    told, ran = (_total(found.told_min), _total(found.ran_min))
    if told is None and ran is not None:
        told = ran  # nobody wrote down what was told: what ran is the plan
    on = tuple(
        night
        for night, minutes in zip(found.nights, found.ran_min, strict=True)
        if minutes > 0
    )

    def water(minutes: float | None, l_per_min: float | None) -> float | None:
        if minutes is None or l_per_min is None:
            return None
        return minutes * l_per_min / L_PER_M3

    mean, low, high = (
        (flow.flow_l_per_min, flow.low_l_per_min, flow.high_l_per_min)
        if flow
        else (None, None, None)
    )
    volumes = (water(told, mean), water(ran, mean), water(ran, low), water(ran, high))
    return ZoneWater(zone.id, *volumes, told, ran, flow, found.sources, on)


def _total(minutes: FloatArray) -> float | None:
    """Sum of what is known; None where nothing is."""
    known = minutes[np.isfinite(minutes)]
    return float(known.sum()) if known.size or not minutes.size else None


# --- frost and hand water ------------------------------------------------------


def frost_m3(site: Site, history: History, dial: DialInterval) -> tuple[float, bool]:
    """Frost water of a meter, and whether all of it was read.

    Parameters
    ----------
    site : Site
        Zones and pump: all heads at once draw no more than the pump gives.
    history : History
        Tests, for flows, and the log.
    dial : DialInterval
        The readings.

    Returns
    -------
    volume : float
        As noted, else minutes times flow. [m3]
    is_read : bool
        False where any of it is minutes times flow.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.proof.dial import dial_intervals
    >>> from scheduler.site import AsFound, Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> bay = Zone(id="Z1", name="bay", area_m2=100.0, grown_in="soil", watered="off",
    ...            as_found=AsFound(minutes=30.0), assumed_net_rate_mm_per_h=10.0)
    >>> site = Site(name="Tern Hollow", units="us", place=place, zones=(bay,))
    >>> days = [dt.date(2026, 6, 1), dt.date(2026, 6, 8)]
    >>> dials, _ = dial_intervals(
    ...     MeterReading(where="", typed="", date=day, meter="pump", reading=i * 3.5,
    ...                  unit="m3") for i, day in enumerate(days)
    ... )
    >>> frost_m3(site, History(), dials[0])
    (0.0, True)
    """
    total, is_read = 0.0, True
    for night in history.log.of(FrostNight):
        if night.date not in dial.nights:
            continue
        flows = _frost_flows(site, history, night)
        ours = {one.id for one in zones_of(site, dial.stop)}
        whole = sum(flows.values())
        part = sum(v for k, v in flows.items() if k in ours) / whole if whole else 1.0
        volume = night.volume_m3
        if volume is None:
            is_read = False
            pump = site.supply.flow_l_per_min if site.supply else None
            flow = min(whole, pump) if pump else whole
            volume = (night.minutes or 0.0) * flow / L_PER_M3
        total += volume * part
    return total, is_read


def _frost_flows(site: Site, history: History, night: FrostNight) -> dict[str, float]:
    named = {one.casefold() for one in night.zones}
    flows = {}
    for zone in site.zones:
        if named and zone.id.casefold() not in named:
            continue
        tests = standing_tests(zone, history, night.date)
        found = flow_range(zone, site.package_of(zone), tests, night.date)
        flows[zone.id] = found.flow_l_per_min if found else 0.0
    return flows


def hand_m3(history: History, dial: DialInterval, zones: set[str]) -> float:
    """Water given by hand in some zones between two readings.

    Parameters
    ----------
    history : History
        With the log.
    dial : DialInterval
        The readings.
    zones : set of str
        Ids of the zones of the meter.

    Returns
    -------
    float
        What was noted as a volume. [m3]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.proof.dial import dial_intervals
    >>> from scheduler.site import AsFound, Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> bay = Zone(id="Z1", name="bay", area_m2=100.0, grown_in="soil", watered="off",
    ...            as_found=AsFound(minutes=30.0), assumed_net_rate_mm_per_h=10.0)
    >>> site = Site(name="Tern Hollow", units="us", place=place, zones=(bay,))
    >>> days = [dt.date(2026, 6, 1), dt.date(2026, 6, 8)]
    >>> dials, _ = dial_intervals(
    ...     MeterReading(where="", typed="", date=day, meter="pump", reading=i * 3.5,
    ...                  unit="m3") for i, day in enumerate(days)
    ... )
    >>> hand_m3(History(), dials[0], {"Z1"})
    0.0
    """
    return sum(
        (
            one.volume_m3 or 0.0
            for one in history.log.of(HandWater)
            if one.zone in zones and dial.holds(one.date, one.time)
        ),
        0.0,
    )
