"""Sections 8 to 10: method with what is in doubt, photos, and the declaration."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from scheduler.reports.paper import (
    Block,
    Box,
    Boxes,
    Facts,
    Photos,
    Section,
    Words,
    plain,
)
from scheduler.reports.saving import METHOD

if TYPE_CHECKING:
    from scheduler.errors import Finding

PHOTOS = (
    "1  as found: the heads and the driest cans, date",
    "2  after: the same place, date",
    "3  meter dial before, date",
    "4  meter dial after, date",
)
DECLARATION = (
    "I declare that the readings, dates, receipts and photos above are true and whole, "
    "that the tests were made as described, and that what is marked as estimated or as "
    "potential is not claimed as a saving. Records are kept for as long as the funder "
    "or the regulator asks."
)
SIGNED = (
    Box("name", 6),
    Box("on behalf of", 6),
    Box("role", 4),
    Box("place and date", 4),
    Box("signature", 4),
    Box("tests made by", 6),
    Box("checked by, date", 6),
)
IN_DOUBT = {"stop": "Stop", "warning": "Look at it"}


def photos_section() -> Section:
    """Frames for both sides of the change."""
    return Section("Photos", (Photos(PHOTOS),), "9")


def method_section(findings: Sequence[Finding]) -> Section:
    """How it was worked out, and everything that is in doubt."""
    doubts = tuple(
        (IN_DOUBT[one.level], plain(f"{one.where}: {one.what}; {one.fix}"))
        for one in findings
        if one.level in IN_DOUBT
    )
    blocks: list[Block] = [Words(METHOD)]
    if doubts:
        blocks.append(Facts(doubts))
    return Section("Method, estimates, limits", tuple(blocks), "8")


def declaration_section() -> Section:
    """What is signed."""
    return Section("Declaration", (Words(DECLARATION), Boxes(SIGNED)), "10")
