"""How often ranges hold the truth; makes the packaged tables of levels.

A long campaign (some minutes). First the factors of a run's range are fitted on
simulated catches; then, on other catches, the share of ranges that hold the truth is
counted: for independent cans, for cans whose neighbours are alike, and for another
night from 2 to 6 runs. The tables are written anew.
"""

import json as json_text
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from itertools import repeat
from pathlib import Path
from typing import Any

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field import nights, ranges
from scheduler.tables import _rows
from tests.bench.harness import Ratio, at_most, report
from tests.scheduler.field import simulated

COUNTS = (4, 6, 8, 12, 16, 20, 24, 36, 48, 60)
SPREADS = (0.10, 0.15, 0.225, 0.30, 0.35)
CASES = [(kind, cv) for kind in simulated.KINDS for cv in SPREADS]
TESTS = 4000  # simulated tests of each case, to fit and again to count
TESTS_OF_FEW = 1500  # the same below 24 cans
ENOUGH = 24
PROCESSES = 2
RESAMPLES = 1000
SEED = 7
GRIDS = ((4, 6), (6, 6), (6, 8))
NEIGHBOURS = (0.3, 0.5, 0.7)
ALIKE = 1000
RUNS = (2, 3, 4, 5, 6)
POSITIONS = (24, 36)
NIGHTS_COUNTED = 400
NIGHT_RESAMPLES = 500
TABLES = Path(ranges.__file__).parent.parent / "tables"
Row = dict[str, Any]


def _tests(n_cans: int) -> int:
    return TESTS if n_cans >= ENOUGH else TESTS_OF_FEW


def _pivots(n_cans: int, kind: str, cv: float) -> FloatArray:
    """How many spreads the truth lies from the centre; shape (tests, 3)."""
    rng = np.random.default_rng((SEED, n_cans, round(1000 * cv), len(kind)))
    truths = simulated.true_measures(kind, cv)
    found = np.empty((_tests(n_cans), 3))
    for number in range(len(found)):
        depth = simulated.caught(rng, kind, cv, (n_cans,))
        drawn = ranges.cans_resampled(depth, resamples=RESAMPLES, seed=number)
        points = ranges.resampled_measures(depth)
        for i, name in enumerate(ranges.MEASURES):
            centre, spread = ranges.centre_and_spread(float(points[i]), drawn[i], name)
            truth = float(ranges.SCALES[i](np.asarray(truths[i])))
            found[number, i] = (truth - centre) / max(spread, 1e-12)
    return found


def _fair(by_case: FloatArray) -> tuple[float, float]:
    """Low and high factor of one measure, from pivots of shape (cases, tests).

    One range in twenty is left out on either side of all cases together; then both
    factors are widened or narrowed alike, until the case that is held most often lies
    as far above the stated level as the one held least often lies below it.
    """
    tail = (1 - ranges.STATED) / 2
    high, low = np.quantile(by_case, [tail, 1 - tail])
    scales = np.linspace(0.9, 1.2, 301)
    held = [((by_case >= s * high) & (by_case <= s * low)).mean(axis=1) for s in scales]
    middle = [(one.min() + one.max()) / 2 for one in held]
    scale = scales[int(np.argmin(np.abs(np.array(middle) - ranges.STATED)))]
    return float(scale * low), float(-scale * high)


def _factors(n_cans: int) -> list[tuple[float, float]]:
    """Low and high factor of each of the three measures."""
    found = np.stack([_pivots(n_cans, kind, cv) for kind, cv in CASES])
    return [_fair(found[:, :, i]) for i in range(len(ranges.MEASURES))]


