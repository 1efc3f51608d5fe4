"""One option of a site in; what it costs, returns and changes, and a verdict, out."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.errors import Finding
from scheduler.money.actual import ActualSaving, actual_saving
from scheduler.money.chance import drawn, gain_range
from scheduler.money.changes import Changes, zone_changes
from scheduler.money.gain import KnownDu
from scheduler.money.judged import (
    CostTerms,
    RuleChoice,
    RuleReturn,
    ZoneTerms,
    rule_return,
)
from scheduler.money.outlay import Outlay, outlay
from scheduler.money.price_curve import PriceCurve, price_curve
from scheduler.money.rule_cost import L_PER_M3
from scheduler.money.sensitivity import Sensitivity, sensitivities
from scheduler.money.terms import Basis, doubts_of, option_cost, option_terms
from scheduler.money.water_cost import same_service_saved_mm
from scheduler.money.year_of import YearOf, years_of
from scheduler.money.zone_quarters import ZoneQuarters, zone_quarters
from scheduler.option import Option
from scheduler.site import RULES, Site

SAME = 1e-9
CHOICES: tuple[RuleChoice, ...] = (*RULES, "own rule")


@dataclass(frozen=True, slots=True, eq=False)
class OptionResult:
    """What an option comes to.

    Attributes
    ----------
    cost : CostTerms or None
        None where a price, a life or the interest is missing.
    missing : tuple of str
        What is not entered.
    known : tuple of (str, KnownDu, KnownDu)
        Zone, its uniformity now and then.
    gain_low, gain_high : float or None
        Range of what the uniformity gains; None where nobody knows. [-]
    returns : tuple of RuleReturn
        Under the four rules, and each zone under its own, last; empty where nothing
        can be computed.
    same_service_saved_m3 : float or None
        Less water with no more stress in the driest quarters; None without seasons.
    potential_saved_m3 : float or None
        The forecast, under each zone's own rule.
    actual : tuple of ActualSaving
        What was re-tested; empty where it was not done.
    curve : PriceCurve or None
        Chance along the price of water; None where no chance can be told.
    years : tuple of YearOf
        A year now and one then; empty where nothing can be computed.
    terms : tuple of ZoneTerms
        Its zones, now and then.
    quarters : tuple of ZoneQuarters
        What each quarter of each zone gets, now and then.
    """

    option: Option
    outlay: Outlay
    cost: CostTerms | None
    missing: tuple[str, ...]
    known: tuple[tuple[str, KnownDu, KnownDu], ...]
    gain_low: float | None
    gain_high: float | None
    returns: tuple[RuleReturn, ...]
    same_service_saved_m3: float | None
    sensitivities: tuple[Sensitivity, ...]
    changes: tuple[Changes, ...]
    actual: tuple[ActualSaving, ...]
    findings: tuple[Finding, ...]
    curve: PriceCurve | None = None
    years: tuple[YearOf, ...] = ()
    terms: tuple[ZoneTerms, ...] = ()
    quarters: tuple[ZoneQuarters, ...] = ()

    @property
    def own(self) -> RuleReturn | None:
        """The return with each zone under its own rule."""
        return self.returns[-1] if self.returns else None

    @property
    def potential_saved_m3(self) -> float | None:
        """The forecast saving."""
        return self.own.saved_m3 if self.own else None

    @property
    def outlay_money(self) -> float | None:
        """Paid now, after the grant."""
        return self.outlay.net_money


def option_result(option: Option, basis: Basis) -> OptionResult:
    """What an option costs, returns and changes.

    Parameters
    ----------
    option : Option
        One that does something.
    basis : Basis
        The site, worked up.

    Returns
    -------
    OptionResult
        With everything that is missing left empty.

    References
    ----------
    Source: definition; its parts name their own.

    Examples
    --------
    >>> CHOICES[0], CHOICES[-1]
    ('average', 'own rule')
    """
    spent = outlay(option, basis.site)
    cost, missing = option_cost(option, basis.site, spent)
    terms, said = option_terms(option, basis)
    findings = (*spent.findings, *said, *_cost_findings(option, missing))
    actual = _actual(option, basis)
    if not terms:
        return OptionResult(
            option,
            spent,
            cost,
            missing,
            (),
            None,
            None,
            (),
            None,
            (),
            (),
            actual,
            findings,
        )
    within = _within(option, basis.site)
    found = drawn([(one.now, one.then) for one in terms], within=within)
    area = np.array([one.response.zone.area_m2 for one in terms])
    is_told = all(x.low is not None for one in terms for x in (one.now, one.then))
    gain = gain_range(found, area) if is_told else (None, None)
    doubts = doubts_of(terms, gain)
    returns = tuple(
        rule_return(
            choice,
            terms,
            cost,
            water_money_per_m3=basis.water_money_per_m3,
            drawn=found,
            doubts=doubts,
        )
        for choice in CHOICES
    )
    ranked: tuple[Sensitivity, ...] = ()
    if cost is not None and basis.water_money_per_m3 is not None:
        price = basis.water_money_per_m3
        ranked = sensitivities(
            "own rule", terms, cost, water_money_per_m3=price, within=within
        )
    changed = tuple(_changed(option, basis, one) for one in terms)
    return OptionResult(
        option=option,
        outlay=spent,
        cost=cost,
        missing=missing,
        known=tuple((one.response.zone.id, one.now, one.then) for one in terms),
        gain_low=gain[0],
        gain_high=gain[1],
        returns=returns,
        same_service_saved_m3=_same_service(terms),
        sensitivities=ranked,
        changes=changed,
        actual=actual,
        findings=(*findings, *_change_findings(option, changed)),
        curve=price_curve(
            "own rule",
            terms,
            cost,
            water_money_per_m3=basis.water_money_per_m3 or 0.0,
            drawn=found,
        ),
        years=years_of(option, basis.site, terms),
        terms=terms,
        quarters=tuple(zone_quarters(one) for one in terms),
    )


def _actual(option: Option, basis: Basis) -> tuple[ActualSaving, ...]:
    """What was re-tested, whatever was forecast."""
    found = []
    for name in option.zones:
        one = basis.zones.get(name.casefold())
        if one is not None:
            response = basis.response(one, option.season_need_mm)
            found.append(
                actual_saving(option, basis.site, one.zone, basis.history, response)
            )
    return tuple(one for one in found if one is not None)


def _within(option: Option, site: Site) -> tuple[float, float, float]:
    tariff = site.tariff
    if tariff is None:
        return 0.0, 0.0, option.price_within
    return tariff.water_price_within, tariff.energy_price_within, option.price_within


def _same_service(terms: Sequence[ZoneTerms]) -> float | None:
    """Less water for today's stress in the driest quarters."""
    total = 0.0
    for one in terms:
        season = one.response.season
        # another map serves other places: what is the same service there is not known
        if one.of_map is not None:
            return None
        if one.response.need_mm is not None or season is None or season.input is None:
            return None
        # what is known of now may be stated: then the season's own map says nothing
        if abs(one.response.can_du_lq - one.now.du_lq) > SAME:
            return None
        then = one.response.at_roots(one.then.du_lq)
        saved = same_service_saved_mm(season, then)
        total += saved * season.zone.area_m2 / L_PER_M3
    return total


