"""Plan against meter in; what a meter of one zone says of its rate, out."""

import math

from scheduler.log import MeterReading
from scheduler.proof.learning import LEVEL_FACTOR, Observation
from scheduler.proof.meter import MeterInterval, plan_against_meter
from scheduler.proof.meter_water import zones_of
from scheduler.proof.told import NOT_RECORDED
from scheduler.record import History
from scheduler.site import Site


def rates_seen(site: Site, history: History) -> dict[str, tuple[Observation, ...]]:
    """What the meters say of the rates of the zones that they serve alone.

    Parameters
    ----------
    site : Site
        Zones and packages.
    history : History
        Tests, issued weeks, and the log up to the day that is asked for.

    Returns
    -------
    dict of str to tuple of Observation
        By zone id, one look each: the newest interval that tells anything.

    Notes
    -----
    Flow over the flow that buckets of the test found is the rate of those weeks over
    the rate of that test, the same minutes and ground. So only a zone with buckets
    learns, whose meter serves it alone and runs no other water, whose minutes are
    known, and which is within 10 % of them: past that a cause is looked for first, and
    a wrong rate is only one of several. One look, for weeks share the error of the
    buckets and would seem surer than they are.

    References
    ----------
    Source: definition (minutes x flow).

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="UTC")
    >>> rates_seen(Site(name="Tern Hollow", units="us", place=place), History())
    {}
    """
    readings = history.log.of(MeterReading)
    if not any(len(zones_of(site, one)) == 1 for one in readings):
        return {}
    found: dict[str, tuple[Observation, ...]] = {}
    for one in plan_against_meter(site, history).intervals:
        if (look := _look(one)) is not None:
            found[one.zones[0].zone] = (look,)
    return found


def _look(one: MeterInterval) -> Observation | None:
    """The look of one interval; None where it tells nothing of a rate."""
    if len(one.zones) != 1 or one.dial.stop.is_shared or one.is_off:
        return None
    zone, net_m3 = one.zones[0], one.net_m3
    if zone.flow is None or not zone.flow.is_of_buckets or NOT_RECORDED in zone.sources:
        return None
    if not zone.ran_m3 or net_m3 is None or net_m3 <= 0:
        return None
    width = zone.flow.high_l_per_min / zone.flow.low_l_per_min
    return Observation(
        # a change of the hardware in between makes it void
        date=one.dial.start.date,
        log_ratio=math.log(net_m3 / zone.ran_m3),
        sd=math.log(width) / 2.0 / LEVEL_FACTOR,
        kind="meter",
        where=one.dial.stop.where,
    )
