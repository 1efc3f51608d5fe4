"""A site and its history in; what uneven water costs, what options return, out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.errors import Finding, QuantityError
from scheduler.field.drawn import tried_catch
from scheduler.field.evidence import zone_catch
from scheduler.field.irrigation_wind import site_wind
from scheduler.field.profile import Profile
from scheduler.money.energy import energy_price, pump_power_kw
from scheduler.money.factors import roots_du
from scheduler.money.gain import Trials, known_now, package_trials
from scheduler.money.retrofit import OptionResult, option_result
from scheduler.money.rule_cost import Prices
from scheduler.money.terms import Basis, ZoneBasis
from scheduler.money.tried import tried_now
from scheduler.money.water_cost import ZoneCost, zone_cost
from scheduler.record import History
from scheduler.season import SeasonPlan, ZoneSeason, run_season
from scheduler.site import Site, Zone
from scheduler.watering.energy_hours import supply_energy_kwh_per_m3

BEST = "best"
SAME = 1e-9


@dataclass(frozen=True, slots=True)
class DemandCharge:
    """The charge on the pump's power, apart: fewer kWh do not lower it.

    Attributes
    ----------
    power_kw : float
        Pump at its flow. [kW]
    money_a_month : float
        Power times the price.
    """

    power_kw: float
    money_a_month: float


@dataclass(frozen=True, slots=True)
class Total:
    """Sums over the zones that were run; money None where a zone has none."""

    volume_m3: float
    above_need_m3: float
    money: float | None
    above_need_money: float | None
    energy_kwh: float | None
    energy_money: float | None


@dataclass(frozen=True, slots=True, eq=False)
class SiteCost:
    """What uneven water costs a site, and what each option returns.

    Attributes
    ----------
    year : str
        Name of the season; empty where none could be run.
    reference : (float, str) or None
        Uniformity that zones are held against, and its name.
    zones : tuple of ZoneCost
        Zones whose season was run.
    options : tuple of OptionResult
        Cheapest first; those without a price last. Doing nothing is not among them.
    demand : DemandCharge or None
        None where it is not entered.
    """

    site: Site
    year: str
    water_money_per_m3: float | None
    reference: tuple[float, str] | None
    zones: tuple[ZoneCost, ...]
    total: Total
    options: tuple[OptionResult, ...]
    demand: DemandCharge | None
    findings: tuple[Finding, ...]

    @property
    def prices(self) -> Prices | None:
        """Of the first zone that was run, else of the site's first; None without."""
        if self.zones:
            return self.zones[0].prices
        for zone in self.site.zones:
            return zone_prices(self.site, zone, self.water_money_per_m3)
        return None


