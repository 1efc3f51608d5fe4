"""Zones and their tests in; the grower's report as leaves of paper, and JSON, out.

Pure formatting: every number comes from a room and passes through `scheduler.units`.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from scheduler.reports.cautions import DEFER, cautions
from scheduler.reports.evaluation.causes import causes_section, heads_table
from scheduler.reports.evaluation.finding import actions, finding, finding_section
from scheduler.reports.evaluation.method import (
    method_section,
    next_section,
    photos_section,
    sources,
)
from scheduler.reports.evaluation.results import (
    map_leaves,
    results_section,
    wind_sections,
)
from scheduler.reports.evaluation.run_times import cost_section, run_times_section
from scheduler.reports.machine import (
    FORMAT,
    Json,
    evaluation_json,
    findings_json,
    zone_json,
)
from scheduler.reports.paper import Leaf, Paper, Section, plain, sheet_of
from scheduler.said import date_text

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.reports.evaluation.told import Told
    from scheduler.units import System

# What the actions of such a report lead into.
SUBJECTS = (
    "Electrics",
    "Pressure",
    "Chemigation",
    "Re-entry",
    "Recycled water",
    "Slips",
)


def evaluation_report(site: str, units: System, zones: Iterable[Told]) -> Paper:
    """One report a zone, each to be handed over by itself."""
    leaves = tuple(leaf for told in zones for leaf in _report(told))
    return Paper("Evaluation report", plain(site), leaves, sheet_of(units))


def _parts(told: Told) -> list[tuple[str, tuple[Section, ...]]]:
    """What each leaf holds, in the order in which it is read."""
    causes = (causes_section(told), run_times_section(told))
    method = (cost_section(told), method_section(told))
    wind = tuple(wind_sections(told))
    # where heads were gauged one by one, the leaf about causes is full
    is_full = bool(heads_table(told).rows)
    return [
        ("finding and results", (finding_section(told), results_section(told))),
        *(("map and quarters", one) for one in map_leaves(told)),
        ("causes and run times", causes if is_full else (*causes, *wind)),
        ("cost and method", (*method, *wind) if is_full else method),
        ("photos and next test", (photos_section(told), next_section(told))),
    ]


def _report(told: Told) -> list[Leaf]:
    parts, zone = _parts(told), told.plan.zone
    return [
        Leaf(
            title=f"{plain(zone.id)}  {plain(zone.name)}",
            part=part,
            place=f"part {i} of {len(parts)}",
            sections=sections,
            stamp=f"tested {date_text(told.test.date)}",
            foot=cautions(*SUBJECTS) if i == len(parts) else (),
            closing=DEFER if i == len(parts) else "",
        )
        for i, (part, sections) in enumerate(parts, 1)
    ]


def evaluation_report_json(
    site: str, zones: Iterable[Told], findings: Iterable[Finding]
) -> Json:
    """What the reports are made from."""
    return {
        "format": FORMAT,
        "report": "evaluation",
        "site": site,
        "reports": [_json(one) for one in zones],
        "findings": findings_json(findings),
    }


def _json(told: Told) -> Json:
    (test,) = evaluation_json((told.test,), ())["tests"]
    return {
        "zone": told.plan.zone.id,
        "finding": finding(told),
        "actions": [
            {"do": what, "because": why, "takes": cost}
            for what, why, cost in actions(told)
        ],
        "test": test,
        "week": zone_json(told.plan),
        "next_test": told.next_test.isoformat(),
        "sources": list(sources(told)),
    }
