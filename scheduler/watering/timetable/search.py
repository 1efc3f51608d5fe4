"""Events of a week in; places found by insertion, ruin and recreation, out.

The largest go first, each to its cheapest place; then a few at a time are taken out
and put back. All chance comes from a table drawn beforehand from a seed, so that the
same input gives the same week, with or without the compiled kernel.
"""

import numpy as np

from scheduler.arrays import FloatArray, IntArray
from scheduler.watering.timetable.home import Home, best_place, no_home
from scheduler.watering.timetable.insertion import (
    State,
    empty_state,
    lift,
    place_cost,
    put,
)
from scheduler.watering.timetable.task import NO_ROOM, Task

LEAST_OUT, MOST_OUT = 2, 6
# columns of the table of chance: how many, which way, the first, acceptance, then one
# for each event that is taken out and one for its turn
N_DRAWS = 4 + 2 * MOST_OUT
# share of the cost that the minutes can change, at which a worse week is still taken
# (tuned by tests.bench pack)
HEAT = 0.1


def chances(rounds: int, seed: int) -> FloatArray:
    """Table of chance of a search.

    Parameters
    ----------
    rounds : int
        Rounds of ruin and recreation.
    seed : int
        Same seed, same table.

    Returns
    -------
    array of shape (rounds, N_DRAWS)
        Uniform in 0 to 1; the fourth column holds logarithms.

    References
    ----------
    Source: definition.
    """
    table = np.random.default_rng(seed).random((rounds, N_DRAWS))
    table[:, 3] = np.log(np.maximum(table[:, 3], 1e-300))
    return table


def price_of_change(task: Task) -> float:
    """What the choice of minutes can change about one event, on average.

    Parameters
    ----------
    task : Task
        The week.

    Returns
    -------
    float
        Mean volume of an event times mean less least cost of an open minute, in steps.

    References
    ----------
    Source: definition.
    """
    cost = np.diff(task.cost_sum, axis=2)[task.is_open]
    if not cost.size or not task.n_events:
        return 0.0
    return float(task.volume.mean() * (cost.mean() - cost.min()))


def search(
    task: Task,
    *,
    rounds: int,
    seed: int,
    home: Home | None = None,
    begun: State | None = None,
) -> State:
    """Places for all events, as cheap as the rounds allow.

    Parameters
    ----------
    task : Task
        The week.
    rounds, seed : int
        How long to search, and its chance.
    home : Home, optional
        Places worth keeping.
    begun : State, optional
        A week to begin with; else the largest are put first.

    Returns
    -------
    State
        The best week met: fewest without a place, then cheapest.

    References
    ----------
    .. [1] Schrimpf et al., 2000, J. Comput. Phys. 159:139-171 (ruin and recreate),
       from memory.
    """
    home = home or no_home(task)
    state = begun or empty_state(task)
    paid = np.full(task.n_events, NO_ROOM, dtype=np.int64)
    for e in task.order.tolist():
        if state.night[e] < 0:
            paid[e] = _place(task, state, e, home)
        else:
            paid[e] = _paid(task, state, e, home)
    if task.n_events:
        _improve(task, state, home, paid, chances(rounds, seed))
    return state


def _paid(task: Task, state: State, e: int, home: Home) -> int:
    night, starts = (
        int(state.night[e]),
        tuple(state.start[e, : task.cycles[e]].tolist()),
    )
    at_home = night == home.night[e] and starts == tuple(
        home.start[e, : task.cycles[e]].tolist()
    )
    moved = home.night[e] >= 0 and not at_home
    return place_cost(task, e, night, starts) + (home.penalty if moved else 0)


def _place(task: Task, state: State, e: int, home: Home) -> int:
    """Put an event where it costs least; what it pays, NO_ROOM without a place."""
    found = best_place(task, state, e, home)
    if found is None:
        return NO_ROOM
    put(task, state, e, found[1], found[2])
    return found[0]


