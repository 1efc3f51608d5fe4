"""Sections 3 to 7: verdict, rules, what drives it, the chance, potential and actual."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.reports.charts import ChanceCurve, Swing, chance_it_pays, tornado
from scheduler.reports.cost_options import (
    changes_words,
    own_words,
    potential_words,
    uniformity_words,
)
from scheduler.reports.cost_quarters import quarters_words
from scheduler.reports.cost_words import (
    money,
    per_volume,
    percent,
    volume,
    volume_unit,
)
from scheduler.reports.economics.assumed import currency
from scheduler.reports.paper import Block, Column, Section, Table, Words, plain
from scheduler.said import true_minus
from scheduler.units import converted, face_suffix, unit_label

if TYPE_CHECKING:
    from scheduler.money.economics import SiteCost
    from scheduler.money.judged import RuleReturn
    from scheduler.money.retrofit import OptionResult
    from scheduler.units import System

NO_CHANCE = (
    "No chance can be told: DU now and then must each be tested on three days, every "
    "range and price be known. A number here would be a guess dressed up."
)
# as many as leave room for the chance on the same side of paper
DRIVERS = 5
RULES = (
    "The rule says how much water uneven sprinklers are made up for with, so it "
    "decides how much better ones save. No rule alone makes a case: see all of them."
)


def verdict_section(one: OptionResult, cost: SiteCost, units: System) -> Section:
    """The verdict first, in words, then what is known of the uniformity."""
    known = " ".join(uniformity_words(one))
    said = own_words(one, cost, units)
    return Section("Verdict", (Words(plain(said)), Words(plain(known))), "3")


def rules_section(one: OptionResult, units: System) -> Section:
    """The return under every rule, side by side."""
    if not one.returns:
        return Section("Under every rule", (Words("Nothing can be computed."),), "4")
    unit = volume_unit(units)
    columns = (
        Column("rule", 2),
        Column(f"break-even, per {unit}", 1.6, is_number=True),
        Column(f"saves, {unit}", 1.3, is_number=True),
        Column("net a year", 1.3, is_number=True),
        Column("worth now", 1.4, is_number=True),
        Column("chance", 1, is_number=True),
        Column("verdict", 1.8),
    )
    rows = tuple(_rule(rule, units) for rule in one.returns)
    table = Table(columns, rows, is_filled=True)
    return Section("Under every rule", (table, Words(RULES)), "4")


def _rule(one: RuleReturn, units: System) -> tuple[str, ...]:
    return (
        one.rule,
        per_volume(one.break_even_price_per_m3, units, with_unit=False),
        volume(one.saved_m3, units),
        money(one.net_money),
        money(one.net_present_value),
        percent(one.chance_it_pays),
        one.verdict,
    )


def drivers_section(one: OptionResult, cost: SiteCost) -> Section:
    """Yearly net as one thing at a time moves, the strongest first."""
    own = one.own
    if own is None or own.net_money is None or not one.sensitivities:
        words = "Not known while a price, a life or the interest is not entered."
        return Section("What drives it", (Words(words),), "5")
    first = one.sensitivities[0]
    says = f"Each alone; {first.driver} moves it most."
    swings = [
        Swing(
            s.driver,
            true_minus(s.low),
            true_minus(s.high),
            s.net_low_money,
            s.net_high_money,
        )
        for s in one.sensitivities[:DRIVERS]
    ]
    label = f"net a year, {currency(cost)}, each zone under its own rule"
    picture = tornado("Net a year", says, own.net_money, swings, (label, money))
    return Section("What drives it", (picture,), "5")


def chance_section(one: OptionResult, cost: SiteCost, units: System) -> Section:
    """The curve along the price of water, or why there is none."""
    title = "Chance that it pays"
    if one.curve is None or one.own is None:
        return Section(title, (Words(NO_CHANCE),), "6")
    face = face_suffix("money_per_m3", units)

    def price(value: float) -> float:
        return converted(value, "money_per_m3", to=face)

    marks = []
    for name, value in (
        ("now", cost.water_money_per_m3),
        ("break-even", one.own.break_even_water_price_per_m3),
    ):
        if value is not None:
            marks.append((name, price(value)))
    label = f"price of water, {currency(cost)} {unit_label('money_per_m3', units)}"
    sure = percent(one.own.chance_it_pays)
    says = f"At the price of now it pays in {sure} of what DU and prices may be."
    at = tuple(price(value) for value in one.curve.water_money_per_m3)
    curve = ChanceCurve(at, one.curve.chance, label, tuple(marks))
    return Section(title, (chance_it_pays(title, says, curve),), "6")


def apart_section(one: OptionResult, units: System) -> Section:
    """Forecast and re-tested apart; what else changes."""
    blocks: list[Block] = [Words(potential_words(one, units))]
    blocks += [Words(changes_words(changes, units)) for changes in one.changes]
    blocks += [Words(quarters_words(each, units)) for each in one.quarters]
    return Section("Potential and actual; what else changes", tuple(blocks), "7")
