"""Section 5: likely causes with their evidence, gauges and buckets, what to check."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.field.causes import CAVEAT
from scheduler.reports.hydraulics import hydraulics_rows, shown_share
from scheduler.reports.paper import Block, Column, Facts, Section, Table, Words, plain
from scheduler.units import shown, unit_label

if TYPE_CHECKING:
    from scheduler.field.causes import Cause
    from scheduler.reports.evaluation.told import Told


def causes_section(told: Told) -> Section:
    """Causes from the map, then what gauges, buckets and the meter say."""
    blocks: list[Block] = [_causes(told)]
    heads = heads_table(told)
    if heads.rows:
        blocks.append(heads)
    water = told.test.hydraulics
    if water is not None and water.is_entered:
        rows = hydraulics_rows(water, told.units)
        blocks.append(Facts(tuple((_name(name), plain(text)) for name, text in rows)))
    elif water is not None:
        words = "; ".join(water.missing) or "no pressure, flow or meter was entered"
        blocks.append(Words(f"Pressure and flow: {words}."))
    return Section("Causes and evidence", tuple(blocks), "5")


def _name(label: str) -> str:
    return label.strip().rstrip("?")


def _causes(told: Told) -> Table | Words:
    shape = told.test.shape
    if shape is None or not shape.causes:
        return Words("The cans are too few, or too alike, to show a shape.")
    sure = [one for one in shape.causes if one.is_beyond_chance]
    columns = (Column("likely cause", 2.2), Column("evidence from the map", 4),
               Column("check, cheapest first", 5))  # fmt: skip
    listed = sure or [one for one in shape.causes if one.kind == "no shape"]
    return Table(columns, tuple(map(_row, listed)), is_filled=True)


def _row(one: Cause) -> tuple[str, str, str]:
    named = f"{one.kind}, {one.where}" if one.where else one.kind
    share = f"; {one.share_explained:.0%} of the spread, p {one.p:.3f}"
    checks = "; ".join(f"{i} {check}" for i, check in enumerate(one.checks, 1))
    return named, one.evidence + share * one.is_beyond_chance, checks


def cause_caveat(told: Told) -> str:
    """What a shape proves, and which causes could not be looked for."""
    shape = told.test.shape
    if shape is None or not shape.causes:
        return ""
    text = f"{CAVEAT[0].upper()}{CAVEAT[1:]}."
    return (
        f"{text} Not looked for: {'; '.join(shape.locked)}." if shape.locked else text
    )


def heads_table(told: Told) -> Table:
    """Pressure and flow head by head, as gauged and caught."""
    water, units = told.test.hydraulics, told.units
    flows = {one.name: one for one in water.flow.heads} if water and water.flow else {}
    gauged = {
        one.name: one
        for one in told.read.pressures
        if not one.is_static and one.run is None
    }
    columns = (
        Column("place", 3),
        Column(f"pressure, {unit_label('kpa', units)}", 2, is_number=True),
        Column(f"flow, {unit_label('l_per_min', units)}", 2, is_number=True),
        Column("new nozzle", 2, is_number=True),
        Column("flow over new", 2, is_number=True),
    )
    rows = []
    for name in dict.fromkeys((*gauged, *flows)):
        gauge, flow = gauged.get(name), flows.get(name)
        pressure = gauge.pressure_kpa if gauge else None
        rows.append((
            plain(name),
            shown(pressure, "kpa", units, with_unit=False),
            _flow(flow.flow_l_per_min if flow else None, told),
            _flow(flow.new_flow_l_per_min if flow else None, told),
            shown_share(flow.flow_over_new if flow else None),
        ))  # fmt: skip
    return Table(columns, tuple(rows), is_filled=True)


def _flow(flow_l_per_min: float | None, told: Told) -> str:
    return shown(flow_l_per_min, "l_per_min", told.units, with_unit=False)
