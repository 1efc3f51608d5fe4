"""Sections 9 to 11 of a field sheet: plants, leaching or soil, sketch, signature."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.reports.field_sheet.known import crop, soil
from scheduler.reports.paper import Box, Boxes, Column, Section, Sketch, Table, Words
from scheduler.units import System, unit_label

if TYPE_CHECKING:
    from scheduler.site import Zone

PLANT_ROWS, POT_ROWS, SOIL_ROWS = 3, 6, 3
SKETCH = (
    "Heads with their numbers; tape between heads and between rows; pipe, flow and"
    " valve; edges, roads, slope, shade posts; which rows are edge rows; north."
)


def plant_sections(zone: Zone, units: System) -> tuple[Section, ...]:
    """Plants, then leaching and salt of pots, or how soil took the water."""
    else_seen = Section("Anything else", (Sketch(),))
    if zone.grown_in == "pots":
        return (
            Section("Plants", (_pots(zone, units),), "9"),
            Section("Leaching and salt", (_leaching(), _salt()), "10"),
            else_seen,
        )
    return (
        Section("Plants", (_soil(zone, units),), "9"),
        Section("Soil and salt", (_probes(units), _salt()), "10"),
        else_seen,
    )


def sketch_sections() -> tuple[Section, ...]:
    """The sketch and the signature."""
    return (
        Section("Sketch", (Words(SKETCH), Sketch(is_dotted=True)), "11"),
        Section("Signed", (_signature(),)),
    )


def _pots(zone: Zone, units: System) -> Table:
    columns = (
        Column("plants", 3),
        Column("pot", 1.8),
        Column("spacing", 2.2),
        Column("canopy width", 1.6),
        Column("closed, %", 1.2),
        Column("substrate, potted when", 2.4),
    )
    first = (*crop(zone, units), "", "")
    return Table(columns, (first, *[("",) * 6] * (PLANT_ROWS - 1)), is_tall=True)


def _soil(zone: Zone, units: System) -> Table:
    columns = (
        Column("plants", 3),
        Column("soil", 2),
        Column("root depth", 1.6),
        Column("slope", 1.3),
        Column("cover", 1.5),
        Column("closed, %", 1.3),
        Column("planted when", 2),
    )
    first = (*soil(zone, units), "", "")
    return Table(columns, (first, *[("",) * 7] * (PLANT_ROWS - 1)), is_tall=True)


def _leaching() -> Table:
    columns = (
        Column("pot", 1),
        Column("near can", 1.6),
        Column("water in, mL", 2),
        Column("leached, mL", 2),
        Column("share leached, %", 2.2),
        Column("EC out, dS/m", 2),
    )
    return Table(columns, tuple((str(i + 1), *[""] * 5) for i in range(POT_ROWS)))


def _probes(units: System) -> Table:
    columns = (
        Column("place", 2),
        Column("near can", 1.6),
        Column(f"wet to, {unit_label('mm', units)}", 2),
        Column("minutes until water stood", 3),
        Column("minutes until it ran off", 3),
    )
    return Table(columns, tuple((str(i + 1), *[""] * 4) for i in range(SOIL_ROWS)))


def _salt() -> Boxes:
    return Boxes((
        Box("EC of the water", 4, unit="dS/m"),
        Box("Feed in the water", 4, choices=("no", "yes")),
        Box("Hand-watered spots", 4),
    ))  # fmt: skip


def _signature() -> Boxes:
    return Boxes((
        Box("Tested by", 4),
        Box("For the nursery", 4),
        Box("Date", 4),
    ))  # fmt: skip