def site_cost(  # noqa: PLR0913  # the one door: what may be asked
    site: Site,
    history: History,
    today: dt.date,
    *,
    year: int | None = None,
    zone_ids: Sequence[str] = (),
    water_money_per_m3: float | None = None,
    reference: float | str = BEST,
    worked: tuple[SeasonPlan, Trials] | None = None,
    profiles: Mapping[str, Profile] | None = None,
    tried_du: Mapping[str, float] | None = None,
) -> SiteCost:
    """What uneven water costs, and what each option returns.

    Parameters
    ----------
    site : Site
        The site.
    history : History
        Its tests, weather and rain.
    today : date
        Tests of later days are left out.
    year : int, optional
        As in `run_season`.
    zone_ids : sequence of str, optional
        Only these zones, and the options in them.
    water_money_per_m3 : float, optional
        Another price of water than that of the tariff.
    reference : float or str
        A DU, the id of a tested package, or `best` for the best measured zone.
    worked : (SeasonPlan, Trials), optional
        Season and trials of the same zones and tests, where a caller has kept them.
    profiles : mapping of str to Profile, optional
        One head's legs of cans, by package: an option's package that has them is
        counted by its own map.
    tried_du : mapping of str to float, optional
        DU low quarter to try instead of what was tested, by zone. What tests say of
        the best zone, and of an option, stays. [-]

    Returns
    -------
    SiteCost
        By zone and option, with everything that is missing left empty.

    Raises
    ------
    QuantityError
        If the reference is no DU and no tested package.

    References
    ----------
    Source: definition; its parts name their own.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> empty = Site(name="a", units="us", place=here)
    >>> site_cost(empty, History(), dt.date(2026, 6, 8)).total.volume_m3
    0
    """
    tariff = site.tariff
    price = water_money_per_m3
    if price is None and tariff is not None:
        price = tariff.water_price_money_per_m3
    plan, trials = worked or (
        run_season(
            site, history, today, year=year, zone_ids=zone_ids, tried_du=tried_du
        ),
        package_trials(site, history),
    )
    wanted = {one.casefold() for one in zone_ids}
    bases = _bases(site, history, today, plan, wanted)
    for name, du_lq in (tried_du or {}).items():
        if (one := bases.get(name.casefold())) is not None:
            bases[name.casefold()] = _tried(one, du_lq)
    held = _reference(reference, tuple(bases.values()), trials)
    zones = tuple(_zone(one, site, price, plan, held) for one in _run(bases))
    basis = Basis(site, history, trials, price, bases, profiles=profiles or {})
    options = [
        option_result(one, basis)
        for one in site.options
        if one.deed != "do nothing"
        and (not wanted or wanted & {name.casefold() for name in one.zones})
    ]
    said = (*plan.all_findings, *_price_findings(site, price),
            *(f for one in options for f in one.findings))  # fmt: skip
    return SiteCost(
        site=site,
        year=plan.days.name if plan.days else "",
        water_money_per_m3=price,
        reference=held,
        zones=zones,
        total=_total(zones),
        options=tuple(sorted(options, key=_outlay_order)),
        demand=_demand(site),
        findings=tuple(dict.fromkeys(said)),
    )


def _outlay_order(one: OptionResult) -> tuple[bool, float]:
    money = one.outlay_money
    return money is None, money or 0.0


def _bases(
    site: Site,
    history: History,
    today: dt.date,
    plan: SeasonPlan,
    wanted: set[str],
) -> dict[str, ZoneBasis]:
    """What is known of each zone that has a rate and a uniformity."""
    seasons = {one.zone.id: one for one in plan.zones}
    wind = site_wind(site, history.wind)
    nothing = {
        name.casefold(): option
        for option in site.options
        if option.deed == "do nothing"
        for name in option.zones
    }
    found = {}
    for zone in site.zones:
        if wanted and zone.id.casefold() not in wanted:
            continue
        tests = [t for t in history.tests if t.zone.casefold() == zone.id.casefold()]
        catch, _ = zone_catch(zone, site.package_of(zone), tests, today, site_wind=wind)
        if catch is None:
            continue
        key = zone.id.casefold()
        now = known_now(zone, catch, history.tests, today, nothing.get(key))
        season = seasons.get(zone.id)
        # of several plants under a valve, the season is of those that rule
        ruling = zone if season is None else season.zone
        found[key] = ZoneBasis(ruling, catch, season, now)
    return found


def _tried(one: ZoneBasis, du_lq: float) -> ZoneBasis:
    """A zone as if it were of another uniformity."""
    catch = tried_catch(one.catch, du_lq)
    now = tried_now(one.now, catch.du_lq)
    return replace(one, catch=catch, now=now, tested=one)


def _run(bases: dict[str, ZoneBasis]) -> list[tuple[ZoneBasis, ZoneSeason]]:
    """Zones whose season was run."""
    return [
        (one, one.season)
        for one in bases.values()
        if one.season is not None and one.season.input is not None
    ]


def _reference(
    asked: float | str, bases: Sequence[ZoneBasis], trials: Trials
) -> tuple[float, str] | None:
    if isinstance(asked, float):
        if not 0.05 <= asked <= 1.0:
            raise QuantityError(
                f"a DU of {asked:g} is out of range", "give one from 0.05 to 1"
            )
        return asked, "target as asked"
    if asked != BEST:
        known = trials.at_wind.get(asked)
        if known is None:
            there = ", ".join(trials.at_wind) or "none"
            raise QuantityError(
                f"{asked!r} is neither a DU nor a tested package",
                f"give a DU such as 0.85, best, or a tested package: {there}",
            )
        return known.du_lq, f"package {asked}: {known.source}"
    tested = [one.tested or one for one in bases]
    measured = [one for one in tested if one.catch.basis == "measured"]
    if not measured:
        return None
    best = max(measured, key=lambda one: one.catch.du_lq)
    return best.catch.du_lq, f"the best tested zone, {best.zone.id}"


