"""Nights laid out by the wall clock in; cycles moved where it skips their soak, out.

An hour that the clock skips lets nothing soak. The cycles after it start later, or
those before it earlier, whichever moves fewer minutes; nothing else moves.
"""

from collections.abc import Collection, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from scheduler.arrays import BoolArray
from scheduler.errors import Finding
from scheduler.said import day_text
from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.layout import NightLayout
from scheduler.watering.night_plan.night_hours import NightHours
from scheduler.watering.timetable import Grid, Job, Placed, Timetable
from scheduler.watering.timetable.checker import broken_rules

_SLACK_L_PER_MIN = 1e-6


def real_soak_min(skipped: BoolArray, end: int, start: int) -> int:
    """Minutes between two cycles that really pass.

    Parameters
    ----------
    skipped : array of shape (n_minutes,)
        Minutes that the wall clock never shows.
    end, start : int
        End of a cycle and start of the next, by the wall clock. [min]

    Returns
    -------
    int
        At least 0. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> real_soak_min(np.array([False, True, True, False]), 0, 4)
    2
    """
    return int((~skipped[end:start]).sum())


def soaks_kept(
    week: WeekJobs,
    layouts: Sequence[NightLayout],
    hours: NightHours,
    held: Collection[tuple[int, str]] = (),
) -> tuple[tuple[NightLayout, ...], tuple[Finding, ...]]:
    """Nights in which every soak is kept in minutes that really pass, where it can be.

    Parameters
    ----------
    week : WeekJobs
        For minutes, soaks and limits.
    layouts : sequence of NightLayout
        The nights.
    hours : NightHours
        For the changes of the clocks.
    held : collection of (int, str)
        Nights and zones that somebody placed by hand; they stay.

    Returns
    -------
    layouts : tuple of NightLayout
        As given, with cycles moved.
    findings : tuple of Finding
        A note for each zone that moved.

    References
    ----------
    Source: definition.
    """
    done, said = [], []
    for layout in layouts:
        one, change = layout, hours.changes.get(layout.night)
        is_short = change is not None and bool(change.skipped.any())
        for job in week.jobs[one.night] if is_short else ():
            if change is None or (one.night, job.zone) in held:
                continue
            moved = _kept(one, job, week, change.skipped)
            if moved is not None:
                said.append(_note(one, moved, job, hours))
                one = moved
        done.append(one)
    return tuple(done), tuple(said)


def _kept(
    one: NightLayout, job: Job, week: WeekJobs, skipped: BoolArray
) -> NightLayout | None:
    """The night with one zone's soaks kept; None where nothing has to move, or can."""
    grid, table = week.grids[one.night], one.table
    own = next((each for each in table.placed if each.zone == job.zone), None)
    if own is None or _are_kept(own.starts, job, skipped):
        return None
    others = [each for each in table.placed if each is not own]
    free = _free_starts(job, grid, week.jobs[one.night], others)
    gap = max(job.soak_min, grid.change_over_min)
    ways = [
        way
        for way in (
            _later(own.starts, job.cycle_min, gap, (free, skipped)),
            _earlier(own.starts, job.cycle_min, gap, (free, skipped)),
        )
        if way is not None
    ]
    if not ways:
        return None
    starts = min(ways, key=lambda way: sum(map(_apart, way, own.starts)))
    placed = tuple(sorted([*others, Placed(own.night, starts, job.zone)]))
    more = _cost(starts, job, grid) - _cost(own.starts, job, grid)
    made = replace(table, placed=placed, cost=table.cost + more)
    loose = [replace(each, most_soak_min=None) for each in week.jobs[one.night]]
    if broken_rules(loose, grid, Timetable(placed, table.unplaced, 0.0)):
        return None
    return replace(one, table=made)


def _apart(a: int, b: int) -> int:
    return abs(a - b)


def _are_kept(starts: Sequence[int], job: Job, skipped: BoolArray) -> bool:
    return all(
        real_soak_min(skipped, a + job.cycle_min, b) >= job.soak_min
        for a, b in pairwise(starts)
    )


