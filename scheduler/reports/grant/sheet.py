"""Before and after in; the grant sheet as leaves of paper, and JSON, out.

Pure formatting: every number comes from a room and passes through `scheduler.units`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from scheduler.reports.cautions import DEFER, cautions
from scheduler.reports.grant.declared import (
    declaration_section,
    method_section,
    photos_section,
)
from scheduler.reports.grant.tested import (
    after_section,
    as_found_section,
    uniformity_section,
    work_section,
)
from scheduler.reports.grant.water import claim_section, meter_section, water_section
from scheduler.reports.machine import Json
from scheduler.reports.paper import Leaf, Paper, plain, sheet_of
from scheduler.reports.saving import saving_json
from scheduler.said import date_text

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.proof.saving import Saving
    from scheduler.units import System

SUBJECTS = ("Electrics", "Pressure")


def grant_sheet(
    site: str,
    found: Saving,
    findings: Sequence[Finding],
    units: System,
    day: dt.date,
) -> Paper:
    """Three leaves: both sides and the work, water, what is signed."""
    parts = (
        (
            "as found, work done, after",
            (
                as_found_section(found, units),
                work_section(found),
                after_section(found, units),
                uniformity_section(found),
            ),
        ),
        (
            "water, energy and meter pages",
            (
                water_section(found, units),
                claim_section(found),
                meter_section(found, units),
            ),
        ),
        (
            "method, photos, declaration",
            (method_section(findings), photos_section(), declaration_section()),
        ),
    )
    leaves = tuple(
        Leaf(
            title=plain(site),
            part=part,
            place=f"part {i} of {len(parts)}",
            sections=sections,
            stamp=f"made {date_text(day)}",
            foot=cautions(*SUBJECTS) if i == len(parts) else (),
            closing=DEFER if i == len(parts) else "",
        )
        for i, (part, sections) in enumerate(parts, 1)
    )
    return Paper("Before and after", plain(site), leaves, sheet_of(units))


def grant_sheet_json(site: str, found: Saving, findings: Iterable[Finding]) -> Json:
    """What the sheet is made from."""
    return saving_json(found, findings) | {"report": "before-after", "site": site}
