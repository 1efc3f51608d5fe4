"""A session in; what uneven water costs, with and without the what-ifs, kept, out."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from scheduler.errors import SchedulerError
from tui.field_state import HEAVY, once
from tui.kept_seasons import season_of_site, trials_of_site
from tui.session import Edit, Session, todays_date

if TYPE_CHECKING:
    from scheduler.field.overlap import Pattern
    from scheduler.field.profile import Profile
    from scheduler.money.assumed import Then
    from scheduler.money.economics import SiteCost
    from scheduler.money.retrofit import OptionResult
    from scheduler.money.with_week import WithWeek
    from scheduler.site import Site
    from scheduler.units import System
    from tui.field_state import SpacingMap


@dataclass(frozen=True, slots=True, eq=False)
class CostNow:
    """What uneven water costs.

    Attributes
    ----------
    now : SiteCost
        With the what-ifs.
    before : SiteCost or None
        Without them; None where there are none.
    """

    now: "SiteCost"
    before: "SiteCost | None"

    def option(self, option_id: str) -> "OptionResult | None":
        """One option with the what-ifs, or None."""
        return _option(self.now, option_id)

    def option_before(self, option_id: str) -> "OptionResult | None":
        """One option without them; None where nothing was tried."""
        return None if self.before is None else _option(self.before, option_id)


def _option(cost: "SiteCost", option_id: str) -> "OptionResult | None":
    return next((one for one in cost.options if one.option.id == option_id), None)


def cost_now(session: Session) -> CostNow:
    """Zones and options; seconds the first time, a fraction after a price is tried.

    Raises
    ------
    SchedulerError
        If there is no site.
    """
    if session.site is None or session.site_folder is None:
        raise SchedulerError("there is no site", "see the findings")
    own = session.site_folder.site
    before = None
    if session.what_ifs and own is not None:
        before = _cost(session, own, {})
    return CostNow(_cost(session, session.site, session.tried_du), before)


def _cost(session: Session, site: "Site", tried_du: dict[str, float]) -> "SiteCost":
    def work() -> "SiteCost":
        from scheduler.money.economics import site_cost

        assert session.history is not None, "a site has a history"
        today = session.today or todays_date(site)
        season = season_of_site(session, site, tried_du)
        return site_cost(
            site,
            session.history,
            today,
            worked=(season, trials_of_site(session, site)),
            profiles=_profiles(session),
            tried_du=tried_du,
        )

    return once(session.site_folder, ("cost", site, tried_du), work, keep=HEAVY)


def _profiles(session: Session) -> "dict[str, Profile]":
    """One head's legs of cans, by package."""
    folder = session.site_folder
    told = folder.profiles if folder is not None else {}
    return {name: one.profile for name, one in told.items()}


def around_now(session: Session, cost: "SiteCost", option_id: str) -> "WithWeek | None":
    """What the planned week adds, with one option's nights; None without a plan."""
    plan, history = session.plan, session.history
    if plan is None or history is None:
        return None

    def work() -> "WithWeek":
        from scheduler.money.with_week import with_week

        picked = _option(cost, option_id)
        alone = replace(cost, options=() if picked is None else (picked,))
        return with_week(plan, history, alone)

    return once(cost, ("around", plan, option_id), work)


def tested_packages(session: Session) -> tuple[str, ...]:
    """Packages that have a test, in the order of the site."""
    if session.site is None or session.history is None:
        return ()
    stands = {one.id.casefold(): one.package for one in session.site.zones}
    tested = {
        one.package or stands.get(one.zone.casefold()) for one in session.history.tests
    }
    return tuple(one.id for one in session.site.packages if one.id in tested)


def option_for(session: Session, zone_id: str) -> str:
    """Id of the option that a what-if of a zone goes to: its re-spacing, or new."""
    from scheduler.money.assumed import NEW

    mine = [
        one
        for one in (session.site.options if session.site else ())
        if one.deed in ("re-space", "replace")
        and zone_id.casefold() in {name.casefold() for name in one.zones}
    ]
    return mine[0].id if mine else NEW


def then_of_map(found: "SpacingMap", at: "Pattern", units: "System") -> "Then":
    """What a spacing of the map would be, as an option takes it and a page shows it.

    What is tried is what keeping would write: no digit that nobody saw.
    """
    from scheduler.money.assumed import Then
    from scheduler.seen import seen
    from scheduler.units import shown

    along = shown(at.spacing_m, "m", units, with_unit=False)
    rows = shown(at.row_spacing_m, "m", units)
    return Then(
        found.package.id,
        seen(at.du_lq, "", units),
        seen(at.spacing_m, "m", units),
        seen(at.row_spacing_m, "m", units),
        at.layout,
        f"at {along} x {rows}",
    )


def then_edit(session: Session, zone_id: str, option_id: str, package: str) -> Edit:
    """Try a tested package in an option."""
    from scheduler.money.assumed import Then

    named = {one.casefold(): one for one in tested_packages(session)}
    return Edit(
        "then", Then(named.get(package.casefold(), package)), zone_id, option_id
    )


def assumed(session: Session, what: str, text: str) -> float:
    """Read what was typed for an assumption.

    Raises
    ------
    QuantityError
        If it is none.
    """
    from scheduler.money.price_text import parsed_assumption

    return parsed_assumption(what, text, system=session.units)
