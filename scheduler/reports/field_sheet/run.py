"""Sections 6 to 8 of a field sheet: the cans, the times and the wind of one run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.record import CODES
from scheduler.reports.paper import (
    Box,
    Boxes,
    CanBand,
    Cans,
    Column,
    Legend,
    Section,
    Table,
)
from scheduler.units import System, shown, unit_label

if TYPE_CHECKING:
    from scheduler.field.visit import CanMap, ZoneVisit

# A column narrower than a twelfth of the page holds no reading written by hand.
BAND = 12
WIND_EVERY_MIN, WIND_BOXES = 5, 13
NOTE_ROWS = 3
CAN_CODES = Legend(
    tuple(CODES.items()),
    before="In the boxes above:",
    after="None is zero; a dry can is 0. Leave a can out only for a physical reason.",
)
SAY = (
    "Write what each can caught. Mark every head with a dot where it stands.",
    "Draw north and the wind into the circle.",
)


def run_sections(visit: ZoneVisit, units: System) -> tuple[Section, ...]:
    """The can map, the run, and what happened to cans."""
    return (
        Section("Cans as they stand", (_cans(visit.can_map),), "6"),
        Section("Start, stop and wind", (_run(visit, units), _wind(units)), "7"),
        Section(
            "Notes on cans",
            (
                CAN_CODES,
                _notes(),
            ),
            "8",
        ),
    )


def _cans(laid: CanMap) -> Cans:
    n_columns = len(laid.label[0])
    n_bands = -(-n_columns // BAND)
    width = -(-n_columns // n_bands)
    return Cans(
        tuple(
            CanBand(
                laid.column_ids[at : at + width],
                laid.row_ids,
                tuple(row[at : at + width] for row in laid.label),
            )
            for at in range(0, n_columns, width)
        ),
        SAY,
    )


def _run(visit: ZoneVisit, units: System) -> Boxes:
    last = f"last {shown(visit.minutes, 'min', units)}" if visit.minutes else ""
    return Boxes((
        Box("Start", 3),
        Box("Stop", 3),
        Box("Minutes of water", 3, hint=last),
        Box("Pressure in the run", 3, unit=unit_label("kpa", units)),
        Box("Wind meter: height", 3, unit=unit_label("m", units)),
        Box("Logger's clock", 3),
        Box("Control can, set aside", 3, unit="mL"),
        Box("and at the end", 3, unit="mL"),
    ))  # fmt: skip


def _wind(units: System) -> Table:
    minutes = [str(WIND_EVERY_MIN * i) for i in range(WIND_BOXES)]
    columns = (Column("minute", 2), *(Column(one) for one in minutes))
    rows = (f"wind, {unit_label('m_per_s', units)}", "from")
    return Table(columns, tuple((row, *[""] * WIND_BOXES) for row in rows))


def _notes() -> Table:
    columns = (Column("can", 1), Column("what happened", 5)) * 2
    return Table(columns, (("",) * 4,) * NOTE_ROWS)
