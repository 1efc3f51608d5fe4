"""The command about weeks that were issued."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from tui.commands import edge

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@edge.site_argument
@click.option("--zone", help="One zone only.")
@edge.json_option
@edge.guarded
def history(site: Path, zone: str | None, as_json: bool) -> None:
    """Show every issued week: minutes, changes, reasons, revisions, overrides."""
    from scheduler.reports.past_weeks import past_weeks_json, past_weeks_text
    from scheduler.reports.text import findings_text

    found = edge.read_site(site)
    ids = {one.zone for week in found.history.issued for one in week.zones}
    if zone not in ids:  # one that is gone has a history still
        edge.known_zone(found, zone)
    about = [
        one for one in found.findings if one.where.startswith(("weeks/", "log.csv"))
    ]
    if as_json:
        told = past_weeks_json(edge.site_of(found), found.history, about, zone)
        edge.show_json(told)
    else:
        edge.show(past_weeks_text(edge.site_of(found), found.history, zone))
        if about:
            edge.show("\n" + findings_text(about))
    edge.leave(edge.exit_code(about, ()))
