"""A planned week and what was told before in; the programs of its clocks out."""

from collections.abc import Sequence

from scheduler.record import History
from scheduler.site import Site
from scheduler.watering.clock import FULL_PERCENT, newest_issued
from scheduler.watering.clock_view import ClockView, Keyed, clock_views
from scheduler.watering.night_plan import NightPlan
from scheduler.week_changes import is_as_told
from scheduler.week_plan import ZonePlan


def week_clocks(
    site: Site, night: NightPlan | None, zones: Sequence[ZonePlan], history: History
) -> tuple[ClockView, ...]:
    """The week as programs of the clocks.

    Parameters
    ----------
    site : Site
        For its clocks.
    night : NightPlan or None
        The timetable.
    zones : sequence of ZonePlan
        Zones with their changes.
    history : History
        What was told before.

    Returns
    -------
    tuple of ClockView
        One a clock that waters.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> week_clocks(Site(name="a", units="us", place=place), None, (), History())
    ()
    """
    if night is None or not night.runs:
        return ()
    soaks = {one.zone.id: one.soak_minutes or 0 for one in zones}
    keyed = [two for one in zones for two in _keyed(one, site, history)]
    rates = {
        one.zone.id: one.evidence.net_rate_mm_per_h for one in zones if one.evidence
    }
    return clock_views(
        site, night, zones[0].dates, soak_min=soaks, keyed=keyed, rate_mm_per_h=rates
    )


def _keyed(plan: ZonePlan, site: Site, history: History) -> list[Keyed]:
    """A cycle's minutes before and now, where nothing else has to be keyed in."""
    was, cycles = plan.was_minutes, plan.cycles
    if was is None or not cycles or not plan.cycle_minutes:
        return []
    newest = newest_issued(plan.zone, history.issued)
    if plan.changed is not None and plan.changed.overrides:
        before = 1  # a person keys in minutes of one run
    elif newest is not None:
        before = newest[1].cycles if is_as_told(plan, newest[1]) else 0
    elif (
        site.controller_of(plan.zone).percent_adjust != FULL_PERCENT
        or not plan.zone.as_found
    ):
        before = 0  # what was keyed in is not what ran
    else:
        before = plan.zone.as_found.cycles
    if before != cycles:
        return []
    return [Keyed(plan.zone.id, was / cycles, plan.cycle_minutes)]
