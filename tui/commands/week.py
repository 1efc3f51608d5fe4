"""Commands about the week: its schedule, and where a number came from."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import click

from scheduler.errors import QuantityError
from tui.commands import edge

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@edge.site_argument
@click.option("--start", type=click.DateTime(["%Y-%m-%d"]), help="First night.")
@edge.today_option
@edge.units_option
@edge.json_option
@edge.guarded
def week(
    site: Path,
    start: dt.datetime | None,
    today: dt.datetime | None,
    units: str | None,
    as_json: bool,
) -> None:
    """Plan this week's run times for every zone."""
    from scheduler.proof.due import everything_due
    from scheduler.reports.due import due_json, due_text
    from scheduler.reports.machine import week_json
    from scheduler.reports.text import findings_text, week_text

    found = edge.read_site(site)
    begin = start.date() if start else None
    plan = edge.week_of(found, edge.today_of(edge.site_of(found), today), begin)
    due = everything_due(plan.site, found.history, plan.today)
    if as_json:
        whole = week_json(plan, found.findings)
        edge.show_json({**whole, "due": due_json(due)})
    else:
        edge.show(week_text(plan, edge.units_of(edge.site_of(found), units)))
        edge.show("\n" + findings_text((*found.findings, *plan.all_findings)))
        if due:
            edge.show("\n" + due_text(due))
    edge.leave(edge.exit_code(found.findings, plan.all_findings))


@click.command()
@edge.site_argument
@click.argument("zone")
@click.argument("quantity", required=False)
@click.option("--start", type=click.DateTime(["%Y-%m-%d"]), help="First night.")
@edge.today_option
@edge.units_option
@edge.json_option
@edge.guarded
def explain(
    site: Path,
    zone: str,
    quantity: str | None,
    start: dt.datetime | None,
    today: dt.datetime | None,
    units: str | None,
    as_json: bool,
) -> None:
    """Show where a number came from: the chain from the cans to the minutes."""
    from scheduler.reports.ahead import zone_ahead_text
    from scheduler.reports.leaching import leaching_text
    from scheduler.reports.learned import learned_text
    from scheduler.reports.machine import trace_json
    from scheduler.reports.pots import groups_text, pots_text
    from scheduler.reports.text import explain_text, findings_text, rules_text

    found = edge.read_site(site)
    edge.known_zone(edge.site_of(found), zone)
    begin = start.date() if start else None
    whole = edge.week_of(found, edge.today_of(edge.site_of(found), today), begin)
    plan = next(p for p in whole.zones if p.zone.id.casefold() == zone.casefold())
    chains = (*plan.chains, *(whole.night.traces if whole.night else ()))
    every = {one.name: one for chain in chains for one in chain.chain()}
    trace = plan.trace if quantity is None else every.get(quantity)
    if trace is None:
        known = ", ".join(every)
        raise QuantityError(f"{quantity!r} is not in the chain", f"it holds {known}")
    findings = plan.findings
    if plan.status == "blocked":  # by the zone itself, or by what all zones rest on
        findings += tuple(one for one in whole.findings if one.level == "stop")
    if as_json:
        edge.show_json(trace_json(trace))
    else:
        face = edge.units_of(edge.site_of(found), units)
        edge.show(f"zone {plan.zone.id}, {plan.zone.name}\n")
        edge.show(explain_text(trace, face))
        if quantity is None and plan.rules:
            edge.show("\n" + rules_text(plan))
            told = (
                leaching_text(plan),
                pots_text(plan),
                groups_text(plan, face),
                zone_ahead_text(plan, face),
                learned_text(plan),
            )
            for text in filter(None, told):
                edge.show(text)
        edge.show("\n" + findings_text(findings))
    edge.leave(edge.exit_code((), findings))
