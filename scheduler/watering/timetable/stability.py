"""Last week's places and a new week in; a week that moves little, the trade, out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.watering.timetable.home import Home, best_place, has_room
from scheduler.watering.timetable.insertion import State, empty_state, lift, put
from scheduler.watering.timetable.nouns import Grid, Job, Placed, Timetable
from scheduler.watering.timetable.pack import checked
from scheduler.watering.timetable.search import search
from scheduler.watering.timetable.task import COST_STEPS, Task, task_of

# costs of moving one watering that the curve is drawn for, as shares of the cost of
# an average watering; the last one never moves what can stay
CURVE = (0.0, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 1.0)
# times that every watering is offered a better place, one after the other
SWEEPS = 2


@dataclass(frozen=True, slots=True)
class Kept:
    """A timetable that begins with last week's.

    Attributes
    ----------
    timetable : Timetable
        Checked.
    moved : int
        Waterings that had a place last week and have another now.
    known : int
        Waterings that had a place last week.
    per_move : float
        Cost of a moved watering that this week was searched with. [-]
    """

    timetable: Timetable
    moved: int
    known: int
    per_move: float


def home_of(task: Task, last: Sequence[Placed], *, per_move: float) -> Home:
    """Places of last week for the events of this one.

    Parameters
    ----------
    task : Task
        This week.
    last : sequence of Placed
        Last week's waterings; a zone's on the same night is the same watering.
    per_move : float
        Cost of moving one, in the unit of the grid's costs times litres. [-]

    Returns
    -------
    Home
        For the search. A watering whose number of cycles changed has no home.

    References
    ----------
    Source: definition.
    """
    none = empty_state(task)
    places: Mapping[tuple[str, int], tuple[int, ...]] = {
        (one.zone, one.night): one.starts for one in last
    }
    for e in range(task.n_events):
        nights = np.flatnonzero(task.night[e]).tolist()
        taken = {
            int(n) for n in none.night[(task.job == task.job[e]) & (none.night >= 0)]
        }
        zone = task.zones[int(task.job[e])]
        for night in nights:
            starts = places.get((zone, night))
            same = starts is not None and len(starts) == task.cycles[e]
            if starts is not None and same and night not in taken:
                none.night[e] = night
                none.start[e, : len(starts)] = [s - int(task.lead[e]) for s in starts]
                break
    penalty = min(round(per_move / task.step_cost), COST_STEPS**2 * 1000)
    return Home(none.night, none.start, penalty)


def repacked(
    jobs: Sequence[Job],
    grid: Grid,
    last: Sequence[Placed],
    *,
    per_move: float,
    rounds: int = 200,
    bound_rounds: int = 0,
) -> Kept:
    """Pack a week that begins with last week's places.

    Parameters
    ----------
    jobs, grid : as in `packed`
        The new week.
    last : sequence of Placed
        The week before.
    per_move : float
        Cost of moving one watering, in the unit of the grid's costs times litres. [-]
    rounds, bound_rounds : int
        As in `packed`.

    Returns
    -------
    Kept
        With the number of moved waterings.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> grid = Grid(np.ones((1, 1, 60), dtype=bool), np.ones((1, 1, 60)), 100.0)
    >>> job = Job("Z1", 1, 20, 0, 60.0, must=(0,))
    >>> repacked([job], grid, [Placed(0, (15,), "Z1")], per_move=1.0).moved
    0
    """
    task = task_of(jobs, grid)
    home = home_of(task, last, per_move=per_move)
    state = search(task, rounds=rounds, seed=0, home=home, begun=_from_home(task, home))
    known = int((home.night >= 0).sum())
    table = checked(jobs, grid, (task, state), bound_rounds)
    return Kept(table, _moved(task, state, home), known, per_move)


def _from_home(task: Task, home: Home) -> State:
    """Last week's places as far as they hold, each then left where that pays."""
    state = empty_state(task)
    for e in task.order.tolist():
        starts = tuple(home.start[e, : task.cycles[e]].tolist())
        place = (int(home.night[e]), starts)
        if place[0] >= 0 and has_room(task, state, e, place):
            put(task, state, e, *place)
    for _ in range(SWEEPS):
        for e in task.order.tolist():
            lift(task, state, e)
            found = best_place(task, state, e, home)
            if found is not None:
                put(task, state, e, found[1], found[2])
    return state


def _moved(task: Task, state: State, home: Home) -> int:
    count = 0
    for e in np.flatnonzero(home.night >= 0).tolist():
        many = int(task.cycles[e])
        stays = state.night[e] == home.night[e] and np.array_equal(
            state.start[e, :many], home.start[e, :many]
        )
        count += not stays
    return count
