"""The evaluation report as a kind of report: its options, and how it is made."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import click

from scheduler.errors import QuantityError
from tui.commands import edge
from tui.commands.field_sheet import Made

if TYPE_CHECKING:
    from scheduler.files.site_folder import SiteFolder
    from scheduler.units import System

OPTIONS = (
    click.Option(
        ["--zone", "zones"],
        multiple=True,
        help="Only this zone; give it again for more (default: all tested zones).",
    ),
)


def make(
    found: SiteFolder, today: dt.date, units: System, own: Mapping[str, Any]
) -> Made:
    """The grower's report of the newest test of each zone asked for."""
    from scheduler.reports.evaluation import (
        evaluation_report,
        evaluation_report_json,
        gathered,
    )

    site = edge.site_of(found)
    for zone in own["zones"]:
        edge.known_zone(found, zone)
    told, said = gathered(site, found.history, today, units, zone_ids=own["zones"])
    if not told:
        raise QuantityError(
            "no zone that was asked for has a test yet",
            "test one: lowquarter report SITE field-sheet prints the sheets",
        )
    return Made(
        evaluation_report(site.name, units, told),
        evaluation_report_json(site.name, told, (*found.findings, *said)),
        said,
    )
