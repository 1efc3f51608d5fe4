"""What the planned week adds to a year in; lines and sentences of the page out."""

from typing import TYPE_CHECKING

from scheduler.reports.cost_nights import nights_words
from scheduler.reports.cost_week import span_cells, unknown_words
from scheduler.reports.cost_without import remedy_words, without_price_words
from scheduler.reports.cost_words import money, small_volume, volume_unit
from scheduler.said import day_text
from tui.screens.cost_words import ROOM
from tui.screens.wording import name_cell, name_width, number_lines

if TYPE_CHECKING:
    from scheduler.money.economics import SiteCost
    from scheduler.money.periods import Periods
    from scheduler.money.with_week import WithWeek
    from scheduler.units import System

HEADS = ("week", "above", "worth", "so far", "above", "year", "above")
WIDTHS = (7, 7, 7, 8, 7, 8, 7)
TRY = "Press 1."
WAITING = "The planned week and the nights with the option: working them out …"

WEEK_WAITING = "The planned week: working it out …"


def without_lines(cost: "SiteCost", units: "System") -> str:
    """What can be said without a price of water, and the remedy; else nothing."""
    said = without_price_words(cost, units)
    return f"{said} {remedy_words(cost, units)} {TRY}" if said else ""


def waiting_lines(rows: int) -> list[str]:
    """As many lines as the week took, while it is worked out; none before the first."""
    return [WEEK_WAITING, *[" "] * (rows - 1)] if rows else []


def week_lines(around: "WithWeek", units: "System", room: int = ROOM) -> list[str]:
    """Week, season so far and year side by side, the site last."""
    if not around.periods:
        return []
    day = around.week.start
    rows = [HEADS, *(_cells(one, units) for one in around.periods)]
    lines = number_lines(rows, WIDTHS, room - 6)
    names = [one.zone or "site" for one in around.periods]
    wide = name_width(names, room - len(lines[0]))
    named = [name_cell(one, wide) for one in ("zone", *names)]
    return [
        f"Week of {day_text(day)} as planned, season so far, year; "
        f"{volume_unit(units)}",
        *(name + line for name, line in zip(named, lines, strict=True)),
    ]


def _cells(one: "Periods", units: "System") -> tuple[str, ...]:
    week = span_cells(one.week, units, is_week=True)
    so_far, year = span_cells(one.so_far, units), span_cells(one.year, units)
    return (*week, *so_far[:2], *year[:2])


def night_lines(
    around: "WithWeek | None", option_id: str | None, units: "System"
) -> list[str]:
    """Whether the nights of all zones fit with an option, and what the pump draws."""
    if option_id is None:
        return []
    if around is None:
        return [WAITING]
    nights = around.nights_of(option_id)
    return [] if nights is None else list(nights_words(nights, units))


def week_said(around: "WithWeek", units: "System") -> list[str]:
    """The week in sentences."""
    week, unit = around.week, volume_unit(units)
    said = [
        f"In the week of {day_text(week.start)} the plan puts on "
        f"{small_volume(week.volume_m3, units)} {unit}, "
        f"{small_volume(week.above_need_m3, units)} of it above the need of its "
        f"plants, worth {money(week.above_need_money)}."
    ]
    return [*said, unknown_words(week)] if week.unknown else said
