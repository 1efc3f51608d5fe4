"""Jobs of seven nights in; every night laid out, like nights alike, out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from scheduler.supply import MOVE_WORTH
from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.timetable import Grid, Job, Placed, Timetable, packed
from scheduler.watering.timetable.checker import broken_rules
from scheduler.watering.timetable.few import FEW
from scheduler.watering.timetable.shortest import NightLength, shortest_night
from scheduler.watering.timetable.stability import repacked
from scheduler.watering.timetable.ways_out import Overrun, overrun

# Rounds of a plan that is made while somebody waits; the same on every machine.
# A night that begins with the places of another needs fewer.
ROUNDS, ROUNDS_LATER, BOUND_ROUNDS, TRIES = 80, 30, 8, 60
FEW_ZONES = 12
# ... and more than all of it where somebody moves waterings by hand: the rest stays
STAY_WORTH = 10.0


@dataclass(frozen=True, slots=True)
class NightLayout:
    """One night.

    Attributes
    ----------
    night : int
        Its number.
    table : Timetable
        Of this night alone: its runs are of night 0.
    length : NightLength or None
        For the fullest night, and for one that does not fit.
    overrun : Overrun or None
        Why it does not fit.
    """

    night: int
    table: Timetable
    length: NightLength | None = None
    overrun: Overrun | None = None


def laid_out(
    week: WeekJobs,
    last: Mapping[int, Sequence[Placed]],
    *,
    worth: float = MOVE_WORTH,
) -> tuple[NightLayout, ...]:
    """Lay out every night that waters.

    Parameters
    ----------
    week : WeekJobs
        Jobs and grids.
    last : mapping of int to sequence of Placed
        Waterings of the last issued week, by night.
    worth : float
        Share of its water that a watering has to save before it leaves its place. [-]

    Returns
    -------
    tuple of NightLayout
        By night. Nights with the same jobs and minutes are laid out once; the others
        begin with the places of the fullest one, so that a zone starts at the same
        minute every night where that costs little.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import numpy as np
    >>> grid = Grid(np.ones((1, 1, 60), dtype=bool), np.ones((1, 1, 60)), 100.0)
    >>> jobs = (Job("Z1", 1, 30, 0, 60.0, must=(0,)),)
    >>> found = laid_out(WeekJobs((jobs, jobs), (grid, grid), {"Z1": 60.0}, ()), {})
    >>> [one.table.placed[0].starts for one in found]
    [(0,), (0,)]
    """
    nights = [n for n, jobs in enumerate(week.jobs) if jobs]
    nights.sort(key=lambda n: (-_size(week.jobs[n]), n))
    done: dict[object, NightLayout] = {}
    found = []
    for n in nights:
        jobs, grid = week.jobs[n], week.grids[n]
        before = tuple(last.get(n, ()))
        key = (jobs, grid.is_open.tobytes(), grid.cost.tobytes(), before)
        if key not in done:
            first = next(iter(done.values()), None)
            begin = before or (first.table.placed if first else ())
            done[key] = _near_or_far(
                n, jobs, grid, begin, is_fullest=first is None, worth=worth
            )
        one = done[key]
        found.append(NightLayout(n, one.table, one.length, one.overrun))
    return tuple(sorted(found, key=lambda one: one.night))


def laid_out_again(
    night: int, jobs: Sequence[Job], grid: Grid, begin: Sequence[Placed]
) -> NightLayout:
    """Lay out one night whose places shall stay, come what may.

    Parameters
    ----------
    night : int
        Its number.
    jobs : sequence of Job
        What waits.
    grid : Grid
        Its minutes.
    begin : sequence of Placed
        Places that break no rule.

    Returns
    -------
    NightLayout
        Only what has no place, or has to make room for it, moves.

    References
    ----------
    Source: definition.
    """
    worth = STAY_WORTH
    return _near_or_far(night, jobs, grid, begin, is_fullest=False, worth=worth)


def _size(jobs: Sequence[Job]) -> float:
    return sum(job.cycles * job.cycle_min * (job.flow_l_per_min or 1.0) for job in jobs)


def _tries(jobs: Sequence[Job]) -> int:
    """Orders tried for a shortest night: fewer where each takes longer."""
    return max(min(TRIES, TRIES * FEW_ZONES // len(jobs)), 3)


def _near_or_far(
    night: int,
    jobs: Sequence[Job],
    grid: Grid,
    begin: Sequence[Placed],
    *,
    is_fullest: bool,
    worth: float = MOVE_WORTH,
) -> NightLayout:
    """Cycles near each other; as far apart as it takes where the night is too full."""
    near = _one_night(night, jobs, grid, begin, is_fullest=is_fullest, worth=worth)
    if not near.table.unplaced or all(one.most_soak_min is None for one in jobs):
        return near
    far = [replace(one, most_soak_min=None) for one in jobs]
    return _one_night(night, far, grid, begin, is_fullest=is_fullest, worth=worth)


def _one_night(
    night: int,
    jobs: Sequence[Job],
    grid: Grid,
    begin: Sequence[Placed],
    *,
    is_fullest: bool,
    worth: float = MOVE_WORTH,
) -> NightLayout:
    if begin:
        here = [Placed(0, one.starts, one.zone) for one in begin]
        each = _size(jobs) / len(jobs)
        table = repacked(
            jobs,
            grid,
            here,
            per_move=worth * each,
            rounds=ROUNDS_LATER,
            bound_rounds=BOUND_ROUNDS,
        ).timetable
        if table.unplaced and len(jobs) <= FEW:  # few enough to count out
            table = packed(jobs, grid, rounds=ROUNDS, bound_rounds=BOUND_ROUNDS)
    else:
        table = packed(jobs, grid, rounds=ROUNDS, bound_rounds=BOUND_ROUNDS)
    if not table.unplaced:
        length = shortest_night(jobs, grid, tries=_tries(jobs)) if is_fullest else None
        return NightLayout(night, table, length)
    length = shortest_night(jobs, grid, tries=5 * _tries(jobs))
    if length.short_min == 0:
        # the search for cheap minutes missed it, the one for few minutes did not
        whole = Timetable(length.placed, (), table.cost)
        if not broken_rules(jobs, grid, whole):
            return NightLayout(night, whole, length)
    return NightLayout(night, table, length, overrun(jobs, grid))
