"""How well and how fast a week is packed into its nights, against proven bounds.

Made-up weeks: 1 to 3 waterings a zone with a night between, 2 to 4 cycles of 6 to 18
minutes, soaks of 15 to 40, flows of 20 to 80 L/min; usual wind of seven nights and a
dearer last hour and a half. A constraint solver is compared where it is installed.
"""

import importlib
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from importlib.util import find_spec

import numpy as np

from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.moves import weeks_of_moves
from scheduler.watering.timetable import Grid, Job, Timetable
from scheduler.watering.timetable.bounds import lower_bound
from scheduler.watering.timetable.checker import broken_rules
from scheduler.watering.timetable.compiled import has_numba, search_compiled
from scheduler.watering.timetable.insertion import State
from scheduler.watering.timetable.pack import as_timetable
from scheduler.watering.timetable.search import search
from scheduler.watering.timetable.task import Task, task_of
from tests.bench.harness import Ratio, at_least, at_most, report

SEEDS = range(1, 6)
SIZES = (12, 50, 200, 500)
N_NIGHTS, N_MINUTES, LOAD, LEAST_PUMP = 7, 480, 0.75, 170.0
BUDGETS_S = (0.1, 0.5, 1.0, 2.0)
GREEDY_MS, MOST_GAP = 60.0, {12: 0.01, 50: 0.02, 200: 0.025, 500: 0.02}
SOLVER_ZONES, SOLVER_S = 200, 20.0


def instance(n_zones: int, seed: int) -> tuple[list[Job], Grid, float]:
    """A made-up week, and how much of the pump's water it takes."""
    rng = np.random.default_rng(seed)
    minute = np.arange(N_MINUTES)
    wind = np.stack(
        [
            rng.uniform(1.5, 3.0)
            + rng.uniform(0.3, 1.2)
            * np.cos(2 * np.pi * (minute - rng.uniform(0, 480)) / rng.uniform(400, 900))
            for _ in range(N_NIGHTS)
        ]
    )
    # a loss of 2 % and 4 % with each m/s; 6 % for energy, twice that from 04:30 on
    cost = 0.02 + 0.04 * wind + np.where(minute >= 390, 0.12, 0.06)
    jobs, litres = [], 0.0
    for i in range(n_zones):
        job = Job(
            zone=f"Z{i:03}",
            cycles=int(rng.integers(2, 5)),
            cycle_min=int(rng.integers(6, 19)),
            soak_min=int(rng.integers(15, 41)),
            flow_l_per_min=float(rng.integers(20, 81)),
            may=tuple(range(N_NIGHTS)),
            more=int(rng.integers(1, 4)),
            rest_nights=1,
        )
        jobs.append(job)
        litres += job.more * job.cycles * job.cycle_min * (job.flow_l_per_min or 0.0)
    pump = max(litres / (LOAD * N_NIGHTS * N_MINUTES), LEAST_PUMP)
    valves = max(3, int(np.ceil(pump / 50 * 1.3)))
    is_open = np.ones((1, N_NIGHTS, N_MINUTES), dtype=bool)
    load = litres / (pump * N_NIGHTS * N_MINUTES)
    return jobs, Grid(is_open, cost[None], pump, valves), load


@dataclass(frozen=True)
class Measured:
    """One instance: what each budget of CPU time gives."""

    n_cycles: int
    load: float
    greedy_ms: float
    greedy_lost: int
    bound_kind: str
    gap: dict[float, float]
    lost: dict[float, int]
    cpu_over_wall: float


def _spent(call: Callable[[], State]) -> tuple[State, float, float]:
    begin, wall = time.process_time(), time.perf_counter()
    found = call()
    return found, time.process_time() - begin, time.perf_counter() - wall


def _checked(jobs: list[Job], grid: Grid, task: Task, state: State) -> Timetable:
    table = as_timetable(task, state)
    broken = broken_rules(jobs, grid, table)
    if broken:
        raise SystemExit(f"a timetable breaks a rule: {broken[0]}")
    return table


def measured(n_zones: int, seed: int) -> Measured:
    """Greedy, then as many rounds as each budget of CPU seconds holds."""
    jobs, grid, load = instance(n_zones, seed)
    task = task_of(jobs, grid)
    greedy, spent, _ = _spent(lambda: search(task, rounds=0, seed=0))
    first = _checked(jobs, grid, task, greedy)
    runner = search_compiled if has_numba() else search
    runner(task, rounds=2, seed=0)  # what is compiled is not the search's time
    trial = 400
    _, tried, _ = _spent(lambda: runner(task, rounds=trial, seed=0))
    tables, ratio = {}, 1.0
    for budget in BUDGETS_S:
        rounds = max(int(trial * (budget - spent) / tried), 10)
        state, cpu, wall = _spent(partial(runner, task, rounds=rounds, seed=0))
        tables[budget] = _checked(jobs, grid, task, state)
        ratio = cpu / wall
    best = tables[BUDGETS_S[-1]].cost
    bound, kind = lower_bound(task, best=best, rounds=100 if n_zones <= 50 else 3)
    return Measured(
        n_cycles=int(task.cycles.sum()),
        load=load,
        greedy_ms=1e3 * spent,
        greedy_lost=len(first.unplaced),
        bound_kind=kind,
        gap={b: one.cost / bound - 1.0 for b, one in tables.items()},
        lost={b: len(one.unplaced) for b, one in tables.items()},
        cpu_over_wall=ratio,
    )


