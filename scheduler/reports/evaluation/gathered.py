"""A site, its history and a day in; what each zone's report is made from out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import TYPE_CHECKING

from scheduler.errors import Finding
from scheduler.field.due import next_test_date
from scheduler.field.evaluation import evaluated_site
from scheduler.field.irrigation_wind import site_wind
from scheduler.field.next_steps import next_steps
from scheduler.field.package_tests import PackageTests, package_tests
from scheduler.field.wind_line import WindLine, wind_line
from scheduler.money.economics import site_cost
from scheduler.plan import build_week
from scheduler.reports.evaluation.told import Told

if TYPE_CHECKING:
    from scheduler.field.evaluation import TestEvaluation
    from scheduler.plan import ZonePlan
    from scheduler.record import History
    from scheduler.site import Site
    from scheduler.units import System


def gathered(
    site: Site,
    history: History,
    today: dt.date,
    units: System,
    *,
    zone_ids: Iterable[str] = (),
) -> tuple[tuple[Told, ...], tuple[Finding, ...]]:
    """What is known of each zone with a test.

    Parameters
    ----------
    site, history : Site and History
        The site.
    today : date
        Tests of later days do not count.
    units : {'us', 'metric'}
        What is shown.
    zone_ids : iterable of str, optional
        Only these zones; all when empty.

    Returns
    -------
    told : tuple of Told
        In the order of the site, each with its newest test.
    findings : tuple of Finding
        Those of these tests, and a note on each zone without one.
    """
    wanted = {one.casefold() for one in zone_ids}
    plans = [
        one
        for one in build_week(site, history, today).zones
        if not wanted or one.zone.id.casefold() in wanted
    ]
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
        told.append(
            Told(
                site=site.name,
                units=units,
                today=today,
                test=test,
                read=next(one for one in history.tests if one.name == test.test),
                plan=plan,
                steps=next_steps(test),
                package=package,
                line=_line(package, usual),
                usual_wind_m_per_s=usual,
                next_test=next_test_date(test.date, site.test_every_months),
                cost=by_zone.get(plan.zone.id),
                year=cost.year,
                currency=site.tariff.currency if site.tariff else "",
                others=tuple(others),
            )
        )
        said += test.findings
    return tuple(told), tuple(said)


def _line(package: PackageTests | None, usual_m_per_s: float | None) -> WindLine | None:
    if package is None or package.why:
        return None
    return wind_line(package.runs, with_m_per_s=usual_m_per_s)


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
