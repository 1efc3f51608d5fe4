"""The command about a season: every catch position through a year."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import click

from tui.commands import edge

if TYPE_CHECKING:
    from pathlib import Path

    from scheduler.season import SeasonPlan
    from scheduler.watering.season_run.saved import AtAnotherDU


@click.command()
@edge.site_argument
@click.option("--zone", help="Only this zone, by quarters.")
@click.option(
    "--year",
    "years",
    type=click.IntRange(1900, 2199),
    multiple=True,
    help="A year; repeat it for several (default: the last full one with weather).",
)
@click.option(
    "--at-du",
    type=click.FloatRange(0.05, 1.0),
    default=0.85,
    show_default=True,
    help="Say what this DU low quarter would save.",
)
@edge.today_option
@edge.units_option
@edge.json_option
@edge.guarded
def season(
    site: Path,
    zone: str | None,
    years: tuple[int, ...],
    at_du: float,
    today: dt.datetime | None,
    units: str | None,
    as_json: bool,
) -> None:
    """Run a season: what every quarter of a zone gets, uses, drains and lacks."""
    from scheduler.reports.season import (
        season_json,
        season_text,
        years_text,
        zone_season_text,
    )
    from scheduler.reports.text import findings_text
    from scheduler.season import run_season

    found = edge.read_site(site)
    own = edge.site_of(found)
    edge.known_zone(found, zone)
    on = edge.today_of(own, today)
    only = (zone,) if zone else ()
    seasons = [
        run_season(own, found.history, on, year=year, zone_ids=only)
        for year in (years or (None,))
    ]
    others = _others(seasons[0], at_du) if zone or as_json else {}
    said = tuple(dict.fromkeys(f for one in seasons for f in one.all_findings))
    if as_json:
        edge.show_json(season_json(seasons, others, (*found.findings, *said)))
    else:
        face = edge.units_of(own, units)
        edge.show(season_text(seasons[0], face))
        for one in seasons[0].zones if zone else ():
            if one.input is not None:
                edge.show("\n" + zone_season_text(one, others.get(one.zone.id), face))
        if len(seasons) > 1 and all(one.days is not None for one in seasons):
            edge.show("\n" + years_text(seasons, face))
        edge.show("\n" + findings_text((*found.findings, *said)))
    edge.leave(edge.exit_code(found.findings, said))


def _others(plan: SeasonPlan, du_lq: float) -> dict[str, AtAnotherDU]:
    """Each zone that was run, at another uniformity."""
    from scheduler.watering.season_run.saved import at_another_du

    return {
        one.zone.id: at_another_du(one.input, du_lq)
        for one in plan.zones
        if one.input is not None
    }