def _changed(option: Option, basis: Basis, one: ZoneTerms) -> Changes:
    rule = one.rule("own rule")
    now = one.response.volume_m3(rule, one.now.du_lq)
    then = one.after.volume_m3(rule, one.then.du_lq)
    return zone_changes(
        option,
        basis.site,
        one.response.zone,
        one.response.catch,
        season=one.response.season,
        water_ratio=then / now if now > 0 else 1.0,
    )


def _cost_findings(option: Option, missing: tuple[str, ...]) -> tuple[Finding, ...]:
    if not missing:
        return ()
    what = f"not entered: {', '.join(missing)}; so no money can be told of it"
    fix = "enter it in options.toml or under [tariff]; nothing is guessed"
    return (Finding("note", f"option {option.id}", what, fix),)


def _change_findings(option: Option, changed: Sequence[Changes]) -> tuple[Finding, ...]:
    said = []
    for one in changed:
        where = f"option {option.id}: zone {one.zone}"
        if one.fits_pump is False:
            what = "its flow at once is more than the pump gives"
            fix = "split the zone over two valves, or choose smaller nozzles"
            said.append(Finding("warning", where, what, fix))
        if one.fits_window is False:
            what = "its longest night no longer fits the window"
            fix = "open the window, or water more often"
            said.append(Finding("warning", where, what, fix))
        if one.changes_rate:
            what = "its rate changes: the minutes on the clock no longer fit"
            fix = "test it when it is done, and plan the week anew"
            said.append(Finding("note", where, what, fix))
    return tuple(said)
