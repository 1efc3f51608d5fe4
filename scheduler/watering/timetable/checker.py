"""Jobs, grid and a timetable in; every rule that it breaks, in words, out.

Written apart from the search: it shares no code with it and counts minute by minute.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise

from scheduler.watering.timetable.nouns import Grid, Job, Placed, Timetable

# flows are kept to the millilitre a minute, which many zones may add up to
_SLACK = 1e-4


def broken_rules(
    jobs: Sequence[Job], grid: Grid, timetable: Timetable
) -> tuple[str, ...]:
    """Rules that a timetable breaks.

    Parameters
    ----------
    jobs : sequence of Job
        What was asked.
    grid : Grid
        Minutes of the nights and their limits.
    timetable : Timetable
        What was found.

    Returns
    -------
    tuple of str
        Empty for an honest timetable.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import numpy as np
    >>> grid = Grid(np.ones((1, 1, 60), dtype=bool), np.ones((1, 1, 60)), 100.0)
    >>> both = [Job(zone, 1, 30, 0, 60.0, must=(0,)) for zone in ("Z1", "Z2")]
    >>> late = Timetable((Placed(0, (0,), "Z1"), Placed(0, (29,), "Z2")), (), 0.0)
    >>> broken_rules(both, grid, late)
    ('night 1, minute 29: 120 L/min, the pump gives 100',)
    """
    asked = {job.zone: job for job in jobs}
    strangers = [one.zone for one in timetable.placed if one.zone not in asked]
    if strangers:
        return tuple(f"zone {zone} was not asked for" for zone in strangers)
    said = [*_counts(jobs, timetable)]
    for one in timetable.placed:
        said += _shape(asked[one.zone], grid, one)
    said += _together(asked, grid, timetable)
    return tuple(said)


def _counts(jobs: Sequence[Job], timetable: Timetable) -> Iterator[str]:
    """Waterings asked for are placed or said to be unplaced, on nights allowed."""
    lost = Counter(timetable.unplaced)
    for job in jobs:
        nights = sorted(one.night for one in timetable.placed if one.zone == job.zone)
        wanted = len(job.must) + job.more
        if len(nights) + lost[job.zone] != wanted:
            yield (
                f"zone {job.zone}: {len(nights)} placed and {lost[job.zone]} not, "
                f"{wanted} asked for"
            )
        missing = set(job.must) - set(nights)
        if len(missing) > lost[job.zone]:
            yield f"zone {job.zone}: has to run on night {min(missing) + 1}"
        if set(nights) - set(job.must) - set(job.may):
            yield f"zone {job.zone}: runs on a night that is not allowed"
        for a, b in pairwise(nights):
            if b - a <= job.rest_nights:
                yield f"zone {job.zone}: nights {a + 1} and {b + 1} are too close"


def _shape(job: Job, grid: Grid, one: Placed) -> Iterator[str]:
    """Cycles, soaks and open minutes of one watering."""
    name = f"zone {job.zone}, night {one.night + 1}"
    if len(one.starts) != job.cycles:
        yield f"{name}: {len(one.starts)} cycles, {job.cycles} asked for"
    yield from _soaks(job, grid, one, name)
    n_minutes = grid.is_open.shape[2]
    for start in one.starts:
        first, end = start - grid.change_over_min, start + job.cycle_min
        if first < 0 or end > n_minutes:
            yield f"{name}: {first} to {end} is outside the night"
        elif not all(
            bool(grid.is_open[job.kind, one.night, m]) for m in range(first, end)
        ):
            yield f"{name}: runs from {first} to {end}, not all of it open"


def _soaks(job: Job, grid: Grid, one: Placed, name: str) -> Iterator[str]:
    """Soaks between the cycles of one watering."""
    most = job.most_soak_min
    if most is not None:
        most = max(most, grid.change_over_min, job.soak_min)
    for a, b in pairwise(one.starts):
        soak = b - (a + job.cycle_min)
        if soak < job.soak_min:
            yield f"{name}: {soak} min of soak, {job.soak_min} asked"
        if most is not None and soak > most:
            yield f"{name}: {soak} min of soak, {most} at most"


def _together(asked: dict[str, Job], grid: Grid, timetable: Timetable) -> Iterator[str]:
    """Pump, valves and zones that must not run together, minute by minute."""
    running: dict[tuple[int, int], list[Job]] = defaultdict(list)
    for one in timetable.placed:
        job = asked[one.zone]
        for start in one.starts:
            for minute in range(start - grid.change_over_min, start + job.cycle_min):
                running[one.night, minute].append(job)
    before: frozenset[str] = frozenset()
    for (night, minute), some in sorted(running.items(), key=lambda item: item[0]):
        zones = frozenset(job.zone for job in some)
        if zones != before or len(zones) < len(some):
            at = f"night {night + 1}, minute {minute}"
            yield from (f"{at}: {what}" for what in _clash(some, grid))
        before = zones


def _clash(some: list[Job], grid: Grid) -> Iterator[str]:
    zones = [job.zone for job in some]
    if len(set(zones)) < len(zones):
        yield f"zone {max(zones, key=zones.count)} runs twice"
    flow = sum(job.flow_l_per_min or 0.0 for job in some)
    pump = grid.pump_l_per_min
    if pump is not None and flow > pump + _SLACK * max(len(some), 1) * 10:
        yield f"{flow:.4g} L/min, the pump gives {pump:.4g}"
    if grid.max_valves is not None and len(some) > grid.max_valves:
        yield f"{len(some)} valves are open, {grid.max_valves} may be"
    for job in some:
        for other in job.not_with:
            if other in zones and other != job.zone:
                yield f"zones {job.zone} and {other} run together"
