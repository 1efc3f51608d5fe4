"""The field sheet as a kind of report: its options, and how it is made."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import click

from scheduler.errors import Finding, QuantityError
from tui.commands import edge

if TYPE_CHECKING:
    from scheduler.files.site_folder import SiteFolder
    from scheduler.units import System

MOST_CANS_A_SIDE = 40
_GRID = re.compile(r"\s*(\d{1,3})\s*[xX×*]\s*(\d{1,3})\s*$")
LANGUAGE = click.Option(
    ["--language"],
    type=click.Choice(["en", "es"]),
    help="Language of the sheet (default: that of the site).",
)
OPTIONS = (
    LANGUAGE,
    click.Option(
        ["--zone", "zones"],
        multiple=True,
        help="Only this zone; give it again for more (default: all zones).",
    ),
    click.Option(
        ["--runs"],
        type=click.IntRange(1, 6),
        default=2,
        show_default=True,
        help="Runs to leave room for.",
    ),
    click.Option(
        ["--grid"],
        metavar="ROWSxCOLUMNS",
        help="How the cans will stand, 4x6 (default: as in the zone's last test).",
    ),
    click.Option(
        ["--date"],
        type=click.DateTime(["%Y-%m-%d"]),
        help="Day of the test (default: a line to write it on).",
    ),
)


@dataclass(frozen=True, slots=True)
class Made:
    """A report that was made: what is printed, the same as JSON, and what to say."""

    what: Any
    json: dict[str, Any]
    findings: tuple[Finding, ...] = ()


def make(
    found: SiteFolder, today: dt.date, units: System, own: Mapping[str, Any]
) -> Made:
    """Field sheets of the zones asked for."""
    from scheduler.field.visit import zone_visits
    from scheduler.reports.field_sheet import Asked, field_sheets, field_sheets_json
    from scheduler.reports.language import language_of
    from scheduler.reports.paper_language import paper_in

    site = edge.site_of(found)
    for zone in own["zones"]:
        edge.known_zone(found, zone)
    if not site.zones:
        raise QuantityError(
            "the site has no zone to print a sheet for", "add a [[zone]] to zones.toml"
        )
    grid = None if own["grid"] is None else _grid(own["grid"])
    visits = zone_visits(site, found.history, today, zone_ids=own["zones"], grid=grid)
    date = own["date"].date() if own["date"] else None
    asked = Asked(site.name, units, own["runs"], date)
    said = tuple(one for visit in visits for one in visit.findings)
    language = language_of(own["language"] or site.language, units)
    return Made(
        paper_in(field_sheets(visits, asked), language),
        field_sheets_json(visits, asked, (*found.findings, *said)),
        said,
    )


def _grid(text: str) -> tuple[int, int]:
    """Rows and columns of cans, from `4x6`."""
    match = _GRID.match(text)
    if match is None:
        fix = "write rows x columns of cans, such as --grid 4x6"
        raise QuantityError(f"--grid is {text!r}", fix)
    rows, columns = int(match[1]), int(match[2])
    if not (1 <= rows <= MOST_CANS_A_SIDE and 1 <= columns <= MOST_CANS_A_SIDE):
        fix = f"give 1 to {MOST_CANS_A_SIDE} rows and columns"
        raise QuantityError(f"--grid is {text!r}", fix)
    if rows * columns < 4:
        raise QuantityError(
            f"--grid is {text!r}", "set out 4 cans at least; 24 is the usual number"
        )
    return rows, columns
