"""Section 1: what was assumed: prices, ground, need of a season, rule, outlay."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from scheduler.reports.cost_without import remedy_words, without_price_words
from scheduler.reports.cost_words import EMPTY, count, money, per_volume
from scheduler.reports.paper import Block, Column, Facts, Section, Table, plain
from scheduler.units import shown

if TYPE_CHECKING:
    from scheduler.money.economics import SiteCost
    from scheduler.money.outlay import OutlayLine
    from scheduler.money.retrofit import OptionResult
    from scheduler.units import System


def assumptions_section(
    cost: SiteCost, units: System, one: OptionResult | None = None
) -> Section:
    """Prices of the site; with an option its ground, need, life and outlay."""
    facts = [*_prices(cost, units)]
    blocks: list[Block] = []
    if one is not None:
        facts += [*_ground(cost, units, one), *_capital(cost, one)]
        if one.option.items:
            blocks.append(outlay_table(one, units))
    return Section("Assumptions", (Facts(tuple(facts)), *blocks), "1")


def currency(cost: SiteCost) -> str:
    """Name of the money, as entered."""
    tariff = cost.site.tariff
    return plain(tariff.currency) if tariff else "money"


def _prices(cost: SiteCost, units: System) -> Iterator[tuple[str, str]]:
    tariff = cost.site.tariff
    name = currency(cost)
    said = f"in {name}: water {per_volume(cost.water_money_per_m3, units)}"
    prices = cost.prices
    pumping = prices.pumping_money_per_m3 if prices else None
    energy = prices.energy_money_per_kwh if prices else None
    said += f"; energy {shown(energy, 'money_per_kwh', units)}, pumping "
    yield "Prices", f"{said}{per_volume(pumping, units)}"
    hour = tariff.labour_price_money_per_h if tariff else None
    interest = tariff.interest if tariff else None
    told = EMPTY if interest is None else f"{interest:.1%} a year"
    yield "", f"an hour of work {money(hour)}; interest {told}"
    without = without_price_words(cost, units)
    if without:
        yield "Without a price", plain(f"{without} {remedy_words(cost, units)}")
    if cost.demand is not None:
        yield (
            "Demand charge",
            f"{cost.demand.power_kw:.1f} kW, {money(cost.demand.money_a_month)} {name} "
            "a month, apart: fewer kWh do not lower it",
        )
    yield "Season", plain(cost.year) or "none could be run; the need is as entered"


def _ground(
    cost: SiteCost, units: System, one: OptionResult
) -> Iterator[tuple[str, str]]:
    for name in one.option.zones:
        zone = cost.site.zone(name)
        if zone is None:
            continue
        run = next((each for each in cost.zones if each.zone_id == zone.id), None)
        need = one.option.season_need_mm or (run.need_mm if run else None)
        how = "as entered" if one.option.season_need_mm else "with an even catch"
        digits = 1 if units == "us" else 0
        yield (
            f"Zone {plain(zone.id)}",
            f"{plain(zone.name)}, {shown(zone.area_m2, 'm2', units)}; need of the "
            f"season {shown(need, 'mm', units, digits=digits)} ({how}); rule "
            f"{zone.chosen_rule}",
        )


def _capital(cost: SiteCost, one: OptionResult) -> Iterator[tuple[str, str]]:
    option, name = one.option, currency(cost)
    life = EMPTY if option.life_years is None else f"{option.life_years:g} years"
    said = f"{money(one.outlay_money)} {name}, life {life}"
    said += f", repairs {money(option.repairs_money_a_year)} a year"
    said += f", grant {option.grant_share:.0%}" if option.grant_share else ", no grant"
    within = f"; it may be off by {option.price_within:.0%}"
    yield "Outlay", said + (within if option.price_within else "; taken as exact")
    if one.missing:
        yield "Not entered", plain("; ".join(one.missing))


def outlay_table(one: OptionResult, units: System) -> Table:
    """Every line of the outlay; a missing price stays an en dash."""
    columns = (
        Column("what", 3.4),
        Column("how many", 1.4, is_number=True),
        Column("each", 1.6, is_number=True),
        Column("money", 1.4, is_number=True),
        Column("life", 1, is_number=True),
    )
    rows = tuple(_outlay_row(line, units) for line in one.outlay.lines)
    return Table(columns, rows, is_filled=True)


def _outlay_row(line: OutlayLine, units: System) -> tuple[str, ...]:
    if line.is_length:
        many = shown(line.quantity, "m", units, digits=0)
        each = shown(line.unit_money, "money_per_m", units)
    else:
        many = count(line.quantity)
        each = EMPTY if line.unit_money is None else f"{line.unit_money:,.2f}"
    life = EMPTY if line.life_years is None else f"{line.life_years:g} y"
    return plain(line.what), many, each, money(line.money), life
