"""A session's site in; seasons of its zones and trials of its packages, kept, out.

A what-if is run again only where it is read: one of a zone in that zone alone, one of
the pump or of a price nowhere.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from tui.field_state import HEAVY, kept_answers, once
from tui.session import Session, todays_date

if TYPE_CHECKING:
    from scheduler.money.gain import Trials
    from scheduler.season import SeasonPlan, ZoneSeason
    from scheduler.site import Site, Zone

Key = tuple[Any, ...]
# What neither a season nor the trials of packages read of a site; the tests hold it
# against both. Whatever a site is given one day is read until it stands here.
UNREAD: dict[str, Any] = {
    "name": "",
    "options": (),
    "stations": (),
    "wind_logs": (),
    "blocked_hours": (),
    "supply": None,  # but for its salt
    "controller": None,
    "more_controllers": (),
    "tariff": None,
    "demand_from": None,
    "rounding": None,
    "test_every_months": None,
    "learn": None,
    "pinned_today": None,
    "language": None,
    "note": "",
}
# what trials do not read of a zone, of all that can be tried
UNTRIED: dict[str, Any] = {
    "plant": None,
    "group": (),
    "soil": None,
    "pots": None,
    "rule": None,
    "days": (),
}


def read_of_site(site: "Site") -> Key:
    """What all zones' seasons read of a site; zones and packages stand apart."""
    salt = site.supply.water_ec_ds_per_m if site.supply is not None else None
    apart = {"zones": (), "packages": ()}
    return (site.model_copy(update={**UNREAD, **apart}), salt)


def read_of_zone(site: "Site", zone: "Zone", tried_du: Mapping[str, float]) -> Key:
    """What one zone's season reads besides; the zone whole, for the season holds it."""
    return (zone, site.package_of(zone), tried_du.get(zone.id))


def season_of_site(
    session: Session, site: "Site", tried_du: Mapping[str, float]
) -> "SeasonPlan":
    """Season of every zone; run where no kept season is of the same."""
    shared = read_of_site(site)
    zones = tuple(read_of_zone(site, one, tried_du) for one in site.zones)

    def work() -> "SeasonPlan":
        return _run(session, site, tried_du, (shared, zones))

    key = ("site season", shared, zones)
    found = once(session.site_folder, key, work, keep=HEAVY)
    return replace(found, site=site)


def _run(
    session: Session,
    site: "Site",
    tried_du: Mapping[str, float],
    read: tuple[Key, tuple[Key, ...]],
) -> "SeasonPlan":
    from scheduler.season import run_season

    assert session.history is not None, "a site has a history"
    kept = _kept_seasons(session, *read)
    rest = tuple(
        zone for zone, one in zip(site.zones, kept, strict=True) if one is None
    )
    # one zone at the least: it brings the days, and what is said of all
    some = site.model_copy(update={"zones": rest or site.zones[:1]})
    today = session.today or todays_date(site)
    plan = run_season(some, session.history, today, tried_du=tried_du)
    if plan.days is None:
        return plan
    run = iter(plan.zones)
    return replace(plan, zones=tuple(one or next(run) for one in kept))


def _kept_seasons(
    session: Session, shared: Key, zones: tuple[Key, ...]
) -> "list[ZoneSeason | None]":
    """The kept season of each zone that was run on the same; None where none is."""
    known: dict[str, list[tuple[Key, ZoneSeason]]] = {}
    for key, plan in kept_answers(session.site_folder, "site season"):
        if key[1] == shared and plan.days is not None:
            for read, season in zip(key[2], plan.zones, strict=True):
                known.setdefault(read[0].id, []).append((read, season))
    return [
        next((season for key, season in known.get(read[0].id, ()) if key == read), None)
        for read in zones
    ]


def trials_of_site(session: Session, site: "Site") -> "Trials":
    """What tests say of packages, whatever is tried in the zones."""
    zones = tuple(one.model_copy(update=UNTRIED) for one in site.zones)

    def work() -> "Trials":
        from scheduler.money.gain import package_trials

        assert session.history is not None, "a site has a history"
        return package_trials(site, session.history)

    key = ("trials", read_of_site(site), zones, site.packages)
    return once(session.site_folder, key, work)
