"""Commands about the site folder: demo, new, inspect, open."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import click

from scheduler.errors import Finding, SiteFolderError
from tui.commands import edge, look

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@click.argument("folder", type=edge.FOLDER, required=False)
@click.option(
    "--site",
    "name",
    metavar="NAME",
    help="Which demo site (default: tern_hollow); `list` names them.",
)
@edge.units_option
@look.options
@edge.guarded
def demo(
    folder: Path | None, name: str | None, units: str | None, seen: look.Look
) -> None:
    """Copy a demo site to FOLDER, plan its week and open the dashboard.

    FOLDER is named like the site unless you say otherwise. Without a terminal the
    week is printed. Everything but the weather is invented.
    """
    from pathlib import Path

    from scheduler.files.demo import DEMO, DEMOS, known_demo

    if name == "list":
        wide = max(map(len, DEMOS))
        edge.show("\n".join(f"{one:<{wide}}  {DEMOS[one]}" for one in DEMOS))
        return
    chosen = DEMO if name is None else known_demo(name)
    _show_demo(folder or Path(chosen), chosen, units, seen)


def _show_demo(folder: Path, name: str, units: str | None, seen: look.Look) -> None:
    """Copy the site if it is not there, and show it in the way of this terminal."""
    from scheduler.files.demo import copy_demo
    from scheduler.reports.text import findings_text, week_text

    made = copy_demo(folder, name)
    edge.say(
        f"{'demo site copied to' if made else 'demo site from before in'} {folder}"
    )
    if edge.has_terminal():
        edge.open_dashboard(folder, units, face=seen.theme, in_words=seen.words)
    found = edge.read_site(folder)
    site = edge.site_of(found)
    plan = edge.week_of(found, edge.today_of(site, None), None)
    edge.show(week_text(plan, edge.units_of(site, units)))
    stops = [f for f in (*found.findings, *plan.all_findings) if f.level == "stop"]
    edge.show("\n" + findings_text(stops))
    edge.show(f"\nnext: lowquarter explain {folder} {site.zones[0].id}")


@click.command()
@click.argument("folder", type=edge.FOLDER)
@click.option(
    "--units", type=edge.Units(["us", "metric"]), default="us", show_default=True
)
@edge.guarded
def new(folder: Path, units: str) -> None:
    """Write a commented site folder to fill in."""
    from scheduler.files.new_site import new_site

    new_site(folder, "us" if units == "us" else "metric")
    edge.show(f"{folder} is ready: fill in site.toml and zones.toml, then")
    edge.show(f"  lowquarter inspect {folder}")


@click.command()
@edge.site_argument
@edge.today_option
@edge.json_option
@edge.guarded
def inspect(site: Path, today: dt.datetime | None, as_json: bool) -> None:
    """Print everything wrong with a site folder, and what is due."""
    from scheduler.files.site_folder import read_site_folder
    from scheduler.proof.due import Due, everything_due
    from scheduler.reports.due import due_json, due_text
    from scheduler.reports.machine import inspection_json
    from scheduler.reports.text import findings_text

    found = read_site_folder(site)
    computed: tuple[Finding, ...] = ()
    tests_due: tuple[Finding, ...] = ()
    due: tuple[Due, ...] = ()
    if found.site is not None:
        day = edge.today_of(found.site, today)
        plan = edge.week_of(found, day, None)
        computed, tests_due = plan.all_findings, plan.tests_due
        due = everything_due(found.site, found.history, day)
    everything = (*found.findings, *computed)
    if as_json:
        whole = inspection_json(everything, tests_due)
        edge.show_json({**whole, "due": due_json(due)})
    else:
        edge.show(findings_text(everything) or "nothing wrong with the folder")
        if due:
            edge.show("\n" + due_text(due))
    edge.leave(edge.exit_code(found.findings, computed))


@click.command("open")
@click.argument("site", type=edge.FOLDER, required=False)
@edge.units_option
@look.options
@edge.guarded
def open_site(site: Path | None, units: str | None, seen: look.Look) -> None:
    """Open the dashboard of a site in this terminal.

    Without SITE: of the folder you are in. Where there is no site, a first page offers
    to make one, to open a demo, or to import readings.
    """
    if not edge.has_terminal():
        edge.say(
            "lowquarter: the dashboard needs a terminal; "
            f"use `lowquarter week {site or 'SITE'}` or `--json` instead"
        )
        edge.leave(edge.USAGE)
    if site is not None and not site.exists():
        raise SiteFolderError(
            "there is no such folder", "make one with `lowquarter new`", str(site)
        )
    if site is not None and (site / "zones.toml").is_file():
        # a spoilt site opens on its findings
        edge.open_dashboard(site, units, face=seen.theme, in_words=seen.words)
    else:
        edge.open_here(units, site, face=seen.theme, in_words=seen.words)
