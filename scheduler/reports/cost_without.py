"""A cost without prices in; what it can say all the same, and the remedy, out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.reports.cost_words import volume, volume_unit

if TYPE_CHECKING:
    from scheduler.money.economics import SiteCost
    from scheduler.units import System

LINES = {
    "us": "water_price_money_per_kgal = 3.50",
    "metric": "water_price_money_per_m3 = 0.90",
}


def missing_prices(cost: SiteCost) -> tuple[str, ...]:
    """Prices that are not entered, in words; interest only where there are options."""
    tariff, prices = cost.site.tariff, cost.prices
    missing = []
    if cost.water_money_per_m3 is None:
        missing.append("the price of water")
    if prices is None or prices.energy_money_per_kwh is None:
        missing.append("the price of energy")
    has_own = all(one.option.interest is not None for one in cost.options)
    if cost.options and not has_own and (tariff is None or tariff.interest is None):
        missing.append("the interest")
    return tuple(missing)


def without_price_words(cost: SiteCost, units: System) -> str:
    """What is known in water where water has no price; empty where it has one."""
    if cost.water_money_per_m3 is not None:
        return ""
    said = "No price of water is entered, so this is told in water"
    if cost.zones:
        unit, total = volume_unit(units), cost.total
        said += (
            f": {volume(total.volume_m3, units)} {unit} a year, "
            f"{volume(total.above_need_m3, units)} of it above need"
        )
    said += ". What it is worth stays empty; nothing is guessed."
    if any(one.own and one.own.break_even_price_per_m3 for one in cost.options):
        said += " The break-even says what a price would have to be."
    return said


def remedy_words(cost: SiteCost, units: System) -> str:
    """What to enter where; empty where nothing is missing."""
    missing = missing_prices(cost)
    if not missing:
        return ""
    listed = ", ".join(missing[:-1]) + (" and " if len(missing) > 1 else "")
    where = "under [tariff] in site.toml"
    if "the price of water" not in missing:
        return f"Not entered: {listed}{missing[-1]}; add it {where}."
    return (
        f"Enter {listed}{missing[-1]} {where}, such as {LINES[units]}, or try one "
        "first."
    )
