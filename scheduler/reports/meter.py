"""Plan against meter in, plain text and dictionaries for JSON out; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.reports.machine import FORMAT, Json, findings_json, trace_json
from scheduler.reports.text import WIDTH, table
from scheduler.said import date_text, day_text, signed
from scheduler.units import shown, unit_label

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.proof.meter import MeterInterval, MeterTotal, PlanAgainstMeter
    from scheduler.proof.meter_causes import Cause
    from scheduler.proof.meter_water import ZoneWater
    from scheduler.units import System

NO_READINGS = "No two readings of one meter: nothing to hold the plan against."
MOST_CAUSES = 4


def meter_json(found: PlanAgainstMeter, findings: Iterable[Finding]) -> Json:
    """Every interval of every meter, its zones, causes and trace."""
    return {
        "format": FORMAT,
        "intervals": [_interval_json(one) for one in found.intervals],
        "totals": [
            {
                "meter": one.meter,
                "meter_m3": one.meter_m3,
                "plan_m3": one.plan_m3,
                "logged_m3": one.logged_m3,
                "frost_m3": one.frost_m3,
                "hand_m3": one.hand_m3,
                "unexplained_m3": one.unexplained_m3,
                "off": one.off,
            }
            for one in found.totals
        ],
        "findings": findings_json(findings),
    }


def _interval_json(one: MeterInterval) -> Json:
    return {
        "meter": one.dial.meter,
        "start": one.dial.start.date.isoformat(),
        "stop": one.dial.stop.date.isoformat(),
        "days": one.dial.days,
        "meter_m3": one.dial.volume_m3,
        "plan_m3": one.plan_m3,
        "logged_m3": one.logged_m3,
        "expected_low_m3": one.low_m3,
        "expected_high_m3": one.high_m3,
        "frost_m3": one.frost_m3,
        "frost_is_metered": one.is_frost_metered,
        "hand_m3": one.hand_m3,
        "unexplained_m3": one.unexplained_m3,
        "off": one.off,
        "is_off": one.is_off,
        "is_within_flows": one.is_within_flows,
        "zones": [_zone_json(zone) for zone in one.zones],
        "causes": [_cause_json(cause) for cause in one.causes],
        "chain": trace_json(one.trace)["chain"],
    }


def _zone_json(one: ZoneWater) -> Json:
    return {
        "zone": one.zone,
        "told_min": one.told_min,
        "ran_min": one.ran_min,
        "flow_l_per_min": one.flow.flow_l_per_min if one.flow else None,
        "told_m3": one.told_m3,
        "ran_m3": one.ran_m3,
        "ran_low_m3": one.low_m3,
        "ran_high_m3": one.high_m3,
        "minutes_from": list(one.sources),
    }


def _cause_json(one: Cause) -> Json:
    return {
        "cause": one.name,
        "predicted_m3": one.predicted_m3,
        "left_m3": one.left_m3,
        "score": one.score,
        "arithmetic": one.arithmetic,
        "check": one.check,
    }


def meter_text(found: PlanAgainstMeter, units: System) -> str:
    """A table a meter, and the causes of every interval that is off."""
    if not found.intervals:
        return NO_READINGS
    parts = []
    for total in found.totals:
        own = [one for one in found.intervals if one.dial.meter == total.meter]
        parts.append(_meter_table(own, total, units))
    for one in found.intervals:
        if one.is_off:
            parts.append(_causes_text(one))
    return "\n\n".join(parts)


def _meter_table(own: Sequence[MeterInterval], total: MeterTotal, units: System) -> str:
    zones = " ".join(zone.zone for zone in own[-1].zones)
    title = (
        f"meter {total.meter}: {zones}. Water in {unit_label('m3', units)}; left is "
    )
    title += "what plan, log, frost and hand water do not explain."
    head = ("from", "to", "meter", "plan", "log", "frost", "hand", "left", "off")
    rows = [
        (
            f"{day_text(one.dial.start.date):>6}",
            f"{day_text(one.dial.stop.date):>6}",
            *_row(one, one.dial.volume_m3, units),
        )
        for one in own
    ]
    rows.append(("all", "", *_row(total, total.meter_m3, units)))
    lines = [fill(title, WIDTH), "", table(head, rows, left=2)]
    lines += ["", fill(_range_words(own[-1], units), WIDTH)]
    return "\n".join(lines)


def _row(
    one: MeterInterval | MeterTotal, meter_m3: float | None, units: System
) -> tuple[str, ...]:
    values = (meter_m3, one.plan_m3, one.logged_m3, one.frost_m3, one.hand_m3,
              one.unexplained_m3)  # fmt: skip
    off = "–" if one.off is None else signed(one.off, ".0%")
    return (*(shown(v, "m3", units, with_unit=False) for v in values), off)


def _range_words(last: MeterInterval, units: System) -> str:
    low, high = (shown(v, "m3", units) for v in (last.low_m3, last.high_m3))
    return (
        f"Flows are not exact: plan and log of the last line may be {low} to {high}, "
        "by heads, edges and wear."
    )


def _causes_text(one: MeterInterval) -> str:
    dial = one.dial
    title = (
        f"{dial.meter}, {day_text(dial.start.date)} to {date_text(dial.stop.date)}: "
    )
    title += (
        signed(one.off, ".0%") if one.off is not None else "water that nobody planned"
    )
    if one.is_within_flows:
        title += ", within what flows may be off"
    lines = [title]
    for place, cause in enumerate(one.causes[:MOST_CAUSES], start=1):
        text = f"{place}. {cause.name}: {cause.arithmetic}; {cause.check}"
        lines.append(fill(text, WIDTH, subsequent_indent="   "))
    if not one.causes:
        lines.append("no single cause explains it: read the meter zone by zone")
    return "\n".join(lines)
