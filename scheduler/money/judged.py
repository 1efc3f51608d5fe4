"""Water now and then, an outlay and prices in; what it returns and a verdict out."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.money.capital import (
    capital_recovery,
    internal_rate,
    payback_years,
)
from scheduler.money.chance import Drawn, chance_above_zero
from scheduler.money.gain import LEAST_DAYS, KnownDu
from scheduler.money.response import Response
from scheduler.site import Rule
from scheduler.trace import Trace, entered

Verdict = Literal["pays", "does not pay", "not proven"]
# each zone under its own rule, beside the rules for all
OWN = "own rule"
RuleChoice = Rule | Literal["own rule"]
# how sure a verdict must be; between the two it is not proven
SURE = 0.80


@dataclass(frozen=True, slots=True)
class ZoneTerms:
    """One zone of an option.

    Attributes
    ----------
    pump_now_money_per_m3, pump_then_money_per_m3 : float or None
        Price of pumping a cubic metre, now and at the pressure then.
    of_map : Response or None
        The zone's water under the map of the package then, where its legs of cans are
        known; else its own map is drawn together.
    """

    response: Response
    now: KnownDu
    then: KnownDu
    pump_now_money_per_m3: float | None
    pump_then_money_per_m3: float | None
    of_map: Response | None = None

    @property
    def after(self) -> Response:
        """Water once the option is done: under one map, never two."""
        return self.response if self.of_map is None else self.of_map

    def rule(self, choice: RuleChoice) -> Rule:
        """The rule that is meant in this zone."""
        return self.response.zone.chosen_rule if choice == "own rule" else choice


@dataclass(frozen=True, slots=True)
class CostTerms:
    """What an option costs.

    Attributes
    ----------
    parts : tuple of (float, float)
        Money paid now and life in years of each part.
    interest : float
        Of one year. [-]
    repairs_money : float
        Each year.
    other_money : float
        Work, fertilizer and plants that are saved each year, as far as entered.
    years : float
        Over which the worth is counted.
    """

    parts: tuple[tuple[float, float], ...]
    interest: float
    repairs_money: float
    other_money: float
    years: float

    @property
    def outlay_money(self) -> float:
        """Paid now."""
        return sum(money for money, _ in self.parts)

    @property
    def capital_money(self) -> float:
        """Yearly cost of the outlay, each part over its own life."""
        return sum(
            money * capital_recovery(self.interest, life_years=life)
            for money, life in self.parts
        )

    @property
    def yearly_cost_money(self) -> float:
        """Capital and repairs of a year."""
        return self.capital_money + self.repairs_money


@dataclass(frozen=True, slots=True)
class RuleReturn:
    """What an option returns under one rule; None where a price is missing.

    Attributes
    ----------
    saved_m3 : float
        Water of a year. [m3]
    saved_money : float or None
        Water and pumping.
    net_money : float or None
        All savings less the yearly cost.
    net_present_value : float or None
        Worth today over the life.
    internal_rate : float or None
        Interest at which it just pays; None where it never does. [-]
    payback_years : float or None
        Without interest.
    break_even_price_per_m3 : float or None
        What a saved cubic metre must be worth, pumping included; None where no water
        is saved. [money per m3]
    break_even_water_price_per_m3 : float or None
        The same, with what pumping saves taken off: the price of the water alone.
    break_even_losses_money : float or None
        Plant losses a year that it must save besides to pay; 0 where it pays already.
    chance_it_pays : float or None
        None under three days of tests, or where no range is known. [-]
    why : str
        The reason of the verdict.
    """

    rule: RuleChoice
    saved_m3: float
    saved_money: float | None
    net_money: float | None
    net_present_value: float | None
    internal_rate: float | None
    payback_years: float | None
    break_even_price_per_m3: float | None
    break_even_water_price_per_m3: float | None
    break_even_losses_money: float | None
    chance_it_pays: float | None
    verdict: Verdict
    why: str
    trace: Trace


def pumping_saved_money(
    zones: Sequence[ZoneTerms], now_m3: FloatArray, then_m3: FloatArray
) -> FloatArray | None:
    """Money that pumping saves; another pressure changes every cubic metre.

    Parameters
    ----------
    zones : sequence of ZoneTerms
        Prices of pumping.
    now_m3, then_m3 : array of shape (n_zones, ...)
        Water of a year. [m3]

    Returns
    -------
    array of shape (...) or None
        None where a price of pumping is missing.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> pumping_saved_money((), np.zeros(0), np.zeros(0)) is None
    True
    """
    saved: FloatArray | None = None
    for i, one in enumerate(zones):
        now, then = one.pump_now_money_per_m3, one.pump_then_money_per_m3
        if now is None or then is None:
            return None
        part = np.asarray(now_m3[i] * now - then_m3[i] * then)
        saved = part if saved is None else np.asarray(saved + part)
    return saved


def rule_return(
    choice: RuleChoice,
    zones: Sequence[ZoneTerms],
    cost: CostTerms | None,
    *,
    water_money_per_m3: float | None,
    drawn: Drawn,
    doubts: tuple[str, ...] = (),
) -> RuleReturn:
    """What an option returns under one rule.

    Parameters
    ----------
    choice : str
        The rule, or each zone's own.
    zones : sequence of ZoneTerms
        Where it is done.
    cost : CostTerms or None
        None where a price, a life or the interest is missing.
    water_money_per_m3 : float or None
        Price of the water.
    drawn : Drawn
        What may be, for the chance.
    doubts : tuple of str
        Why nothing can be proven, whatever the money says.

    Returns
    -------
    RuleReturn
        Money as far as the prices go; the break-even needs no price of water.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(CostTerms(((9600.0, 12.0),), 0.06, 0.0, 0.0, 12.0).yearly_cost_money)
    1145
    """
    rules = [one.rule(choice) for one in zones]
    pairs = list(zip(zones, rules, strict=True))
    now = np.array([one.response.volume_m3(r, one.now.du_lq) for one, r in pairs])
    then = np.array([one.after.volume_m3(r, one.then.du_lq) for one, r in pairs])
    saved = float((now - then).sum())
    pumped = pumping_saved_money(zones, now, then)
    pumping = None if pumped is None else float(pumped)
    money = None
    if water_money_per_m3 is not None:
        money = saved * water_money_per_m3 + (pumping or 0.0)
    found = _Money(saved, money, pumping, cost)
    chance = None
    can_tell = drawn.n_days >= LEAST_DAYS and not _is_untold(zones)
    if cost is not None and water_money_per_m3 is not None and can_tell:
        net = _net_drawn(pairs, cost, water_money_per_m3, drawn)
        chance = chance_above_zero(net, n_days=drawn.n_days)
    verdict, why = _verdict(found.net, chance, doubts)
    return RuleReturn(
        rule=choice,
        saved_m3=saved,
        saved_money=money,
        net_money=found.net,
        net_present_value=found.worth,
        internal_rate=found.rate,
        payback_years=found.payback,
        break_even_price_per_m3=found.break_even,
        break_even_water_price_per_m3=found.break_even_water,
        break_even_losses_money=None if found.net is None else max(-found.net, 0.0),
        chance_it_pays=chance,
        verdict=verdict,
        why=why,
        trace=_trace(found, (float(now.sum()), float(then.sum())), water_money_per_m3),
    )


def _is_untold(zones: Sequence[ZoneTerms]) -> bool:
    """Whether a uniformity has no range: then no chance can be told."""
    return any(one.low is None for zone in zones for one in (zone.now, zone.then))


@dataclass(frozen=True, slots=True)
class _Money:
    """Savings held against a cost."""

    saved_m3: float
    saved_money: float | None
    pumping_money: float | None
    cost: CostTerms | None

    @property
    def all_saved(self) -> float | None:
        if self.cost is None or self.saved_money is None:
            return None
        return self.saved_money + self.cost.other_money

    @property
    def net(self) -> float | None:
        if self.cost is None or self.all_saved is None:
            return None
        return self.all_saved - self.cost.yearly_cost_money

    @property
    def worth(self) -> float | None:
        if self.cost is None or self.net is None:
            return None
        factor = capital_recovery(self.cost.interest, life_years=self.cost.years)
        return self.net / factor

    @property
    def _over_repairs(self) -> float | None:
        if self.cost is None or self.all_saved is None:
            return None
        return self.all_saved - self.cost.repairs_money

    @property
    def rate(self) -> float | None:
        if self.cost is None or self._over_repairs is None:
            return None
        return internal_rate(self.cost.parts, saved_money=self._over_repairs)

    @property
    def payback(self) -> float | None:
        if self.cost is None or self._over_repairs is None:
            return None
        return payback_years(self.cost.outlay_money, saved_money=self._over_repairs)

    @property
    def _to_earn(self) -> float | None:
        if self.cost is None or self.saved_m3 <= 0:
            return None
        return max(self.cost.yearly_cost_money - self.cost.other_money, 0.0)

    @property
    def break_even(self) -> float | None:
        return None if self._to_earn is None else self._to_earn / self.saved_m3

    @property
    def break_even_water(self) -> float | None:
        if self._to_earn is None or self.pumping_money is None:
            return None
        return max(self._to_earn - self.pumping_money, 0.0) / self.saved_m3


def _net_drawn(
    pairs: Sequence[tuple[ZoneTerms, Rule]],
    cost: CostTerms,
    water_money_per_m3: float,
    drawn: Drawn,
) -> FloatArray:
    zones = [one for one, _ in pairs]
    now = [z.response.volumes_m3(r, drawn.now[i]) for i, (z, r) in enumerate(pairs)]
    then = [z.after.volumes_m3(r, drawn.then[i]) for i, (z, r) in enumerate(pairs)]
    before, after = np.array(now), np.array(then)
    saved = (before - after).sum(axis=0) * water_money_per_m3 * drawn.water
    pumping = pumping_saved_money(zones, before, after)
    if pumping is not None:
        saved = saved + pumping * drawn.energy
    spent = cost.capital_money * drawn.outlay + cost.repairs_money
    return np.asarray(saved + cost.other_money - spent)


def _verdict(
    net_money: float | None, chance: float | None, doubts: tuple[str, ...]
) -> tuple[Verdict, str]:
    if doubts:
        return "not proven", "; ".join(doubts)
    if net_money is None:
        return "not proven", "a price, a life or the interest is not entered"
    if chance is None:
        return "not proven", "how far DU may be off is not known"
    if chance >= SURE:
        return "pays", f"it pays in {chance:.0%} of what may be"
    if chance <= 1.0 - SURE:
        return "does not pay", f"it pays in only {chance:.0%} of what may be"
    return "not proven", f"it pays in {chance:.0%} of what may be: too near to call"


def _trace(found: _Money, water_m3: tuple[float, float], price: float | None) -> Trace:
    cost = found.cost
    spent = Trace(
        "yearly_cost_money",
        None if cost is None else cost.yearly_cost_money,
        "outlay x r / (1 - (1 + r)^-n), each part over its own life, and repairs",
        "Blank and Tarquin, Engineering Economy (from memory)",
        ()
        if cost is None
        else (
            entered("outlay_money", cost.outlay_money, "after the grant"),
            entered("interest", cost.interest),
            entered("repairs_money", cost.repairs_money),
        ),
    )
    saved = Trace(
        "saved_m3",
        found.saved_m3,
        "water now - water then",
        "definition",
        (entered("now_m3", water_m3[0]), entered("then_m3", water_m3[1])),
    )
    money = Trace(
        "saved_money",
        found.saved_money,
        "saved_m3 x price, and the pumping that is saved",
        "definition",
        (saved, entered("water_price_money_per_m3", price, "site.toml: tariff")),
    )
    return Trace(
        "net_money",
        found.net,
        "saved_money + other savings entered - yearly_cost_money",
        "definition",
        (money, spent),
    )
