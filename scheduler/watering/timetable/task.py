"""Jobs and grid in; whole numbers for the search out.

Flows and costs become integers, so that sums are exact: the same answer comes out
whatever the order of adding, in numpy and in the compiled kernel alike.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, FloatArray, IntArray, frozen
from scheduler.errors import SchedulerError
from scheduler.watering.timetable.nouns import Grid, Job

ML_PER_L = 1000
WEIGHT_PER_L = 100
# the dearest minute, as a whole number
COST_STEPS = 1_000_000
# more than any watering can cost; twice this still fits into 64 bits
NO_ROOM = 1 << 61
# stands for a pump or a clock that nobody described: limits nothing
NO_LIMIT = 1 << 40
_BINARY_DUST = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class Task:
    """Every watering of the week as one row (an event).

    Attributes
    ----------
    job : array of shape (n_events,)
        Job of each event.
    night : array of shape (n_events, n_nights)
        Nights on which it may run.
    flow_ml : array of shape (n_events,)
        Flow, 0 where it is not known. [ml per minute]
    weight : array of shape (n_events,)
        Flow that its minutes are priced with. [0.01 l per minute]
    block, lead, step, reach, cycles, kind : array of shape (n_events,)
        Minutes that a cycle holds its room; those of them before water runs; from the
        start of a block to the next; so many more at most; number of cycles; row of
        the grid.
    rest : array of shape (n_events,)
        Nights between two events of the job.
    rival : array of shape (n_jobs, n_jobs)
        Jobs that must not run at the same minute.
    is_open : array of shape (n_kinds, n_nights, n_minutes)
        As in the grid.
    cost_sum : array of shape (n_kinds, n_nights, n_minutes + 1)
        Running sums of the cost in whole steps.
    order : array of shape (n_events,)
        Events by volume, largest first.
    step_cost : float
        Cost of one step and one unit of weight.
    pump_ml, max_valves : int
        Limits of each minute.
    clock : array of shape (n_events,)
        Clock of each event.
    clock_valves : array of shape (n_clocks,)
        Valves that each clock may have open at once.
    """

    zones: tuple[str, ...]
    job: IntArray
    night: BoolArray
    flow_ml: IntArray
    weight: IntArray
    block: IntArray
    lead: IntArray
    step: IntArray
    reach: IntArray
    cycles: IntArray
    kind: IntArray
    rest: IntArray
    rival: BoolArray
    is_open: BoolArray
    cost_sum: IntArray
    order: IntArray
    step_cost: float
    pump_ml: int
    max_valves: int
    clock: IntArray
    clock_valves: IntArray

    @property
    def n_events(self) -> int:
        """Waterings of the week."""
        return int(self.job.size)

    @property
    def volume(self) -> IntArray:
        """Weight times minutes of water of each event."""
        return np.asarray(self.weight * (self.block - self.lead) * self.cycles)


def task_of(jobs: Sequence[Job], grid: Grid) -> Task:
    """Jobs and grid as whole numbers.

    Parameters
    ----------
    jobs : sequence of Job
        Each zone once.
    grid : Grid
        Minutes of the nights.

    Returns
    -------
    Task
        Events by zone, then by night, whatever the order of the jobs.

    Raises
    ------
    SchedulerError
        If a number cannot be: a cycle without minutes, a flow that is not finite, a
        night that the grid does not have, a zone given twice.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> grid = Grid(np.ones((1, 2, 60), dtype=bool), np.ones((1, 2, 60)))
    >>> task_of([Job("Z1", 2, 10, 5, 50.0, must=(0, 1))], grid).n_events
    2
    """
    _refuse(jobs, grid)
    sorted_jobs = sorted(jobs, key=lambda one: one.zone)
    n_nights = grid.is_open.shape[1]
    rows = [(j, nights) for j, job in enumerate(sorted_jobs) for nights in _nights(job)]
    job = np.array([j for j, _ in rows], dtype=np.int64)
    night = np.zeros((len(rows), n_nights), dtype=bool)
    for e, (_, nights) in enumerate(rows):
        night[e, list(nights)] = True

    def of(values: list[int]) -> IntArray:
        return frozen(np.array(values, dtype=np.int64)[job], np.int64)

    lead = grid.change_over_min
    flows = [one.flow_l_per_min for one in sorted_jobs]
    top = float(np.abs(grid.cost).max(initial=0.0)) or 1.0
    steps = np.round(grid.cost / top * COST_STEPS).astype(np.int64)
    none = np.zeros((*steps.shape[:2], 1), dtype=np.int64)
    weight = of([max(round((f or 1.0) * WEIGHT_PER_L), 1) for f in flows])
    cycles = of([one.cycles for one in sorted_jobs])
    water = of([one.cycle_min for one in sorted_jobs])
    pump = grid.pump_l_per_min
    return Task(
        zones=tuple(one.zone for one in sorted_jobs),
        job=frozen(job, np.int64),
        night=frozen(night, np.bool_),
        # rounded down like the pump: a sum that just fits must fit
        flow_ml=of([_whole_ml(f or 0.0) for f in flows]),
        weight=weight,
        block=frozen(water + lead, np.int64),
        lead=frozen(np.full(job.size, lead), np.int64),
        step=of([one.cycle_min + max(one.soak_min, lead) for one in sorted_jobs]),
        reach=of([_reach(one, lead, grid.is_open.shape[2]) for one in sorted_jobs]),
        cycles=cycles,
        kind=of([one.kind for one in sorted_jobs]),
        rest=of([one.rest_nights for one in sorted_jobs]),
        rival=frozen(_rivals(sorted_jobs), np.bool_),
        is_open=frozen(grid.is_open, np.bool_),
        cost_sum=frozen(np.concatenate([none, steps.cumsum(axis=2)], axis=2), np.int64),
        order=frozen(np.argsort(-weight * water * cycles, kind="stable"), np.int64),
        step_cost=top / COST_STEPS / WEIGHT_PER_L,
        pump_ml=NO_LIMIT if pump is None else _whole_ml(pump),
        max_valves=grid.max_valves or NO_LIMIT,
        clock=of([one.clock if grid.clock_valves else 0 for one in sorted_jobs]),
        clock_valves=frozen(
            np.array(
                [one or NO_LIMIT for one in grid.clock_valves or (grid.max_valves,)]
            ),
            np.int64,
        ),
    )


def all_valves(clock_valves: Sequence[int | None]) -> int | None:
    """Valves that several clocks may have open at once, all together.

    Parameters
    ----------
    clock_valves : sequence of int or None
        Of each clock; None limits nothing.

    Returns
    -------
    int or None
        None where one of them has no limit.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> all_valves([1, 2]), all_valves([1, None])
    (3, None)
    """
    limits = [one for one in clock_valves if one is not None]
    return sum(limits) if len(limits) == len(clock_valves) else None


def _reach(job: Job, lead: int, n_minutes: int) -> int:
    """Minutes that a soak may be longer than it must; the whole night without limit."""
    if job.most_soak_min is None:
        return n_minutes
    return max(job.most_soak_min - max(job.soak_min, lead), 0)


def _whole_ml(flow_l_per_min: float) -> int:
    return int(flow_l_per_min * ML_PER_L + _BINARY_DUST)


def _nights(job: Job) -> list[tuple[int, ...]]:
    pinned: list[tuple[int, ...]] = [(n,) for n in sorted(job.must)]
    free = tuple(n for n in sorted(job.may) if n not in job.must)
    return pinned + [free] * job.more


def _rivals(jobs: Sequence[Job]) -> BoolArray:
    at = {job.zone: j for j, job in enumerate(jobs)}
    rival = np.zeros((len(jobs), len(jobs)), dtype=bool)
    for j, job in enumerate(jobs):
        for other in job.not_with:
            if other in at and at[other] != j:
                rival[j, at[other]] = rival[at[other], j] = True
    return rival


def _refuse(jobs: Sequence[Job], grid: Grid) -> None:
    if grid.is_open.shape != grid.cost.shape or grid.cost.ndim != 3:
        raise SchedulerError(
            f"open minutes {grid.is_open.shape} and costs {grid.cost.shape} differ",
            "give both one shape: kinds, nights, minutes",
        )
    if not np.isfinite(grid.cost).all():
        raise SchedulerError(
            "a minute of the night has no cost", "give each minute a finite number"
        )
    clocks = grid.clock_valves
    if clocks and grid.max_valves != all_valves(clocks):
        raise SchedulerError(
            f"{grid.max_valves} valves at once are not those of the clocks, {clocks}",
            "give their sum, or None where one has no limit",
        )
    seen: set[str] = set()
    for job in jobs:
        what = _slip(job, grid.cost)
        if grid.clock_valves and not 0 <= job.clock < len(grid.clock_valves):
            what = f"goes by clock {job.clock} of {len(grid.clock_valves)}"
        if job.zone in seen:
            what = "is given twice"
        if what:
            raise SchedulerError(f"zone {job.zone} {what}", "correct it", "timetable")
        seen.add(job.zone)


def _slip(job: Job, cost: FloatArray) -> str:
    """What cannot be about a job; empty where all is well."""
    n_kinds, n_nights, _ = cost.shape
    flow = job.flow_l_per_min
    if job.cycles < 1 or job.cycle_min < 1 or job.soak_min < 0:
        return f"has {job.cycles} cycles of {job.cycle_min} min, soak {job.soak_min}"
    if flow is not None and not 0 <= flow < NO_LIMIT / ML_PER_L:
        return f"has a flow of {flow:g} L/min"
    if any(not 0 <= night < n_nights for night in (*job.must, *job.may)):
        return f"names a night outside 0 to {n_nights - 1}"
    if not 0 <= job.kind < n_kinds:
        return f"goes by row {job.kind} of {n_kinds}"
    if len(set(job.must)) < len(job.must) or job.more < 0:
        return "names a night twice"
    return ""
