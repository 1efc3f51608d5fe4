"""Commands about the week: its schedule, and where a number came from."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, NamedTuple

import click

from scheduler.errors import IssueError, QuantityError
from tui.commands import edge

if TYPE_CHECKING:
    from pathlib import Path

    from scheduler.errors import Finding
    from scheduler.files.site_folder import SiteFolder
    from scheduler.issued import IssuedWeek
    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.site import Zone
    from scheduler.trace import Trace
    from scheduler.units import System


@click.command()
@edge.site_argument
@click.option("--start", type=click.DateTime(["%Y-%m-%d"]), help="First night.")
@click.option("--clock", "is_clock", is_flag=True, help="Show what to key in.")
@click.option("--issue", "is_issue", is_flag=True, help="Freeze the week in weeks/.")
@click.option("--yes", is_flag=True, help="Issue without asking.")
@click.option("--force", help="Why a stop finding shall pass when issuing.")
@edge.today_option
@click.option("--moves", is_flag=True, help="What moving last week's starts gains.")
@edge.units_option
@edge.json_option
@edge.guarded
def week(
    site: Path,
    start: dt.datetime | None,
    is_clock: bool,
    is_issue: bool,
    yes: bool,
    force: str | None,
    today: dt.datetime | None,
    moves: bool,
    units: str | None,
    as_json: bool,
) -> None:
    """Plan this week's run times for every zone."""
    from scheduler.files.issue_writing import issued_before
    from scheduler.proof.due import everything_due
    from scheduler.reports.due import due_json, due_text
    from scheduler.reports.machine import week_json
    from scheduler.reports.past_weeks import issued_json
    from scheduler.reports.text import findings_text, week_text

    if (yes or force) and not is_issue:
        raise QuantityError("--yes and --force go with --issue", "add --issue")
    found = edge.read_site(site)
    begin = start.date() if start else None
    plan = edge.week_of(found, edge.today_of(edge.site_of(found), today), begin)
    due = everything_due(plan.site, found.history, plan.today)
    if moves:
        _show_moves(found, plan, units, as_json)
        edge.leave(edge.exit_code(found.findings, plan.all_findings))
    issued = issued_before(found.history, plan)
    if not as_json:
        edge.show(week_text(plan, edge.units_of(edge.site_of(found), units)))
        shown_in = edge.units_of(edge.site_of(found), units)
        _show_clock(plan, shown_in, whole=is_clock or is_issue)
        edge.show("\n" + findings_text((*found.findings, *plan.all_findings)))
        more = [due_text(due)] if due else []
        more += [f"issued before: weeks/{issued.name}.json"] if issued else []
        for text in more:
            edge.show("\n" + text)
    refused = ""
    if is_issue:
        issued, refused = _issued(found, plan, yes=yes, force=force or "")
    if as_json:
        whole = week_json(plan, found.findings)
        edge.show_json({**whole, "due": due_json(due), "issued": issued_json(issued)})
    if refused:
        edge.say(f"lowquarter: {refused}")
        edge.leave(edge.exit_code(found.findings, plan.all_findings) or edge.STOPPED)
    edge.leave(edge.exit_code(found.findings, plan.all_findings))


def _show_moves(
    found: SiteFolder, plan: WeekPlan, units: str | None, as_json: bool
) -> None:
    from scheduler.field.package_wind import site_package_wind
    from scheduler.reports.moves import moves_json, moves_text
    from scheduler.watering.night_plan.moves import move_curve

    site = edge.site_of(found)
    winds = site_package_wind(site, found.history, plan.today)
    curve = move_curve(site, found.history, plan.zones, winds=winds)
    if as_json:
        edge.show_json(moves_json(curve))
        return
    currency = site.tariff.currency if site.tariff else ""
    edge.show(moves_text(curve, edge.units_of(site, units), currency))


def _show_clock(plan: WeekPlan, units: System, *, whole: bool) -> None:
    from scheduler.reports.changes import changes_text, clock_line, clock_text

    several = bool(plan.site.more_controllers)
    if plan.clocks and not whole:
        edge.show("\n" + clock_line(*plan.clocks))
    for one in plan.clocks if whole else ():
        edge.show("\n" + clock_text(one, units, is_one_of_several=several))
    if said := changes_text(plan):
        edge.show("\n" + said)


