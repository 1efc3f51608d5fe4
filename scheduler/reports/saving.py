"""Before and after in, plain text and dictionaries for JSON out; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterable
from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.reports.log import entry_json
from scheduler.reports.machine import FORMAT, Json, findings_json, trace_json
from scheduler.reports.text import WIDTH, table
from scheduler.said import date_text, day_text, signed
from scheduler.units import UNITS, shown, unit_label

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.log import MeterReading
    from scheduler.proof.period import Period
    from scheduler.proof.saving import Saving, Step
    from scheduler.proof.uniformity_change import TestedSide, UniformityChange
    from scheduler.units import System

METHOD = (
    "Water of the meter from reading to reading. Weather: FAO-56 reference ET, and the "
    "rain that zones count, up to the ETo of its week; of the two the smaller saving "
    "goes on. ~ marks a line with an estimate in it. Energy: lifting that water by the "
    "head, at the efficiency of site.toml; not metered."
)


def saving_json(found: Saving, findings: Iterable[Finding]) -> Json:
    """Periods, steps, what is claimed and why not, tests, chain."""
    return {
        "format": FORMAT,
        "before": _period_json(found.before),
        "after": _period_json(found.after),
        "steps": [_step_json(one, found) for one in found.steps],
        "actual": {
            "change": found.actual.change if found.actual else None,
            "is_estimated": found.actual.is_estimated if found.actual else None,
            "why_not": found.why_not or None,
        },
        "potential": {"change": found.potential_change},
        "work": [entry_json(one) for one in found.work],
        "uniformity": [_change_json(one) for one in found.changes],
        "chain": trace_json(found.trace)["chain"],
        "findings": findings_json(findings),
    }


def _period_json(one: Period) -> Json:
    return {
        "name": one.name,
        "start": one.start.isoformat(),
        "stop": one.stop.isoformat(),
        "nights": one.days,
        "water_m3": one.water_m3,
        "is_metered": one.is_metered,
        "frost_m3": one.frost_m3,
        "frost_is_metered": one.is_frost_metered,
        "hand_m3": one.hand_m3,
        "area_m2": one.area_m2,
        "eto_mm": one.eto_mm,
        "eto_is_measured": one.weather_is_measured,
        "rain_mm": one.rain_mm,
        "rain_used_mm": one.rain_used_mm,
        "readings": [
            {
                "meter": dial.meter,
                "start": entry_json(dial.start),
                "stop": entry_json(dial.stop),
                "volume_m3": dial.volume_m3,
            }
            for dial in one.dials
        ],
    }


def _step_json(one: Step, found: Saving) -> Json:
    before, after = found.energy_kwh(one)
    return {
        "step": one.key,
        "before_m3": one.before_m3,
        "after_m3": one.after_m3,
        "change": one.change,
        "before_kwh": before,
        "after_kwh": after,
        "is_estimated": one.is_estimated,
        "note": one.note,
    }


def _change_json(one: UniformityChange) -> Json:
    return {
        "zone": one.zone,
        "before": _side_json(one.before),
        "after": _side_json(one.after),
        "is_same_band": one.is_same_band,
        "verdict": one.verdict,
        "rule": one.rule,
        "factor_before": one.factor_before,
        "factor_after": one.factor_after,
        "potential": one.potential,
        "potential_low": one.potential_low,
        "potential_high": one.potential_high,
    }


def _side_json(one: TestedSide) -> Json:
    return {
        "test": one.test,
        "date": one.date.isoformat(),
        "condition": one.condition,
        "du_lq": one.du_lq,
        "du_lq_low": one.low,
        "du_lq_high": one.high,
        "range_of": one.range_of,
        "wind_bands": list(one.bands),
        "n_cans": one.n_cans,
        "n_runs": one.n_runs,
    }


def saving_text(found: Saving, units: System) -> str:
    """Periods, water step by step, what is claimed, and the tests."""
    parts = [
        f"Before and after: {found.before.name}, then {found.after.name}",
        _periods_text(found, units),
        _readings_text(found),
        _steps_text(found, units),
        _claim_text(found),
        _tests_text(found),
        fill(METHOD, WIDTH),
    ]
    return "\n\n".join(one for one in parts if one)


def _periods_text(found: Saving, units: System) -> str:
    columns = [_period_lines(one, units) for one in (found.before, found.after)]
    names = ("from", "to", "nights", "water", "  of it frost", "  of it by hand",
             "ETo", "rain", "  of it counted", "ground")  # fmt: skip
    rows = list(zip(names, *columns, strict=True))
    return table(("", "before", "after"), rows)


def _period_lines(one: Period, units: System) -> list[str]:
    def depth(value: float | None) -> str:
        return shown(value, "mm", units, digits=_digits(units))

    def rough(is_measured: bool, text: str) -> str:
        return text if is_measured else f"~{text}"

    return [
        date_text(one.start),
        date_text(one.stop),
        f"{one.days}",
        rough(one.is_metered, shown(one.water_m3, "m3", units)),
        rough(one.is_frost_metered, shown(one.frost_m3, "m3", units)),
        shown(one.hand_m3, "m3", units),
        rough(one.weather_is_measured, depth(one.eto_mm)),
        depth(one.rain_mm),
        depth(one.rain_used_mm),
        "as now" if one.area_m2 is None else shown(one.area_m2, "m2", units),
    ]


def _readings_text(found: Saving) -> str:
    """First and last dial of each meter in both periods, and what was done."""
    lines = []
    for name, one in (("before", found.before), ("after", found.after)):
        for meter in dict.fromkeys(dial.meter for dial in one.dials):
            own = [dial for dial in one.dials if dial.meter == meter]
            first, last = own[0].start, own[-1].stop
            text = f"{name}, {meter}: {_dial(first)} to {_dial(last)}"
            text += f", {len(own) + 1} readings"
            lines.append(fill(text, WIDTH, subsequent_indent="  "))
    for work in found.work:
        of = work.zone or f"package {work.package}"
        text = f"done {date_text(work.date)}, {of}: {work.what}"
        lines.append(fill(text, WIDTH, subsequent_indent="  "))
    return "\n".join(lines)


def _dial(one: MeterReading) -> str:
    label = UNITS[one.unit].label
    return f"{one.reading:.10g} {label} x {one.multiplier or 1:g} ({one.where})"


def _digits(units: System) -> int:
    return 1 if units == "us" else 0


def _steps_text(found: Saving, units: System) -> str:
    volume = unit_label("m3", units)
    head = ("water", f"before {volume}", f"after {volume}", "change", "kWh before",
            "after")  # fmt: skip
    rows, notes = [], []
    for one in found.steps:
        energy = [shown(v, "", units, digits=0) for v in found.energy_kwh(one)]
        change = "–" if one.change is None else signed(one.change, ".0%")
        rows.append(
            (
                f"{'~' if one.is_estimated else ''}{one.name}",
                shown(one.before_m3, "m3", units, with_unit=False),
                shown(one.after_m3, "m3", units, with_unit=False),
                change,
                *energy,
            )
        )
        notes.append(fill(f"{one.name}: {one.note}", WIDTH, subsequent_indent="  "))
    return "\n".join([table(head, rows), "", *notes])


def _claim_text(found: Saving) -> str:
    lines = []
    if found.actual is not None and found.actual.change is not None:
        word = "less" if found.actual.change <= 0 else "more"
        text = (
            f"Actual: {abs(found.actual.change):.0%} {word} water, made comparable to "
            f"the last line ({found.actual.name})"
        )
        raw = found.step("raw")
        if raw is not None and raw.change is not None:
            text += f"; the raw {signed(raw.change, '.0%')} is no saving"
        lines.append(fill(text + ".", WIDTH))
    else:
        lines.append(fill(f"Actual: nothing is claimed, for {found.why_not}.", WIDTH))
    if found.potential_change is None:
        lines.append("Potential: not known without a test before and one after.")
    else:
        text = (
            f"Potential: {signed(found.potential_change, '.0%')}, what the tested "
            "change of uniformity makes of the run times by each zone's rule, if the "
            "clock follows it; no meter has seen that."
        )
        lines.append(fill(text, WIDTH))
    return "\n".join(lines)


def _tests_text(found: Saving) -> str:
    if not found.changes:
        return ""
    head = ("zone", "tested", "condition", "wind", "cans", "DU", "range")
    rows = []
    notes = []
    for one in found.changes:
        for side in (one.before, one.after):
            span = "–" if side.low is None else f"{side.low:.2f}–{side.high:.2f}"
            rows.append(
                (
                    one.zone, f"{day_text(side.date, '%d %b %y'):>9}", side.condition,
                    " ".join(side.bands), f"{side.n_runs} x {side.n_cans}",
                    f"{side.du_lq:.2f}", span,
                )
            )  # fmt: skip
        band = {True: "in one wind band", False: "in different wind", None: ""}
        wind = band[one.is_same_band] or "in a wind that is not known"
        notes.append(
            f"{one.zone}: {one.verdict}, {wind}; rule {one.rule}: factor "
            f"{one.factor_before:.2f}, then {one.factor_after:.2f}; ranges of "
            f"{one.before.range_of}, then {one.after.range_of}"
        )
    wrapped = [fill(note, WIDTH, subsequent_indent="  ") for note in notes]
    return "\n".join([table(head, rows, left=4), "", *wrapped])