def _free_starts(
    job: Job, grid: Grid, jobs: Sequence[Job], others: Sequence[Placed]
) -> BoolArray:
    """Minutes at which a cycle of the zone could start beside the others."""
    by_zone = {each.zone: each for each in jobs}
    n, lead = grid.is_open.shape[2], grid.change_over_min
    flow, valves, rival = np.zeros(n), np.zeros(n), np.zeros(n, dtype=bool)
    for placed in others:
        other = by_zone[placed.zone]
        for start in placed.starts:
            span = slice(max(start - lead, 0), start + other.cycle_min)
            flow[span] += other.flow_l_per_min or 0.0
            valves[span] += other.clock == job.clock or not grid.clock_valves
            rival[span] |= placed.zone in job.not_with or job.zone in other.not_with
    room = grid.is_open[job.kind, 0] & ~rival
    if grid.pump_l_per_min is not None:
        left = grid.pump_l_per_min - (job.flow_l_per_min or 0.0) + _SLACK_L_PER_MIN
        room &= flow <= left
    most = grid.clock_valves[job.clock] if grid.clock_valves else grid.max_valves
    if most is not None:
        room &= valves < most
    bad = np.concatenate([[0], np.cumsum(~room)])
    free = np.zeros(n, dtype=bool)
    last = n - job.cycle_min
    at = np.arange(lead, last + 1)
    free[at] = bad[at + job.cycle_min] == bad[at - lead]
    return free


def _later(
    starts: Sequence[int],
    cycle_min: int,
    gap_min: int,
    minutes: tuple[BoolArray, BoolArray],
) -> tuple[int, ...] | None:
    """Each cycle as soon as its soak has passed, no earlier than it was."""
    free, skipped = minutes
    found = [starts[0]]
    for was in starts[1:]:
        end = found[-1] + cycle_min
        after = (
            at
            for at in range(max(was, end), free.size)
            if free[at] and real_soak_min(skipped, end, at) >= gap_min
        )
        at = next(after, None)
        if at is None:
            return None
        found.append(at)
    return tuple(found)


def _earlier(
    starts: Sequence[int],
    cycle_min: int,
    gap_min: int,
    minutes: tuple[BoolArray, BoolArray],
) -> tuple[int, ...] | None:
    """Each cycle so early that the soak after it passes, no later than it was."""
    free, skipped = minutes
    found = [starts[-1]]
    for was in reversed(starts[:-1]):
        before = (
            at
            for at in range(min(was, found[-1] - cycle_min), -1, -1)
            if free[at] and real_soak_min(skipped, at + cycle_min, found[-1]) >= gap_min
        )
        at = next(before, None)
        if at is None:
            return None
        found.append(at)
    return tuple(reversed(found))


def _cost(starts: Sequence[int], job: Job, grid: Grid) -> float:
    """Litres times what each costs, as the timetable counts them."""
    cost = grid.cost[job.kind, 0]
    minutes = sum(float(cost[at : at + job.cycle_min].sum()) for at in starts)
    return minutes * (job.flow_l_per_min or 1.0)


def _note(one: NightLayout, moved: NightLayout, job: Job, hours: NightHours) -> Finding:
    was, now = (
        next(each.starts for each in layout.table.placed if each.zone == job.zone)
        for layout in (one, moved)
    )
    parts = [
        f"{hours.clock(one.night, old):%H:%M} to {hours.clock(one.night, new):%H:%M}"
        for old, new in zip(was, now, strict=True)
        if old != new
    ]
    night = day_text(hours.dates[one.night], "%a %d %b")
    what = (
        f"zone {job.zone}: the hour that is skipped lets nothing soak, so a start "
        f"moves from {', '.join(parts)} on the night of {night}: "
        f"its soak of {job.soak_min} min is kept"
    )
    fix = "key it in for that night alone, or water the zone on another night"
    return Finding("note", "night plan: clock change", what, fix)
