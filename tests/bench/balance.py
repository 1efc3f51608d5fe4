"""How fast a season of every catch position runs: plain loop, numpy, compiled.

The plain loop is the one written down from the book (`textbook`), day by day and
position by position; the loop that the program runs for one or two zones is beside it.
All of them must give the same season, or nothing is measured.
"""

import statistics
import time
from functools import partial

import numpy as np

from scheduler.watering.season_run import SeasonInput, season_run
from scheduler.watering.season_run.compiled import is_compiled, season_compiled
from scheduler.watering.season_run.lanes import season_lanes
from scheduler.watering.season_run.loop import season_loop
from tests.bench.harness import (
    Ratio,
    at_least,
    at_most,
    cpu_seconds,
    median_ratio,
    report,
)
from tests.scheduler.watering.season_run.textbook import textbook_season

N_POSITIONS, N_DAYS, MANY, FEW = 36, 365, 10_000, 3
SEEDS = range(3)


def _season(n_zones: int, seed: int) -> SeasonInput:
    """Zones of one climate, watered when due (made up for the bench)."""
    rng = np.random.default_rng(seed)
    shape = (N_DAYS, n_zones)
    share = np.clip(rng.normal(1.0, 0.2, (1, N_POSITIONS, n_zones)), 0.1, None)
    day = np.arange(N_DAYS)[:, None]
    use = np.clip(4 + 2 * np.sin(day / 58) + rng.normal(0, 0.5, (N_DAYS, 1)), 0, None)
    rain = np.where(rng.random((N_DAYS, 1)) < 0.25, 6.0, 0.0)
    ones = np.ones(n_zones)
    return SeasonInput(
        share / share.mean(axis=1, keepdims=True), 0.8 * ones,
        np.broadcast_to(use, shape).copy(), np.broadcast_to(rain, shape).copy(),
        np.ones(shape, dtype=bool), ones > 1, ones * np.nan, 40 * ones, 16 * ones,
        8 * ones, 5 * ones, np.inf * ones,
    )  # fmt: skip


def _cell_days_per_cpu_s(season: SeasonInput, spent_s: float) -> float:
    return season.n_zones * N_POSITIONS * N_DAYS / spent_s


def _once(season: SeasonInput) -> float:
    begin = time.process_time()
    season_run(season)
    return time.process_time() - begin


def _agree() -> None:
    """Refuse to measure ways that do not give the same season."""
    one = _season(FEW, 0)
    book = textbook_season(one)
    for way in (season_loop, season_lanes, season_compiled):
        run = way(one)
        for name in ("applied_mm", "used_mm", "percolation_mm", "end_mm"):
            np.testing.assert_allclose(
                getattr(run, name), getattr(book, name), atol=1e-6, err_msg=name
            )


def _compiled_rows(book: float) -> list[Ratio]:
    """The compiled kernel over the book's loop and numpy, and two threads over one."""
    if not is_compiled():
        return []
    gains, threads, busy, over_book = [], [], [], []
    season_compiled(_season(64, 0))  # compile
    for seed in SEEDS:
        many = _season(MANY, seed)
        # the same zones, numpy in the blocks that it runs them in
        gains.append(
            median_ratio(partial(season_run, many), partial(season_compiled, many))
        )
        compiled_s = cpu_seconds(partial(season_compiled, many))
        over_book.append(_cell_days_per_cpu_s(many, compiled_s) / book)
        walls = []
        for count in (1, 2):
            begin, spent = time.perf_counter(), time.process_time()
            season_compiled(many, threads=count)
            walls.append(time.perf_counter() - begin)
            busy.append((time.process_time() - spent) / walls[-1])
        threads.append(walls[0] / walls[1])
    rows = [
        at_least("compiled over the plain loop, CPU", statistics.median(over_book), 0),
        at_least("compiled over numpy, CPU", statistics.median(gains), 8),
    ]
    what = "two threads over one, wall"
    if statistics.median(busy[1::2]) < 1.8:
        return [*rows, at_least(f"{what} (contended: no target)",
                                statistics.median(threads), 0)]  # fmt: skip
    return [*rows, at_least(what, statistics.median(threads), 1.8)]


def run(*, json: bool) -> None:
    _agree()
    ratios, own, books, one_zone, rates = [], [], [], [], []
    season_run(_season(MANY, 0))  # pages and caches
    for seed in SEEDS:
        few, many = _season(FEW, seed), _season(MANY, seed)
        book = _cell_days_per_cpu_s(few, cpu_seconds(partial(textbook_season, few)))
        loop = _cell_days_per_cpu_s(few, cpu_seconds(partial(season_loop, few)))
        fast = _cell_days_per_cpu_s(many, _once(many))
        books.append(book)
        rates.append(fast / 1e6)
        ratios.append(fast / book)
        own.append(loop / book)
        alone = _season(1, seed)
        one_zone.append(cpu_seconds(partial(season_run, alone)) * 1e3)
    rows: list[Ratio] = [
        at_least(
            f"cell-days a CPU second, numpy at {MANY} zones over the plain loop",
            statistics.median(ratios),
            40,
        ),
        at_least("the program's own loop over it", statistics.median(own), 0),
        at_most("one zone on screen, ms CPU", statistics.median(one_zone), 10),
        at_least("numpy, million cell-days a CPU second", statistics.median(rates), 0),
        *_compiled_rows(statistics.median(books)),
    ]
    report("balance", rows, as_json=json)
