"""What uneven water costs in, plain text out, break-even first; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.reports.cost_nights import nights_words
from scheduler.reports.cost_options import option_text
from scheduler.reports.cost_week import periods_text, week_chains
from scheduler.reports.cost_without import remedy_words, without_price_words
from scheduler.reports.cost_words import (
    count,
    money,
    option_name,
    per_volume,
    volume,
    volume_unit,
)
from scheduler.reports.text import WIDTH, explain_text, shorten, table
from scheduler.said import day_text
from scheduler.site import RULES
from scheduler.units import shown

if TYPE_CHECKING:
    from scheduler.money.economics import SiteCost
    from scheduler.money.retrofit import OptionResult
    from scheduler.money.rule_cost import RuleCost
    from scheduler.money.water_cost import ZoneCost
    from scheduler.money.with_week import WithWeek
    from scheduler.units import System

METHOD = (
    "Root zone balance of FAO-56 chapter 8 at every catch position. Above need: what "
    "positions got above what an even catch would be given in the same nights; its "
    "range is that of the zone's own DU. Drained holds rain that found no room. "
    "Another DU is the zone's own map of catches, drawn together. Same service: no "
    "more days of stress in the driest quarter than now."
)


def cost_text(cost: SiteCost, units: System, around: WithWeek | None = None) -> str:
    """The whole site: break-even of every option, zones, the week, each option."""
    parts = [_assumptions(cost, units)]
    if cost.options:
        parts.append(_break_even(cost, units))
    if cost.zones:
        parts += [_zones(cost, units), _rules(cost, units)]
    else:
        parts.append("No season can be run: see the findings.")
    if around is not None and around.periods:
        parts.append(periods_text(around, units))
    for one in cost.options:
        parts.append(option_text(one, cost, units))
        nights = around.nights_of(one.option.id) if around else None
        parts += [fill(w, WIDTH) for w in nights_words(nights, units)] if nights else []
    if not cost.options:
        parts.append("No options: write [[option]] in options.toml to compare some.")
    return "\n\n".join([*parts, fill(METHOD, WIDTH)])


def _assumptions(cost: SiteCost, units: System) -> str:
    tariff = cost.site.tariff
    if cost.water_money_per_m3 is None:
        words = f"{without_price_words(cost, units)} {remedy_words(cost, units)}"
        return fill(f"{words} Here: --price.", WIDTH)
    name = tariff.currency if tariff else ""
    price = per_volume(cost.water_money_per_m3, units)
    said = [f"Prices in {name or 'money'}, as entered: water {price}"]
    prices = cost.prices
    if prices and prices.pumping_money_per_m3 is not None:
        said.append(f"pumping {per_volume(prices.pumping_money_per_m3, units)}")
    if tariff and tariff.interest is not None:
        said.append(f"interest {tariff.interest:.1%}")
    lines = [", ".join(said) + f"; a volume in {volume_unit(units)} a year."]
    if tariff and not tariff.water_price_within:
        lines.append("The price of water is taken as exact.")
    if cost.demand is not None:
        lines.append(
            f"Demand charge, apart: {cost.demand.power_kw:.1f} kW, "
            f"{money(cost.demand.money_a_month)} {name} a month; fewer kWh do not "
            "lower it."
        )
    return fill(" ".join(lines), WIDTH)


def _break_even(cost: SiteCost, units: System) -> str:
    name = cost.site.tariff.currency if cost.site.tariff else "money"
    unit = volume_unit(units)
    title = f"Break-even: what a saved {unit} must be worth, water and pumping together"
    head = ("option", "outlay", "a year", "low half", "low quarter", "share served",
            "own rule")  # fmt: skip
    rows: list[tuple[str, ...]] = [("do nothing", "0", "0", "–", "–", "–", "–")]
    rows += [
        (
            shorten(option_name(one), 17),
            money(one.outlay_money),
            money(one.cost.yearly_cost_money if one.cost else None),
            *_break_evens(one, units),
        )
        for one in cost.options
    ]
    note = f"In {name}; cheapest first. Verdicts stand with each option below."
    return "\n".join([fill(title + ".", WIDTH), "", table(head, rows), "", note])


def _break_evens(one: OptionResult, units: System) -> Iterator[str]:
    by_rule = {rule.rule: rule.break_even_price_per_m3 for rule in one.returns}
    for rule in ("low half", "low quarter", "share served", "own rule"):
        value = by_rule.get(rule)
        yield per_volume(value, units, with_unit=False)


def _zones(cost: SiteCost, units: System) -> str:
    against = "no zone was tested"
    if cost.reference is not None:
        against = f"{cost.reference[1]}, DU {cost.reference[0]:.2f}"
    title = (
        f"{cost.year}: water by zone under its own rule, in {volume_unit(units)}; "
        f"saved against the reference ({against}) at the same rule, and at the same "
        "service of the driest quarter. Stress: days there."
    )
    head = ("zone", "DU", "water", "above need", "range", "worth", "stress", "saved",
            "same service")  # fmt: skip
    rows = [_zone_row(one, units) for one in cost.zones]
    total = cost.total
    rows.append(
        (
            "site", "", volume(total.volume_m3, units),
            volume(total.above_need_m3, units), "", money(total.above_need_money),
            "", "", "",
        )
    )  # fmt: skip
    return "\n".join([fill(title, WIDTH), "", table(head, rows)])


def _zone_row(one: ZoneCost, units: System) -> tuple[str, ...]:
    low, high = one.above_need_low_m3, one.above_need_high_m3
    ends = "–"
    if low is not None and high is not None:
        ends = f"{volume(low, units)}–{volume(high, units)}"
    against, catch = one.reference, one.season.catch
    assert catch is not None, "a season was run"
    return (
        one.zone_id,
        f"{'≥' if one.season.is_upper_bound else ''}{catch.du_lq:.2f}",
        volume(one.own.volume_m3, units),
        volume(one.own.above_need_m3, units),
        ends,
        money(one.above_need_money),
        f"{one.own.stress_days:.0f}",
        volume(against.saved_m3 if against else None, units),
        volume(against.saved_same_service_m3 if against else None, units),
    )


def _rules(cost: SiteCost, units: System) -> str:
    title = "Above need under each rule, and days of stress in the driest quarter:"
    rows = []
    for one in cost.zones:
        by_rule = {rule.rule: rule for rule in one.rules}
        cells = [
            f"{volume(by_rule[rule].above_need_m3, units)} / "
            f"{by_rule[rule].stress_days:.0f}"
            for rule in RULES
        ]
        rows.append((one.zone_id, one.own.rule, *cells))
    return "\n".join([title, "", table(("zone", "own rule", *RULES), rows, left=2)])


def chains_text(cost: SiteCost, units: System, around: WithWeek | None = None) -> str:
    """Where the numbers came from: above need, options, the week and its nights."""
    parts = [
        f"zone {one.zone_id}\n{explain_text(one.trace, units)}" for one in cost.zones
    ]
    parts += [
        f"{option_name(one)}\n{explain_text(one.own.trace, units)}\n"
        f"{explain_text(one.outlay.trace, units)}"
        for one in cost.options
        if one.own is not None
    ]
    parts += [
        f"{option_name(one)}, quarters of zone {each.zone} in a year\n"
        f"{explain_text(trace, units)}"
        for one in cost.options
        for each in one.quarters
        for trace in each.traces
    ]
    parts += week_chains(around, units) if around else ()
    return "\n\n".join(parts)


def zone_cost_text(one: ZoneCost, units: System) -> str:
    """One zone under every rule, with what is entered of nitrogen and work."""
    head = ("rule", "factor", f"water {volume_unit(units)}", "above need", "drained",
            "stress", "kWh", "money")  # fmt: skip
    rows = [_rule_row(rule, units) for rule in one.rules]
    name = one.season.zone.name
    title = (
        f"zone {one.zone_id}, {name}: drained as a depth; money is water and pumping"
    )
    nitrogen = shown(one.own.nitrogen_kg, "kg", units)
    lines = [fill(title, WIDTH), "", table(head, rows), ""]
    lines.append(
        fill(
            f"Nitrogen drained: {nitrogen} ({money(one.own.nitrogen_money)}). Watered "
            f"by hand: {count(one.labour_hours)} h ({money(one.labour_money)}). An en "
            "dash is not entered.",
            WIDTH,
        )
    )
    return "\n".join([*lines, "", *_weeks(one, units)])


def _rule_row(one: RuleCost, units: System) -> tuple[str, ...]:
    return (
        one.rule,
        f"{one.factor:.2f}",
        volume(one.volume_m3, units),
        volume(one.above_need_m3, units),
        shown(one.deep_percolation_mm, "mm", units, digits=1 if units == "us" else 0),
        f"{one.stress_days:.0f}",
        count(one.energy_kwh),
        money(one.money),
    )


def _weeks(one: ZoneCost, units: System) -> Iterator[str]:
    """Weeks with a watering, four abreast."""
    weekly = one.weekly
    yield f"Week of: water / above need, {volume_unit(units)}."
    cells = [
        f"{day_text(start.astype('O'))} {volume(water, units)}/{volume(above, units)}"
        for start, water, above in zip(
            weekly.start, weekly.volume_m3, weekly.above_need_m3, strict=True
        )
        if water > 0
    ]
    for i in range(0, len(cells), 4):
        yield "  ".join(cell.ljust(18) for cell in cells[i : i + 4]).rstrip()
