"""A planned week in; one table of its zones and one of its runs out, units in heads."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from scheduler.reports.handed.told import Known, Walk, why_text
from scheduler.reports.machine import FORMAT
from scheduler.reports.paper import plain
from scheduler.said import MINUS
from scheduler.units import System, shown, unit_label

if TYPE_CHECKING:
    from scheduler.week_plan import WeekPlan, ZonePlan

Json = dict[str, Any]
Cell = str | float | int | None
# A spreadsheet takes a cell that begins so for a formula.
FORMULA_MARKS = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True, slots=True)
class Rows:
    """One table: its name, heads and rows; None is an empty cell."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def week_tables(
    plan: WeekPlan, units: System, known: Known | None = None
) -> tuple[Rows, Rows]:
    """Zones, one a row; events, one a run of a valve."""
    known = known or Known()
    return _zones(plan, units, known), _events(plan, units)


def is_like_a_formula(text: str) -> bool:
    """Whether a spreadsheet would read a text as a formula.

    Examples
    --------
    >>> is_like_a_formula("=1+1"), is_like_a_formula(" @a"), is_like_a_formula("a-b")
    (True, True, False)
    """
    bare = text.lstrip(" \N{NO-BREAK SPACE}")
    return bare.startswith(FORMULA_MARKS)


def number(value: float | None, suffix: str, units: System) -> float | None:
    """A number with the digits that every face shows, as a number."""
    if value is None:
        return None
    text = shown(value, suffix, units, with_unit=False).replace(",", "")
    text = text.replace(MINUS, "-")
    return None if text == "–" else float(text)


def head(name: str, suffix: str, units: System) -> str:
    """Name of a column with its unit."""
    return f"{name} ({unit_label(suffix, units)})"


def _zones(plan: WeekPlan, units: System, known: Known) -> Rows:
    heads = (
        "zone", "name", "valve", "clock", "station", "status",
        "was (min a night)", "now (min a night)", "cycles", "minutes a cycle (min)",
        "soak (min)", "nights", "dates",
        head("ETo", "mm", units), "Kc", head("rain counted", "mm", units),
        head("need", "mm", units), "rule", "factor",
        head("gross depth", "mm", units), "DU low quarter",
        head("net rate", "mm_per_h", units), "why",
    )  # fmt: skip
    walk = Walk.of(plan.site)
    zones = sorted(plan.zones, key=lambda one: walk.order[one.zone.id])
    rows = tuple(_zone(one, walk, units, known) for one in zones)
    return Rows("zones", heads, rows)


def _zone(one: ZonePlan, walk: Walk, units: System, known: Known) -> tuple[Cell, ...]:
    evidence = one.evidence
    is_blocked = one.status == "blocked"
    return (
        plain(one.zone.id),
        plain(one.zone.name),
        plain(one.zone.valve),
        *_hangs(walk, one.zone.id),
        one.status,
        number(one.was_minutes, "min", units),
        one.minutes_per_day,
        one.cycles,
        one.cycle_minutes,
        one.soak_minutes,
        None if is_blocked else len(one.days),
        " ".join(day.isoformat() for day in one.days),
        number(one.eto_mm, "mm", units),
        number(one.kc, "", units),
        number(one.effective_rain_mm, "mm", units),
        number(one.need_mm, "mm", units),
        one.rule,
        number(one.factor, "", units),
        number(one.gross_depth_mm, "mm", units),
        number(evidence.du_lq, "", units) if evidence else None,
        number(evidence.net_rate_mm_per_h, "mm_per_h", units) if evidence else None,
        "blocked, see the findings" if is_blocked else why_text(one, units, known),
    )


def _events(plan: WeekPlan, units: System) -> Rows:
    names = {one.zone.id: one.zone for one in plan.zones}
    heads = (
        "night", "zone", "valve", "clock", "station", "start (local)", "end (local)",
        head("flow", "l_per_min", units),
    )  # fmt: skip
    runs, walk = plan.night.runs if plan.night else (), Walk.of(plan.site)
    rows = tuple(
        (
            one.night.isoformat(),
            plain(one.zone),
            plain(names[one.zone].valve),
            *_hangs(walk, one.zone),
            f"{one.start:%Y-%m-%d %H:%M}",
            f"{one.end:%Y-%m-%d %H:%M}",
            number(one.flow_l_per_min, "l_per_min", units),
        )
        for one in runs
    )
    return Rows("events", heads, rows)


def _hangs(walk: Walk, zone: str) -> tuple[Cell, Cell]:
    place, station = walk.order[zone]
    return plain(walk.names[place]), station


def tables_json(plan: WeekPlan, tables: tuple[Rows, Rows]) -> Json:
    """Both tables, a row an object by its heads."""
    return {
        "format": FORMAT,
        "report": "table",
        "site": plan.site.name,
        **{
            one.name: [dict(zip(one.heads, row, strict=True)) for row in one.rows]
            for one in tables
        },
    }
