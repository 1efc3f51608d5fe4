"""A planned zone and an option in; the same zone's week once it is done out."""

from dataclasses import replace

import numpy as np

from scheduler.errors import QuantityError
from scheduler.field.guess import ZoneCatch
from scheduler.money.changes import gross_rate_mm_per_h
from scheduler.money.factors import evenness
from scheduler.option import Option
from scheduler.site import Package, Site, Zone
from scheduler.trace import Trace, entered
from scheduler.watering.zone_week import ZoneWeekInput, zone_week
from scheduler.week_plan import ZonePlan


def rate_ratio(option: Option, site: Site, zone: Zone) -> float:
    """Net rate then over the net rate of now.

    Parameters
    ----------
    option : Option
        The option.
    site : Site
        For the packages.
    zone : Zone
        One of its zones.

    Returns
    -------
    float
        Gross rate then over now, as the same part arrives; 1 where the package stays.
        [-]

    Raises
    ------
    QuantityError
        If another package stands there, and flow or spacing of one is not entered.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> pair = (Package(id="a", nozzle_flow_l_per_min=20.0, spacing_m=10.0),
    ...         Package(id="b", nozzle_flow_l_per_min=10.0, spacing_m=10.0))
    >>> site = Site(name="a", units="us", place=here, packages=pair)
    >>> zone = Zone(id="Z", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             package="a")
    >>> rate_ratio(Option(id="B", name="b", deed="replace", zones=("Z",), package="b"),
    ...            site, zone)
    0.5
    """
    own, new = site.package_of(zone), site.package(option.package)
    if option.package is None or option.package == zone.package:
        return 1.0
    now, then = gross_rate_mm_per_h(own), gross_rate_mm_per_h(new)
    if not now or not then:
        names = [
            name
            for name, rate in ((zone.package or "none", now), (option.package, then))
            if not rate
        ]
        raise QuantityError(
            f"zone {zone.id}: the rate then is not known, as flow or spacing is not "
            f"entered of package {' and '.join(names)}",
            "enter nozzle_flow and spacing of both packages",
        )
    return then / now


def hardware_then(option: Option, site: Site, zone: Zone) -> Zone:
    """The zone with the package of an option.

    Parameters
    ----------
    option : Option
        The option.
    site : Site
        For the packages.
    zone : Zone
        One of its zones.

    Returns
    -------
    Zone
        Heads that were counted stay only where each waters as much ground as now.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> wide = Package(id="b", spacing_m=12.0)
    >>> site = Site(name="a", units="us", place=here, packages=(wide,))
    >>> zone = Zone(id="Z", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             heads=4)
    >>> then = Option(id="B", name="b", deed="replace", zones=("Z",), package="b")
    >>> hardware_then(then, site, zone).heads is None
    True
    """
    own, new = site.package_of(zone), site.package(option.package)
    if new is None or option.package == zone.package:
        return zone
    stays = own is not None and _ground(own) == _ground(new)
    heads = zone.heads if stays else None
    return zone.model_copy(update={"package": new.id, "heads": heads})


def _ground(package: Package) -> float | None:
    return package.area_per_head_m2


def zone_then(
    option: Option,
    site: Site,
    one: ZonePlan,
    du_lq: float,
    of_map: ZoneCatch | None = None,
) -> ZonePlan:
    """A zone's week once an option is done: its nights, minutes, cycles and flow.

    Parameters
    ----------
    option : Option
        The option.
    site : Site
        For the packages.
    one : ZonePlan
        Its week as it is.
    du_lq : float
        Its uniformity then, at can height. [-]
    of_map : ZoneCatch, optional
        The map of the package then; without it, the zone's own is drawn to `du_lq`.

    Returns
    -------
    ZonePlan
        Planned anew from the same weather and the same depletion.

    Raises
    ------
    QuantityError
        If the zone follows no need, its rate then is not known, or no number of
        minutes would do.

    Notes
    -----
    The catch of the planned hours is drawn together; what wind would do to another
    package is not carried.

    References
    ----------
    Source: definition; the week as `zone_week`.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> zone = Zone(id="Z", name="a", area_m2=9.0, grown_in="pots", watered="off")
    >>> one = ZonePlan(zone, "off", (), entered("minutes_per_day", None), ())
    >>> site = Site(name="a", units="us", place=here)
    >>> then = Option(id="B", name="b", deed="replace", zones=("Z",))
    >>> zone_then(then, site, one, 0.8)
    Traceback (most recent call last):
        ...
    scheduler.errors.QuantityError: zone Z follows no need: its week then is not ...
    """
    if one.input is None or one.evidence is None:
        why = "is blocked" if one.status == "blocked" else "follows no need"
        raise QuantityError(
            f"zone {one.zone.id} {why}: its week then is not known",
            "see the findings of the week",
        )
    ratio = rate_ratio(option, site, one.zone)
    here = replace(one.evidence, share=one.input.share, du_lq=one.input.du_lq)
    then = _input_then(one.input, of_map or here, du_lq, ratio)
    stands = hardware_then(option, site, one.zone)
    unknown = entered("any", None, "an option: not done yet")
    rate = Trace(
        "net_rate_mm_per_h",
        then.net_rate_mm_per_h,
        "net rate of now x gross rate then / gross rate of now",
        "definition",
        (one.evidence.rate_trace,),
    )
    week = zone_week(then, rate_trace=rate, du_trace=unknown, etc_trace=unknown)
    if any(said.level == "stop" for said in week.findings):
        stop = next(said for said in week.findings if said.level == "stop")
        raise QuantityError(f"zone {one.zone.id}: {stop.what}", stop.fix)
    return replace(
        one,
        zone=stands,
        input=then,
        evidence=replace(one.evidence, net_rate_mm_per_h=then.net_rate_mm_per_h),
        need_mm=week.need_mm,
        factor=week.factor,
        minutes_exact=week.minutes_exact,
        minutes_week=week.minutes_week,
        days=tuple(one.dates[i] for i in week.day_index),
        minutes_per_day=week.minutes_per_day,
        cycles=week.split.cycles,
        cycle_minutes=week.split.cycle_minutes,
        soak_minutes=week.split.soak_minutes,
        realised_depth_mm=week.realised_depth_mm,
        quarters=week.quarters,
    )


def _input_then(
    now: ZoneWeekInput, catch: ZoneCatch, du_lq: float, ratio: float
) -> ZoneWeekInput:
    """The week's input with another uniformity and rate."""
    even = evenness(catch, du_lq)
    start = now.start_depletion_mm
    if np.size(start) > 1 and even.share.size != np.size(start):
        start = np.array([now.start_at_mm(float(share)) for share in even.share])
    return replace(
        now,
        share=even.share,
        du_lq=even.du_lq,
        du_lh=even.du_lh,
        net_rate_mm_per_h=now.net_rate_mm_per_h * ratio,
        start_depletion_mm=start,
    )
