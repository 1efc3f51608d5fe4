"""The extract for a regulator as a kind of report: its option, and how it is made."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import click

from tui.commands import edge
from tui.commands.field_sheet import Made
from tui.commands.week_reports import Tables

if TYPE_CHECKING:
    from scheduler.files.site_folder import SiteFolder
    from scheduler.units import System

OPTIONS = (
    click.Option(
        ["--rows"],
        type=click.Choice(["units", "water", "tests", "leaching", "salt"]),
        default="units",
        show_default=True,
        help="Which of the tables a .csv holds.",
    ),
)


def make(
    found: SiteFolder, today: dt.date, units: System, own: Mapping[str, Any]
) -> Made:
    """Units, metered water, tests, leaching checks and salt that are on record."""
    from scheduler.field.evaluation import evaluated_site
    from scheduler.need.zone_leaching import zone_leaching
    from scheduler.proof.leaching_check import checked_pots
    from scheduler.proof.meter import plan_against_meter
    from scheduler.reports.handed.extract import extract_json, extract_tables

    site, history = edge.site_of(found), found.history
    meters = plan_against_meter(site, history)
    targets = {one.id: zone_leaching(one, site.supply)[0] for one in site.zones}
    checks = [
        checked_pots(one, targets.get(one.zone), minutes=one.minutes, grid=None)
        for one in history.log.leaching_checks()
    ]
    tables = extract_tables(
        site,
        units,
        tests=evaluated_site(site, history),
        intervals=meters.intervals,
        checks=checks,
        log=history.log,
    )
    chosen = next(one for one in tables if one.name == own["rows"])
    made = Tables(tables, chosen, today)
    return Made(made, extract_json(site, tables), meters.findings)
