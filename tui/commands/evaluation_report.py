"""The evaluation report as a kind of report: its options, and how it is made."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

import click

from scheduler.errors import Finding, QuantityError
from tui.commands import edge
from tui.commands.field_sheet import Made

if TYPE_CHECKING:
    from scheduler.field.evaluation import TestEvaluation
    from scheduler.files.site_folder import SiteFolder
    from scheduler.plan import ZonePlan
    from scheduler.reports.evaluation import Told
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
    from scheduler.reports.evaluation import evaluation_report, evaluation_report_json

    site = edge.site_of(found)
    for zone in own["zones"]:
        edge.known_zone(site, zone)
    wanted = {zone.casefold() for zone in own["zones"]}
    plans = [
        one
        for one in edge.week_of(found, today, None).zones
        if not wanted or one.zone.id.casefold() in wanted
    ]
    told, said = _told(found, today, units, plans)
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


def _told(
    found: SiteFolder, today: dt.date, units: System, plans: Sequence[ZonePlan]
) -> tuple[list[Told], tuple[Finding, ...]]:
    """What is known of each zone with a test; findings of those, and of the rest."""
    from scheduler.field.due import next_test_date
    from scheduler.field.evaluation import evaluated_site
    from scheduler.field.irrigation_wind import site_wind
    from scheduler.field.next_steps import next_steps
    from scheduler.field.package_tests import package_tests
    from scheduler.field.wind_line import wind_line
    from scheduler.money.economics import site_cost
    from scheduler.reports.evaluation import Told

    site, history = edge.site_of(found), found.history
    tests = evaluated_site(site, history)
    packages = {one.package: one for one in package_tests(site, tests, history.tests)}
    usual = site_wind(site, history.wind).usual_m_per_s
    ids = [one.zone.id for one in plans]
    cost = site_cost(site, history, today, zone_ids=ids)
    by_zone = {one.zone_id: one for one in cost.zones}
    told: list[Told] = []
    said: list[Finding] = []
    for plan in plans:
        own = _tests_of(tests, plan, today)
        if not own:
            said.append(_untested(plan))
            continue
        test, *others = own
        package = packages.get(test.package or "")
        line = None
        if package is not None and not package.why:
            line = wind_line(package.runs, with_m_per_s=usual)
        (read,) = (one for one in history.tests if one.name == test.test)
        again = next_test_date(test.date, site.test_every_months)
        told.append(
            Told(
                site.name, units, today, test, read, plan, next_steps(test), package,
                line, usual, again, by_zone.get(plan.zone.id), cost.year,
                site.tariff.currency if site.tariff else "", tuple(others),
            )
        )  # fmt: skip
        said += test.findings
    return told, tuple(said)


def _tests_of(
    tests: Iterable[TestEvaluation], plan: ZonePlan, today: dt.date
) -> list[TestEvaluation]:
    """Tests of a zone, newest first; of one day, the one that stands last."""
    zone = plan.zone.id.casefold()
    own = [one for one in tests if one.zone.casefold() == zone and one.date <= today]
    return sorted(own, key=lambda one: one.date)[::-1]


def _untested(plan: ZonePlan) -> Finding:
    return Finding(
        "note",
        f"zone {plan.zone.id}",
        "has no test, so there is nothing to report",
        f"test it: lowquarter report SITE field-sheet --zone {plan.zone.id}",
    )
