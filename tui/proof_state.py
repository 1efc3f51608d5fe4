"""A session in; what proves or doubts a zone's schedule, worked out once, out."""

from typing import TYPE_CHECKING

from scheduler.errors import SchedulerError
from tui.field_state import once
from tui.session import Session, own_zone_plan, todays_date, zone_plan

if TYPE_CHECKING:
    from scheduler.proof.due import Due
    from scheduler.proof.meter import PlanAgainstMeter
    from scheduler.proof.zone_proof import ZoneProof


def zones_of(session: Session) -> tuple[str, ...]:
    """Ids of all zones."""
    return tuple(one.id for one in session.site.zones) if session.site else ()


def everything_due(session: Session) -> "tuple[Due, ...]":
    """Tests, leaching checks and readings that are due at the site."""
    from scheduler.proof.due import everything_due as work

    site, history = session.site, session.history
    if site is None or history is None:
        return ()
    today = session.today or todays_date(site)
    # a what-if of the pump leaves both as they are
    key = ("due", today, site.test_every_months, site.zones)
    return once(session.site_folder, key, lambda: work(site, history, today))


def zone_proof(session: Session, zone_id: str) -> "ZoneProof":
    """Checks, drift, meters and what is due of one zone, by what is entered.

    What was measured proves or doubts what is entered: the past knows no what-ifs.

    Raises
    ------
    SchedulerError
        If there is no such zone.
    """
    from scheduler.proof.zone_proof import zone_proof as work

    site = session.site
    if session.what_ifs and session.site_folder is not None:
        site = session.site_folder.site
    zone = site.zone(zone_id) if site is not None else None
    if site is None or zone is None:
        raise SchedulerError(f"there is no zone {zone_id!r}", "see the findings")
    plan = (own_zone_plan if session.what_ifs else zone_plan)(session, zone.id)
    return work(
        zone,
        plan.learned if plan is not None else None,
        _metered(session),
        everything_due(session),
        planned=(plan.minutes_per_day, len(plan.days)) if plan else (None, 0),
        today=session.today or todays_date(site),
    )


def _metered(session: Session) -> "PlanAgainstMeter":
    """Plan against meter, by the site as it is on disk: the past knows no what-ifs."""
    from scheduler.proof.meter import plan_against_meter

    site = session.site_folder.site if session.site_folder else session.site
    history = session.history
    assert site is not None, "a zone stands in a site"
    assert history is not None, "a site has a history"
    return once(
        session.site_folder, ("meter",), lambda: plan_against_meter(site, history)
    )
