"""A night that does not fit in; which limit binds, and what would make it fit, out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from scheduler.watering.timetable.nouns import Grid, Job
from scheduler.watering.timetable.shortest import NightLength, shortest_night

Limit = Literal[
    "pump", "valves at once", "zones kept apart", "change-over", "soaks",
    "blocked hours", "window",
]  # fmt: skip
Way = Literal["free starts", "alternate nights", "window", "pump", "trim"]
# Ways that cost the plants nothing come first, then those that need hours or hardware,
# then less water.
_RANK: dict[Way, int] = {
    "free starts": 0, "alternate nights": 1, "window": 2, "pump": 2, "trim": 3,
}  # fmt: skip
TRIES = 150
# a pump three times as large is no remedy but another site
MOST_PUMP = 3.0
_STEPS = 12
MOST_TRIM = 60


@dataclass(frozen=True, slots=True)
class WayOut:
    """One thing that would make the night fit.

    Attributes
    ----------
    way : str
        What to do.
    minutes : int
        What the night then takes. [min]
    amount : float
        Minutes of window, flow of the pump [l_per_min], or share of the water left
        out, as the way has it.
    change : float
        The same as a share of what is there. [-]
    zones : tuple of str
        Zones concerned.
    """

    way: Way
    minutes: int
    amount: float = 0.0
    change: float = 0.0
    zones: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Overrun:
    """A night that is too long for its window.

    Attributes
    ----------
    length : NightLength
        As it is.
    binds : str
        The limit without which the night gets shortest.
    without : tuple of (str, int)
        Minutes of the night without each limit that it has.
    ways : tuple of WayOut
        Ranked.
    """

    length: NightLength
    binds: Limit
    without: tuple[tuple[Limit, int], ...]
    ways: tuple[WayOut, ...]


def overrun(jobs: Sequence[Job], grid: Grid, *, night: int = 0) -> Overrun:
    """Why a night does not fit, and what would make it.

    Parameters
    ----------
    jobs : sequence of Job
        Zones that run in that night.
    grid : Grid
        Minutes and limits.
    night : int
        Row of the grid.

    Returns
    -------
    Overrun
        Each number is a night that was laid out anew, not an estimate.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> grid = Grid(np.ones((1, 1, 60), dtype=bool), np.ones((1, 1, 60)), 100.0)
    >>> three = [Job(z, 1, 30, 0, 60.0) for z in "ABC"]
    >>> found = overrun(three, grid)
    >>> found.length.short_min, found.binds, found.ways[0].way
    (30, 'pump', 'pump')
    """
    length = _length(jobs, grid, night)
    without = tuple(
        (limit, _length(some, other, night).free_min)
        for limit, some, other in _relaxed(jobs, grid, night)
    )
    shorter = [one for one in without if one[1] < length.free_min]
    binds = min(shorter, key=lambda one: one[1])[0] if shorter else "window"
    ways = sorted(
        _ways(jobs, grid, night, length),
        key=lambda one: (_RANK[one.way], one.change, one.zones),
    )
    return Overrun(length, binds, without, tuple(ways))


def _length(jobs: Sequence[Job], grid: Grid, night: int) -> NightLength:
    return shortest_night(jobs, grid, night=night, tries=TRIES)


def _relaxed(
    jobs: Sequence[Job], grid: Grid, night: int
) -> Iterator[tuple[Limit, Sequence[Job], Grid]]:
    """The night without each of its limits."""
    if grid.pump_l_per_min is not None:
        yield "pump", jobs, replace(grid, pump_l_per_min=None)
    if grid.max_valves is not None or any(grid.clock_valves):
        free_valves = replace(grid, max_valves=None, clock_valves=())
        yield "valves at once", jobs, free_valves
    if any(one.not_with for one in jobs):
        free = [replace(one, not_with=()) for one in jobs]
        yield "zones kept apart", free, grid
    if grid.change_over_min:
        yield "change-over", jobs, replace(grid, change_over_min=0)
    if any(one.cycles > 1 and one.soak_min for one in jobs):
        yield "soaks", [replace(one, soak_min=0) for one in jobs], grid
    is_open = grid.is_open[:, night]
    reach = np.flatnonzero(is_open.any(axis=0))
    if reach.size and not is_open[:, reach[0] : reach[-1] + 1].all():
        whole = np.array(grid.is_open)
        whole[:, night, reach[0] : reach[-1] + 1] = True
        yield "blocked hours", jobs, replace(grid, is_open=whole)


def _ways(
    jobs: Sequence[Job], grid: Grid, night: int, length: NightLength
) -> Iterator[WayOut]:
    if not length.short_min and length.pairs_short_min:
        yield WayOut("free starts", length.free_min)
        return
    window = length.window_min
    if not length.short_min:
        return
    if window:
        share = length.short_min / window
        yield WayOut("window", length.free_min, length.short_min, share)
    yield from _alternating(jobs, grid, night, window)
    yield from _larger_pump(jobs, grid, night, window)
    yield from _trimmed(jobs, grid, night, window)


def _alternating(
    jobs: Sequence[Job], grid: Grid, night: int, window: int
) -> Iterator[WayOut]:
    """Two zones that take turns by nights, each with twice its cycles, once in two."""
    best: WayOut | None = None
    by_size = sorted(jobs, key=lambda one: (-one.elapsed_min, one.zone))
    for i, a in enumerate(by_size[:6]):
        for b in by_size[i + 1 : 7]:
            others = [one for one in jobs if one.zone not in (a.zone, b.zone)]
            longest = max(
                _length([*others, _twice(one)], grid, night).free_min for one in (a, b)
            )
            if longest <= window and (best is None or longest < best.minutes):
                best = WayOut("alternate nights", longest, zones=(a.zone, b.zone))
    if best is not None:
        yield best


def _twice(job: Job) -> Job:
    if job.cycles > 1:
        return replace(job, cycles=2 * job.cycles)
    return replace(job, cycle_min=2 * job.cycle_min)


def _larger_pump(
    jobs: Sequence[Job], grid: Grid, night: int, window: int
) -> Iterator[WayOut]:
    """Smallest flow of the pump with which the night fits."""
    if grid.pump_l_per_min is None:
        return
    now = grid.pump_l_per_min
    low, high, minutes = now, now * MOST_PUMP, None
    for step in range(_STEPS):
        flow = high if step == 0 else (low + high) / 2
        found = _length(jobs, replace(grid, pump_l_per_min=flow), night).free_min
        if found <= window:
            high, minutes = flow, found
        elif step == 0:
            return
        else:
            low = flow
    if minutes is not None:
        yield WayOut("pump", minutes, high, high / now - 1.0)


def _trimmed(
    jobs: Sequence[Job], grid: Grid, night: int, window: int
) -> Iterator[WayOut]:
    """Least cut of all minutes, in whole percent, with which the night fits."""
    low, high, minutes = 0, MOST_TRIM, None
    while high - low > 1 or minutes is None:
        cut = high if minutes is None else (low + high) // 2
        some = [
            replace(one, cycle_min=max(one.cycle_min * (100 - cut) // 100, 1))
            for one in jobs
        ]
        found = _length(some, grid, night).free_min
        if found <= window:
            high, minutes = cut, found
        elif minutes is None:
            return
        else:
            low = cut
    yield WayOut("trim", minutes, high / 100, high / 100)