def _zone(
    of: tuple[ZoneBasis, ZoneSeason],
    site: Site,
    price: float | None,
    plan: SeasonPlan,
    held: tuple[float, str] | None,
) -> ZoneCost:
    basis, season = of
    assert plan.days is not None, "a season was run"
    assert season.catch is not None, "a season was run"
    cans, roots = basis.catch.du_lq, season.catch.du_lq

    def felt(du_lq: float) -> float:
        return roots_du(du_lq, of_cans=cans, of_roots=roots)

    now = basis.now
    known = None
    # the range of a stated uniformity is not that of the map which was run
    is_own = abs(now.du_lq - cans) < SAME
    if is_own and now.low is not None and now.high is not None:
        known = (felt(now.low), felt(now.high))
    return zone_cost(
        season,
        site,
        zone_prices(site, basis.zone, price),
        dates=plan.days.date,
        du_range=known,
        reference=None if held is None else (felt(held[0]), held[1]),
    )


def zone_prices(site: Site, zone: Zone, water_money_per_m3: float | None) -> Prices:
    """What a cubic metre costs in a zone, as far as entered.

    Parameters
    ----------
    site : Site
        Tariff and pump.
    zone : Zone
        For its hours.
    water_money_per_m3 : float or None
        Price of the water.

    Returns
    -------
    Prices
        None for what is not entered.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> zone = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off")
    >>> zone_prices(Site(name="a", units="us", place=here), zone, 0.5).money_per_m3
    0.5
    """
    tariff = site.tariff
    energy, _ = supply_energy_kwh_per_m3(site.supply)
    return Prices(
        water_money_per_m3,
        energy,
        energy_price(site, zone),
        tariff.nitrogen_in_drainage_mg_per_l if tariff else None,
        tariff.nitrogen_price_money_per_kg if tariff else None,
    )


def _total(zones: Sequence[ZoneCost]) -> Total:
    own = [one.own for one in zones]
    return Total(
        volume_m3=sum(one.volume_m3 for one in own),
        above_need_m3=sum(one.above_need_m3 for one in own),
        money=_sum([one.money for one in own]),
        above_need_money=_sum([one.above_need_money for one in zones]),
        energy_kwh=_sum([one.energy_kwh for one in own]),
        energy_money=_sum([one.energy_money for one in own]),
    )


def _sum(values: Sequence[float | None]) -> float | None:
    known = [one for one in values if one is not None]
    return float(np.sum(known)) if known and len(known) == len(values) else None


def _demand(site: Site) -> DemandCharge | None:
    price = site.tariff.demand_price_money_per_kw if site.tariff else None
    flow = site.supply.flow_l_per_min if site.supply else None
    energy, _ = supply_energy_kwh_per_m3(site.supply)
    if price is None or flow is None or energy is None:
        return None
    power = pump_power_kw(flow, energy_kwh_per_m3=energy)
    return DemandCharge(power, power * price)


def _price_findings(site: Site, price: float | None) -> tuple[Finding, ...]:
    said = []
    where = "site.toml: tariff"
    if price is None:
        what = (
            "no price of water is entered: volumes only, and what it would have to be"
        )
        fix = "enter water_price under [tariff], or try --price"
        said.append(Finding("note", where, what, fix))
    energy, _ = supply_energy_kwh_per_m3(site.supply)
    if energy is None:
        what = "head or pumping efficiency is not entered: pumping is not in any sum"
        fix = "enter head and pumping_efficiency under [supply]"
        said.append(Finding("note", "site.toml: supply", what, fix))
    elif site.tariff is None or site.tariff.energy_price_money_per_kwh is None:
        what = "no price of energy is entered: pumping is not in any sum of money"
        fix = "enter energy_price_money_per_kwh under [tariff]"
        said.append(Finding("note", where, what, fix))
    return tuple(said)
