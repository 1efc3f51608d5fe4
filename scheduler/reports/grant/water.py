"""Sections 5 to 7: water and energy raw and made comparable, claims, meter pages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.reports.cost_words import count
from scheduler.reports.paper import Block, Column, Facts, Section, Table, Words, plain
from scheduler.said import date_text, signed
from scheduler.units import UNITS, shown, unit_label

if TYPE_CHECKING:
    from scheduler.log import MeterReading
    from scheduler.proof.saving import Saving, Step
    from scheduler.units import System

MARK = "~"
MARKED = f"{MARK} holds an estimate. Each line keeps what the lines above it did."
NO_ENERGY = (
    "Energy is what lifting that water takes, by the head and the efficiency entered "
    "for the pump; no meter of energy was read."
)
NO_READINGS = "No meter was read in this period."


def water_section(found: Saving, units: System) -> Section:
    """Every step from the raw change to what may be compared."""
    notes = Facts(tuple((one.name, plain(one.note)) for one in found.steps))
    blocks: tuple[Block, ...] = (
        steps_table(found, units), Words(f"{MARKED} {NO_ENERGY}"), notes,
    )  # fmt: skip
    return Section("Water and energy, raw and made comparable", blocks, "5")


def steps_table(found: Saving, units: System) -> Table:
    """Water and energy of both periods, line by line."""
    volume = unit_label("m3", units)
    columns = (
        Column("water", 2.6),
        Column(f"before, {volume}", 1.7, is_number=True),
        Column(f"after, {volume}", 1.7, is_number=True),
        Column("change", 1, is_number=True),
        Column("before, kWh", 1.4, is_number=True),
        Column("after, kWh", 1.4, is_number=True),
    )
    rows = tuple(_step(one, found, units) for one in found.steps)
    return Table(columns, rows, is_filled=True)


def _step(one: Step, found: Saving, units: System) -> tuple[str, ...]:
    before, after = found.energy_kwh(one)
    return (
        f"{MARK if one.is_estimated else ''}{one.name}",
        shown(one.before_m3, "m3", units, with_unit=False),
        shown(one.after_m3, "m3", units, with_unit=False),
        "–" if one.change is None else signed(one.change, ".0%"),
        count(before),
        count(after),
    )


def claim_section(found: Saving) -> Section:
    """Actual and potential, each in its own line and never added."""
    facts = (("Actual", _actual(found)), ("Potential", _potential(found)))
    return Section("Potential and actual", (Facts(facts),), "6")


def _actual(found: Saving) -> str:
    if found.actual is None or found.actual.change is None:
        return f"nothing is claimed, for {plain(found.why_not)}"
    word = "less" if found.actual.change <= 0 else "more"
    said = (
        f"{abs(found.actual.change):.0%} {word} water, metered in both periods and "
        f"made comparable to the line {found.actual.name}"
    )
    raw = found.step("raw")
    if raw is None or raw.change is None:
        return said
    return f"{said}; the raw change of {signed(raw.change, '.0%')} is no saving"


def _potential(found: Saving) -> str:
    if found.potential_change is None:
        return "not known without a test before and one after"
    return (
        f"{signed(found.potential_change, '.0%')}: what the tested change of "
        "uniformity makes of the run times by each zone's rule, if the clock "
        "follows it; no meter saw that"
    )


def meter_section(found: Saving, units: System) -> Section:
    """Every reading that the water rests on, with room for the number of its page."""
    blocks: list[Block] = []
    for name, one in (("before", found.before), ("after", found.after)):
        if not one.dials:
            blocks.append(Words(f"{plain(one.name)} ({name}): {NO_READINGS}"))
            continue
        blocks.append(Words(f"{plain(one.name)} ({name}):"))
        blocks.append(readings_table(found, name == "before", units))
    return Section("Meter pages", tuple(blocks), "7")


def readings_table(found: Saving, is_before: bool, units: System) -> Table:
    """From reading to reading: dates, dials, multiplier, volume, where it is kept."""
    columns = (
        Column("meter", 1.6),
        Column("from", 1.5, is_number=True),
        Column("dial", 2),
        Column("to", 1.5, is_number=True),
        Column("dial", 2),
        Column(f"volume, {unit_label('m3', units)}", 1.4),
        Column("page", 0.9),
    )
    period = found.before if is_before else found.after
    rows = tuple(
        (
            plain(one.meter),
            date_text(one.start.date),
            _dial(one.start),
            date_text(one.stop.date),
            _dial(one.stop),
            shown(one.volume_m3, "m3", units, with_unit=False),
            "",
        )
        for one in period.dials
    )
    return Table(columns, rows)


def _dial(one: MeterReading) -> str:
    label = UNITS[one.unit].label
    return f"{one.reading:.10g} {label} x {one.multiplier or 1:g}"
