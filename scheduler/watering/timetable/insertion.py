"""A half-filled week and one watering in; its cheapest place out."""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, IntArray
from scheduler.watering.timetable.task import NO_ROOM, Task


@dataclass(frozen=True, slots=True, eq=False)
class State:
    """What runs in each minute; the search writes into it.

    Attributes
    ----------
    flow_ml : array of shape (n_nights, n_minutes)
        Flow of each minute. [ml per minute]
    valves : array of shape (n_clocks * n_nights, n_minutes)
        Open valves of each minute, the nights of one clock after those of another.
    night : array of shape (n_events,)
        Night of each event, -1 where it has no place.
    start : array of shape (n_events, most_cycles)
        First minute of each block; the change-over is its beginning.
    """

    flow_ml: IntArray
    valves: IntArray
    night: IntArray
    start: IntArray


def empty_state(task: Task) -> State:
    """Nothing placed yet.

    Parameters
    ----------
    task : Task
        For the sizes.

    Returns
    -------
    State
        Of zeros.

    References
    ----------
    Source: definition.
    """
    shape = task.is_open.shape[1:]
    return State(
        np.zeros(shape, dtype=np.int64),
        np.zeros((task.clock_valves.size * shape[0], shape[1]), dtype=np.int64),
        np.full(task.n_events, -1, dtype=np.int64),
        np.zeros((task.n_events, int(task.cycles.max(initial=1))), dtype=np.int64),
    )


def open_nights_of(task: Task, state: State, e: int) -> IntArray:
    """Nights on which an event may run, beside the other waterings of its zone.

    Parameters
    ----------
    task, state : Task and State
        The week so far.
    e : int
        The event, not placed.

    Returns
    -------
    array of shape (n_open,)
        Nights, ascending.

    References
    ----------
    Source: definition.
    """
    allowed = task.night[e].copy()
    others = state.night[(task.job == task.job[e]) & (state.night >= 0)]
    rest = int(task.rest[e])
    for other in others:
        allowed[max(int(other) - rest, 0) : int(other) + rest + 1] = False
    return np.flatnonzero(allowed)


def room_of(task: Task, state: State, e: int, nights: IntArray) -> BoolArray:
    """Minutes in which an event finds pump, valve and leave.

    Parameters
    ----------
    task, state : Task and State
        The week so far.
    e : int
        The event, not placed.
    nights : array of shape (n_open,)
        Nights asked for.

    Returns
    -------
    array of shape (n_open, n_minutes)
        True where it could run.

    References
    ----------
    Source: definition.
    """
    room: BoolArray = task.is_open[int(task.kind[e])][nights]
    room = room & (state.flow_ml[nights] <= task.pump_ml - task.flow_ml[e])
    clock = int(task.clock[e])
    rows = clock * task.is_open.shape[1] + nights
    room &= state.valves[rows] < task.clock_valves[clock]
    rivals = task.rival[task.job[e]]
    others = (
        np.flatnonzero(rivals[task.job] & (state.night >= 0)) if rivals.any() else ()
    )
    for other in others:
        row = np.flatnonzero(nights == state.night[other])
        for start in state.start[other, : task.cycles[other]]:
            room[row, start : start + task.block[other]] = False
    return room


