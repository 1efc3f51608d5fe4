"""A zone's season in; the table, the lines and the sentences of its page out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from scheduler.units import shown, unit_label
from tui.tried import arrow
from tui.widgets.ghost import differ
from tui.widgets.range_bars import RangeRow, RangeRows
from tui.widgets.season_lines import YearLines

if TYPE_CHECKING:
    from scheduler.season import QuarterSeason, SeasonPlan, ZoneSeason
    from scheduler.units import System
    from scheduler.watering.season_run.saved import AtAnotherDU

QUARTERS = ("driest", "second", "third", "wettest")


def depth(value_mm: float, units: "System", *, with_unit: bool = False) -> str:
    """A depth of a season: whole millimetres, tenths of an inch."""
    digits = 1 if units == "us" else 0
    return shown(value_mm, "mm", units, with_unit=with_unit, digits=digits)


def quarter_lines(
    one: "ZoneSeason", before: "ZoneSeason | None", units: "System"
) -> list[str]:
    """Rows of the quarters; what a what-if changes stands as was→now."""
    unit = unit_label("mm", units)
    head = f"{'was→now':<7}{'share':>10}{f'on {unit}':>10}{'used':>10}{'drained':>10}"
    if before is None:
        head = f"{'quarter':<7}{'share':>7}{f'on {unit}':>8}{'used':>7}{'drained':>9}"
    lines = [f"{head}{'stress days':>13}"]
    wide = (7, 8, 7, 9, 13) if before is None else (10, 10, 10, 10, 13)
    for i, name in enumerate(QUARTERS):
        cells = _quarter(one.quarters[i], units)
        if before is not None:
            old = _quarter(before.quarters[i], units)
            cells = [
                b if a == b else f"{a}→{b}" for a, b in zip(old, cells, strict=True)
            ]
        sized = zip(cells, wide, strict=True)
        lines.append(f"{name:<7}" + "".join(f"{cell:>{w}}" for cell, w in sized))
    return lines


def _quarter(one: "QuarterSeason", units: "System") -> list[str]:
    return [
        f"{one.share:.2f}",
        depth(one.applied_mm, units),
        depth(one.used_mm, units),
        depth(one.deep_percolation_mm, units),
        f"{one.stress_days:.0f}",
    ]


def quarter_bars(
    one: "ZoneSeason", before: "ZoneSeason | None", units: "System"
) -> RangeRows | None:
    """Water of each quarter as bars, with that before a what-if."""
    if not one.quarters or before is None or not before.quarters:
        return None
    if [o.applied_mm for o in one.quarters] == [o.applied_mm for o in before.quarters]:
        return None
    rows = []
    for name, now, was in zip(QUARTERS, one.quarters, before.quarters, strict=True):
        a, b = depth(was.applied_mm, units), depth(now.applied_mm, units)
        text = b if a == b else f"{a} → {b}"
        size, old = _faced([now.applied_mm, was.applied_mm], units)
        rows.append(RangeRow(name, size, text, name == QUARTERS[0], old))
    return RangeRows(tuple(rows), (f"put on, {unit_label('mm', units)}",))


def totals(
    one: "ZoneSeason", before: "ZoneSeason | None", units: "System"
) -> list[str]:
    """Water of the zone and the season, with what a what-if changed."""

    def pair(name: str, now: str, was: str | None) -> str:
        first = now.split(",")[0]
        is_other = was is not None and was != first
        return f"{name:<16}" + (f"{arrow(was or '', now)}" if is_other else now)

    was = before
    return [
        pair(
            "water put on",
            f"{depth(one.applied_mm, units, with_unit=True)}, "
            f"{shown(one.volume_m3, 'm3', units)}",
            depth(was.applied_mm, units, with_unit=True) if was else None,
        ),
        pair(
            "waterings",
            f"{one.waterings}, {one.minutes:,} min",
            f"{was.waterings}" if was else None,
        ),
        pair("rain", depth(one.rain_mm, units, with_unit=True), None),
        pair("use asked for", depth(one.etc_mm, units, with_unit=True), None),
        pair(
            "drained",
            depth(one.deep_percolation_mm, units, with_unit=True),
            depth(was.deep_percolation_mm, units, with_unit=True) if was else None,
        ),
    ]


def sentence(other: "AtAnotherDU", units: "System") -> str:
    """What another uniformity would save."""
    word = "less" if other.saved_mm >= 0 else "more"
    saved = depth(abs(other.saved_mm), units, with_unit=True)
    return (
        f"At DU {other.du_lq:.2f}, with the driest quarter no drier: {saved} {word} "
        "water than now."
    )


def bound(one: "ZoneSeason") -> str:
    """How many runs stand behind it, in one sentence."""
    if one.is_upper_bound:
        return "One tested run stands for every night: real seasons are more even."
    runs = one.catch.n_runs if one.catch is not None else 0
    return f"Each watering draws one of {runs} tested runs."


def year_lines(
    one: "ZoneSeason",
    plan: "SeasonPlan",
    units: "System",
    before: "ZoneSeason | None" = None,
) -> YearLines | None:
    """Depletion of the driest and the wettest quarter through the year, and before."""
    now = _year_lines(one, plan, units)
    was = _year_lines(before, plan, units) if before is not None else None
    if now is None or was is None:
        return now
    return replace(
        now,
        before=was.main if differ(was.main, now.main) else (),
        limit_before=None if was.limit == now.limit else was.limit,
        words=(*now.words, *(f"Before what is tried: {said}" for said in was.words)),
    )


def _year_lines(
    one: "ZoneSeason", plan: "SeasonPlan", units: "System"
) -> YearLines | None:
    if one.depletion_mm is None or plan.days is None or one.watering_mm is None:
        return None
    # the picture's axis carries the face's unit, so values are turned by the formatter
    driest = _faced(one.depletion_mm[:, 0].tolist(), units)
    wettest = _faced(one.depletion_mm[:, 3].tolist(), units)
    allowed = _faced([one.allowed_mm], units)[0]
    days: list[dt.date] = plan.days.date.tolist()
    labels = tuple((i, f"{day:%b}") for i, day in enumerate(days) if day.day == 1)
    marks = tuple(i for i, depth_mm in enumerate(one.watering_mm) if depth_mm > 0)
    unit = unit_label("mm", units)
    peak = max(range(len(driest)), key=driest.__getitem__)
    return YearLines(
        driest,
        wettest,
        allowed,
        marks if len(marks) <= len(days) // 3 else (),
        labels,
        f"{unit} used at roots: driest quarter; grey: wettest; ┄ allowed",
        (
            f"The driest quarter is at its driest on {days[peak].day} "
            f"{days[peak]:%b}: {shown(float(one.depletion_mm[peak, 0]), 'mm', units)} "
            f"of {shown(one.allowed_mm, 'mm', units)} allowed.",
            f"{one.quarters[0].stress_days:.0f} days of stress there, "
            f"{one.quarters[3].stress_days:.0f} in the wettest quarter.",
            f"{one.waterings} nights water.",
        ),
    )


def _faced(values_mm: Sequence[float], units: "System") -> tuple[float, ...]:
    from scheduler.units import converted, face_suffix

    face = face_suffix("mm", units)
    return tuple(converted(one, "mm", to=face) for one in values_mm)
