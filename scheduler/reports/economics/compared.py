"""Section 2: a year as it is beside a year with each option, row by row."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from scheduler.reports.cost_options import du_words
from scheduler.reports.cost_words import (
    EMPTY,
    count,
    money,
    option_name,
    per_volume,
    volume,
    volume_unit,
)
from scheduler.reports.economics.assumed import currency
from scheduler.reports.paper import Block, Column, Section, Table, Words, plain

if TYPE_CHECKING:
    from scheduler.money.economics import SiteCost
    from scheduler.money.retrofit import OptionResult
    from scheduler.money.year_of import YearOf
    from scheduler.units import System

Cell = Callable[["OptionResult"], str]
EMPTY_MEANS = (
    f"{EMPTY} is not entered or not known; it is no zero. Each zone under its own rule."
)
ABREAST = 3


def compared_section(
    options: Sequence[OptionResult], cost: SiteCost, units: System
) -> Section:
    """Options of the same zones, a few abreast, beside doing nothing."""
    tables = tuple(
        compared_table(options[i : i + ABREAST], cost, units)
        for i in range(0, len(options), ABREAST)
    )
    return Section("A year now, and with each option", (*tables, Words(EMPTY_MEANS)),
                   "2")  # fmt: skip


def compared_table(
    options: Sequence[OptionResult], cost: SiteCost, units: System
) -> Table:
    """Rows of what a year takes, saves, costs and returns; columns now and options."""
    columns = (
        Column("", 3.4),
        Column("now", 1.8, is_number=True),
        *(Column(plain(one.option.id), 1.8, is_number=True) for one in options),
    )
    first = options[0]
    rows = [("DU low quarter", _du_now(first), *(_du_then(one) for one in options))]
    for name, now, cell in _rows(first, cost, units):
        rows.append((name, now, *(cell(one) for one in options)))
    return Table(columns, tuple(rows), is_filled=True)


def _du_now(one: OptionResult) -> str:
    return "; ".join(du_words(now) for _, now, _ in one.known) or EMPTY


def _du_then(one: OptionResult) -> str:
    return "; ".join(du_words(then) for _, _, then in one.known) or EMPTY


def _rows(
    first: OptionResult, cost: SiteCost, units: System
) -> list[tuple[str, str, Cell]]:
    unit, name = volume_unit(units), currency(cost)
    now = first.years[0] if first.years else None

    def year(show: Callable[[YearOf], str]) -> tuple[str, Cell]:
        def then(one: OptionResult) -> str:
            return show(one.years[1]) if one.years else EMPTY

        return (EMPTY if now is None else show(now)), then

    def own(show: Callable[[OptionResult], str]) -> Cell:
        return lambda one: show(one) if one.own else EMPTY

    return [
        (f"water, {unit}", *year(lambda one: volume(one.water_m3, units))),
        (f"  saved, {unit}", "", lambda one: volume(one.potential_saved_m3, units)),
        ("energy of pumping, kWh", *year(lambda one: count(one.energy_kwh))),
        ("hours by hand", *year(lambda one: count(one.labour_hours))),
        ("  saved, h", "", lambda o: count(o.option.labour_saved_hours_a_year)),
        (
            f"fertilizer saved, {name}",
            "",
            lambda o: money(o.option.fertilizer_saved_money_a_year),
        ),
        (
            f"plant losses saved, {name}",
            "",
            lambda o: money(o.option.plant_losses_saved_money_a_year),
        ),
        (
            f"water and pumping saved, {name}",
            "",
            own(lambda o: money(o.own.saved_money if o.own else None)),
        ),
        (f"outlay, {name}", "0", lambda o: money(o.outlay_money)),
        (
            f"yearly cost, {name}",
            "0",
            lambda o: money(o.cost.yearly_cost_money if o.cost else None),
        ),
        (
            f"net a year, {name}",
            "0",
            own(lambda o: money(o.own.net_money if o.own else None)),
        ),
        ("payback, years", "", _payback),
        (
            f"break-even water, {name} per {unit}",
            "",
            own(lambda o: _break_even(o, units)),
        ),
        (
            f"break-even losses, {name}",
            "",
            own(lambda o: money(o.own.break_even_losses_money if o.own else None)),
        ),
        ("verdict", "", lambda o: o.own.verdict if o.own else "not known"),
    ]


def _payback(one: OptionResult) -> str:
    years = one.own.payback_years if one.own else None
    return EMPTY if years is None else f"{years:.1f}"


def _break_even(one: OptionResult, units: System) -> str:
    price = one.own.break_even_water_price_per_m3 if one.own else None
    return per_volume(price, units, with_unit=False)


def options_block(options: Sequence[OptionResult]) -> Block:
    """What the letters of the columns stand for."""
    named = "; ".join(
        f"{plain(option_name(one))} ({one.option.deed})" for one in options
    )
    return Words(f"{named}. Cheapest first.")
