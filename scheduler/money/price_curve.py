"""Zones of an option and its cost in; the chance that it pays at any price, out."""

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.money.chance import Drawn
from scheduler.money.judged import CostTerms, RuleChoice, ZoneTerms, rule_return

# of the axis, from nothing to twice the larger of today's price and the break-even
STEPS, REACH = 16, 2.0


@dataclass(frozen=True, slots=True)
class PriceCurve:
    """How sure an option is to pay as the price of water moves.

    Attributes
    ----------
    water_money_per_m3 : tuple of float
        Prices of the water alone, pumping as it is. [money per m3]
    chance : tuple of float
        Part of the draws in which it pays. [-]
    """

    water_money_per_m3: tuple[float, ...]
    chance: tuple[float, ...]


def price_curve(
    choice: RuleChoice,
    zones: Sequence[ZoneTerms],
    cost: CostTerms | None,
    *,
    water_money_per_m3: float,
    drawn: Drawn,
) -> PriceCurve | None:
    """Chance that an option pays, along the price of water.

    Parameters
    ----------
    choice : str
        The rule, or each zone's own.
    zones : sequence of ZoneTerms
        Where it is done.
    cost : CostTerms or None
        What it costs.
    water_money_per_m3 : float
        Price of the water today, 0 where none is entered.
    drawn : Drawn
        What may be.

    Returns
    -------
    PriceCurve or None
        None where no chance can be told: under three days of tests, a range or a price
        that is missing.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.money.chance import drawn as draws
    >>> nothing = draws([], within=(0.0, 0.0, 0.0), draws=1)
    >>> price_curve("own rule", (), None, water_money_per_m3=0.7, drawn=nothing) is None
    True
    """
    today = rule_return(
        choice, zones, cost, water_money_per_m3=water_money_per_m3, drawn=drawn
    )
    if today.chance_it_pays is None:
        return None
    tie = today.break_even_water_price_per_m3 or today.break_even_price_per_m3 or 0.0
    most = REACH * max(water_money_per_m3, tie)
    if most <= 0.0:
        return None  # it pays with water for nothing: there is no price to look along
    prices = tuple(most * i / STEPS for i in range(STEPS + 1))
    chances = []
    for price in prices:
        there = rule_return(choice, zones, cost, water_money_per_m3=price, drawn=drawn)
        assert there.chance_it_pays is not None, "it was known today"
        chances.append(there.chance_it_pays)
    return PriceCurve(prices, tuple(chances))
