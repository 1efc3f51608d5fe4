"""A session in; a zone's season with and without the what-ifs out, kept."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scheduler.errors import SchedulerError
from tui.field_state import once
from tui.kept_seasons import read_of_site, read_of_zone
from tui.session import Session, todays_date

if TYPE_CHECKING:
    from scheduler.season import SeasonPlan, ZoneSeason
    from scheduler.site import Site
    from scheduler.watering.season_run.saved import AtAnotherDU


@dataclass(frozen=True, slots=True, eq=False)
class ZoneYear:
    """One zone's season.

    Attributes
    ----------
    plan : SeasonPlan
        The season it is of.
    now : ZoneSeason
        With the what-ifs.
    before : ZoneSeason or None
        Without them; None where there are none.
    other : AtAnotherDU or None
        The same zone at another uniformity.
    """

    plan: "SeasonPlan"
    now: "ZoneSeason"
    before: "ZoneSeason | None"
    other: "AtAnotherDU | None"


def season_zones(session: Session) -> tuple[str, ...]:
    """Zones that a season can be asked of: all that are not off."""
    zones = session.site.zones if session.site is not None else ()
    return tuple(one.id for one in zones if one.watered != "off")


def zone_year(session: Session, zone_id: str, du_lq: float) -> ZoneYear:
    """Season of one zone; a tenth of a second the first time.

    Raises
    ------
    SchedulerError
        If there is no site, or no weather for any season.
    """
    if session.site is None or session.site_folder is None:
        raise SchedulerError("there is no site", "see the findings")
    plan = _season(session, session.site, zone_id, session.tried_du)
    own = session.site_folder.site
    before = None
    if session.what_ifs and own is not None:
        before = _season(session, own, zone_id, {}).zones[0]
        before = before if before.quarters else None
    return ZoneYear(plan, plan.zones[0], before, _other(session, plan, du_lq))


def _season(
    session: Session, site: "Site", zone_id: str, tried_du: dict[str, float]
) -> "SeasonPlan":
    def work() -> "SeasonPlan":
        from scheduler.season import run_season

        assert session.history is not None, "a site has a history"
        today = session.today or todays_date(site)
        return run_season(
            site, session.history, today, zone_ids=(zone_id,), tried_du=tried_du
        )

    zone = site.zone(zone_id)
    own = (zone_id,) if zone is None else read_of_zone(site, zone, tried_du)
    plan = once(session.site_folder, ("season", read_of_site(site), own), work)
    if not plan.zones:
        stop = next((one for one in plan.findings if one.level == "stop"), None)
        what, fix = (stop.what, stop.fix) if stop else ("no season", "add weather")
        raise SchedulerError(what, fix)
    return plan


def _other(session: Session, plan: "SeasonPlan", du_lq: float) -> "AtAnotherDU | None":
    made = plan.zones[0].input
    if made is None:
        return None

    def work() -> "AtAnotherDU":
        from scheduler.watering.season_run.saved import at_another_du

        return at_another_du(made, du_lq)

    return once(session.site_folder, ("other du", plan, du_lq), work)
