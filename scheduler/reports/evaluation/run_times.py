"""Sections 6 and 7: minutes under every rule, and where the cost is worked out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.field.range_words import UPPER_BOUND
from scheduler.reports.paper import Block, Column, Section, Table, Words, plain
from scheduler.reports.text import day_names, minutes_text, was_text
from scheduler.units import shown

if TYPE_CHECKING:
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
    nights = day_names(plan.days) if len(plan.days) < len(plan.dates) else "every night"
    soak = ""
    if plan.cycles and plan.cycles > 1 and plan.soak_minutes is not None:
        soak = f" with {plan.soak_minutes} min to soak between"
    need = shown(plan.need_mm, "mm", units)
    return (
        f"Week of {plan.dates[0]:%d %b %Y}: plants need {need} "
        f"(reference ET {shown(plan.eto_mm, 'mm', units)}, rain counted "
        f"{shown(plan.effective_rain_mm, 'mm', units)}). The clock was at "
        f"{was_text(plan)} min a night; by the rule {plan.rule} it gets "
        f"{minutes_text(plan)} min{soak}, {nights}."
    )


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
    """The command that works the cost out; no price is invented here."""
    zone = plain(told.plan.zone.id)
    words = (
        f"What unevenness costs this zone in water over a season, at every can: "
        f"lowquarter season SITE --zone {zone}. Money needs prices of water and power, "
        "which nobody should invent: this page holds none."
    )
    summed = told.test.together
    if summed is not None and summed.is_upper_bound:
        words += f" From one run, {UPPER_BOUND}."
    return Section("Cost of uneven water", (Words(words),), "7")
