"""Site, zone and issued weeks in; what the clock holds and takes for granted out.

The clock runs what it was told last; before that, what it was found with.
"""

from collections.abc import Sequence

from scheduler.errors import Finding
from scheduler.issued import IssuedWeek, IssuedZone
from scheduler.site import Site, Zone
from scheduler.stations import clock_names

FULL_PERCENT = 100


def as_found_min(zone: Zone, percent_adjust: int) -> float:
    """Minutes a watering that the clock as found really ran.

    Parameters
    ----------
    zone : Zone
        With the clock as found.
    percent_adjust : int
        What the clock makes of its minutes. [percent]

    Returns
    -------
    float
        Minutes times cycles, adjusted. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import AsFound
    >>> bay = Zone(id="Z1", name="bay", area_m2=1.0, grown_in="soil", watered="off",
    ...            as_found=AsFound(minutes=20.0, cycles=2))
    >>> as_found_min(bay, 50)
    20.0
    """
    assert zone.as_found is not None, "the caller has looked"
    minutes = zone.as_found.minutes * zone.as_found.cycles
    if percent_adjust == FULL_PERCENT:
        return minutes
    return minutes * percent_adjust / FULL_PERCENT


def newest_issued(
    zone: Zone, issued: Sequence[IssuedWeek]
) -> tuple[IssuedWeek, IssuedZone] | None:
    """Newest issued week that tells a zone's minutes.

    Parameters
    ----------
    zone : Zone
        The zone.
    issued : sequence of IssuedWeek
        Issued weeks, in any order.

    Returns
    -------
    tuple of IssuedWeek and IssuedZone, or None
        None where no week tells them; of two weeks with one start, the last revision.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> newest_issued(Zone(id="Z1", name="bay", area_m2=1.0, grown_in="soil",
    ...                    watered="off"), ())
    """
    wanted = zone.id.casefold()
    told = [
        (week, one)
        for week in issued
        for one in week.zones
        if one.zone.casefold() == wanted
    ]
    return max(told, key=lambda pair: pair[0].order, default=None)


def was_minutes(
    zone: Zone, site: Site, issued: Sequence[IssuedWeek]
) -> tuple[float | None, str]:
    """Minutes a watering that the clock holds now, and how that is known.

    Parameters
    ----------
    zone : Zone
        For the clock as found.
    site : Site
        For the clock's percent adjust.
    issued : sequence of IssuedWeek
        What the clock was told since.

    Returns
    -------
    minutes : float or None
        None where nobody wrote them down. [min]
    source : str
        In words.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import AsFound, Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> bay = Zone(id="Z1", name="bay", area_m2=1.0, grown_in="soil", watered="off",
    ...            as_found=AsFound(minutes=20.0, cycles=2))
    >>> was_minutes(bay, Site(name="Tern Hollow", units="us", place=place), ())
    (40.0, 'clock as found')
    """
    newest = newest_issued(zone, issued)
    if newest is not None:
        return newest[1].minutes_per_day, f"issued week {newest[0].name}"
    if zone.as_found is None:
        return None, "not recorded"
    percent = site.controller_of(zone).percent_adjust
    said = "clock as found"
    if percent != FULL_PERCENT:
        said += f", percent adjust {percent}"
    return as_found_min(zone, percent), said


def clock_findings(site: Site) -> tuple[Finding, ...]:
    """What the week takes for granted about the clock and the hours.

    Parameters
    ----------
    site : Site
        For its windows and its controller.

    Returns
    -------
    tuple of Finding
        Empty where there is a window and the clock stands at 100 %.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> clock_findings(Site(name="Tern Hollow", units="us", place=place))
    ()
    """
    if not site.zones:
        return ()
    found = []
    names = clock_names(site)
    for one, name in zip(site.controllers, names, strict=True):
        percent = one.percent_adjust
        if percent == FULL_PERCENT:
            continue
        of = f" of {name}" if site.more_controllers else ""
        what = (
            f"is {percent}: the clock would run {percent} % of the minutes keyed in; "
            "those of this week are meant at 100"
        )
        fix = "set the clock to 100 % when keying in; from the next week on, enter 100"
        where = f"site.toml: percent_adjust{of}"
        found.append(Finding("warning", where, what, fix))
    if not site.windows:
        what = "none is entered: watering is taken as allowed at any hour, every day"
        fix = "add [[window]] with start, end and days"
        found.append(Finding("note", "site.toml: window", what, fix))
    return tuple(found)
