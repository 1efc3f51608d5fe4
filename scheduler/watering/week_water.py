"""Zones' minutes and what the clock held before in; water of both weeks out."""

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.record import IssuedWeek
from scheduler.site import Site
from scheduler.trace import Trace
from scheduler.watering.clock import as_found_min, newest_issued
from scheduler.watering.night_plan.result import WateredZone
from scheduler.watering.zone_flow import zone_flow

L_PER_M3 = 1000.0


@dataclass(frozen=True, slots=True)
class ZoneWater:
    """Water of one zone, this week and with the setting before.

    Attributes
    ----------
    zone : str
        Its id.
    now_m3 : float
        Of the planned week. [m3]
    was_m3 : float or None
        Of a week of the setting before; None where nobody wrote it down. [m3]
    was_from : str
        How the setting before is known.
    """

    zone: str
    now_m3: float
    was_m3: float | None
    was_from: str


@dataclass(frozen=True, slots=True)
class WeekWater:
    """Water of a week against the week of the settings before.

    Attributes
    ----------
    zones : tuple of ZoneWater
        Zones whose flow is known, in the order of the file.
    total_m3 : float
        Of all of them. [m3]
    alike_m3, was_m3 : float or None
        Of those whose setting before is known, now and before; None where none is.
        [m3]
    change : float or None
        `alike_m3` over `was_m3`, less 1. [-]
    not_counted : tuple of (str, str)
        Zones that are left out, and why.
    trace : Trace
        Of `total_m3`, resting on every zone.
    """

    zones: tuple[ZoneWater, ...]
    total_m3: float
    alike_m3: float | None
    was_m3: float | None
    change: float | None
    not_counted: tuple[tuple[str, str], ...]
    trace: Trace


def week_water(
    site: Site, zones: Sequence[WateredZone], issued: Sequence[IssuedWeek] = ()
) -> WeekWater:
    """Water that a planned week puts on, beside a week of the settings before.

    Parameters
    ----------
    site : Site
        For packages and the clock's percent adjust.
    zones : sequence of WateredZone
        The planned week.
    issued : sequence of IssuedWeek
        What the clock was told before; without one, the clock as found.

    Returns
    -------
    WeekWater
        Blocked zones and those of unknown flow are left out of both sums and named.

    Notes
    -----
    Minutes that nobody changed are taken as run: what truly went through is for the
    meter to say.

    References
    ----------
    Source: definition; 1 mm on 1 m2 is 1 L.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> week_water(Site(name="Tern Hollow", units="us", place=place), ()).total_m3
    0.0
    """
    told, parts = [], []
    left: list[tuple[str, str]] = []
    for one in zones:
        if one.status == "blocked":
            left.append((one.zone.id, "blocked"))
            continue
        rate = one.evidence.net_rate_mm_per_h if one.evidence else None
        flow = zone_flow(one.zone, site.package_of(one.zone), rate)
        if flow is None or not isinstance(flow.value, float):
            if one.status != "off":
                left.append((one.zone.id, "flow not known"))
            continue
        minutes = (one.cycles or 0) * (one.cycle_minutes or 0) * len(one.days)
        now = minutes * flow.value / L_PER_M3
        told.append(_zone(one, site, issued, (now, flow.value)))
        name = f"{one.zone.id}: minutes x nights x flow_l_per_min"
        parts.append(Trace("zone_water_m3", now, name, "definition", (flow,)))
    total = sum((one.now_m3 for one in told), 0.0)
    known = [one for one in told if one.was_m3 is not None]
    alike = sum(one.now_m3 for one in known) if known else None
    was = sum(one.was_m3 or 0.0 for one in known) if known else None
    change = None if alike is None or not was else alike / was - 1.0
    trace = Trace(
        "week_water_m3", total, "sum over the zones", "definition", tuple(parts)
    )
    return WeekWater(tuple(told), total, alike, was, change, tuple(left), trace)


def week_minutes(zones: Sequence[WateredZone]) -> int:
    """Minutes that a planned week waters, all zones together.

    Parameters
    ----------
    zones : sequence of WateredZone
        The planned week; zones without minutes count nothing.

    Returns
    -------
    int
        Cycles times their minutes times nights, summed. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> week_minutes(())
    0
    """
    return sum(
        (one.cycles or 0) * (one.cycle_minutes or 0) * len(one.days) for one in zones
    )


def _zone(
    one: WateredZone,
    site: Site,
    issued: Sequence[IssuedWeek],
    now: tuple[float, float],
) -> ZoneWater:
    now_m3, flow = now
    earlier = [week for week in issued if not one.dates or week.start < one.dates[0]]
    newest = newest_issued(one.zone, earlier)
    if newest is not None:
        week, setting = newest
        minutes = setting.minutes_per_day * len(setting.days)
        source = f"issued week {week.name}"
    elif one.zone.as_found is not None:
        percent = site.controller_of(one.zone).percent_adjust
        nights = len(one.zone.as_found.days)
        minutes = as_found_min(one.zone, percent) * nights
        source = "clock as found"
    else:
        return ZoneWater(one.zone.id, now_m3, None, "not recorded")
    return ZoneWater(one.zone.id, now_m3, minutes * flow / L_PER_M3, source)
