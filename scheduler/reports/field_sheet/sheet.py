"""What is known of zones in; field sheets to carry and fill in, and JSON, out.

Pure formatting: every number comes from a room and passes through `scheduler.units`.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from scheduler.reports.cautions import DEFER, cautions
from scheduler.reports.field_sheet.after import plant_sections, sketch_sections
from scheduler.reports.field_sheet.asked import Asked
from scheduler.reports.field_sheet.before import (
    hardware_sections,
    heads_left,
    visit_sections,
)
from scheduler.reports.field_sheet.known import known_facts
from scheduler.reports.field_sheet.run import run_sections
from scheduler.reports.machine import FORMAT, Json, findings_json, run_json
from scheduler.reports.paper import Facts, Leaf, Paper, Section, plain, sheet_of
from scheduler.said import date_text

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.field.visit import ZoneVisit

# What a crew meets in a block of sprinklers; nobody sets cans out in a frost.
SUBJECTS = (
    "Electrics", "Pressure", "Chemigation", "Re-entry", "Recycled water", "Slips",
    "Heat",
)  # fmt: skip


def field_sheets(visits: Iterable[ZoneVisit], asked: Asked) -> Paper:
    """One sheet a zone: sides before the water runs, one a run, sides after it."""
    leaves = [leaf for visit in visits for leaf in _sheet(visit, asked)]
    return Paper("Field sheet", plain(asked.site), tuple(leaves), sheet_of(asked.units))


def _sheet(visit: ZoneVisit, asked: Asked) -> list[Leaf]:
    sides = _sides(visit, asked)
    date = date_text(asked.date) if asked.date else "_" * 16
    return [
        Leaf(
            title=f"{plain(visit.zone.id)}  {plain(visit.zone.name)}",
            part=part,
            place=f"side {i} of {len(sides)}",
            sections=sections,
            stamp="" if i == 1 else f"Date {date}",
            foot=cautions(*SUBJECTS) if i == 1 else (),
            closing=DEFER if i == 1 else "",
        )
        for i, (part, sections) in enumerate(sides, 1)
    ]


def _sides(visit: ZoneVisit, asked: Asked) -> list[tuple[str, tuple[Section, ...]]]:
    """What each side of paper holds, in the order of the work."""
    on_file = Section("On file", (Facts(known_facts(visit, asked.units)),))
    sides = [
        ("visit, cans, clock", (on_file, *visit_sections(visit, asked))),
        ("heads, pressure, flow", hardware_sections(visit, asked.units)),
    ]
    more = heads_left(visit)
    if more:
        sides.append(("heads, continued", (more,)))
    for i in range(1, asked.n_runs + 1):
        sides.append((f"run {i}", run_sections(visit, asked.units)))
    sides.append(("plants and water", plant_sections(visit.zone, asked.units)))
    sides.append(("sketch", sketch_sections()))
    return sides


def field_sheets_json(
    visits: Iterable[ZoneVisit], asked: Asked, findings: Iterable[Finding]
) -> Json:
    """What the sheets are filled in with."""
    return {
        "format": FORMAT,
        "report": "field-sheet",
        "site": asked.site,
        "date": asked.date.isoformat() if asked.date else None,
        "runs": asked.n_runs,
        "sheets": [_json(one) for one in visits],
        "findings": findings_json(findings),
    }


def _json(visit: ZoneVisit) -> Json:
    zone, package, last, laid = visit.zone, visit.package, visit.last, visit.can_map
    return {
        "zone": zone.id,
        "name": zone.name,
        "valve": zone.valve,
        "area_m2": zone.area_m2,
        "package": package.id if package else None,
        "nozzle_flow_l_per_min": package.nozzle_flow_l_per_min if package else None,
        "pressure_kpa": package.pressure_kpa if package else None,
        "spacing_m": package.spacing_m if package else None,
        "row_spacing_m": package.row_spacing_m if package else None,
        "n_heads": visit.n_heads,
        "mouth_mm": visit.mouth_mm,
        "minutes": visit.minutes,
        "can_map": {
            "from": laid.source,
            "rows": list(laid.row_ids),
            "columns": list(laid.column_ids),
            "cans": [list(row) for row in laid.label],
            "n_cans": laid.n_cans,
        },
        "last": last
        and {
            "test": last.test,
            "date": last.date.isoformat(),
            "condition": last.condition,
            "runs": [run_json(run) for run in last.runs],
            "usable": not visit.doubts,
        },
    }