def _issued(
    found: SiteFolder, plan: WeekPlan, *, yes: bool, force: str
) -> tuple[IssuedWeek | None, str]:
    """Issue a week, after one question; or say why it is refused."""
    from scheduler.files.issue_writing import (
        is_issued_alike,
        issue_week,
        issued_before,
        refuse_stops,
    )

    before = issued_before(found.history, plan)
    if before is not None and is_issued_alike(found.history, plan):
        edge.say(f"{before.name} is issued already, and nothing changed since")
        return before, ""
    try:
        refuse_stops(found, plan, force)
    except IssueError as problem:
        return before, str(problem)
    if not yes:
        said = "issue it" if before is None else f"issue it in place of {before.name}"
        try:
            # what was forced is odd, so enter alone does not do it
            wanted = click.confirm(f"{said}?", default=not force, err=True)
        except click.Abort:
            fix = "answer y, or add --yes where nobody can answer"
            raise QuantityError("nothing was issued: no answer", fix) from None
        if not wanted:
            edge.say("not issued; nothing was written")
            return before, ""
    issued = issue_week(found, plan, issued_at=edge.moment(), forced=force)
    inputs = len(issued.inputs)
    edge.say(f"issued: weeks/{issued.name}.json ({inputs} files fingerprinted)")
    return issued, ""


@click.command()
@edge.site_argument
@click.argument("zone")
@click.argument("quantity", required=False)
@click.option("--start", type=click.DateTime(["%Y-%m-%d"]), help="First night.")
@click.option(
    "--season",
    "of_season",
    is_flag=True,
    help="A number of the season, not of the week.",
)
@click.option(
    "--year",
    type=click.IntRange(1900, 2199),
    help="With --season: its year (default: the last full one with weather).",
)
@edge.today_option
@edge.units_option
@edge.json_option
@edge.guarded
def explain(
    site: Path,
    zone: str,
    quantity: str | None,
    start: dt.datetime | None,
    of_season: bool,
    year: int | None,
    today: dt.datetime | None,
    units: str | None,
    as_json: bool,
) -> None:
    """Show where a number came from: the chain from the cans to the minutes.

    With --season, to the water of a season and what it did.
    """
    if of_season and start is not None:
        raise click.UsageError("--start is of a week: leave it out with --season")
    if year is not None and not of_season:
        raise click.UsageError("--year needs --season")
    found = edge.read_site(site)
    edge.known_zone(found, zone)
    on = edge.today_of(edge.site_of(found), today)
    if of_season:
        told = _of_season(found, zone, on, year)
    else:
        told = _of_week(found, zone, on, start.date() if start else None)
    _show(told, quantity, edge.units_of(edge.site_of(found), units), as_json)


class _Told(NamedTuple):
    """What can be explained of one zone, and what is said below it."""

    zone: Zone
    chains: tuple[Trace, ...]
    findings: tuple[Finding, ...]
    plan: ZonePlan | None = None


def _of_week(
    found: SiteFolder, zone: str, today: dt.date, start: dt.date | None
) -> _Told:
    whole = edge.week_of(found, today, start)
    plan = next(p for p in whole.zones if p.zone.id.casefold() == zone.casefold())
    findings = plan.findings
    if plan.status == "blocked":  # by the zone itself, or by what all zones rest on
        findings += tuple(one for one in whole.findings if one.level == "stop")
    chains = (*plan.chains, *(whole.night.traces if whole.night else ()))
    return _Told(plan.zone, chains, findings, plan)


def _of_season(found: SiteFolder, zone: str, today: dt.date, year: int | None) -> _Told:
    from scheduler.season import run_season

    own = edge.site_of(found)
    run = run_season(own, found.history, today, year=year, zone_ids=(zone,))
    one = run.zones[0] if run.zones else None
    if one is None or not one.chains:
        said = _reason(one.findings if one is not None else run.findings)
        what, fix = (said.what, said.fix) if said else ("no season", "add weather")
        raise QuantityError(f"zone {zone} has no season: {what}", fix)
    return _Told(one.zone, one.chains, one.findings)


def _reason(findings: tuple[Finding, ...]) -> Finding | None:
    """The finding that says why: a stop, else the last."""
    stops = [one for one in findings if one.level == "stop"]
    return next(iter([*stops, *reversed(findings)]), None)


def _show(told: _Told, quantity: str | None, face: System, as_json: bool) -> None:
    from scheduler.reports.machine import trace_json
    from scheduler.reports.text import explain_text, findings_text

    every = {one.name: one for chain in told.chains for one in chain.chain()}
    trace = told.chains[0] if quantity is None else every.get(quantity)
    if trace is None:
        known = ", ".join(every)
        raise QuantityError(f"{quantity!r} is not in the chain", f"it holds {known}")
    if as_json:
        edge.show_json(trace_json(trace))
    else:
        edge.show(f"zone {told.zone.id}, {told.zone.name}\n")
        edge.show(explain_text(trace, face))
        if quantity is None and told.plan is not None and told.plan.rules:
            _show_rules(told.plan, face)
        edge.show("\n" + findings_text(told.findings))
    edge.leave(edge.exit_code((), told.findings))


def _show_rules(plan: ZonePlan, face: System) -> None:
    """The rules side by side, and what else is told of the week."""
    from scheduler.reports.ahead import zone_ahead_text
    from scheduler.reports.leaching import leaching_text
    from scheduler.reports.learned import learned_text
    from scheduler.reports.pots import groups_text, pots_text
    from scheduler.reports.text import rules_text

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
