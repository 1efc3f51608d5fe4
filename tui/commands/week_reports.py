"""What is handed over each week as kinds of report: options, and how they are made."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import click

from tui.commands import edge
from tui.commands.field_sheet import LANGUAGE, Made

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.files.site_folder import SiteFolder
    from scheduler.reports.handed.told import Known
    from scheduler.units import System
    from scheduler.week_plan import WeekPlan

OPTIONS = (
    click.Option(
        ["--start"],
        type=click.DateTime(["%Y-%m-%d"]),
        help="First night (default: today).",
    ),
)
CHANGE_SHEET_OPTIONS = (*OPTIONS, LANGUAGE)
ROWS = click.Option(
    ["--rows"],
    type=click.Choice(["zones", "events"]),
    default="zones",
    show_default=True,
    help="Which of the two a .csv holds.",
)


@dataclass(frozen=True, slots=True)
class Tables:
    """All tables, the one that a CSV holds, and the day they were made on."""

    both: tuple[Any, ...]
    chosen: Any
    today: dt.date


@dataclass(frozen=True, slots=True)
class Calendar:
    """A planned week, its events, and the moment they were made at."""

    plan: WeekPlan
    events: tuple[Any, ...]
    made: dt.datetime


def _planned(
    found: SiteFolder, today: dt.date, own: Mapping[str, Any]
) -> tuple[WeekPlan, Known]:
    from scheduler.files.issue_writing import is_issued_alike, issued_before
    from scheduler.reports.handed.told import Known

    begin = own["start"].date() if own["start"] else None
    plan, history = edge.week_of(found, today, begin), found.history
    issued = issued_before(history, plan)
    is_issued = issued is not None and is_issued_alike(history, plan)
    if is_issued:
        # a paper about an issued week tells what changed with it, not since it
        earlier = tuple(one for one in history.issued if one is not issued)
        told = replace(found, history=replace(history, issued=earlier))
        before = edge.week_of(told, today, begin)
        if is_issued_alike(history, before):
            plan, history = before, told.history
    return plan, Known(
        history.issued,
        # a first plan has no cause but itself: its need tells more
        {
            one.zone.id: one.changed.reason
            for one in plan.zones
            if one.changed and (one.changed.shares or one.changed.overrides)
        },
        _programs_of(plan),
        issued.name if issued and is_issued else "",
    )


def _programs_of(plan: WeekPlan) -> dict[str, str]:
    """Letters of the programs of each zone."""
    found: dict[str, list[str]] = {}
    for clock in plan.clocks:
        for program in clock.programs:
            for station in program.stations:
                found.setdefault(station.zone, []).append(program.name)
    return {zone: ", ".join(names) for zone, names in found.items()}


def _said(plan: WeekPlan) -> tuple[Finding, ...]:
    """What stops or warns; the notes are told by the week."""
    return tuple(one for one in plan.all_findings if one.level != "note")


def make_change_sheet(
    found: SiteFolder, today: dt.date, units: System, own: Mapping[str, Any]
) -> Made:
    """The controller's change sheet."""
    from scheduler.reports.handed.change_language import sheet_in
    from scheduler.reports.handed.change_sheet import change_sheet, change_sheet_json
    from scheduler.reports.language import language_of

    plan, known = _planned(found, today, own)
    language = language_of(own["language"] or plan.site.language, units)
    sheet = sheet_in(change_sheet(plan, units, known), language)
    return Made(sheet, change_sheet_json(sheet), _said(plan))


def make_night_sheet(
    found: SiteFolder, today: dt.date, units: System, own: Mapping[str, Any]
) -> Made:
    """The sheet at the pump."""
    from scheduler.reports.handed.night_sheet import night_sheet, night_sheet_json

    plan, _ = _planned(found, today, own)
    sheet = night_sheet(plan, units)
    return Made(sheet, night_sheet_json(sheet), _said(plan))


def make_summary(
    found: SiteFolder, today: dt.date, units: System, own: Mapping[str, Any]
) -> Made:
    """The manager's half page."""
    from scheduler.reports.handed.summary import (
        summary_facts,
        summary_json,
        summary_paper,
    )
    from scheduler.watering.week_water import week_water

    plan, known = _planned(found, today, own)
    water = week_water(plan.site, plan.zones, known.issued)
    told = summary_facts(plan, water, found.history.log, units, known)
    return Made(summary_paper(plan, told), summary_json(plan, water, told), _said(plan))


def make_calendar(
    found: SiteFolder, today: dt.date, units: System, own: Mapping[str, Any]
) -> Made:
    """Calendar events of the week."""
    from scheduler.reports.handed.calendar import (
        calendar_json,
        clock_change_findings,
        week_events,
    )

    plan, known = _planned(found, today, own)
    events = week_events(plan, units, known)
    made = dt.datetime.now(dt.UTC)  # noqa: TID251 - the edge, as for the site's today
    said = (*_said(plan), *clock_change_findings(plan))
    return Made(Calendar(plan, events, made), calendar_json(plan, events), said)


def make_table(
    found: SiteFolder, today: dt.date, units: System, own: Mapping[str, Any]
) -> Made:
    """Zones and events as tables."""
    from scheduler.reports.handed.table import tables_json, week_tables

    plan, known = _planned(found, today, own)
    both = week_tables(plan, units, known)
    chosen = next(one for one in both if one.name == own["rows"])
    return Made(Tables(both, chosen, today), tables_json(plan, both), _said(plan))


# --- printers, each loaded when it prints --------------------------------------


def _change_text(sheet: Any) -> str:
    from scheduler.reports.handed.change_print import change_text

    return change_text(sheet)


def _change_page(sheet: Any) -> str:
    from scheduler.reports.handed.change_print import change_page

    return change_page(sheet)


def _change_pdf(sheet: Any) -> bytes:
    from scheduler.reports.handed.change_print import change_pdf

    return change_pdf(sheet)


def _night_text(sheet: Any) -> str:
    from scheduler.reports.handed.night_print import night_sheet_text

    return night_sheet_text(sheet)


def _night_page(sheet: Any) -> str:
    from scheduler.reports.handed.night_print import night_page

    return night_page(sheet)


def _night_pdf(sheet: Any) -> bytes:
    from scheduler.reports.handed.night_print import night_pdf

    return night_pdf(sheet)


def _calendar_text(made: Calendar) -> str:
    from scheduler.reports.handed.calendar import calendar_text

    return calendar_text(made.plan, made.events)


def _calendar_ics(made: Calendar) -> str:
    from scheduler.reports.handed.calendar import calendar_ics

    return calendar_ics(made.plan, made.events, made.made)


def _table_text(made: Tables) -> str:
    from scheduler.reports.handed.workbook import tables_text

    return tables_text(made.both)


def _table_csv(made: Tables) -> str:
    from scheduler.reports.handed.workbook import tables_csv

    return tables_csv(made.chosen)


def _table_xlsx(made: Tables) -> bytes:
    from scheduler.reports.handed.workbook import tables_xlsx

    return tables_xlsx(made.both, made.today)


Printers = dict[str, Callable[[Any], "str | bytes"]]
CHANGE_SHEET: Printers = {
    ".txt": _change_text,
    ".html": _change_page,
    ".pdf": _change_pdf,
}
NIGHT_SHEET: Printers = {
    ".txt": _night_text,
    ".html": _night_page,
    ".pdf": _night_pdf,
}
CALENDAR: Printers = {".txt": _calendar_text, ".ics": _calendar_ics}
TABLE: Printers = {".txt": _table_text, ".csv": _table_csv, ".xlsx": _table_xlsx}