def cheapest_place(
    task: Task, state: State, e: int
) -> tuple[int, int, tuple[int, ...]] | None:
    """Cheapest night and minutes of one event, given all that is placed.

    Parameters
    ----------
    task, state : Task and State
        The week so far.
    e : int
        The event, not placed.

    Returns
    -------
    cost : int
        In steps of the task.
    night : int
        Its night.
    starts : tuple of int
        First minute of each block. None instead of all three where there is no room.

    Notes
    -----
    With C(t) the cost of a cycle at t (infinite without room) the cheapest k cycles
    that end with one at t cost F_k(t) = C(t) + min F_(k-1)(t - step - reach ..
    t - step); exact for one event. Of equals the first night and the earliest last
    cycle win.

    References
    ----------
    .. [1] Bellman, 1957, Dynamic Programming, chapter 1 (principle of optimality).
    """
    nights = open_nights_of(task, state, e)
    block, lead = int(task.block[e]), int(task.lead[e])
    n_minutes = task.is_open.shape[2]
    if not nights.size or block > n_minutes:
        return None
    bad = np.zeros((nights.size, n_minutes + 1), dtype=np.int64)
    np.cumsum(~room_of(task, state, e, nights), axis=1, out=bad[:, 1:])
    sums = task.cost_sum[int(task.kind[e])][nights]
    last = n_minutes + 1 - block
    price = (sums[:, block:] - sums[:, lead : lead + last]) * task.weight[e]
    price[bad[:, block:] != bad[:, :last]] = NO_ROOM
    best = [price]
    step, reach = int(task.step[e]), int(task.reach[e])
    for _ in range(int(task.cycles[e]) - 1):
        if step >= last:
            return None
        following = np.full_like(price, NO_ROOM)
        before = _least_within(best[-1], reach)
        np.add(price[:, step:], before[:, :-step], out=following[:, step:])
        np.minimum(following, NO_ROOM, out=following)
        best.append(following)
    cheapest = best[-1].min(axis=1)
    row = int(cheapest.argmin())
    if cheapest[row] >= NO_ROOM:
        return None
    return int(cheapest[row]), int(nights[row]), _backtracked(best, row, (step, reach))


def _least_within(values: IntArray, reach: int) -> IntArray:
    """Least of each value and the `reach` before it, along the minutes.

    Windows of doubled width are put together from two of half the width.
    """
    if reach >= values.shape[1] - 1:
        return np.minimum.accumulate(values, axis=1)
    least, wide = values.copy(), 1
    while wide <= reach:
        more = min(wide, reach + 1 - wide)
        np.minimum(least[:, more:], least[:, :-more].copy(), out=least[:, more:])
        wide += more
    return least


def _backtracked(
    best: list[IntArray], row: int, apart: tuple[int, int]
) -> tuple[int, ...]:
    starts, (step, reach) = [int(best[-1][row].argmin())], apart
    for earlier in best[-2::-1]:
        last = starts[-1] - step
        first = max(last - reach, 0)
        starts.append(first + int(earlier[row, first : last + 1].argmin()))
    return tuple(reversed(starts))


def put(task: Task, state: State, e: int, night: int, starts: tuple[int, ...]) -> None:
    """Place an event.

    Parameters
    ----------
    task, state : Task and State
        The week so far; the state is written to.
    e, night : int
        The event and its night.
    starts : tuple of int
        First minute of each block.

    References
    ----------
    Source: definition.
    """
    state.night[e] = night
    state.start[e, : len(starts)] = starts
    row = int(task.clock[e]) * task.is_open.shape[1] + night
    for start in starts:
        end = start + task.block[e]
        state.flow_ml[night, start:end] += task.flow_ml[e]
        state.valves[row, start:end] += 1


def lift(task: Task, state: State, e: int) -> None:
    """Take an event out again, if it has a place.

    Parameters
    ----------
    task, state : Task and State
        The week so far; the state is written to.
    e : int
        The event.

    References
    ----------
    Source: definition.
    """
    night = int(state.night[e])
    if night < 0:
        return
    state.night[e] = -1
    row = int(task.clock[e]) * task.is_open.shape[1] + night
    for start in state.start[e, : task.cycles[e]]:
        end = start + task.block[e]
        state.flow_ml[night, start:end] -= task.flow_ml[e]
        state.valves[row, start:end] -= 1


def place_cost(task: Task, e: int, night: int, starts: tuple[int, ...]) -> int:
    """Cost of an event at a place.

    Parameters
    ----------
    task : Task
        For the costs.
    e, night : int
        The event and its night.
    starts : tuple of int
        First minute of each block.

    Returns
    -------
    int
        In steps of the task.

    References
    ----------
    Source: definition.
    """
    sums = task.cost_sum[int(task.kind[e]), night]
    lead, block = int(task.lead[e]), int(task.block[e])
    total = sum(int(sums[s + block] - sums[s + lead]) for s in starts)
    return total * int(task.weight[e])
