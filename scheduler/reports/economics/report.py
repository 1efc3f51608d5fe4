"""What uneven water costs in; the economics pages as leaves of paper, and JSON, out.

Pure formatting: every number comes from a room and passes through `scheduler.units`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from scheduler.reports.cautions import DEFER, cautions
from scheduler.reports.cost_json import cost_json
from scheduler.reports.cost_week_json import with_week_json
from scheduler.reports.cost_words import EMPTY, money, option_name, volume, volume_unit
from scheduler.reports.economics.assumed import assumptions_section, currency
from scheduler.reports.economics.compared import compared_section, options_block
from scheduler.reports.economics.method import limits_section, method_section
from scheduler.reports.economics.returns import (
    apart_section,
    chance_section,
    drivers_section,
    rules_section,
    verdict_section,
)
from scheduler.reports.economics.week import nights_section, week_section
from scheduler.reports.machine import Json
from scheduler.reports.paper import (
    Block,
    Column,
    Leaf,
    Paper,
    Section,
    Table,
    Words,
    plain,
    sheet_of,
)
from scheduler.said import date_text
from scheduler.site import RULES

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.money.economics import SiteCost
    from scheduler.money.retrofit import OptionResult
    from scheduler.money.water_cost import ZoneCost
    from scheduler.money.with_week import WithWeek
    from scheduler.units import System

SUBJECTS = ("Electrics", "Pressure")


def economics_report(
    cost: SiteCost, units: System, day: dt.date, around: WithWeek | None = None
) -> Paper:
    """The site on one leaf or two, then two an option, cheapest first."""
    leaves = [*_site_leaves(cost, units, day, around)]
    for one in cost.options:
        leaves += _option_leaves(one, cost, units, day)
    return Paper("Economics", plain(cost.site.name), tuple(leaves), sheet_of(units))


def _site_leaves(
    cost: SiteCost, units: System, day: dt.date, around: WithWeek | None
) -> Iterable[Leaf]:
    """The year of the site, then its planned week where there is one."""
    year = (
        assumptions_section(cost, units),
        _zones_section(cost, units),
        method_section(),
    )
    parts: list[tuple[str, tuple[Section, ...]]] = [("what uneven water costs", year)]
    if around is not None and around.periods:
        week: tuple[Section, ...] = (week_section(around, units),)
        if cost.options:
            week = (*week, nights_section(around, cost.options, units))
        parts.append(("the planned week, the nights", week))
    for i, (part, sections) in enumerate(parts, 1):
        is_last = i == len(parts) and not cost.options
        yield Leaf(
            title=plain(cost.site.name),
            part=part,
            place="the site",
            sections=sections,
            stamp=date_text(day),
            foot=cautions(*SUBJECTS) if is_last else (),
            closing=DEFER if is_last else "",
        )


def _zones_section(cost: SiteCost, units: System) -> Section:
    title = "Water above the need, zone by zone"
    if not cost.zones:
        words = "No season can be run: see the findings of the site."
        return Section(title, (Words(words),), "2")
    blocks: list[Block] = [zones_table(cost, units)]
    if cost.reference is not None:
        du, name = cost.reference
        blocks.append(
            Words(
                f"Saved: against {plain(name)}, DU {du:.2f}, at the same rule, and at "
                "the same service of the driest quarter."
            )
        )
    blocks += [rules_table(cost, units), Words(_site_words(cost))]
    return Section(title, tuple(blocks), "2")


def _site_words(cost: SiteCost) -> str:
    words = "Beside each other: above need, and days of stress in the driest quarter."
    if cost.options:
        return words
    return f"{words} No option is written: add [[option]] to options.toml."


def zones_table(cost: SiteCost, units: System) -> Table:
    """Water of each zone under its own rule, and how much of it is above the need."""
    unit = volume_unit(units)
    columns = (
        Column("zone", 1.1),
        Column("DU", 1, is_number=True),
        Column(f"water, {unit}", 1.4, is_number=True),
        Column("above need", 1.4, is_number=True),
        Column("range", 1.6, is_number=True),
        Column(f"worth, {currency(cost)}", 1.4, is_number=True),
        Column("saved", 1.1, is_number=True),
        Column("same service", 1.4, is_number=True),
    )
    total = cost.total
    last = (
        "site", "", volume(total.volume_m3, units), volume(total.above_need_m3, units),
        "", money(total.above_need_money), "", "",
    )  # fmt: skip
    rows = (*(_zone_row(one, units) for one in cost.zones), last)
    return Table(columns, rows, is_filled=True)


def _zone_row(one: ZoneCost, units: System) -> tuple[str, ...]:
    low, high = one.above_need_low_m3, one.above_need_high_m3
    ends = EMPTY
    if low is not None and high is not None:
        ends = f"{volume(low, units)}–{volume(high, units)}"
    against, catch = one.reference, one.season.catch
    assert catch is not None, "a season was run"
    return (
        plain(one.zone_id),
        f"{'≥' if one.season.is_upper_bound else ''}{catch.du_lq:.2f}",
        volume(one.own.volume_m3, units),
        volume(one.own.above_need_m3, units),
        ends,
        money(one.above_need_money),
        volume(against.saved_m3 if against else None, units),
        volume(against.saved_same_service_m3 if against else None, units),
    )


def rules_table(cost: SiteCost, units: System) -> Table:
    """Every rule beside the others: water above the need, days of stress."""
    columns = (
        Column("zone", 1.1),
        Column("own rule", 1.8),
        *(Column(rule, 1.8, is_number=True) for rule in RULES),
    )
    rows = []
    for one in cost.zones:
        by_rule = {rule.rule: rule for rule in one.rules}
        cells = (
            f"{volume(by_rule[rule].above_need_m3, units)} / "
            f"{by_rule[rule].stress_days:.0f}"
            for rule in RULES
        )
        rows.append((plain(one.zone_id), one.own.rule, *cells))
    return Table(columns, tuple(rows), is_filled=True)


def _option_leaves(
    one: OptionResult, cost: SiteCost, units: System, day: dt.date
) -> Iterable[Leaf]:
    beside = _beside(one, cost)
    compared = compared_section(beside, cost, units)
    compared = Section(
        compared.title, (options_block(beside), *compared.blocks), compared.number
    )
    rules = (rules_section(one, units),)
    # the side with the curve of chances is full
    is_full = one.curve is not None
    first = (
        assumptions_section(cost, units, one),
        compared,
        verdict_section(one, cost, units),
    )
    second = (
        drivers_section(one, cost),
        chance_section(one, cost, units),
        apart_section(one, units),
        limits_section(),
    )
    parts = (
        ("does it pay", (*first, *rules) if is_full else first),
        ("how sure", second if is_full else (*rules, *second)),
    )
    title = f"{plain(option_name(one))}: zone {plain(', '.join(one.option.zones))}"
    for i, (part, sections) in enumerate(parts, 1):
        is_last = i == len(parts)
        yield Leaf(
            title=title,
            part=part,
            place=f"part {i} of {len(parts)}",
            sections=sections,
            stamp=date_text(day),
            foot=cautions(*SUBJECTS) if is_last else (),
            closing=DEFER if is_last else "",
        )


def _beside(one: OptionResult, cost: SiteCost) -> Sequence[OptionResult]:
    """Options of the same zones, which one chooses between."""
    zones = {name.casefold() for name in one.option.zones}
    return [
        other
        for other in cost.options
        if {name.casefold() for name in other.option.zones} == zones
    ]


def economics_report_json(
    cost: SiteCost, findings: Iterable[Finding], around: WithWeek | None = None
) -> Json:
    """What the pages are made from."""
    week = with_week_json(around) if around is not None else {}
    return cost_json(cost, findings) | week | {"report": "economics"}