def _improve(
    task: Task, state: State, home: Home, paid: IntArray, table: FloatArray
) -> None:
    """Ruin and recreate; leaves the best week met in the state."""
    scale = HEAT * price_of_change(task)
    total, lost = _sum(paid)
    best, kept = (lost, total), (state.night.copy(), state.start.copy())
    for i, u in enumerate(table):
        out = ruined(task, state, u)
        was = [
            (e, int(state.night[e]), state.start[e].copy(), int(paid[e])) for e in out
        ]
        for e in out:
            lift(task, state, e)
        for e in _turns(task, out, u):
            paid[e] = _place(task, state, e, home)
        now_total, now_lost = _changed((total, lost), was, paid)
        heat = scale * (1.0 - i / len(table))
        worse = float(now_total - total)
        if now_lost < lost or (now_lost == lost and -worse >= heat * u[3]):
            total, lost = now_total, now_lost
            if (lost, total) < best:
                best, kept = (lost, total), (state.night.copy(), state.start.copy())
        else:
            _undo(task, state, was, paid)
    for e in range(task.n_events):
        lift(task, state, e)
    for e in np.flatnonzero(kept[0] >= 0).tolist():
        starts = tuple(kept[1][e, : task.cycles[e]].tolist())
        put(task, state, e, int(kept[0][e]), starts)


def _sum(paid: IntArray) -> tuple[int, int]:
    placed = paid < NO_ROOM
    return int(paid[placed].sum()), int((~placed).sum())


def _changed(
    before: tuple[int, int],
    was: list[tuple[int, int, IntArray, int]],
    paid: IntArray,
) -> tuple[int, int]:
    total, lost = before
    for e, _, _, old in was:
        new = int(paid[e])
        total += (new if new < NO_ROOM else 0) - (old if old < NO_ROOM else 0)
        lost += int(new >= NO_ROOM) - int(old >= NO_ROOM)
    return total, lost


def ruined(task: Task, state: State, u: FloatArray) -> list[int]:
    """Events that one round takes out.

    Parameters
    ----------
    task, state : Task and State
        The week.
    u : array of shape (N_DRAWS,)
        Chance of this round.

    Returns
    -------
    list of int
        In every other round any events, else those that run next to one of them on
        its night; one without a place is always among them.

    References
    ----------
    Source: definition.
    """
    n = task.n_events
    many = min(LEAST_OUT + int(u[0] * (MOST_OUT - LEAST_OUT + 1)), n)
    first = int(u[2] * n)
    waiting = np.flatnonzero(state.night < 0)
    if waiting.size:
        first = int(waiting[int(u[2] * waiting.size)])
    if u[1] < 0.5:
        out = [first]
        for draw in u[4 : 3 + many]:
            e = int(draw * n)
            if e not in out:
                out.append(e)
        return out
    night = int(state.night[first])
    centre = int(state.start[first, 0])
    if night < 0:
        night = int(np.flatnonzero(task.night[first])[0])
        centre = int(u[4] * task.is_open.shape[2])
    away = np.abs(state.start[:, 0] - centre)
    away[state.night != night] = NO_ROOM
    away[first] = -1
    near = np.argsort(away, kind="stable")[:many]
    return [int(e) for e in near if away[e] < NO_ROOM]


def _turns(task: Task, out: list[int], u: FloatArray) -> list[int]:
    """Order of putting back: the larger earlier, with some chance."""
    keys = [
        -float(task.volume[e]) * (0.5 + u[4 + MOST_OUT + k]) for k, e in enumerate(out)
    ]
    return [out[k] for k in np.argsort(np.array(keys), kind="stable").tolist()]


def _undo(
    task: Task,
    state: State,
    was: list[tuple[int, int, IntArray, int]],
    paid: IntArray,
) -> None:
    for e, _, _, _ in was:
        lift(task, state, e)
    for e, night, start, old in was:
        paid[e] = old
        state.start[e] = start
        if night >= 0:
            put(task, state, e, night, tuple(start[: task.cycles[e]].tolist()))
