"""The grant sheet as a kind of report: its options, and how it is made."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import click

from tui.commands import edge
from tui.commands.field_sheet import Made

if TYPE_CHECKING:
    from scheduler.files.site_folder import SiteFolder
    from scheduler.units import System

OPTIONS = (
    click.Option(
        ["--before"], required=True, help="A year, or 2026-04-13..2026-05-18."
    ),
    click.Option(["--after"], required=True, help="The same, after the change."),
    click.Option(["--area-before"], help="Ground watered before, such as '3.2 acre'."),
    click.Option(["--area-after"], help="Ground watered after."),
)


def make(
    found: SiteFolder, today: dt.date, units: System, own: Mapping[str, Any]
) -> Made:
    """Before and after of the two periods asked for."""
    from scheduler.reports.grant import grant_sheet, grant_sheet_json
    from tui.commands.meter import saving_of

    site = edge.site_of(found)
    spans = (own["before"], own["after"])
    result, said = saving_of(
        found, spans, (own["area_before"], own["area_after"]), today
    )
    return Made(
        grant_sheet(site.name, result, said, units, today),
        grant_sheet_json(site.name, result, (*found.findings, *said)),
        said,
    )
