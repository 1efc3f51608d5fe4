"""Seasons in, plain text and dictionaries for JSON out; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.reports.machine import FORMAT, Json, findings_json
from scheduler.reports.text import WIDTH, shorten, table
from scheduler.units import shown, unit_label

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.season import SeasonPlan, ZoneSeason
    from scheduler.units import System
    from scheduler.watering.season_run.saved import AtAnotherDU

QUARTERS = ("driest", "second", "third", "wettest")
METHOD = (
    "Root zone balance of FAO-56 chapter 8 at every catch position; each watering "
    "draws one of the tested runs (≥: a single run, so nights together are more even); "
    "whole minutes and cycles as the clock holds them. Stress: days on which plants "
    "use less than they ask for. What drained holds the rain that found no room."
)


def season_json(
    seasons: Sequence[SeasonPlan],
    others: dict[str, AtAnotherDU],
    findings: Iterable[Finding],
) -> Json:
    """The first season by zone; further years by name."""
    first = seasons[0]
    return {
        "format": FORMAT,
        "season": first.days.name if first.days else None,
        "zones": [_zone_json(one, others.get(one.zone.id)) for one in first.zones],
        "years": [
            {
                "season": one.days.name if one.days else None,
                "zones": [_zone_json(zone, None) for zone in one.zones],
            }
            for one in seasons[1:]
        ],
        "findings": findings_json(findings),
    }


def _zone_json(one: ZoneSeason, other: AtAnotherDU | None) -> Json:
    was_run = one.input is not None
    return {
        "zone": one.zone.id,
        "was_run": was_run,
        "rule": one.zone.chosen_rule if was_run else None,
        "factor": one.factor,
        "du_lq": one.catch.du_lq if one.catch else None,
        "n_runs": one.catch.n_runs if one.catch else None,
        "is_upper_bound": one.is_upper_bound if was_run else None,
        "applied_mm": one.applied_mm if was_run else None,
        "rain_mm": one.rain_mm if was_run else None,
        "etc_mm": one.etc_mm if was_run else None,
        "used_mm": one.used_mm if was_run else None,
        "deep_percolation_mm": one.deep_percolation_mm if was_run else None,
        "stress_days": one.stress_days if was_run else None,
        "waterings": one.waterings if was_run else None,
        "minutes": one.minutes if was_run else None,
        "volume_m3": one.volume_m3 if was_run else None,
        "closure_error_mm": one.closure_error_mm if was_run else None,
        "quarters": [
            {
                "share": quarter.share,
                "applied_mm": quarter.applied_mm,
                "deep_percolation_mm": quarter.deep_percolation_mm,
                "used_mm": quarter.used_mm,
                "stress_days": quarter.stress_days,
            }
            for quarter in one.quarters
        ],
        "at_another_du": None
        if other is None
        else {
            "du_lq": other.du_lq,
            "applied_mm": other.applied_mm,
            "saved_mm": other.saved_mm,
            "stress_days": other.stress_days,
        },
    }


def season_text(plan: SeasonPlan, units: System) -> str:
    """Every zone on a line, in depths."""
    if plan.days is None:
        return "No season can be run: see the findings."
    unit = unit_label("mm", units)
    head = ("zone", "", "DU", "factor", "put on", "rain", "use", "drained",
            "stress", "nights")  # fmt: skip
    rows = [_line(one, units) for one in plan.zones if one.input is not None]
    title = f"Season: {plan.days.name}. Depths on the bed in {unit}; stress in days,"
    title += " driest quarter; factor of the zone's rule."
    left_out = [one.zone.id for one in plan.zones if one.input is None]
    lines = [fill(title, WIDTH), "", table(head, rows, left=2)]
    if left_out:
        lines += ["", f"Not run: {', '.join(left_out)}."]
    return "\n".join([*lines, "", fill(METHOD, WIDTH)])


def _line(one: ZoneSeason, units: System) -> tuple[str, ...]:
    def depth(value_mm: float) -> str:
        return shown(value_mm, "mm", units, with_unit=False, digits=_digits(units))

    assert one.catch is not None, "a zone that was run has a catch"
    return (
        one.zone.id,
        shorten(one.zone.name, 12),
        f"{'≥' if one.is_upper_bound else ''}{one.catch.du_lq:.2f}",
        f"{one.factor:.2f}",
        depth(one.applied_mm),
        depth(one.rain_mm),
        depth(one.etc_mm),
        depth(one.deep_percolation_mm),
        f"{one.quarters[0].stress_days:.0f}",
        f"{one.waterings}",
    )


def _digits(units: System) -> int:
    return 1 if units == "us" else 0


def zone_season_text(one: ZoneSeason, other: AtAnotherDU | None, units: System) -> str:
    """One zone by quarters, and what another uniformity would save."""

    def depth(value_mm: float, *, with_unit: bool = False) -> str:
        return shown(value_mm, "mm", units, with_unit=with_unit, digits=_digits(units))

    unit = unit_label("mm", units)
    head = ("quarter", "share", f"put on {unit}", f"used {unit}", f"drained {unit}",
            "stress days")  # fmt: skip
    rows = [
        (
            name,
            f"{quarter.share:.2f}",
            depth(quarter.applied_mm),
            depth(quarter.used_mm),
            depth(quarter.deep_percolation_mm),
            f"{quarter.stress_days:.0f}",
        )
        for name, quarter in zip(QUARTERS, one.quarters, strict=True)
    ]
    lines = [
        fill(
            f"zone {one.zone.id}, {one.zone.name}: rule {one.zone.chosen_rule}, "
            f"{one.waterings} waterings, {one.minutes} min, "
            f"{shown(one.volume_m3, 'm3', units)}",
            WIDTH,
        ),
        "",
        table(head, rows),
    ]
    if other is not None:
        word = "less" if other.saved_mm >= 0 else "more"
        lines += [
            "",
            fill(
                f"At DU {other.du_lq:.2f}, with no more stress in the driest quarter "
                f"({other.stress_days:.0f} days): "
                f"{depth(other.applied_mm, with_unit=True)} put on, "
                f"{depth(abs(other.saved_mm), with_unit=True)} {word} than now.",
                WIDTH,
            ),
        ]
    return "\n".join(lines)


def years_text(seasons: Sequence[SeasonPlan], units: System) -> str:
    """Several years side by side: water put on, and stress in the driest quarter."""
    names = [one.days.name if one.days else "none" for one in seasons]
    unit = unit_label("mm", units)
    head = ("zone", *(f"{name} {unit}" for name in names),
            *(f"{name} days" for name in names))  # fmt: skip
    rows = []
    for i, zone in enumerate(seasons[0].zones):
        if zone.input is None:
            continue
        years = [season.zones[i] for season in seasons if season.days is not None]
        put_on = [
            shown(y.applied_mm, "mm", units, with_unit=False, digits=_digits(units))
            for y in years
        ]
        stress = [f"{y.quarters[0].stress_days:.0f}" for y in years]
        rows.append((zone.zone.id, *put_on, *stress))
    return "Water put on, and stress days of the driest quarter, by year.\n\n" + table(
        head, rows
    )
