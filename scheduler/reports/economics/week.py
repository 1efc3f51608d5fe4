"""The planned week beside the year, and an option's nights, as parts of the pages."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from scheduler.reports.cost_nights import nights_words
from scheduler.reports.cost_week import span_cells, unknown_words
from scheduler.reports.cost_words import volume_unit
from scheduler.reports.paper import Block, Column, Facts, Section, Table, Words, plain
from scheduler.said import day_text

if TYPE_CHECKING:
    from scheduler.money.periods import Periods
    from scheduler.money.retrofit import OptionResult
    from scheduler.money.with_week import WithWeek
    from scheduler.units import System


def week_section(around: WithWeek, units: System) -> Section:
    """Week, season so far and year by zone, the site last."""
    unit, week = volume_unit(units), day_text(around.week.start)
    heads = (
        *(f"week of {week}, {unit}", "above need", "worth"),
        *(f"so far, {unit}", "above need", f"year, {unit}", "above need"),
    )
    columns = (
        Column("zone", 1.1),
        *(Column(head, 1.4, is_number=True) for head in heads),
    )
    rows = tuple(_row(one, units) for one in around.periods)
    words = "The week is from its own plan; the season is a run one, by whole weeks."
    if around.week.unknown:
        words = f"{words} {unknown_words(around.week)}"
    blocks: tuple[Block, ...] = (
        Table(columns, rows, is_filled=True),
        Words(plain(words)),
    )
    return Section("The week as planned, the season so far, the year", blocks, "4")


def _row(one: Periods, units: System) -> tuple[str, ...]:
    return (
        plain(one.zone) or "site",
        *span_cells(one.week, units, is_week=True),
        *span_cells(one.so_far, units)[:2],
        *span_cells(one.year, units)[:2],
    )


def nights_section(
    around: WithWeek, options: Sequence[OptionResult], units: System
) -> Section:
    """Whether the nights of all zones fit with each option, and what the pump draws."""
    blocks: list[Block] = []
    for one in options:
        nights = around.nights_of(one.option.id)
        if nights is None:
            continue
        said = " ".join(nights_words(nights, units))
        blocks.append(Facts(((plain(one.option.id), plain(said)),)))
    return Section("The night of all zones with each option", tuple(blocks), "5")
