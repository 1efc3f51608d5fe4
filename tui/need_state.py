"""A session in; the coefficient of a zone's plants through the year out, kept."""

from typing import TYPE_CHECKING

from tui.field_state import once
from tui.session import Session, own_zone_plan, todays_date, zone_plan

if TYPE_CHECKING:
    from scheduler.need.kc_year import KcYear
    from scheduler.need.season_days import SeasonDays
    from scheduler.site import Zone


def kc_of_year(session: Session, zone_id: str) -> "KcYear | None":
    """Coefficient of the plants that rule in a zone, on every day of the year."""
    plan = zone_plan(session, zone_id)
    return None if plan is None else _of_zone(session, plan.zone)


def kc_now_and_before(
    session: Session, zone_id: str
) -> "tuple[KcYear, KcYear | None] | None":
    """The coefficient with the what-ifs and without; no second one without any."""
    now = kc_of_year(session, zone_id)
    if now is None:
        return None
    own = own_zone_plan(session, zone_id) if session.week_edits else None
    return now, None if own is None else _of_zone(session, own.zone)


def _of_zone(session: Session, zone: "Zone") -> "KcYear | None":
    if session.site is None or session.history is None:
        return None
    return once(session.site_folder, ("kc", zone), lambda: _kc(session, zone))


def _kc(session: Session, zone: "Zone") -> "KcYear | None":
    from scheduler.need.kc_year import kc_year
    from scheduler.watering.wetted import zone_wetting

    assert session.site is not None, "the caller has one"
    assert session.history is not None, "a site has a history"
    return kc_year(
        zone,
        session.today or todays_date(session.site),
        weather=session.history.weather,
        days=_days(session) if zone.plant is not None and zone.plant.dual else None,
        wetting=zone_wetting(session.site, zone),
    )


def _days(session: Session) -> "SeasonDays | None":
    from scheduler.need.season_days import season_days
    from scheduler.need.stations import stations_et

    assert session.site is not None, "the caller has one"
    assert session.history is not None, "a site has a history"
    series, _ = stations_et(session.history.weather, session.site.place)
    return season_days(series, session.history.rain, year=None)[0]
