"""A zone and the log in; when its hardware was changed, and which tests hold, out."""

import datetime as dt

from scheduler.log import Log, Repair
from scheduler.record import CanTest, History
from scheduler.site import Zone


def changed_on(zone: Zone, log: Log, since: dt.date, today: dt.date) -> Repair | None:
    """The newest change of a zone's hardware after a day, up to today.

    Parameters
    ----------
    zone : Zone
        The zone, and by it the package.
    log : Log
        With the changes.
    since, today : date
        Changes of `since` itself are before it.

    Returns
    -------
    Repair or None
        None where nothing was changed.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> zone = Zone(id="Z5", name="yard", area_m2=100.0, grown_in="pots", watered="off")
    >>> new = Repair(where="log.csv:4", typed="", date=dt.date(2026, 5, 18), zone="Z5",
    ...              what="new nozzles", is_change=True)
    >>> changed_on(zone, Log((new,)), dt.date(2026, 3, 24),
    ...            dt.date(2026, 6, 8)).what
    'new nozzles'
    """
    found = [
        one
        for one in log.of(Repair)
        if one.is_change
        and since < one.date <= today
        and (
            one.zone.casefold() == zone.id.casefold()
            or (one.package and one.package == zone.package)
        )
    ]
    return found[-1] if found else None


def standing_tests(zone: Zone, history: History, on: dt.date) -> tuple[CanTest, ...]:
    """Tests of a zone on the hardware that stood there on a day.

    Parameters
    ----------
    zone : Zone
        The zone.
    history : History
        Tests, and the log with the changes.
    on : date
        The day.

    Returns
    -------
    tuple of CanTest
        Up to that day, none older than the newest change before it.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> zone = Zone(id="Z5", name="yard", area_m2=100.0, grown_in="pots", watered="off")
    >>> standing_tests(zone, History(), dt.date(2026, 6, 8))
    ()
    """
    change = changed_on(zone, history.log, dt.date.min, on)
    since = change.date if change is not None else dt.date.min
    wanted = zone.id.casefold()
    return tuple(
        one
        for one in history.tests
        if one.zone.casefold() == wanted and since <= one.date <= on
    )
