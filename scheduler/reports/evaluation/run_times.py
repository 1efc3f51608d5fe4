"""Sections 6 and 7: minutes under every rule, what uneven water costs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.field.range_words import UPPER_BOUND
from scheduler.reports.charts import Bar, bars
from scheduler.reports.cost_words import money, volume, volume_unit
from scheduler.reports.evaluation.told import counted
from scheduler.reports.paper import (
    Block,
    Column,
    Picture,
    Section,
    Table,
    Words,
    plain,
)
from scheduler.reports.text import day_names, minutes_text, was_text
from scheduler.said import date_text
from scheduler.units import shown

if TYPE_CHECKING:
    from scheduler.money.water_cost import ZoneCost
    from scheduler.reports.evaluation.told import Told

RULES = (
    "Rules differ on purpose: average waters to the mean, low half and low quarter "
    "until the drier half or quarter has its need. Pots share no water, so low quarter "
    "is the start there; in soil, low half. The rule is the grower's to choose."
)


def run_times_section(told: Told) -> Section:
    """Minutes a night under every rule; what the clock gets this week."""
    blocks: list[Block] = [Words(_week(told))]
    if told.plan.rules:
        blocks += [rules_table(told), Words(RULES)]
    return Section("Run times under each rule", tuple(blocks), "6")


def _week(told: Told) -> str:
    plan, units = told.plan, told.units
    if plan.status == "blocked":
        return "Blocked: leave the clock as it is until the test is settled."
    if plan.status in ("off", "fixed"):
        return f"This zone is not run by need: {minutes_text(plan)}."
    need = shown(plan.need_mm, "mm", units)
    return (
        f"{_basis(told)}Week of {date_text(plan.dates[0])}: plants need {need} "
        f"(reference ET {shown(plan.eto_mm, 'mm', units)}, rain counted "
        f"{shown(plan.effective_rain_mm, 'mm', units)}). The clock was at "
        f"{was_text(plan)} min a night; by the rule {plan.rule} it gets {_gets(told)}."
    )


def _gets(told: Told) -> str:
    """Minutes, soaks and nights; or that nothing is due."""
    plan = told.plan
    if not plan.minutes_per_day:
        return "no water this week, as none is due"
    nights = day_names(plan.days) if len(plan.days) < len(plan.dates) else "every night"
    soak = ""
    if plan.cycles and plan.cycles > 1 and plan.soak_minutes is not None:
        soak = f" with {plan.soak_minutes} min to soak between"
    return f"{minutes_text(plan)} min{soak}, {nights}"


def _basis(told: Told) -> str:
    """What the week rests on, which may be more than the newest test."""
    found, units = told.plan.evidence, told.units
    if found is None:
        return ""
    rate = shown(found.net_rate_mm_per_h, "mm_per_h", units)
    said = f"{found.basis}, rate {rate}, DU low quarter {found.du_lq:.2f}"
    if found.basis == "measured":
        said = f"{counted(found.n_runs, 'run')} ({plain(found.test)}): {said}"
    return f"Run times rest on {said}. "


def rules_table(told: Told) -> Table:
    """The rules side by side."""
    columns = (
        Column("rule", 2.8),
        Column("factor", 1.1, is_number=True),
        Column("min a night", 1.5, is_number=True),
        Column("driest gets", 1.5, is_number=True),
        Column("wettest gets", 1.6, is_number=True),
        Column("above need", 1.5, is_number=True),
        Column("ground short", 1.6, is_number=True),
    )
    rows = tuple(
        (
            one.rule + (" (chosen)" if one.rule == told.plan.rule else ""),
            f"{one.factor:.2f}",
            f"{one.minutes_per_day:.1f}",
            f"{one.quarters[0]:.0%}",
            f"{one.quarters[-1]:.0%}",
            f"{one.above_need:.0%}",
            f"{one.short_share:.0%}",
        )
        for one in told.plan.rules
    )
    return Table(columns, rows, is_filled=True)


def cost_section(told: Told) -> Section:
    """Water above the need in a year, its price where one was entered, and the rest."""
    zone, cost = plain(told.plan.zone.id), told.cost
    more = (
        f"Options, prices, break-even and the chance that a change pays: lowquarter "
        f"cost SITE --zone {zone}."
    )
    blocks: list[Block] = [Words(f"No season could be run for this zone. {more}")]
    if cost is not None:
        blocks = [cost_picture(told, cost), Words(f"{_worth(told, cost)} {more}")]
    return Section("Cost of uneven water", tuple(blocks), "7")


def cost_picture(told: Told, cost: ZoneCost) -> Picture:
    """A bar a rule: water above the need, and the days of stress it leaves."""
    unit = volume_unit(told.units)
    amounts = [
        Bar(
            one.rule,
            one.above_need_m3,
            f"{volume(one.above_need_m3, told.units)} {unit}, "
            f"{one.stress_days:.0f} days short",
            one.rule == cost.own.rule,
        )
        for one in cost.rules
    ]
    says = (
        f"{plain(told.year)}: water of one season above what plants need, and days on "
        "which the driest quarter is short of it. Hatched or *: the zone's own rule."
    )
    return bars("Water above the need, by rule", says, amounts)


def _worth(told: Told, cost: ZoneCost) -> str:
    low, high = cost.above_need_low_m3, cost.above_need_high_m3
    unit, units = volume_unit(told.units), told.units
    known = f"{volume(cost.own.above_need_m3, units)} {unit} under its own rule"
    if low is not None and high is not None:
        ends = f"{volume(low, units)}–{volume(high, units)}"
        known += f" ({ends} at the ends of the range of DU)"
    if cost.above_need_money is None:
        known += ", worth what a price would say: none was entered"
    else:
        worth = f"{money(cost.above_need_money)} {plain(told.currency)}"
        known += f", worth {worth.strip()} as water and pumping at the prices entered"
    summed = told.test.together
    if summed is not None and summed.is_upper_bound:
        return f"{known}. From one run, {UPPER_BOUND}."
    return f"{known}."
