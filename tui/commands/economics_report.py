"""The economics pages as a kind of report: their options, and how they are made."""

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
        ["--zone", "zones"],
        multiple=True,
        help="Only this zone and the options in it; give it again for more.",
    ),
    click.Option(
        ["--price"],
        help='Another price of water, such as "0.40/kgal" or "0.80/m3".',
    ),
)


def make(
    found: SiteFolder, today: dt.date, units: System, own: Mapping[str, Any]
) -> Made:
    """What uneven water costs, and whether each option pays."""
    from scheduler.money.economics import site_cost
    from scheduler.money.price_text import parsed_price
    from scheduler.money.with_week import with_week
    from scheduler.reports.economics import economics_report, economics_report_json

    site = edge.site_of(found)
    for zone in own["zones"]:
        edge.known_zone(found, zone)
    price = own["price"]
    cost = site_cost(
        site,
        found.history,
        today,
        zone_ids=own["zones"],
        water_money_per_m3=None if price is None else parsed_price(price),
        profiles=edge.profiles_of(found),
    )
    plan = edge.week_of(found, today, None)
    around = with_week(plan, found.history, cost, own["zones"])
    return Made(
        economics_report(cost, units, today, around),
        economics_report_json(cost, (*found.findings, *cost.findings), around),
        cost.findings,
    )