def _held(n_cans: int, kind: str, cv: float) -> FloatArray:
    """Share of ranges that hold the truth, for the three measures."""
    rng = np.random.default_rng((SEED + 1, n_cans, round(1000 * cv), len(kind)))
    truths = simulated.true_measures(kind, cv)
    held = np.zeros(3)
    for number in range(_tests(n_cans)):
        depth = simulated.caught(rng, kind, cv, (n_cans,))
        found = ranges.cell_ranges(depth, resamples=RESAMPLES, seed=number)
        three = zip((found.du_lq, found.cu, found.mean), truths, strict=True)
        held += [one.low <= truth <= one.high for one, truth in three]
    return held / _tests(n_cans)


def _written(name: str, head: str, rows: list[Row]) -> None:
    """Write one packaged table and forget the old one."""
    lines = [",".join(rows[0])]
    lines += [",".join(_cell(value) for value in row.values()) for row in rows]
    text = "".join(f"# {line}\n" for line in head.splitlines())
    (TABLES / name).write_text(text + "\n".join(lines) + "\n", encoding="utf-8")
    _rows.cache_clear()


def _cell(value: object) -> str:
    return f"{value:.3f}" if isinstance(value, float) else str(value)


def _all_held(n_cans: int) -> FloatArray:
    """Shares of all cases, shape (cases, 3)."""
    return np.array([_held(n_cans, kind, cv) for kind, cv in CASES])


def _fitted() -> list[Row]:
    rows = []
    with ProcessPoolExecutor(PROCESSES) as pool:
        for n_cans, factors in zip(COUNTS, pool.map(_factors, COUNTS), strict=True):
            for measure, (low, high) in zip(ranges.MEASURES, factors, strict=True):
                row: Row = {"n_cans": n_cans, "measure": measure}
                row |= {"factor_low": low, "factor_high": high}
                rows.append(row | {"level": 0.0, "lowest": 0.0, "highest": 0.0})
    return rows


RUN_HEAD = f"""\
Ranges of one run: factors on the spread of the resamples, and how often they then
hold the truth, for independent cans. Made by: python -m tests.bench coverage
Fitted on {TESTS}, counted on {TESTS} other simulated tests (fewer than {ENOUGH} cans:
{TESTS_OF_FEW}) of each count and CV in {SPREADS}, bell-shaped and
gamma catches, {RESAMPLES} resamples, seed {SEED}.
lowest, highest: over the kinds of catch. level: {ranges.STATED} where both are within
0.02 of it, else the lowest."""


def run_levels() -> list[Row]:
    """Fit the factors of one run, then count on other catches."""
    rows = _fitted()
    _written("range_level.csv", RUN_HEAD, rows)
    counted = iter(rows)
    with ProcessPoolExecutor(PROCESSES) as pool:
        for held in pool.map(_all_held, COUNTS):
            for i in range(len(ranges.MEASURES)):
                next(counted).update(_level(held[:, i]))
    _written("range_level.csv", RUN_HEAD, rows)
    return rows


def _level(held: FloatArray) -> Row:
    """What is said beside a range that held in these shares of the cases."""
    lowest, highest = round(float(held.min()), 3), round(float(held.max()), 3)
    near = max(ranges.STATED - lowest, highest - ranges.STATED) <= 0.02 + 1e-9
    stated = ranges.STATED if near else min(lowest, ranges.STATED)
    return {"level": stated, "lowest": lowest, "highest": highest}


ALIKE_HEAD = f"""\
How often the range of DU of one run holds the truth where neighbouring cans are alike
(exponential correlation, neighbour = that of cans side by side; bell-shaped, CV 0.2).
cell: the truth is the same cell caught everywhere; zone: that of all such cells.
Made by: python -m tests.bench coverage ({ALIKE} simulated tests each, seed {SEED})"""


