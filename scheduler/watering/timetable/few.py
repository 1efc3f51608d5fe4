"""A handful of waterings in; their cheapest places of all, counted out, out.

The search puts one watering after the other and may miss the only way to fit two or
three that are very unlike. Here all places of all but the last are tried, those that
cannot win left out; the last one has its cheapest place by dynamic programming.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from scheduler.arrays import IntArray
from scheduler.watering.timetable.insertion import (
    State,
    cheapest_place,
    empty_state,
    lift,
    open_nights_of,
    place_cost,
    put,
    room_of,
)
from scheduler.watering.timetable.task import NO_ROOM, Task

FEW = 4
# places that are looked at before the search's answer stands: a fifth of a second for a
# night that is only dear, more for one in which something has no place
MOST_PLACES, MOST_PLACES_LOST = 400, 4000
# dearer than any watering that has a place; a few of them still fit into 64 bits
_LOST = 1 << 58

Place = tuple[int, tuple[int, ...]]


@dataclass(slots=True)
class _Count:
    """What was found so far, and how many places may still be looked at."""

    best: int
    left: int
    places: dict[int, Place] | None = None
    now: dict[int, Place] = field(default_factory=dict)


def best_of_few(task: Task, state: State, *, most_places: int | None = None) -> State:
    """The cheapest week of a handful of waterings, no dearer than a known one.

    Parameters
    ----------
    task : Task
        The week; with more than `FEW` events the known one is returned.
    state : State
        The answer of the search.
    most_places : int, optional
        Places that are looked at before giving up; what was found by then stands.

    Returns
    -------
    State
        First the most waterings placed, then the lowest cost; `state` where nothing is
        better.

    References
    ----------
    .. [1] Land and Doig, 1960, Econometrica 28(3):497-520 (branch and bound), from
       memory.
    """
    if not 1 < task.n_events <= FEW or _are_free(task, state):
        return state
    known = _cost(task, state)
    if most_places is None:
        is_lost = bool((state.night < 0).any())
        most_places = MOST_PLACES_LOST if is_lost else MOST_PLACES
    count = _Count(known, most_places)
    made = empty_state(task)
    order = np.argsort(task.cycles, kind="stable").tolist()  # most places last
    _branch(task, made, order, 0, count)
    if count.places is None:
        return state
    done = empty_state(task)
    for e, (night, starts) in count.places.items():
        put(task, done, e, night, starts)
    return done


def _are_free(task: Task, state: State) -> bool:
    """Every watering has the cheapest place that it could have alone."""
    alone = empty_state(task)
    for e in range(task.n_events):
        night = int(state.night[e])
        if night < 0:
            return False
        starts = tuple(state.start[e, : task.cycles[e]].tolist())
        found = cheapest_place(task, alone, e)
        if found is None or found[0] < place_cost(task, e, night, starts):
            return False
    return True


def _cost(task: Task, state: State) -> int:
    total = 0
    for e in range(task.n_events):
        night = int(state.night[e])
        starts = tuple(state.start[e, : task.cycles[e]].tolist())
        total += _LOST if night < 0 else place_cost(task, e, night, starts)
    return total


def _branch(
    task: Task, made: State, order: list[int], spent: int, count: _Count
) -> None:
    """Try every place of the next watering that may lead to something better."""
    e, rest = order[0], order[1:]
    if not rest:
        _last(task, made, e, spent, count)
        return
    least = spent
    for other in rest:  # more beside it can only take room
        found = cheapest_place(task, made, other)
        least += _LOST if found is None else found[0]
    for cost, place in _places(task, made, e, count.best - least):
        if count.left <= 0:
            return
        count.left -= 1
        if least + cost >= count.best:
            continue
        count.now[e] = place
        put(task, made, e, *place)
        _branch(task, made, rest, spent + cost, count)
        lift(task, made, e)
        del count.now[e]
    if least + _LOST < count.best:
        _branch(task, made, rest, spent + _LOST, count)


def _last(task: Task, made: State, e: int, spent: int, count: _Count) -> None:
    found = cheapest_place(task, made, e)
    cost = spent + (_LOST if found is None else found[0])
    if cost < count.best:
        count.best = cost
        own = {} if found is None else {e: (found[1], found[2])}
        count.places = {**count.now, **own}


def _places(task: Task, made: State, e: int, limit: int) -> Iterator[tuple[int, Place]]:
    """Places of a watering that cost less than a limit, by their first cycle."""
    nights = open_nights_of(task, made, e)
    block, n_minutes = int(task.block[e]), task.is_open.shape[2]
    if not nights.size or block > n_minutes:
        return
    bad = np.zeros((nights.size, n_minutes + 1), dtype=np.int64)
    np.cumsum(~room_of(task, made, e, nights), axis=1, out=bad[:, 1:])
    sums = task.cost_sum[int(task.kind[e])][nights]
    last, lead = n_minutes + 1 - block, int(task.lead[e])
    price = (sums[:, block:] - sums[:, lead : lead + last]) * task.weight[e]
    price[bad[:, block:] != bad[:, :last]] = NO_ROOM
    for row, night in enumerate(nights.tolist()):
        to_go = _to_go(task, e, price[row])
        for cost, starts in _starts(task, e, (price[row], to_go), limit):
            yield cost, (night, starts)


def _to_go(task: Task, e: int, price: IntArray) -> list[IntArray]:
    """Least cost of a cycle at each minute with all those after it, cycle by cycle."""
    step, reach = int(task.step[e]), int(task.reach[e])
    found = [price]
    for _ in range(int(task.cycles[e]) - 1):
        after = found[0]
        now = np.full_like(price, NO_ROOM)
        for at in np.flatnonzero(price < NO_ROOM).tolist():
            following = after[at + step : at + step + reach + 1]
            if following.size and following.min() < NO_ROOM:
                now[at] = price[at] + following.min()
        found.insert(0, now)
    return found


def _starts(
    task: Task,
    e: int,
    costs: tuple[IntArray, list[IntArray]],
    limit: int,
    before: tuple[int, ...] = (),
) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Starts of all cycles whose cost stays below a limit, the cheapest first."""
    price, to_go = costs
    cycle = len(before)
    if cycle == task.cycles[e]:
        yield 0, before
        return
    first, end = 0, price.size
    if before:
        first = before[-1] + int(task.step[e])
        end = min(first + int(task.reach[e]) + 1, end)
    window = to_go[cycle][first:end]
    for at in np.argsort(window, kind="stable").tolist():
        if window[at] >= min(limit, NO_ROOM):
            return
        own = int(price[first + at])
        starts = (*before, first + at)
        for cost, whole in _starts(task, e, costs, limit - own, starts):
            yield own + cost, whole
