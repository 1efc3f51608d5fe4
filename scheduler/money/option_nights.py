"""Options and a planned week in; whether all zones' nights still fit with each, out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from scheduler.arrays import FloatArray
from scheduler.errors import QuantityError
from scheduler.field.package_wind import SitePackageWind, site_package_wind
from scheduler.money.changes import extra_head_m
from scheduler.money.economics import SiteCost
from scheduler.money.full_night import depths_then, full_night
from scheduler.money.night_fit import NightFit, night_fit
from scheduler.money.retrofit import OptionResult
from scheduler.money.zone_then import zone_then
from scheduler.record import History
from scheduler.said import date_text
from scheduler.site import Site
from scheduler.watering.night_plan import night_plan
from scheduler.week_plan import WeekPlan, ZonePlan

_ONLY_SOME = (
    "the fullest night of the season is that of all zones together, and only some were "
    "asked for; ask for the whole site to see it"
)


@dataclass(frozen=True, slots=True, eq=False)
class OptionNights:
    """An option's nights, now and then; None where they are not worked out.

    Attributes
    ----------
    week_now, week_then : NightFit or None
        This week.
    full_now, full_then : NightFit or None
        The night of the run season with most water, each its own.
    why : str
        Why one is not worked out; empty where all are.
    """

    option_id: str
    week_now: NightFit | None
    week_then: NightFit | None
    full_now: NightFit | None
    full_then: NightFit | None
    why: str

    @property
    def fits_then(self) -> bool | None:
        """Whether all nights that were worked out fit then; None where none was."""
        known = [one.fits for one in (self.week_then, self.full_then) if one]
        return all(known) if known else None


def option_nights(
    plan: WeekPlan, history: History, cost: SiteCost, *, is_whole: bool = True
) -> tuple[OptionNights, ...]:
    """Whether the nights of all zones still fit with each option.

    Parameters
    ----------
    plan : WeekPlan
        This week of the whole site.
    history : History
        Wind logs and tests.
    cost : SiteCost
        Options, prices, and the season that was run.
    is_whole : bool
        Whether `cost` holds every zone of the site: a night of some of them would say
        nothing.

    Returns
    -------
    tuple of OptionNights
        In the order of the options of `cost`.

    Notes
    -----
    Each is a timetable laid out anew, with the option's flow, rate, run time, cycles
    and soaks in place of the zone's; the other zones stay as they are. An option that
    is done already stands in the plan, and is not tried again.

    References
    ----------
    Source: definition; the nights as `night_plan`.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.money.economics import site_cost
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=here)
    >>> monday = dt.date(2026, 6, 8)
    >>> option_nights(WeekPlan(site, monday, monday, ()), History(),
    ...               site_cost(site, History(), monday))
    ()
    """
    if not cost.options:
        return ()
    told = cost.site
    site = plan.site.model_copy(
        update={"packages": told.packages, "tariff": told.tariff}
    )
    winds = site_package_wind(site, history, plan.today)
    asked = _Asked(site, plan, history, winds, cost, is_whole)
    now = (
        night_fit(plan.night, site, left_out=_blocked(plan.zones)),
        asked.full(plan.zones),
    )
    return tuple(_option(one, asked, now) for one in cost.options)


@dataclass(frozen=True, slots=True, eq=False)
class _Then:
    """The zones of a week once an option is done."""

    zones: tuple[ZonePlan, ...]
    depths_mm: dict[str, FloatArray] = field(default_factory=dict)
    extra_m: dict[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, eq=False)
class _Asked:
    """What all options share."""

    site: Site
    plan: WeekPlan
    history: History
    winds: SitePackageWind
    cost: SiteCost
    is_whole: bool

    def week(self, then: _Then) -> NightFit | None:
        """The planned week with other zones."""
        night = night_plan(
            self.site, self.history, then.zones, winds=self.winds, begun=self.plan.night
        )
        left = _blocked(then.zones)
        return night_fit(night, self.site, extra_head_m=then.extra_m, left_out=left)

    def full(
        self,
        zones: Sequence[ZonePlan],
        depths_mm: Mapping[str, FloatArray] | None = None,
        extra_m: Mapping[str, float] | None = None,
    ) -> NightFit | None:
        """The fullest night of the season with other zones."""
        if not self.is_whole:
            return None
        found = full_night(self.site, zones, self.cost.zones, depths_mm or {})
        if found is None:
            return None
        night = night_plan(
            self.site, replace(self.history, issued=()), found.zones, winds=self.winds
        )
        left = found.left_out
        return night_fit(night, self.site, extra_head_m=extra_m, left_out=left)


def _blocked(zones: Sequence[ZonePlan]) -> tuple[str, ...]:
    return tuple(one.zone.id for one in zones if one.status == "blocked")


def _option(
    one: OptionResult, asked: _Asked, now: tuple[NightFit | None, NightFit | None]
) -> OptionNights:
    week_now, full_now = now
    name = one.option.id
    if one.option.done_on is not None:
        why = (
            f"it was done on {date_text(one.option.done_on)}: the week is planned with "
            "the zone as its files and tests tell it now"
        )
        return OptionNights(name, week_now, None, full_now, None, why)
    try:
        then = _then(one, asked)
    except QuantityError as error:
        return OptionNights(name, week_now, None, full_now, None, str(error))
    week = asked.week(then)
    full = asked.full(then.zones, then.depths_mm, then.extra_m)
    whys = []
    if week is None:
        whys.append("no night of this week can be laid out: see its findings")
    if full is None and not asked.is_whole:
        whys.append(_ONLY_SOME)
    elif full is None:
        whys.append("no season of all zones was run: see the findings of the season")
    return OptionNights(name, week_now, week, full_now, full, "; ".join(whys))


def _then(one: OptionResult, asked: _Asked) -> _Then:
    """The week's zones with those of the option as they would be.

    Raises
    ------
    QuantityError
        If one of them cannot be told.
    """
    option = one.option
    told = {term.response.zone.id.casefold(): term for term in one.terms}
    missing = [name for name in option.zones if name.casefold() not in told]
    if missing or not told:
        names = ", ".join(missing or option.zones)
        raise QuantityError(
            f"nothing tells the uniformity then of {names}",
            "see the findings of the option",
        )
    zones = []
    then = _Then(())
    for plan in asked.plan.zones:
        name = plan.zone.id
        term = told.get(name.casefold())
        if term is None:
            zones.append(plan)
            continue
        du, own = term.then.du_lq, term.of_map
        catch = None if own is None else own.catch
        zones.append(zone_then(option, asked.site, plan, du, catch))
        then.extra_m[name] = extra_head_m(option, asked.site, plan.zone)
        season = term.after.season
        if season is not None and season.input is not None:
            # what the roots of the map feel where its cans have the other uniformity
            cans = term.after.can_du_lq
            then.depths_mm[name] = depths_then(season, asked.site, cans, du)
    return replace(then, zones=tuple(zones))