def alike_levels() -> list[Row]:
    """Cans whose neighbours are alike: this cell, and the zone's other cells."""
    rows = []
    zone = simulated.true_measures("normal", 0.2)[0]
    for n_rows, n_columns in GRIDS:
        for neighbour in NEIGHBOURS:
            rng = np.random.default_rng((SEED, n_rows, round(10 * neighbour)))
            held = np.zeros(2)
            for number in range(ALIKE):
                cans, ground = simulated.alike_cell(
                    rng, rows=n_rows, columns=n_columns, neighbour=neighbour, cv=0.2
                )
                cell = float(simulated.low_quarter(ground))
                found = ranges.cell_ranges(cans, resamples=RESAMPLES, seed=number)
                one = found.du_lq
                held += [one.low <= truth <= one.high for truth in (cell, zone)]
            of_cell, of_zone = (float(share) for share in held / ALIKE)
            row: Row = {"n_cans": n_rows * n_columns, "neighbour": neighbour}
            rows.append(row | {"cell": of_cell, "zone": of_zone})
    _written("alike_level.csv", ALIKE_HEAD, rows)
    return rows


NIGHT_HEAD = f"""\
How often a range of another night holds the truth, by the number of runs: the lowest
and the highest over {len(simulated.USUAL_NIGHTS)} kinds of nights x {POSITIONS} cans.
Made by: python -m tests.bench coverage ({NIGHTS_COUNTED} simulated sets of runs each,
{NIGHT_RESAMPLES} resamples, seed {SEED})"""


def _nights_held(kind: simulated.Nights, n_runs: int, n_cans: int) -> FloatArray:
    rng = np.random.default_rng((SEED, n_runs, n_cans))
    truths = simulated.true_nights(kind, n_runs)
    held = np.zeros(2)
    for number in range(NIGHTS_COUNTED):
        depth = simulated.nights_caught(rng, kind, n_runs=n_runs, n_positions=n_cans)
        found = nights.night_ranges(depth, resamples=NIGHT_RESAMPLES, seed=number)
        both = zip((found.one_night, found.as_many_nights), truths, strict=True)
        held += [
            one is not None and one.low <= truth <= one.high for one, truth in both
        ]
    return held / NIGHTS_COUNTED


def night_levels() -> list[Row]:
    """Another night, from 2 to 6 runs."""
    rows: list[Row] = []
    kinds = [(kind, n) for kind in simulated.USUAL_NIGHTS.values() for n in POSITIONS]
    with ProcessPoolExecutor(PROCESSES) as pool:
        for n_runs in RUNS:
            nights_of = [kind for kind, _ in kinds]
            cans = [n for _, n in kinds]
            held = np.array(
                list(pool.map(_nights_held, nights_of, repeat(n_runs), cans))
            )
            for i, measure in enumerate(("one night", "as many nights")):
                low, high = float(held[:, i].min()), float(held[:, i].max())
                row: Row = {"n_runs": n_runs, "measure": measure}
                rows.append(row | {"level": low, "highest": high})
    _written("night_level.csv", NIGHT_HEAD, rows)
    return rows


def _ratios(rows: list[Row], by_night: list[Row], before: list[Row]) -> Iterator[Ratio]:
    for measure in ranges.MEASURES:
        told = [
            row for row in rows if row["measure"] == measure and row["n_cans"] >= 24
        ]
        off = max(
            abs(row[end] - ranges.STATED)
            for row in told
            for end in ("lowest", "highest")
        )
        yield at_most(f"{measure}, 24 cans and more: level off the stated", off, 0.02)
    moved = max(
        (
            abs(old["level"] - new["level"])
            for old, new in zip(before, rows, strict=False)
        ),
        default=0.0,
    )
    yield at_most("largest change of a packaged level", moved, 0.02)
    worst = max(ranges.STATED - row["level"] for row in by_night)
    yield at_most("another night: lowest level below the aim", worst, 0.10)


def _packaged() -> list[Row]:
    return [{"level": float(row["level"])} for row in _rows("range_level.csv")]


def run(*, json: bool) -> None:
    before = _packaged()
    rows, alike, by_night = run_levels(), alike_levels(), night_levels()
    if not json:
        for row in (*alike, *by_night):
            print(json_text.dumps(row))
    report("coverage", list(_ratios(rows, by_night, before)), as_json=json)
