"""An option and a site, worked up, in; its zones now and then, and its cost, out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from scheduler.errors import Finding
from scheduler.field.guess import ZoneCatch
from scheduler.field.profile import Profile
from scheduler.field.ranges import STATED
from scheduler.money.actual import catch_before
from scheduler.money.changes import extra_head_m
from scheduler.money.energy import energy_price
from scheduler.money.gain import (
    LEAST_DAYS,
    KnownDu,
    Trials,
    known_now,
    known_then,
)
from scheduler.money.judged import CostTerms, ZoneTerms
from scheduler.money.outlay import Outlay
from scheduler.money.package_map import (
    PackageMap,
    catch_of_map,
    package_map,
    season_of_map,
)
from scheduler.money.response import Response
from scheduler.money.tried import apart_from_now
from scheduler.option import Option
from scheduler.record import History
from scheduler.said import signed
from scheduler.season import ZoneSeason
from scheduler.site import Site, Zone
from scheduler.watering.energy_hours import supply_energy_kwh_per_m3


@dataclass(frozen=True, slots=True, eq=False)
class ZoneBasis:
    """What is known of a zone.

    Attributes
    ----------
    catch : ZoneCatch
        At can height.
    season : ZoneSeason or None
        Its season; None where there is no weather.
    now : KnownDu
        Its uniformity at can height.
    tested : ZoneBasis or None
        As it was tested, where another uniformity is tried; its season is not run.
    """

    zone: Zone
    catch: ZoneCatch
    season: ZoneSeason | None
    now: KnownDu
    tested: "ZoneBasis | None" = None


@dataclass(frozen=True, slots=True, eq=False)
class Basis:
    """What all options of a site rest on.

    Attributes
    ----------
    zones : dict
        By id, in lower case.
    shared : dict
        Water of each zone at any uniformity, by id and need entered; filled on use.
    profiles : mapping of str to Profile
        One head's legs of cans, by package.
    """

    site: Site
    history: History
    trials: Trials
    water_money_per_m3: float | None
    zones: dict[str, ZoneBasis]
    shared: dict[tuple[str, float | None], Response] = field(default_factory=dict)
    profiles: Mapping[str, Profile] = field(default_factory=dict)

    def response(self, one: ZoneBasis, need_mm: float | None) -> Response:
        """Water of a zone at any uniformity."""
        key = (one.zone.id, need_mm)
        if key not in self.shared:
            felt = one.season.catch if one.season and one.season.catch else one.catch
            self.shared[key] = Response(
                one.zone, felt, self.site, one.season, one.catch.du_lq, need_mm
            )
        return self.shared[key]

    def response_of_map(
        self, one: ZoneBasis, option: Option
    ) -> tuple[PackageMap, Response] | None:
        """Water of a zone under the map of another package; None without its legs."""
        if option.package is None or option.package == one.zone.package:
            return None
        found = package_map(self.site, option.package, self.profiles)
        if found is None:
            return None
        catch = catch_of_map(found, one.catch)
        season = season_of_map(one.season, catch)
        need = option.season_need_mm
        made = Response(one.zone, catch, self.site, season, catch.du_lq, need)
        return found, made


def option_cost(
    option: Option, site: Site, spent: Outlay
) -> tuple[CostTerms | None, tuple[str, ...]]:
    """What an option costs a year, and what is not entered for that.

    Parameters
    ----------
    option : Option
        The option.
    site : Site
        For the interest and the price of work.
    spent : Outlay
        Its lines.

    Returns
    -------
    cost : CostTerms or None
        None where anything is missing.
    missing : tuple of str
        What is not entered, in words.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.money.outlay import outlay
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=here)
    >>> one = Option(id="A", name="a", deed="tune up", zones=("Z1",), price_money=900.0,
    ...              life_years=5.0)
    >>> option_cost(one, site, outlay(one, site))
    (None, ('interest',))
    """
    tariff = site.tariff
    interest = option.interest
    if interest is None and tariff is not None:
        interest = tariff.interest
    missing = list(spent.missing)
    if interest is None:
        missing.append("interest")
    hour = tariff.labour_price_money_per_h if tariff else None
    if option.labour_saved_hours_a_year is not None and hour is None:
        missing.append("price of an hour of work")
    if missing or interest is None:
        return None, tuple(missing)
    other = sum(
        one or 0.0
        for one in (
            option.fertilizer_saved_money_a_year,
            option.plant_losses_saved_money_a_year,
            (option.labour_saved_hours_a_year or 0.0) * (hour or 0.0),
        )
    )
    lives = [life for _, life in spent.parts]
    years = option.life_years or max(lives, default=1.0)
    cost = CostTerms(spent.parts, interest, option.repairs_money_a_year, other, years)
    return cost, ()


def option_terms(
    option: Option, basis: Basis
) -> tuple[tuple[ZoneTerms, ...], tuple[Finding, ...]]:
    """Every zone of an option; none where one of them cannot be told.

    Parameters
    ----------
    option : Option
        The option.
    basis : Basis
        The site, worked up.

    Returns
    -------
    terms : tuple of ZoneTerms
        In the order of the option.
    findings : tuple of Finding
        Why there are none.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> none = Basis(Site(name="a", units="us", place=here), History(),
    ...              Trials({}, (), ""), None, {})
    >>> one = Option(id="A", name="a", deed="tune up", zones=("Z1",))
    >>> option_terms(one, none)[1][0].level
    'warning'
    """
    terms: list[ZoneTerms] = []
    said: list[Finding] = []
    for name in option.zones:
        one = basis.zones.get(name.casefold())
        where = f"option {option.id}"
        if one is None:
            what = f"zone {name} has no rate or uniformity: nothing can be told of it"
            said.append(Finding("warning", where, what, "see the findings of the zone"))
            continue
        response = basis.response(one, option.season_need_mm)
        now = _now(option, basis, one)
        mapped = basis.response_of_map(one, option)
        then = _then(option, basis, one, now)
        if then is None and mapped is not None:
            then = _known_by_map(mapped[0])
        if not response.is_known:
            what = f"zone {name}: no season can be run, so no water is known"
            fix = "see the findings of the zone, or enter season_need"
            said.append(Finding("warning", where, what, fix))
        elif then is None:
            what = f"zone {name}: nothing tells its uniformity then"
            fix = "test the package, or enter du_lq and du_from"
            said.append(Finding("warning", where, what, fix))
        else:
            of_map = None if mapped is None else mapped[1]
            pumping = _pumping(option, basis, one)
            terms.append(ZoneTerms(response, now, then, *pumping, of_map))
    return (() if said else tuple(terms)), tuple(said)


def _known_by_map(found: PackageMap) -> KnownDu:
    """A map in still air has no range: nobody tested a night with it."""
    words = f"map of {found.package}: its legs of cans at its spacing, in still air"
    return KnownDu(found.du_lq, None, None, STATED, 0, words)


def _now(option: Option, basis: Basis, one: ZoneBasis) -> KnownDu:
    """As it is; for what is done already, as it was before."""
    if option.done_on is None:
        return one.now
    before = catch_before(option, basis.site, one.zone, basis.history)
    if before is None:
        return one.now
    zone = one.zone.model_copy(update={"package": None})
    tests = [test for test in basis.history.tests if test.date < option.done_on]
    return known_now(zone, before, tests, option.done_on)


def _then(option: Option, basis: Basis, one: ZoneBasis, now: KnownDu) -> KnownDu | None:
    """What is known of then; a uniformity that is tried for now does not move it."""
    if one.tested is None or now is not one.now:
        return known_then(option, one.zone, now, basis.trials)
    then = known_then(option, one.zone, one.tested.now, basis.trials)
    return None if then is None else apart_from_now(then)


def _pumping(
    option: Option, basis: Basis, one: ZoneBasis
) -> tuple[float | None, float | None]:
    """Price of pumping a cubic metre, now and at the pressure then."""
    site = basis.site
    price = energy_price(site, one.zone)
    extra = extra_head_m(option, site, one.zone)
    now, _ = supply_energy_kwh_per_m3(site.supply)
    then, _ = supply_energy_kwh_per_m3(site.supply, extra)
    if price is None or now is None or then is None:
        return None, None
    return now * price, then * price


def doubts_of(
    terms: Sequence[ZoneTerms],
    gain: tuple[float | None, float | None],
) -> tuple[str, ...]:
    """Why nothing is proven, whatever the money says.

    Parameters
    ----------
    terms : sequence of ZoneTerms
        The zones.
    gain : tuple of float or None
        Range of what the uniformity gains. [-]

    Returns
    -------
    tuple of str
        Reasons; empty where the money decides.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> doubts_of((), (-0.01, 0.09))
    ('the gain of DU, −0.01 to +0.09, is inside test noise',)
    """
    doubts = []
    for when in ("now", "then"):
        days = min((getattr(one, when).n_days for one in terms), default=LEAST_DAYS)
        if days < LEAST_DAYS:
            tested = f"tested on {days} day{'s' if days > 1 else ''}"
            tested = tested if days else "not tested"
            doubts.append(f"DU {when} {tested}, {LEAST_DAYS} are the least")
    low, high = gain
    if low is not None and high is not None and low <= 0.0 <= high:
        doubts.append(
            f"the gain of DU, {signed(low)} to {signed(high)}, is inside test noise"
        )
    doubts += [one.then.caution for one in terms if one.then.caution]
    return tuple(dict.fromkeys(doubts))
