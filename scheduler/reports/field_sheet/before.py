"""Sections 1 to 5 of a field sheet: what is written down before the water is caught."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.reports.field_sheet.known import clock_setting, last_mouth
from scheduler.reports.paper import (
    Box,
    Boxes,
    Column,
    Legend,
    Section,
    Table,
    Ticks,
    Words,
    plain,
)
from scheduler.said import date_text
from scheduler.units import System, unit_label

if TYPE_CHECKING:
    from scheduler.field.visit import ZoneVisit
    from scheduler.reports.field_sheet.asked import Asked

DAYS = ("Mo", "Tu", "We", "Th", "Fr", "Sa", "Su")
# Heads that find room on the first side, on a side of their own, and the boxes that
# are drawn when nobody knows how many heads there are.
FIRST_HEADS, MORE_HEADS, UNKNOWN_HEADS = 48, 180, 24
DEFECT_ROWS = 4
HEAD_CODES = Legend(
    (
        ("G", "good"),
        ("N", "nozzle missing or odd"),
        ("C", "clogged"),
        ("W", "worn"),
        ("T", "tilted or sunken"),
        ("R", "not turning"),
        ("A", "wrong arc"),
        ("D", "drips or leaks"),
        ("P", "plants in the way"),
        ("M", "misting, too much pressure"),
        ("S", "short throw, too little"),
    ),
    before="Write one letter a head:",
)
PRESSED = (
    "at the valve", "first head", "middle head", "last head", "highest or lowest",
)  # fmt: skip


def visit_sections(visit: ZoneVisit, asked: Asked) -> tuple[Section, ...]:
    """The visit, the cans, the clock as found."""
    setting = Words(clock_setting(visit.zone, asked.units))
    return (
        Section("Visit", (_visit(visit, asked),), "1"),
        Section("Cans", (_cans(visit, asked.units),), "2"),
        Section("Clock as found", (setting, _clock()), "3"),
    )


def hardware_sections(visit: ZoneVisit, units: System) -> tuple[Section, ...]:
    """Heads one by one, what is wrong with them, pressure, flow and meter."""
    ticks = Ticks(_numbers(visit)[0])
    return (
        Section("Heads", (HEAD_CODES, ticks, _defects()), "4"),
        Section("Pressure, flow and meter", (_pressure(units), _meter()), "5"),
    )


def heads_left(visit: ZoneVisit) -> Section | None:
    """Heads for which the side about hardware has no room."""
    more = _numbers(visit)[1]
    if not more:
        return None
    words: tuple[Words, ...] = ()
    if visit.n_heads and visit.n_heads > FIRST_HEADS + MORE_HEADS:
        words = (Words("There are more heads than this: take one more sheet."),)
    return Section("Heads, continued", (Ticks(more), *words), "4")


def _numbers(visit: ZoneVisit) -> tuple[tuple[str, ...], tuple[str, ...]]:
    n_heads = min(visit.n_heads or UNKNOWN_HEADS, FIRST_HEADS + MORE_HEADS)
    numbers = tuple(str(i + 1) for i in range(n_heads))
    return numbers[:FIRST_HEADS], numbers[FIRST_HEADS:]


def _visit(visit: ZoneVisit, asked: Asked) -> Boxes:
    date = date_text(asked.date) if asked.date else ""
    return Boxes((
        Box("Site", 5, value=plain(asked.site)),
        Box("Valve", 2, value=plain(visit.zone.valve)),
        Box("Date of the test", 5, value=date),
        Box("People", 4),
        Box("Why this test", 3),
        Box("Water", 5, choices=("fresh", "recycled", "with feed")),
        Box("Re-entry time over", 5, choices=("yes", "no", "not sprayed")),
        Box("State of the system", 4, choices=("as found", "after tune-up")),
        Box("Other zones running", 3, choices=("as usual", "none")),
    ))  # fmt: skip


def _cans(visit: ZoneVisit, units: System) -> Boxes:
    length, ground = unit_label("mm", units), unit_label("m", units)
    count = f"{visit.can_map.n_cans} on the map"
    return Boxes((
        Box("Mouth, inside", 4, unit=length, hint=last_mouth(visit, units)),
        Box("Type of can, all alike", 4),
        Box("Count", 4, hint=count),
        Box("From can to can", 3, unit=ground),
        Box("From row to row", 3, unit=ground),
        Box("Read in", 6, choices=("mL", "fl oz", length)),
    ))  # fmt: skip


def _clock() -> Boxes:
    return Boxes((
        Box("Program", 2),
        Box("Minutes", 2),
        Box("Cycles", 2),
        Box("Start times", 6),
        Box("Days", 9, choices=DAYS),
        Box("Percent adjust", 3, unit="%"),
        Box("Rain sensor", 4, choices=("in use", "bypassed")),
        Box("Clock time, AM/PM right", 4, choices=("yes", "no")),
        Box("Other programs, same valve", 4),
    ))  # fmt: skip


def _defects() -> Table:
    columns = (
        Column("head", 1),
        Column("what was found", 5),
        Column("mended: before the run, after, no", 4),
        Column("photo", 1),
    )
    return Table(columns, (("",) * 4,) * DEFECT_ROWS)


def _pressure(units: System) -> Table:
    columns = (
        Column("", 2.6),
        Column("head no.", 1.6),
        Column(f"pressure, {unit_label('kpa', units)}", 2.2),
        Column(f"bucket, {unit_label('l', units)}", 1.9),
        Column("seconds", 1.7),
        Column(f"flow, {unit_label('l_per_min', units)}", 2),
    )
    rows = tuple((place, *[""] * 5) for place in PRESSED)
    return Table(columns, rows, is_tall=True)


def _meter() -> Boxes:
    return Boxes((
        Box("Meter at start", 3),
        Box("Meter at stop", 3),
        Box("Meter unit", 2),
        Box("Multiplier", 4, choices=("x1", "x10", "x100")),
    ))  # fmt: skip
