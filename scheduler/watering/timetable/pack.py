"""Jobs and grid in; a checked timetable with its bound out."""

from collections.abc import Sequence

from scheduler.errors import SchedulerError
from scheduler.watering.timetable.bounds import lower_bound
from scheduler.watering.timetable.checker import broken_rules
from scheduler.watering.timetable.compiled import has_numba, search_compiled
from scheduler.watering.timetable.few import best_of_few
from scheduler.watering.timetable.insertion import State, place_cost
from scheduler.watering.timetable.nouns import Grid, Job, Placed, Timetable
from scheduler.watering.timetable.search import search
from scheduler.watering.timetable.task import Task, task_of

# From here on the second that the kernel takes to compile comes back.
MANY_ROUNDS = 3000


def packed(
    jobs: Sequence[Job],
    grid: Grid,
    *,
    rounds: int = 200,
    seed: int = 0,
    bound_rounds: int = 20,
) -> Timetable:
    """Pack a week's waterings into its nights.

    Parameters
    ----------
    jobs : sequence of Job
        Each zone once, in any order.
    grid : Grid
        Minutes of the nights, their costs and limits.
    rounds, seed : int
        How long to search, and its chance; the answer depends on nothing else.
    bound_rounds : int
        Steps that raise the lower bound.

    Returns
    -------
    Timetable
        Checked by the checker, which shares no code with the search.

    Raises
    ------
    SchedulerError
        If the input cannot be, or if the checker finds a broken rule.

    References
    ----------
    Source: definition; `search` and `lower_bound` name their own.

    Examples
    --------
    >>> import numpy as np
    >>> grid = Grid(np.ones((1, 1, 60), dtype=bool), np.ones((1, 1, 60)), 100.0)
    >>> both = [Job(zone, 1, 30, 0, 60.0, must=(0,)) for zone in ("Z1", "Z2")]
    >>> [(one.zone, one.starts) for one in packed(both, grid).placed]
    [('Z1', (0,)), ('Z2', (30,))]
    """
    task = task_of(jobs, grid)
    if rounds >= MANY_ROUNDS and has_numba():
        state = search_compiled(task, rounds=rounds, seed=seed)
    else:
        state = search(task, rounds=rounds, seed=seed)
    state = best_of_few(task, state)
    return checked(jobs, grid, (task, state), bound_rounds)


def checked(
    jobs: Sequence[Job],
    grid: Grid,
    found: tuple[Task, State],
    bound_rounds: int,
) -> Timetable:
    """A search's answer as a timetable, if it keeps every rule.

    Parameters
    ----------
    jobs : sequence of Job
        What was asked.
    grid : Grid
        Where.
    found : tuple of Task and State
        The week and its places.
    bound_rounds : int
        Steps that raise the lower bound.

    Returns
    -------
    Timetable
        With its bound.

    Raises
    ------
    SchedulerError
        If the checker finds a broken rule.

    References
    ----------
    Source: definition.
    """
    task, state = found
    table = as_timetable(task, state)
    broken = broken_rules(jobs, grid, table)
    if broken:
        raise SchedulerError(
            f"the timetable breaks a rule: {broken[0]}",
            "report it with the site folder; water by the last issued week",
            "timetable",
        )
    if table.unplaced:
        return table
    bound, kind = lower_bound(task, best=table.cost, rounds=bound_rounds)
    return Timetable(table.placed, (), table.cost, bound, kind)


def as_timetable(task: Task, state: State) -> Timetable:
    """Places as zones and minutes.

    Parameters
    ----------
    task, state : Task and State
        The week and its places.

    Returns
    -------
    Timetable
        Without a bound.

    References
    ----------
    Source: definition.
    """
    placed, unplaced, steps = [], [], 0
    for e in range(task.n_events):
        zone, night = task.zones[int(task.job[e])], int(state.night[e])
        if night < 0:
            unplaced.append(zone)
            continue
        blocks = tuple(state.start[e, : task.cycles[e]].tolist())
        starts = tuple(start + int(task.lead[e]) for start in blocks)
        placed.append(Placed(night, starts, zone))
        steps += place_cost(task, e, night, blocks)
    return Timetable(
        tuple(sorted(placed)), tuple(unplaced), float(steps * task.step_cost)
    )
