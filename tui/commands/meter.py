"""Commands about water that a meter saw: against the plan, and before and after."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import click

from tui.commands import edge

if TYPE_CHECKING:
    from pathlib import Path

    from scheduler.errors import Finding
    from scheduler.files.site_folder import SiteFolder
    from scheduler.proof.saving import Saving


@click.command()
@edge.site_argument
@click.option("--meter", "name", help="Only this meter.")
@edge.units_option
@edge.json_option
@edge.guarded
def meter(site: Path, name: str | None, units: str | None, as_json: bool) -> None:
    """Hold the plan against the water meters, from reading to reading.

    Frost and hand water stand apart. Where more than 10 % is left over, the likely
    causes are ranked with their arithmetic.
    """
    from scheduler.errors import QuantityError
    from scheduler.proof.meter import plan_against_meter
    from scheduler.reports.meter import meter_json, meter_text
    from scheduler.reports.text import findings_text

    found = edge.read_site(site)
    result = plan_against_meter(edge.site_of(found), found.history)
    if name is not None:
        known = [one.meter for one in result.totals]
        if name not in known:
            fix = f"the meters are {', '.join(known) or 'none yet'}"
            raise QuantityError(f"there is no meter {name!r} with two readings", fix)
        kept = tuple(one for one in result.intervals if one.dial.meter == name)
        result = replace(result, intervals=kept)
    if as_json:
        edge.show_json(meter_json(result, (*found.findings, *result.findings)))
    else:
        edge.show(meter_text(result, edge.units_of(edge.site_of(found), units)))
        if result.findings:
            edge.show("\n" + findings_text(result.findings))
        edge.say(findings_text(found.findings))
    edge.leave(edge.exit_code(found.findings, result.findings))


@click.command()
@edge.site_argument
@click.option("--before", required=True, help="A year, or 2026-04-13..2026-05-18.")
@click.option("--after", required=True, help="The same, after the change.")
@click.option("--area-before", help="Ground watered before, such as '3.2 acre'.")
@click.option("--area-after", help="Ground watered after.")
@edge.today_option
@edge.units_option
@edge.json_option
@edge.guarded
def saving(
    site: Path,
    before: str,
    after: str,
    area_before: str | None,
    area_after: str | None,
    today: dt.datetime | None,
    units: str | None,
    as_json: bool,
) -> None:
    """Compare the water of two periods: raw, and made comparable step by step.

    Weather, frost water and ground each get a line of their own; what is potential and
    what is actual stand apart. The raw change is never called a saving.
    """
    from scheduler.reports.saving import saving_json, saving_text
    from scheduler.reports.text import findings_text

    found = edge.read_site(site)
    own = edge.site_of(found)
    day = edge.today_of(own, today)
    result, said = saving_of(found, (before, after), (area_before, area_after), day)
    if as_json:
        edge.show_json(saving_json(result, (*found.findings, *said)))
    else:
        edge.show(saving_text(result, edge.units_of(own, units)))
        edge.show("\n" + findings_text(said))
        edge.say(findings_text(found.findings))
    edge.leave(edge.exit_code(found.findings, said))


def saving_of(
    found: SiteFolder,
    spans: tuple[str, str],
    areas: tuple[str | None, str | None],
    today: dt.date,
) -> tuple[Saving, tuple[Finding, ...]]:
    """Both periods with their ground, and what must be said."""
    from scheduler.proof.site_saving import site_saving
    from scheduler.units import parsed_quantity

    before, after = (
        None if one is None else parsed_quantity(one, to="m2") for one in areas
    )
    return site_saving(
        edge.site_of(found), found.history, spans, today, areas_m2=(before, after)
    )
