"""An option's terms in; what drives the answer, ranked, out."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from scheduler.money.chance import drawn as draw
from scheduler.money.gain import KnownDu
from scheduler.money.judged import (
    CostTerms,
    RuleChoice,
    ZoneTerms,
    rule_return,
)
from scheduler.site import RULES

# how far a price or a life is moved where nobody said how far it may be off
TENTH = 0.1
POINTS = 0.02


@dataclass(frozen=True, slots=True)
class Sensitivity:
    """One driver, moved down and up with all others held.

    Attributes
    ----------
    driver, low, high : str
        What is moved, and to where.
    net_low_money, net_high_money : float
        Yearly net at each end.
    """

    driver: str
    low: str
    high: str
    net_low_money: float
    net_high_money: float

    @property
    def swing_money(self) -> float:
        """How far the answer moves."""
        return abs(self.net_high_money - self.net_low_money)


@dataclass(frozen=True, slots=True)
class _At:
    """A point of the answer."""

    choice: RuleChoice
    zones: tuple[ZoneTerms, ...]
    cost: CostTerms
    water_money_per_m3: float


def _net(at: _At) -> float:
    nothing = draw([], within=(0.0, 0.0, 0.0), draws=1)
    found = rule_return(
        at.choice,
        at.zones,
        at.cost,
        water_money_per_m3=at.water_money_per_m3,
        drawn=replace(nothing, n_days=0),
        doubts=("only the money is asked for",),
    )
    assert found.net_money is not None, "every price is there"
    return found.net_money


def sensitivities(
    choice: RuleChoice,
    zones: Sequence[ZoneTerms],
    cost: CostTerms,
    *,
    water_money_per_m3: float,
    within: tuple[float, float, float],
) -> tuple[Sensitivity, ...]:
    """What drives the yearly net, the strongest first.

    Parameters
    ----------
    choice : str
        The rule.
    zones : sequence of ZoneTerms
        Where it is done.
    cost : CostTerms
        What it costs.
    water_money_per_m3 : float
        Price of the water.
    within : tuple of float
        How far the prices of water and energy and the outlay may be off; a tenth where
        0 was given. [-]

    Returns
    -------
    tuple of Sensitivity
        Uniformities over their own ranges, where known; prices and life as given,
        else by a tenth; interest by two points; the four rules.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> Sensitivity("life", "9", "11", 1.0, -2.0).swing_money
    3.0
    """
    at = _At(choice, tuple(zones), cost, water_money_per_m3)
    water, energy, outlay = (one or TENTH for one in within)
    moved = [
        *_uniformities(at),
        _both("price of water", water, lambda by: replace(
            at, water_money_per_m3=water_money_per_m3 * by)),
        _both("outlay", outlay, lambda by: replace(at, cost=replace(
            cost, parts=tuple((money * by, life) for money, life in cost.parts)))),
        _both("life", TENTH, lambda by: replace(at, cost=replace(
            cost, parts=tuple((money, life * by) for money, life in cost.parts)))),
        Sensitivity(
            "interest", f"{max(cost.interest - POINTS, 0):.1%}",
            f"{cost.interest + POINTS:.1%}",
            _net(replace(at, cost=replace(
                cost, interest=max(cost.interest - POINTS, 0.0)))),
            _net(replace(at, cost=replace(cost, interest=cost.interest + POINTS)))),
        _rules(at),
    ]  # fmt: skip
    if all(one.pump_now_money_per_m3 is not None for one in zones):
        moved.append(_both("price of energy", energy, lambda by: _pumped(at, by)))
    return tuple(sorted(moved, key=lambda one: -one.swing_money))


def _both(driver: str, part: float, moved: Callable[[float], _At]) -> Sensitivity:
    low, high = moved(1.0 - part), moved(1.0 + part)
    return Sensitivity(driver, f"-{part:.0%}", f"+{part:.0%}", _net(low), _net(high))


def _pumped(at: _At, by: float) -> _At:
    zones = tuple(
        replace(
            one,
            pump_now_money_per_m3=(one.pump_now_money_per_m3 or 0.0) * by,
            pump_then_money_per_m3=(one.pump_then_money_per_m3 or 0.0) * by,
        )
        for one in at.zones
    )
    return replace(at, zones=zones)


def _rules(at: _At) -> Sensitivity:
    nets = {rule: _net(replace(at, choice=rule)) for rule in RULES}
    low, high = min(nets, key=nets.__getitem__), max(nets, key=nets.__getitem__)
    return Sensitivity("rule", low, high, nets[low], nets[high])


def _uniformities(at: _At) -> Iterator[Sensitivity]:
    for i, zone in enumerate(at.zones):
        for is_now, known in ((True, zone.now), (False, zone.then)):
            if known.low is None or known.high is None:
                continue
            ends = _ends(known, zone.now)
            nets = [_net(_at_du(at, i, is_now=is_now, du_lq=one)) for one in ends]
            name = f"DU {'now' if is_now else 'then'}"
            if len(at.zones) > 1:
                name += f", {zone.response.zone.id}"
            yield Sensitivity(name, f"{ends[0]:.2f}", f"{ends[1]:.2f}", *nets)


def _ends(known: KnownDu, now: KnownDu) -> tuple[float, float]:
    assert known.low is not None, "the caller has looked"
    assert known.high is not None, "the caller has looked"
    add = now.du_lq if known.is_difference else 0.0
    low, high = (min(max(add + one, 0.05), 0.999) for one in (known.low, known.high))
    return low, high


def _at_du(at: _At, i: int, *, is_now: bool, du_lq: float) -> _At:
    zone = at.zones[i]
    moved = (
        replace(zone, now=replace(zone.now, du_lq=du_lq))
        if is_now
        else replace(zone, then=replace(zone.then, du_lq=du_lq))
    )
    return replace(at, zones=(*at.zones[:i], moved, *at.zones[i + 1 :]))
