"""A session in, columns and rows of the table of zones out, was→now where changed."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from scheduler.errors import Finding
from scheduler.units import unit_label
from tui.screens import wording
from tui.session import Session, evaluation, zone_findings
from tui.tried import new_among, plan_before
from tui.widgets.zone_table import Column

if TYPE_CHECKING:
    from scheduler.plan import ZonePlan

# what a what-if needs the room of, where there is little
LEFT_OUT = ("was", "+/−", "range")
LEAST_NAME, LEAST_ID = 12, 5
NONE = "–"
OTHER = "other"  # as many flags as before, for something else


def zone_columns(session: Session, width: int, *, roomy: bool) -> list[Column]:
    """Columns as wide as what changed in them needs, the rest for the names."""
    plans = session.plan.zones if session.plan is not None else ()
    changed = [
        _cells(session, one, roomy=roomy)
        for one in plans
        if plan_before(session, one.zone.id) is not None
    ]
    heads = [one for one in _heads(session, roomy=roomy) if _has(session, one, roomy)]
    fixed = [
        Column(
            one.head, max([one.width, *(_wide(r, i) for r in changed)]), one.is_right
        )
        for i, one in enumerate(heads)
    ]
    room = width - sum(column.width for column in fixed)
    ids = (one.zone.id for one in plans)
    of_id = wording.name_width(ids, room - LEAST_NAME, LEAST_ID)
    longest = max((len(one.zone.name) for one in plans), default=0) + 1
    of_name = max(LEAST_NAME, min(longest, room - of_id))
    name = Column("name", of_name, is_right=False)
    return [Column("zone", of_id, is_right=False), name, *fixed]


def zone_cells(session: Session, plan: "ZonePlan", *, roomy: bool) -> list[str]:
    """One row: id and name, then was→now where something is tried."""
    return [plan.zone.id, plan.zone.name, *_cells(session, plan, roomy=roomy)]


def _has(session: Session, column: Column, roomy: bool) -> bool:
    """Whether there is room for a column beside what is tried."""
    return roomy or not session.week_edits or column.head not in LEFT_OUT


def _wide(cells: list[str], i: int) -> int:
    """Room that a changed cell needs; others are cut as ever."""
    return len(cells[i]) + 1 if "→" in cells[i] else 0


def _heads(session: Session, *, roomy: bool) -> list[Column]:
    return [
        Column("min", 8 if roomy else 5),
        Column(" nights", 9, is_right=False) if roomy else Column("days", 5),
        Column("cycles", 7),
        Column("was", 5 if roomy else 4),
        Column("+/−", 5),
        Column("DU", 5),
        Column("range", 10),
        Column(unit_label("mm_per_h", session.units), 6),
        Column("  flags", 17 if roomy else 13, is_right=False),
    ]


def _cells(session: Session, plan: "ZonePlan", *, roomy: bool) -> list[str]:
    now = _week(session, plan, roomy=roomy)
    old = plan_before(session, plan.zone.id)
    if old is not None:
        was = _week(session, old, roomy=roomy)
        now = [
            b if a == b else f"{a.rstrip()}→{b.strip()}"
            for a, b in zip(was, now, strict=True)
        ]
    minutes, nights, cycles, du, rate = now
    every = [
        minutes, nights, cycles,
        wording.was_text(plan, session.units), wording.change_text(plan, session.units),
        du, wording.du_range_text(session, plan), rate,
        "  " + _flags(session, plan, old, roomy=roomy),
    ]  # fmt: skip
    pairs = zip(_heads(session, roomy=roomy), every, strict=True)
    return [cell for head, cell in pairs if _has(session, head, roomy)]


def _flags(
    session: Session, plan: "ZonePlan", old: "ZonePlan | None", *, roomy: bool
) -> str:
    """Flags of a zone, was→now where some came or went, or as many are others."""
    now = zone_findings(session, plan.zone.id)
    if old is None:
        return wording.flags(now, roomy=roomy)
    test = evaluation(session, plan.zone.id)  # no what-if changes a test
    was = dict.fromkeys((*old.findings, *(test.findings if test is not None else ())))
    short, full = (
        [wording.flags(found, roomy=is_full) or NONE for found in (was, now)]
        for is_full in (False, True)
    )
    if full[0] == full[1] or (short[0] == short[1] and not roomy):
        if not _are_others(was, now, levels=2 if roomy else 1):
            return wording.flags(now, roomy=roomy)
        shown = [(full if roomy else short)[0], OTHER]
    else:
        shown = full if short[0] == short[1] else short
    # glyph and count alone where there is little room
    return "→".join(one if roomy else " ".join(one.split()[:2]) for one in shown)


def _are_others(was: Iterable[Finding], now: Iterable[Finding], *, levels: int) -> bool:
    """Whether flags of the levels that are shown, as many as before, are others."""
    counted = {one.level for one in now}
    seen = [level for level in wording.LEVELS if level in counted][:levels]
    a, b = ([one for one in found if one.level in seen] for found in (was, now))
    return bool(new_among(a, b) or new_among(b, a))


def _week(session: Session, plan: "ZonePlan", *, roomy: bool) -> list[str]:
    """What a what-if may change."""
    letters, units = wording.night_letters(plan), session.units
    return [
        wording.minutes_text(plan, roomy=roomy),
        f" {letters}" if roomy else wording.nights_text(plan),
        wording.cycles_text(plan),
        wording.du_text(plan, units),
        wording.rate_text(plan, units),
    ]