def _moves(n_zones: int, seed: int) -> list[tuple[float, float]]:
    """Share of waterings moved, and of the avoidable cost recovered, on a new wind."""
    jobs, grid, _ = instance(n_zones, seed)
    last = _checked(
        jobs, grid, task_of(jobs, grid), search(task_of(jobs, grid), rounds=100, seed=0)
    )
    _, other, _ = instance(n_zones, seed + 100)
    new = Grid(grid.is_open, other.cost, grid.pump_l_per_min, grid.max_valves)
    week = WeekJobs((tuple(jobs),), (new,), {}, ())
    curve = weeks_of_moves(week, {0: last.placed}, rounds=100)
    most, least = curve[0].cost, curve[-1].cost
    span = max(most - least, 1e-9)
    return [(one.moved / max(one.known, 1), (most - one.cost) / span) for one in curve]


def _solver_seconds(n_zones: int, seed: int) -> float | None:
    """CPU seconds until a constraint solver finds any timetable, cost left out.

    None without one. Minutes of all nights stand in one row; a watering's night is a
    variable, its cycles are intervals under two cumulative limits.
    """
    if find_spec("ortools") is None:
        return None
    library = importlib.import_module("ortools.sat.python.cp_model")
    jobs, grid, _ = instance(n_zones, seed)
    begin = time.process_time()
    model, intervals, flows = library.CpModel(), [], []
    for job in jobs:
        night_before = None
        for k in range(job.more):
            night = model.new_int_var(0, N_NIGHTS - 1, f"{job.zone} {k}")
            if night_before is not None:
                model.add(night >= night_before + 1 + job.rest_nights)
            night_before, before = night, None
            for _ in range(job.cycles):
                minute = model.new_int_var(0, N_MINUTES - job.cycle_min, "")
                if before is not None:
                    model.add(minute >= before + job.cycle_min + job.soak_min)
                before = minute
                start = model.new_int_var(0, N_NIGHTS * N_MINUTES, "")
                model.add(start == night * N_MINUTES + minute)
                one = model.new_fixed_size_interval_var(start, job.cycle_min, "")
                intervals.append(one)
                flows.append(int(job.flow_l_per_min or 0))
    model.add_cumulative(intervals, flows, int(grid.pump_l_per_min or 0))
    model.add_cumulative(intervals, [1] * len(intervals), grid.max_valves)
    solver = library.CpSolver()
    solver.parameters.max_time_in_seconds = SOLVER_S
    solver.parameters.num_workers = 2
    status = solver.solve(model)
    spent = time.process_time() - begin
    return spent if status in (library.OPTIMAL, library.FEASIBLE) else SOLVER_S


def run(*, json: bool) -> None:
    rows: list[Ratio] = []
    for n in SIZES:
        found = [measured(n, seed) for seed in SEEDS]
        if not json:
            _show(n, found)
        gap = statistics.median(one.gap[2.0] for one in found)
        rows.append(at_most(f"median gap after 2 CPU s, {n} zones", gap, MOST_GAP[n]))
        lost = max(one.lost[0.5] for one in found)
        rows.append(at_most(f"waterings unplaced by 0.5 CPU s, {n} zones", lost, 0))
        if n == SOLVER_ZONES:
            greedy = statistics.median(one.greedy_ms for one in found)
            rows.append(at_most(f"greedy insertion, {n} zones, ms", greedy, GREEDY_MS))
            solver = _solver_seconds(n, SEEDS[0])
            if solver is not None:
                ratio = 1e3 * solver / greedy
                rows.append(
                    at_least(f"solver's first timetable over greedy, {n}", ratio, 30)
                )
            elif not json:
                print("constraint solver: n/a (not installed)")
    for moved, gained in _moves(50, SEEDS[0]):
        if not json:
            print(
                f"new wind, 50 zones: {moved:4.0%} of waterings moved, "
                f"{gained:4.0%} of the avoidable cost gained"
            )
    report("pack", rows, as_json=json)


def _show(n_zones: int, found: list[Measured]) -> None:
    kernel = "numba" if has_numba() else "numpy"
    for seed, one in zip(SEEDS, found, strict=True):
        gaps = ", ".join(f"{b:g} s {gap:.2%}" for b, gap in one.gap.items())
        print(
            f"{n_zones:>4} zones, seed {seed}, {one.n_cycles} cycles, "
            f"load {one.load:.0%}, {kernel}: greedy {one.greedy_ms:.0f} ms "
            f"({one.greedy_lost} unplaced); gap to the {one.bound_kind} bound "
            f"at {gaps}; "
            f"CPU/wall {one.cpu_over_wall:.2f}"
        )
