"""A planned week in; half a page for the manager out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from scheduler.log import Log, Override
from scheduler.reports.ahead import eto_from
from scheduler.reports.handed.change_sheet import detail_text, now_text
from scheduler.reports.handed.told import (
    Known,
    Walk,
    blocked_why,
    changes,
    day_text,
    week_name,
    why_text,
)
from scheduler.reports.joined import joined
from scheduler.reports.machine import FORMAT
from scheduler.reports.paper import Facts, Leaf, Paper, Section, plain, sheet_of
from scheduler.reports.text import ORDER, was_text
from scheduler.said import signed
from scheduler.units import System, shown

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.watering.week_water import WeekWater
    from scheduler.week_plan import WeekPlan, ZonePlan

Json = dict[str, Any]
Pairs = tuple[tuple[str, str], ...]
# half a page holds so many of each; the number of the others is said
MOST_EYES, MOST_DUE, MOST_OVERRIDES = 6, 4, 4
DAYS_BACK = 7


def summary_facts(
    plan: WeekPlan,
    water: WeekWater,
    log: Log,
    units: System,
    known: Known | None = None,
) -> dict[str, Pairs]:
    """What the summary says, section by section.

    Parameters
    ----------
    plan : WeekPlan
        The week.
    water : WeekWater
        Its water against the settings before.
    log : Log
        For the overrides of the last seven days.
    units : str
        How numbers are written.
    known : Known, optional
        Issued weeks and reasons.
    """
    known = known or Known()
    return {
        "Water": _water(plan, water, units),
        "Zones changed": tuple(_changed(plan, units, known)),
        "Zones needing eyes": _eyes(plan),
        "Overrides": _overrides(plan, log),
        "Next due": _due(plan),
    }


def summary_paper(plan: WeekPlan, told: dict[str, Pairs]) -> Paper:
    """The summary as half a page."""
    sections = tuple(Section(title, (Facts(facts),)) for title, facts in told.items())
    leaf = Leaf(
        title=plain(plan.site.name),
        part=week_name(plan),
        place=f"made {day_text(plan.today)}",
        sections=sections,
    )
    return Paper(
        "Weekly summary", plain(plan.site.name), (leaf,), sheet_of(plan.site.units)
    )


def summary_json(plan: WeekPlan, water: WeekWater, told: dict[str, Pairs]) -> Json:
    """The summary in numbers, and as it is printed."""
    weather = plan.weather
    return {
        "format": FORMAT,
        "report": "summary",
        "site": plan.site.name,
        "start": plan.start.isoformat(),
        "eto_mm": weather.trace.value if weather else None,
        "rain_counted_mm": weather.rain_trace.value if weather else None,
        "water_m3": water.total_m3,
        "water_alike_m3": water.alike_m3,
        "water_was_m3": water.was_m3,
        "water_change": water.change,
        "not_counted": [{"zone": zone, "why": why} for zone, why in water.not_counted],
        "sections": {
            title: [{"what": name, "says": text} for name, text in facts]
            for title, facts in told.items()
        },
    }


def _water(plan: WeekPlan, water: WeekWater, units: System) -> Pairs:
    facts = []
    if plan.weather is not None:
        eto, rain = plan.weather.trace.value, plan.weather.rain_trace.value
        assert isinstance(eto, float)
        assert isinstance(rain, float)
        facts.append(("Reference ET", f"{shown(eto, 'mm', units)} ({eto_from(plan)})"))
        basis = ", ".join(dict.fromkeys(plan.weather.rain_basis))
        facts.append(("Rain counted", f"{shown(rain, 'mm', units)} ({basis})"))
    facts.append(("Water planned", shown(water.total_m3, "m3", units)))
    if water.was_m3 is not None and water.alike_m3 is not None:
        facts.append(("Against before", _against(water, units)))
    if water.not_counted:
        left = ", ".join(f"{plain(zone)} ({why})" for zone, why in water.not_counted)
        facts.append(("Not counted", left))
    if plan.short is not None:
        most, whole = (
            shown(one, "m3", units)
            for one in (plan.short.most_m3, plan.short.planned_m3)
        )
        facts.append(("Water is short", f"{most} of {whole} for the week"))
    return tuple(facts)


def _against(water: WeekWater, units: System) -> str:
    sources = dict.fromkeys(
        one.was_from for one in water.zones if one.was_m3 is not None
    )
    was = shown(water.was_m3, "m3", units)
    change = (
        ""
        if water.change is None
        else f", {signed(water.change, '.0%')}".replace("%", " %")
    )
    said = f"{was} a week by {', '.join(sources)}{change}"
    unknown = [one.zone for one in water.zones if one.was_m3 is None]
    if unknown:
        now = shown(water.alike_m3, "m3", units)
        names = ", ".join(plain(one) for one in unknown)
        said += f" ({now} now; before is not known of {names})"
    return said


def _changed(plan: WeekPlan, units: System, known: Known) -> Iterable[tuple[str, str]]:
    found = False
    walk = Walk.of(plan.site)
    for one in sorted(plan.zones, key=lambda each: walk.order[each.zone.id]):
        name = f"{plain(walk.clock_of(one.zone.id))} {_name(one)}".strip()
        if one.status == "blocked":
            found = True
            yield name, f"leave as it is: {blocked_why(one, plan)}"
            continue
        new = changes(one, plan, known)
        if new:
            found = True
            other = [part for part in new if part not in ("minutes", "new")]
            more = f", new {' and '.join(other)}" if other else ""
            detail = f" {detail_text(one)}" if detail_text(one) else ""
            now = now_text(one) + ("" if now_text(one) == "OFF" else " min")
            said = (
                f"{was_text(one)} → {now}{detail}{more}: {why_text(one, units, known)}"
            )
            yield name, said
    if not found:
        yield "None", "every zone stays as it is"


def _name(one: ZonePlan) -> str:
    return plain(one.zone.id)


def _eyes(plan: WeekPlan) -> Pairs:
    """Findings that stop or warn, worst first."""
    worst = sorted(
        (one for one in joined(plan.all_findings) if one.level != "note"),
        key=lambda one: ORDER[one.level],
    )
    return _listed(worst, MOST_EYES, "lowquarter week lists them all") or (
        ("None", "no finding stops or warns"),
    )


def _listed(found: Sequence[Finding], most: int, where: str) -> Pairs:
    facts: list[tuple[str, str]] = [
        (one.level, plain(f"{one.where}: {one.what}")) for one in found[:most]
    ]
    more = found[most:]
    if more:
        facts.append((f"and {len(more)} more", where))
    return tuple(facts)


def _overrides(plan: WeekPlan, log: Log) -> Pairs:
    since = plan.today - dt.timedelta(days=DAYS_BACK)
    told = [one for one in log.of(Override) if since <= one.date <= plan.today]
    facts = [
        (
            f"{plain(one.zone)}, {day_text(one.date)}",
            f"{one.minutes:g} min: {plain(one.reason)}",
        )
        for one in told[-MOST_OVERRIDES:]
    ]
    if len(told) > MOST_OVERRIDES:
        facts.insert(
            0, (f"and {len(told) - MOST_OVERRIDES} before", "log.csv has them")
        )
    return tuple(facts) or (("None", f"since {day_text(since)}"),)


def _due(plan: WeekPlan) -> Pairs:
    last = plan.zones[0].dates[-1] if plan.zones else plan.start
    sheet = ("Next sheet", f"{day_text(last + dt.timedelta(days=1))}, or after rain")
    due = sorted(plan.tests_due, key=lambda one: ORDER[one.level])
    tests = [
        (one.where.removeprefix("zone "), f"{one.what}: {one.fix}")
        for one in due[:MOST_DUE]
    ]
    more = due[MOST_DUE:]
    if more:
        tests.append((f"and {len(more)} more", "lowquarter inspect lists them all"))
    return (sheet, *tests)
