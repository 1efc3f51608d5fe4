"""A site's record in; tables of units, water, tests and checks for a regulator out."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from scheduler.reports.handed.table import Cell, Rows, head, number
from scheduler.reports.machine import FORMAT
from scheduler.reports.paper import plain
from scheduler.units import System

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation
    from scheduler.log import Log, PourThrough
    from scheduler.proof.leaching_check import CheckedPots
    from scheduler.proof.meter import MeterInterval
    from scheduler.site import Site, Zone

Json = dict[str, Any]
NAMES = ("units", "water", "tests", "leaching", "salt")


def extract_tables(
    site: Site,
    units: System,
    *,
    tests: Iterable[TestEvaluation],
    intervals: Iterable[MeterInterval],
    checks: Iterable[CheckedPots],
    log: Log,
) -> tuple[Rows, ...]:
    """Management units, water by meter readings, tests, leaching checks, EC and pH."""
    from scheduler.log import PourThrough

    return (
        _units(site.zones, units),
        _water(intervals, units),
        _tests(tests, units),
        _leaching(checks),
        _salt(log.of(PourThrough)),
    )


def extract_json(site: Site, tables: Iterable[Rows]) -> Json:
    """Every table, a row an object by its heads."""
    found = {
        one.name: [dict(zip(one.heads, row, strict=True)) for row in one.rows]
        for one in tables
    }
    return {"format": FORMAT, "report": "extract", "site": site.name, **found}


def _units(zones: Iterable[Zone], units: System) -> Rows:
    heads = (
        "management unit", "name", "valve", head("area", "m2", units), "grown in",
        "plants", "watered", "run-time rule", "source of Kc",
    )  # fmt: skip
    rows = tuple(
        (
            plain(one.id),
            plain(one.name),
            plain(one.valve),
            number(one.area_m2, "m2", units),
            one.grown_in,
            plain("; ".join(_plants(one))),
            one.watered,
            one.chosen_rule,
            plain(one.plant.kc_from) if one.plant else "",
        )
        for one in zones
    )
    return Rows("units", heads, rows)


def _plants(zone: Zone) -> list[str]:
    first = [zone.plant.name] if zone.plant else []
    return first + [one.plant.name for one in zone.group]


def _water(intervals: Iterable[MeterInterval], units: System) -> Rows:
    heads = (
        "meter", "from", "to", "management units", head("metered", "m3", units),
        head("planned", "m3", units), head("frost", "m3", units),
        head("by hand", "m3", units),
    )  # fmt: skip
    rows = []
    for one in intervals:
        dial = one.dial
        row: tuple[Cell, ...] = (
            plain(dial.meter),
            dial.start.date.isoformat(),
            dial.stop.date.isoformat(),
            plain(" ".join(each.zone for each in one.zones)),
            number(dial.volume_m3, "m3", units),
            number(one.plan_m3, "m3", units),
            number(one.frost_m3, "m3", units),
            number(one.hand_m3, "m3", units),
        )
        rows.append(row)
    return Rows("water", heads, tuple(rows))


def _tests(tests: Iterable[TestEvaluation], units: System) -> Rows:
    heads = (
        "management unit", "date", "condition", "run", "cans",
        head("net rate", "mm_per_h", units), "DU low quarter", "DU from", "DU to",
        "level of the range", "CU", head("wind", "m_per_s", units),
    )  # fmt: skip
    rows = tuple(_run(test, run, units) for test in tests for run in test.runs)
    return Rows("tests", heads, rows)


def _run(test: TestEvaluation, run: RunEvaluation, units: System) -> tuple[Cell, ...]:
    span = run.ranges.du_lq if run.ranges else None
    return (
        plain(test.zone),
        test.date.isoformat(),
        plain(test.condition),
        plain(run.run),
        run.uniformity.n_cans,
        number(run.catch.net_rate_mm_per_h, "mm_per_h", units),
        number(run.uniformity.du_lq, "", units),
        number(span.low, "", units) if span else None,
        number(span.high, "", units) if span else None,
        number(span.level, "", units) if span else None,
        number(run.uniformity.cu, "", units),
        number(run.wind.mean_m_per_s, "m_per_s", units) if run.wind else None,
    )


def _leaching(checks: Iterable[CheckedPots]) -> Rows:
    heads = (
        "management unit", "date", "pots", "minutes (min)", "leaching fraction",
        "from", "to", "driest pot", "target",
    )  # fmt: skip
    rows = tuple(
        (
            plain(one.check.zone),
            one.check.date.isoformat(),
            len(one.check.pots),
            number(one.minutes, "min", "us"),
            number(one.leaching.fraction, "", "us"),
            number(one.leaching.low, "", "us"),
            number(one.leaching.high, "", "us"),
            number(one.driest, "", "us"),
            number(one.target, "", "us"),
        )
        for one in checks
    )
    return Rows("leaching", heads, rows)


def _salt(readings: Iterable[PourThrough]) -> Rows:
    heads = ("management unit", "date", "place", "EC (dS/m)", "pH")
    rows = tuple(
        (
            plain(one.zone),
            one.date.isoformat(),
            plain(one.place),
            number(one.ec_ds_per_m, "ds_per_m", "metric"),
            number(one.ph, "", "us"),
        )
        for one in readings
    )
    return Rows("salt", heads, rows)
