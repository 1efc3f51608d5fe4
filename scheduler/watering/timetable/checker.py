"""Jobs, grid and a timetable in; every rule that it breaks, in words, out.

Written apart from the search: it shares no code with it and counts minute by minute.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from scheduler.watering.timetable.nouns import Grid, Job, Placed, Timetable

# flows are kept to the millilitre a minute, which many zones may add up to
_SLACK = 1e-4

Rule = Literal[
    "asked",
    "night",
    "cycles",
    "soak",
    "long soak",
    "closed",
    "twice",
    "pump",
    "valves",
    "not with",
]


@dataclass(frozen=True, slots=True)
class Broken:
    """One rule that a timetable breaks.

    Attributes
    ----------
    rule : str
        Which one; `closed` is a minute outside the window or blocked.
    text : str
        It in words, nights and minutes counted.
    night, minute : int
        Where it shows first; -1 where it has no minute.
    zones : tuple of str
        Zones in it.
    found, limit : float
        What was found and what may be, in the rule's own unit. [-]
    """

    rule: Rule
    text: str
    night: int = -1
    minute: int = -1
    zones: tuple[str, ...] = ()
    found: float = 0.0
    limit: float = 0.0


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
    return tuple(one.text for one in broken_places(jobs, grid, timetable))


def broken_places(
    jobs: Sequence[Job], grid: Grid, timetable: Timetable
) -> tuple[Broken, ...]:
    """Rules that a timetable breaks, with where and by how much.

    Parameters
    ----------
    jobs, grid, timetable : as in `broken_rules`
        What was asked, where, and what was found.

    Returns
    -------
    tuple of Broken
        Empty for an honest timetable.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import numpy as np
    >>> grid = Grid(np.ones((1, 1, 60), dtype=bool), np.ones((1, 1, 60)), 100.0)
    >>> job = Job("Z1", 1, 30, 0, 60.0, must=(0,))
    >>> late = Timetable((Placed(0, (40,), "Z1"),), (), 0.0)
    >>> [one.rule for one in broken_places([job], grid, late)]
    ['closed']
    """
    asked = {job.zone: job for job in jobs}
    strangers = [one.zone for one in timetable.placed if one.zone not in asked]
    if strangers:
        return tuple(
            Broken("asked", f"zone {zone} was not asked for", zones=(zone,))
            for zone in strangers
        )
    said = [*_counts(jobs, timetable)]
    for one in timetable.placed:
        said += _shape(asked[one.zone], grid, one)
    said += _together(asked, grid, timetable)
    return tuple(said)


def _counts(jobs: Sequence[Job], timetable: Timetable) -> Iterator[Broken]:
    """Waterings asked for are placed or said to be unplaced, on nights allowed."""
    lost = Counter(timetable.unplaced)
    for job in jobs:
        nights = sorted(one.night for one in timetable.placed if one.zone == job.zone)
        wanted = len(job.must) + job.more
        name = f"zone {job.zone}"
        if len(nights) + lost[job.zone] != wanted:
            text = (
                f"{name}: {len(nights)} placed and {lost[job.zone]} not, "
                f"{wanted} asked for"
            )
            yield Broken("asked", text, zones=(job.zone,))
        missing = set(job.must) - set(nights)
        if len(missing) > lost[job.zone]:
            text = f"{name}: has to run on night {min(missing) + 1}"
            yield Broken("night", text, min(missing), zones=(job.zone,))
        if set(nights) - set(job.must) - set(job.may):
            text = f"{name}: runs on a night that is not allowed"
            yield Broken("night", text, zones=(job.zone,))
        for a, b in pairwise(nights):
            if b - a <= job.rest_nights:
                text = f"{name}: nights {a + 1} and {b + 1} are too close"
                yield Broken("night", text, b, zones=(job.zone,))


def _shape(job: Job, grid: Grid, one: Placed) -> Iterator[Broken]:
    """Cycles, soaks and open minutes of one watering."""
    name, at = f"zone {job.zone}, night {one.night + 1}", (job.zone,)
    if len(one.starts) != job.cycles:
        text = f"{name}: {len(one.starts)} cycles, {job.cycles} asked for"
        yield Broken("cycles", text, one.night, -1, at, len(one.starts), job.cycles)
    yield from _soaks(job, grid, one, name)
    n_minutes = grid.is_open.shape[2]
    for start in one.starts:
        first, end = start - grid.change_over_min, start + job.cycle_min
        if first < 0 or end > n_minutes:
            text = f"{name}: {first} to {end} is outside the night"
            yield Broken("closed", text, one.night, -1 if first < 0 else n_minutes, at)
            continue
        shut = [
            m for m in range(first, end) if not grid.is_open[job.kind, one.night, m]
        ]
        if shut:
            text = f"{name}: runs from {first} to {end}, not all of it open"
            yield Broken("closed", text, one.night, shut[0], at)


def _soaks(job: Job, grid: Grid, one: Placed, name: str) -> Iterator[Broken]:
    """Soaks between the cycles of one watering."""
    zones, most = (job.zone,), job.most_soak_min
    if most is not None:
        most = max(most, grid.change_over_min, job.soak_min)
    for a, b in pairwise(one.starts):
        soak = b - (a + job.cycle_min)
        if soak < job.soak_min:
            text = f"{name}: {soak} min of soak, {job.soak_min} asked"
            yield Broken("soak", text, one.night, b, zones, soak, job.soak_min)
        if most is not None and soak > most:
            text = f"{name}: {soak} min of soak, {most} at most"
            yield Broken("long soak", text, one.night, b, zones, soak, most)


def _together(
    asked: dict[str, Job], grid: Grid, timetable: Timetable
) -> Iterator[Broken]:
    """Pump, valves and zones that must not run together, minute by minute."""
    running: dict[tuple[int, int], list[Job]] = defaultdict(list)
    for one in timetable.placed:
        job = asked[one.zone]
        for start in one.starts:
            for minute in range(start - grid.change_over_min, start + job.cycle_min):
                running[one.night, minute].append(job)
    before: frozenset[str] = frozenset()
    for place, some in sorted(running.items(), key=lambda item: item[0]):
        zones = frozenset(job.zone for job in some)
        if zones != before or len(zones) < len(some):
            yield from _clash(some, grid, place)
        before = zones


def _clash(some: list[Job], grid: Grid, place: tuple[int, int]) -> Iterator[Broken]:
    night, minute = place
    at = f"night {night + 1}, minute {minute}"
    zones = tuple(job.zone for job in some)
    if len(set(zones)) < len(zones):
        twice = max(zones, key=zones.count)
        yield Broken("twice", f"{at}: zone {twice} runs twice", *place, (twice,))
    flow = sum(job.flow_l_per_min or 0.0 for job in some)
    pump = grid.pump_l_per_min
    if pump is not None and flow > pump + _SLACK * max(len(some), 1) * 10:
        text = f"{at}: {flow:.4g} L/min, the pump gives {pump:.4g}"
        yield Broken("pump", text, night, minute, zones, flow, pump)
    yield from _many_open(some, grid, place)
    for job in some:
        for other in job.not_with:
            if other in zones and other != job.zone:
                text = f"{at}: zones {job.zone} and {other} run together"
                yield Broken("not with", text, night, minute, (job.zone, other))


def _many_open(some: list[Job], grid: Grid, place: tuple[int, int]) -> Iterator[Broken]:
    """Valves open at once, of all clocks and of each."""
    night, minute = place
    at = f"night {night + 1}, minute {minute}"
    most = grid.max_valves
    if most is not None and len(some) > most:
        text = f"{at}: {len(some)} valves are open, {most} may be"
        zones = tuple(job.zone for job in some)
        yield Broken("valves", text, night, minute, zones, len(some), most)
    for clock, limit in enumerate(grid.clock_valves):
        own = tuple(job.zone for job in some if job.clock == clock)
        if limit is not None and len(own) > limit:
            text = f"{at}: {len(own)} valves of one clock are open, {limit} may be"
            yield Broken("valves", text, night, minute, own, len(own), limit)
