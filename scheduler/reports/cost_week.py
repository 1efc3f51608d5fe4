"""What the planned week adds to a year in, plain text out; no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.reports.cost_words import EMPTY, money, small_volume, volume, volume_unit
from scheduler.reports.text import WIDTH, explain_text, table
from scheduler.said import date_text
from scheduler.units import shown

if TYPE_CHECKING:
    from scheduler.money.periods import Periods, Span
    from scheduler.money.week_cost import WeekCost, ZoneWeekCost
    from scheduler.money.with_week import WithWeek
    from scheduler.units import System

METHOD = (
    "The week is from its own plan, position by position: what each gets above what an "
    "even catch would be given that week. The season so far and the year are the run "
    "season, by whole weeks; they are no account of what was pumped."
)


def periods_text(around: WithWeek, units: System) -> str:
    """Week, season so far and year side by side, by zone, the site last."""
    title = (
        f"Water and, of it, above need, in {volume_unit(units)}: the week of "
        f"{date_text(around.week.start)} as planned, the season so far, and the year."
    )
    head = ("zone", "week", "above", "worth", "so far", "above", "worth", "year",
            "above", "worth")  # fmt: skip
    rows = [_row(one, units) for one in around.periods]
    lines = [fill(title, WIDTH), "", table(head, rows), "", fill(METHOD, WIDTH)]
    if around.week.unknown:
        lines += ["", fill(unknown_words(around.week), WIDTH)]
    return "\n".join(lines)


def unknown_words(week: WeekCost) -> str:
    """Zones that no sum of the week holds, each with why."""
    told = [
        f"{one.zone_id} ({one.why})" for one in week.zones if one.above_need_m3 is None
    ]
    return f"Not in what the week has above need: {'; '.join(told)}."


def week_chains(around: WithWeek, units: System) -> tuple[str, ...]:
    """Where the numbers of the week came from, and those of every option's nights."""
    zones = tuple(
        f"zone {one.zone_id}, this week\n{explain_text(one.trace, units)}"
        for one in around.week.zones
    )
    nights = tuple(
        "\n".join(
            [
                f"option {one.option_id}, {when}",
                *(
                    explain_text(trace, units)
                    for trace in (*fit.traces, *fit.power.traces)
                ),
            ]
        )
        for one in around.nights
        for when, fit in (
            ("this week now", one.week_now),
            ("this week then", one.week_then),
            ("the fullest night now", one.full_now),
            ("the fullest night then", one.full_then),
        )
        if fit is not None
    )
    return (*zones, *nights)


def _row(one: Periods, units: System) -> tuple[str, ...]:
    return (
        one.zone or "site",
        *span_cells(one.week, units, is_week=True),
        *span_cells(one.so_far, units),
        *span_cells(one.year, units),
    )


def span_cells(one: Span, units: System, *, is_week: bool = False) -> tuple[str, ...]:
    """Water, of it above need, and what that is worth."""
    show = small_volume if is_week else volume
    return (
        show(one.volume_m3, units),
        show(one.above_need_m3, units),
        money(one.above_need_money),
    )


def quarters_text(one: ZoneWeekCost, units: System) -> str:
    """What each quarter of a zone gets in the planned week."""
    if not one.quarters:
        return fill(f"Zone {one.zone_id}, this week: {one.why}.", WIDTH)
    title = (
        f"Zone {one.zone_id}, this week: need {shown(one.need_mm, 'mm', units)} with "
        "an even catch; what each quarter gets, and what of it finds no room in the "
        "roots or the pot:"
    )
    names = ("driest", "second", "third", "wettest")
    rows = [
        (
            name,
            shown(quarter.applied_mm, "mm", units),
            shown(quarter.above_need_mm, "mm", units),
            shown(quarter.passed_mm, "mm", units),
        )
        for name, quarter in zip(names, one.quarters, strict=True)
    ]
    passed = small_volume(one.passed_m3, units)
    rain = small_volume(one.rain_passed_m3, units)
    unit = volume_unit(units)
    words = f"In all {passed} {unit} of water and {rain} {unit} of rain find no room."
    if one.why:
        words = f"{one.why[:1].upper()}{one.why[1:]}: {EMPTY} is not known."
    head = ("quarter", "gets", "above need", "no room")
    return "\n".join(
        [fill(title, WIDTH), "", table(head, rows), "", fill(words, WIDTH)]
    )
