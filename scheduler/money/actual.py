"""Tests before and after a deed in; the saving that was re-tested out.

A forecast and a re-tested saving are two numbers in two places, never one.
"""

import datetime as dt
from dataclasses import dataclass

from scheduler.field.evidence import zone_catch
from scheduler.field.guess import ZoneCatch
from scheduler.money.response import Response
from scheduler.option import Option
from scheduler.record import CanTest, History
from scheduler.site import Site, Zone


@dataclass(frozen=True, slots=True)
class ActualSaving:
    """What a deed brought in one zone, by tests before and after it.

    Attributes
    ----------
    du_before, du_after : float or None
        Measured uniformities; None where there is no test. [-]
    saved_m3 : float or None
        Less water of a year under the zone's own rule, at the same weather; None until
        it is re-tested. [m3]
    why : str
        Why nothing can be said; empty where it can.
    """

    zone: str
    done_on: dt.date
    du_before: float | None
    du_after: float | None
    saved_m3: float | None
    why: str

    @property
    def is_retested(self) -> bool:
        """Whether a test from after the deed tells."""
        return self.du_after is not None


def catch_before(
    option: Option, site: Site, zone: Zone, history: History
) -> ZoneCatch | None:
    """What a zone caught before an option was done; None without a test of it.

    Parameters
    ----------
    option : Option
        The option, with the day it was done.
    site : Site
        For the package.
    zone : Zone
        The zone.
    history : History
        All tests.

    Returns
    -------
    ZoneCatch or None
        Measured, of the newest condition before that day.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> zone = Zone(id="Z", name="a", area_m2=9.0, grown_in="pots", watered="off")
    >>> done = Option(id="B", name="b", deed="replace", zones=("Z",),
    ...               done_on=dt.date(2026, 3, 1))
    >>> site = Site(name="a", units="us", place=here, zones=(zone,))
    >>> catch_before(done, site, zone, History()) is None
    True
    """
    return _measured(site, zone, _of_zone(option, zone, history, after=False))


def _of_zone(
    option: Option, zone: Zone, history: History, *, after: bool
) -> tuple[CanTest, ...]:
    assert option.done_on is not None, "the caller has looked"
    return tuple(
        one
        for one in history.tests
        if one.zone.casefold() == zone.id.casefold()
        and (one.date >= option.done_on) == after
    )


def _measured(site: Site, zone: Zone, tests: tuple[CanTest, ...]) -> ZoneCatch | None:
    if not tests:
        return None
    # what stood there before is another package than the zone names now
    anything = zone.model_copy(update={"package": None})
    last = max(one.date for one in tests)
    found, _ = zone_catch(anything, site.package_of(zone), tests, last)
    return found if found is not None and found.basis == "measured" else None


def actual_saving(
    option: Option, site: Site, zone: Zone, history: History, response: Response
) -> ActualSaving | None:
    """What a deed really brought in a zone.

    Parameters
    ----------
    option : Option
        The option.
    site : Site
        For the package.
    zone : Zone
        The zone.
    history : History
        All tests.
    response : Response
        The zone's water at any uniformity.

    Returns
    -------
    ActualSaving or None
        None where it was not done; without a re-test, the saving stays empty.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> zone = Zone(id="Z", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             assumed_net_rate_mm_per_h=12.0, assumed_du_lq=0.6)
    >>> done = Option(id="B", name="b", deed="replace", zones=("Z",),
    ...               done_on=dt.date(2026, 3, 1))
    >>> site = Site(name="a", units="us", place=here, zones=(zone,))
    >>> water = Response(zone, assumed(zone, None)[0], site, None, 0.6, 660.0)
    >>> actual_saving(done, site, zone, History(), water).why
    'not re-tested yet'
    """
    if option.done_on is None:
        return None
    before = catch_before(option, site, zone, history)
    after = _measured(site, zone, _of_zone(option, zone, history, after=True))
    why, saved = "", None
    if after is None:
        why = "not re-tested yet"
    elif before is None:
        why = "no test from before tells what it was"
    elif not response.is_known:
        why = "no season can be run"
    else:
        rule = zone.chosen_rule
        saved = response.volume_m3(rule, before.du_lq) - response.volume_m3(
            rule, after.du_lq
        )
    return ActualSaving(
        zone.id,
        option.done_on,
        before.du_lq if before else None,
        after.du_lq if after else None,
        saved,
        why,
    )
