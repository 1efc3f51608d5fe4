"""A table of one sprinkler's legs in; distances and rates of each leg out.

The first line names the columns with their units: `distance (ft),volume (mL)`, or a
depth, or a rate; more legs are further columns or further files. Nothing that is not
understood is guessed.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding, QuantityError
from scheduler.field.catch import caught_depth_mm
from scheduler.field.legs import RadialLeg
from scheduler.files.catch_csv import code_of
from scheduler.files.csv_text import THOUSANDS, Row, Table, decimal_number, table_of
from scheduler.files.profile_columns import (
    DISTANCE,
    READINGS,
    LegColumn,
    dimension_of,
    leg_columns,
)
from scheduler.files.text_file import TextFile
from scheduler.record import CODES
from scheduler.units import converted

LONGEST_MIN = 24 * 60


@dataclass(frozen=True, slots=True, eq=False)
class Leg:
    """One leg of cans: where it stands in its file, places, and what was read.

    Attributes
    ----------
    where : str
        File, line of the header, and header of the leg.
    distance_m : array of shape (n_cans,)
        From the head outward. [m]
    reading : array of shape (n_cans,)
        In the unit of `suffix`; NaN where there is no reading.
    suffix : str
        `ml`, `mm` or `mm_per_h`.
    """

    where: str
    distance_m: FloatArray
    reading: FloatArray
    suffix: str


@dataclass(frozen=True, slots=True)
class _OpenTable:
    """One table while it is read; `said` gathers what is wrong."""

    table: Table
    where: str
    said: list[Finding]

    def stop(self, row: Row, column: LegColumn, what: str, fix: str) -> None:
        place = f"{self.where}:{row.line}: {column.header}"
        self.said.append(Finding("stop", place, what, fix))


def read_legs(file: TextFile) -> tuple[tuple[Leg, ...], tuple[Finding, ...]]:
    """Read every leg of one file.

    Parameters
    ----------
    file : TextFile
        The table.

    Returns
    -------
    legs : tuple of Leg
        Empty when anything in the table is not understood.
    findings : tuple of Finding
        A stop for each thing that is not; notes on cans without a reading.
    """
    table = table_of(file.text)
    if not table.rows:
        what, fix = "holds no readings", "write distance (ft),volume (mL), then rows"
        return (), (Finding("stop", file.where, what, fix),)
    place = f"{file.where}:{table.rows[0].line}"
    columns, findings = leg_columns(table.rows[0].cells, place)
    if columns is None:
        return (), findings
    inside = _OpenTable(table, file.where, [*findings])
    body = _body(inside)
    distance = _distance_m(inside, body, columns.distance)
    legs = []
    for one in columns.legs:
        to = READINGS[dimension_of(one.suffix)]
        reading = _reading(inside, body, one)
        size = frozen(reading * converted(1.0, one.suffix, to=to))
        legs.append(Leg(f"{place}: {one.header}", distance, size, to))
    if any(one.level == "stop" for one in inside.said):
        legs = []
    return tuple(legs), tuple(inside.said)


def _body(inside: _OpenTable) -> tuple[Row, ...]:
    """Rows below the header, each as long as it; a stop for those that are not."""
    head, *below = inside.table.rows
    width = len(head.cells)
    rows = []
    for row in below:
        if len(row.cells) < width or any(row.cells[width:]):
            what = f"has {len(row.cells)} cells, the first line has {width}"
            fix = "write - where no can was read, and decimals with a point"
            place = f"{inside.where}:{row.line}"
            inside.said.append(Finding("stop", place, what, fix))
        else:
            rows.append(row)
    if len(below) < 2:
        what, fix = "holds fewer than two cans", "set cans along the whole leg"
        inside.said.append(Finding("stop", inside.where, what, fix))
    return tuple(rows)


def _number(inside: _OpenTable, row: Row, column: LegColumn) -> float:
    """Number in a cell; NaN and a stop where there is none."""
    cell = row.cells[column.index]
    decimal = inside.table.comma_is_decimal
    size = decimal_number(cell, comma_is_decimal=decimal)
    if size is not None:
        return size
    if THOUSANDS.match(cell):
        plain, point = cell.replace(",", ""), cell.replace(",", ".", 1)
        what = f"{cell!r} could be {plain} or {point}"
        inside.stop(row, column, what, f"write {plain} or {point}")
    else:
        inside.stop(row, column, f"{cell!r} is not understood", column.fix)
    return np.nan


def _distance_m(
    inside: _OpenTable, body: tuple[Row, ...], column: LegColumn
) -> FloatArray:
    """Distances, outward and each once."""
    found = np.array([_number(inside, row, column) for row in body])
    for i, row in enumerate(body):
        cell = row.cells[column.index]
        if found[i] < 0:
            inside.stop(row, column, f"is {cell}", "measure from the head, 0 or more")
        elif i and found[i] <= found[i - 1]:
            before = body[i - 1]
            what = f"{cell} follows {before.cells[column.index]} on line {before.line}"
            fix = "list the cans outward, each place once; another leg is a new column"
            inside.stop(row, column, what, fix)
    return frozen(found * converted(1.0, column.suffix, to=DISTANCE))


def _reading(
    inside: _OpenTable, body: tuple[Row, ...], column: LegColumn
) -> FloatArray:
    """Readings as typed; NaN and a note for a code, a stop for what cannot be."""
    found = np.full(len(body), np.nan)
    for i, row in enumerate(body):
        cell = row.cells[column.index]
        code = code_of(cell)
        if code is None:
            found[i] = _number(inside, row, column)
        else:
            place = f"{inside.where}:{row.line}: {column.header}"
            what = f"no reading ({code}, {CODES[code]})"
            fix = "a straight line along the leg bridges it; read it in the next test"
            inside.said.append(Finding("note", place, what, fix))
        if found[i] < 0:
            inside.stop(row, column, f"is {cell}", "read the can again, or write -")
    if body and all(code_of(row.cells[column.index]) for row in body):
        place = f"{inside.where}: {column.header}"
        what, fix = "holds no reading at all", "read its cans, or delete the column"
        inside.said.append(Finding("stop", place, what, fix))
    return found


def radial_leg(
    leg: Leg, *, mouth_area_cm2: float | None, minutes: float | None
) -> RadialLeg:
    """Rates along a leg from what was read.

    Parameters
    ----------
    leg : Leg
        One leg.
    mouth_area_cm2 : float or None
        Area of the can mouth, needed for volumes. [cm2]
    minutes : float or None
        Length of the run, needed for volumes and depths. [min]

    Returns
    -------
    RadialLeg
        The leg with its rates.

    Raises
    ------
    QuantityError
        If the mouth or the minutes are needed and not given, or cannot be.
    """
    if leg.suffix == "mm_per_h":
        return RadialLeg(leg.where, leg.distance_m, leg.reading)
    depth = leg.reading
    if leg.suffix == "ml":
        if mouth_area_cm2 is None:
            raise QuantityError(
                "volumes make a rate only with the mouth of the cans",
                'give its inside diameter, --mouth "4.25 in"',
                leg.where,
            )
        depth = caught_depth_mm(leg.reading, mouth_area_cm2=mouth_area_cm2)
    if minutes is None:
        raise QuantityError(
            "these readings make a rate only with the minutes of the run",
            "give --minutes 60",
            leg.where,
        )
    if not 0 < minutes <= LONGEST_MIN:
        fix = f"give above 0 and up to {LONGEST_MIN} minutes"
        raise QuantityError(f"a run of {minutes:g} minutes", fix, "--minutes")
    return RadialLeg(leg.where, leg.distance_m, frozen(depth * 60 / minutes))


def unused_findings(
    legs: Iterable[Leg], *, has_mouth: bool, has_minutes: bool
) -> tuple[Finding, ...]:
    """Notes on a mouth or minutes that no leg needs."""
    kinds = {leg.suffix for leg in legs}
    found = []
    if has_mouth and "ml" not in kinds:
        what, fix = "not used: no column is a volume", "leave it out, or check the unit"
        found.append(Finding("note", "--mouth", what, fix))
    if has_minutes and kinds <= {"mm_per_h"}:
        what, fix = "not used: the columns are rates", "leave it out, or check the unit"
        found.append(Finding("note", "--minutes", what, fix))
    return tuple(found)
