"""One night's jobs in; the fewest minutes that they take, with free starts, out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import BoolArray, IntArray
from scheduler.watering.timetable.night_bound import least_minutes
from scheduler.watering.timetable.nouns import Grid, Job, Placed
from scheduler.watering.timetable.pairs import pairs_that_start_together
from scheduler.watering.timetable.task import Task, task_of


@dataclass(frozen=True, slots=True)
class NightLength:
    """How long one night's waterings take.

    Attributes
    ----------
    window_min : int
        From the first to the last minute that is open. [min]
    free_min : int
        From the first open minute to the end, each zone starting as soon as there is
        room. [min]
    pairs_min : int
        The same for pairs that start together. [min]
    least_min : int
        No order is shorter. [min]
    pairs : tuple of tuple of str
        The pairs, one slot after the other.
    placed : tuple of Placed
        The night with free starts, counted from the first minute of the grid.
    """

    window_min: int
    free_min: int
    pairs_min: int
    least_min: int
    pairs: tuple[tuple[str, ...], ...]
    placed: tuple[Placed, ...]

    @property
    def short_min(self) -> int:
        """Minutes that the window is too short with free starts; 0 where it fits."""
        return max(self.free_min - self.window_min, 0)

    @property
    def pairs_short_min(self) -> int:
        """Minutes that the window is too short for the pairs; 0 where they fit."""
        return max(self.pairs_min - self.window_min, 0)


def shortest_night(
    jobs: Sequence[Job], grid: Grid, *, night: int = 0, tries: int = 300
) -> NightLength:
    """Fewest minutes in which one night's waterings run, its end left open.

    Parameters
    ----------
    jobs : sequence of Job
        Zones that run in that night, one watering each.
    grid : Grid
        Minutes and limits.
    night : int
        Row of the grid.
    tries : int
        Orders tried, each a change of two places in the best one so far.

    Returns
    -------
    NightLength
        Free starts and pairs.

    Notes
    -----
    Zones are put one by one at the earliest minutes with room; some order gives the
    shortest night. Where the result equals `least_min` it is proven.

    References
    ----------
    .. [1] Pinedo, Scheduling, list schedules for one resource; from memory.

    Examples
    --------
    >>> grid = Grid(np.ones((1, 1, 60), dtype=bool), np.ones((1, 1, 60)), 100.0)
    >>> three = [Job("A", 1, 30, 0, 60.0), Job("B", 1, 20, 0, 40.0),
    ...          Job("C", 1, 10, 0, 40.0)]
    >>> night = shortest_night(three, grid)
    >>> night.free_min, night.pairs_min, night.short_min
    (30, 40, 0)
    """
    once = sorted(
        (replace(one, must=(0,), may=(), more=0) for one in jobs),
        key=lambda one: one.zone,
    )
    first, last, task = _open_ended(once, grid, night)
    pairs, pairs_min = pairs_that_start_together(once, grid)
    least = least_minutes(once, grid)
    order = sorted(
        range(len(once)), key=lambda e: (-once[e].elapsed_min, -task.flow_ml[e])
    )
    ends, starts = _listed(task, order)
    chance = np.random.default_rng(0)
    for _ in range(tries if len(once) > 1 else 0):
        if ends - first <= least:
            break
        a, b = chance.integers(0, len(once), 2)
        other = list(order)
        other.insert(int(b), other.pop(int(a)))
        found = _listed(task, other)
        if found[0] <= ends:
            order, (ends, starts) = other, found
    lead = grid.change_over_min
    placed = tuple(
        sorted(
            Placed(night, tuple(s + lead for s in starts[e]), once[e].zone)
            for e in range(len(once))
        )
    )
    free = ends - first if once else 0
    return NightLength(last - first, free, pairs_min, least, pairs, placed)


def _open_ended(jobs: Sequence[Job], grid: Grid, night: int) -> tuple[int, int, Task]:
    """First and last minute of the window, and a night that stays open after it."""
    row = grid.is_open[:, night]
    any_open = np.flatnonzero(row.any(axis=0))
    first = int(any_open[0]) if any_open.size else 0
    last = int(any_open[-1]) + 1 if any_open.size else first
    more = sum(one.elapsed_min + one.cycles * grid.change_over_min for one in jobs)
    is_open = np.ones((row.shape[0], 1, last + more), dtype=bool)
    is_open[:, 0, :last] = row[:, :last]
    cost = np.zeros(is_open.shape)
    return first, last, task_of(jobs, replace(grid, is_open=is_open, cost=cost))


def _listed(task: Task, order: Sequence[int]) -> tuple[int, dict[int, tuple[int, ...]]]:
    """Last minute of the night when zones go, in this order, where there is room."""
    flow = np.zeros(task.is_open.shape[2], dtype=np.int64)
    valves = np.zeros((task.clock_valves.size, flow.size), dtype=np.int64)
    starts: dict[int, tuple[int, ...]] = {}
    ends = 0
    for e in order:
        block, step = int(task.block[e]), int(task.step[e])
        clock = int(task.clock[e])
        room = task.is_open[int(task.kind[e]), 0].copy()
        room &= valves[clock] < task.clock_valves[clock]
        room &= flow <= task.pump_ml - task.flow_ml[e]
        for other in starts:
            if task.rival[task.job[e], task.job[other]]:
                for s in starts[other]:
                    room[s : s + task.block[other]] = False
        bad = np.zeros(room.size + 1, dtype=np.int64)
        np.cumsum(~room, out=bad[1:])
        starts[e] = _earliest(bad, block, step, int(task.cycles[e]))
        for s in starts[e]:
            flow[s : s + block] += task.flow_ml[e]
            valves[clock, s : s + block] += 1
        ends = max(ends, starts[e][-1] + block)
    return ends, starts


def _earliest(bad: IntArray, block: int, step: int, cycles: int) -> tuple[int, ...]:
    """Earliest minutes with room; each cycle waits for the soak of the one before."""
    free: BoolArray = bad[block:] == bad[:-block]
    at, starts = 0, []
    for _ in range(cycles):
        start = at + int(free[at:].argmax())
        starts.append(start)
        at = start + step
    return tuple(starts)
