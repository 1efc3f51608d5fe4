"""The command about money: what uneven water costs, what a retrofit returns."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import click

from tui.commands import edge

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@edge.site_argument
@click.option("--zone", help="Only this zone, under every rule and by week.")
@click.option(
    "--price",
    help='Another price of water, such as "0.40/kgal" or "0.80/m3".',
)
@click.option(
    "--reference",
    default="best",
    show_default=True,
    help="Hold zones against a DU (0.85), a tested package, or the best zone.",
)
@click.option("--year", type=click.IntRange(1900, 2199), help="A year of weather.")
@click.option("--explain", is_flag=True, help="Say where the numbers came from.")
@edge.today_option
@edge.units_option
@edge.json_option
@edge.guarded
def cost(
    site: Path,
    zone: str | None,
    price: str | None,
    reference: str,
    year: int | None,
    explain: bool,
    today: dt.datetime | None,
    units: str | None,
    as_json: bool,
) -> None:
    """Show what poor uniformity costs, and whether a retrofit pays."""
    from scheduler.money.economics import site_cost
    from scheduler.money.price_text import parsed_price
    from scheduler.money.with_week import with_week
    from scheduler.reports.cost import chains_text, cost_text, zone_cost_text
    from scheduler.reports.cost_json import cost_json
    from scheduler.reports.cost_week import quarters_text
    from scheduler.reports.cost_week_json import with_week_json
    from scheduler.reports.text import findings_text

    found = edge.read_site(site)
    own = edge.site_of(found)
    edge.known_zone(found, zone)
    day, asked = edge.today_of(own, today), (zone,) if zone else ()
    answer = site_cost(
        own,
        found.history,
        day,
        year=year,
        zone_ids=asked,
        water_money_per_m3=None if price is None else parsed_price(price),
        reference=_reference(reference),
        profiles=edge.profiles_of(found),
    )
    plan = edge.week_of(found, day, None)
    around = with_week(plan, found.history, answer, asked)
    said = (*found.findings, *answer.findings)
    if as_json:
        edge.show_json(cost_json(answer, said) | with_week_json(around))
    else:
        face = edge.units_of(own, units)
        edge.show(cost_text(answer, face, around))
        for one in answer.zones if zone else ():
            edge.show("\n" + zone_cost_text(one, face))
        for week in around.week.zones if zone else ():
            edge.show("\n" + quarters_text(week, face))
        if explain:
            edge.show("\n" + chains_text(answer, face, around))
        edge.show("\n" + findings_text(said))
    edge.leave(edge.exit_code(found.findings, answer.findings))


def _reference(text: str) -> float | str:
    try:
        return float(text)
    except ValueError:
        return text
