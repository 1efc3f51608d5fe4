"""What is due in, lines and JSON out; no arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from scheduler.reports.machine import Json, finding_json
from scheduler.reports.text import findings_text

if TYPE_CHECKING:
    from scheduler.proof.due import Due


def due_json(due: Sequence[Due]) -> list[Json]:
    """Each with its kind, zone or meter, and the day it was done last."""
    return [
        {
            "kind": one.kind,
            "of": one.of,
            "last": one.last.isoformat() if one.last else None,
            **finding_json(one.finding),
        }
        for one in due
    ]


def due_text(due: Sequence[Due]) -> str:
    """Lines under the name of each kind; empty where nothing is due."""
    parts = []
    for kind in dict.fromkeys(one.kind for one in due):
        own = [one.finding for one in due if one.kind == kind]
        parts.append(f"{kind}s due\n{findings_text(own)}")
    return "\n\n".join(parts)
