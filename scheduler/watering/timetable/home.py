"""Last week's places and one watering in; where it costs least, moves counted, out."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from scheduler.arrays import IntArray
from scheduler.watering.timetable.insertion import (
    State,
    cheapest_place,
    empty_state,
    open_nights_of,
    place_cost,
    room_of,
)
from scheduler.watering.timetable.task import Task


@dataclass(frozen=True, slots=True, eq=False)
class Home:
    """Where events were last week, and what moving one costs.

    Attributes
    ----------
    night : array of shape (n_events,)
        -1 for an event that had no place.
    start : array of shape (n_events, most_cycles)
        First minute of each block.
    penalty : int
        Cost of an event that is elsewhere, in steps of the task.
    """

    night: IntArray
    start: IntArray
    penalty: int


def no_home(task: Task) -> Home:
    """Nothing to keep.

    Parameters
    ----------
    task : Task
        For the sizes.

    Returns
    -------
    Home
        No event had a place.

    References
    ----------
    Source: definition.
    """
    none = empty_state(task)
    return Home(none.night, none.start, 0)


def best_place(
    task: Task, state: State, e: int, home: Home
) -> tuple[int, int, tuple[int, ...]] | None:
    """Cheapest place of an event, its home if moving does not pay.

    Parameters
    ----------
    task, state : Task and State
        The week so far.
    e : int
        The event, not placed.
    home : Home
        Where events were.

    Returns
    -------
    tuple of int, int and tuple of int, or None
        Cost with the penalty, in steps; night; first minute of each block.

    References
    ----------
    Source: definition.
    """
    found = cheapest_place(task, state, e)
    if found is None or home.night[e] < 0:
        return found
    night = int(home.night[e])
    starts = tuple(int(s) for s in home.start[e, : task.cycles[e]])
    if (night, starts) == found[1:]:
        return found
    if has_room(task, state, e, (night, starts)):
        kept = place_cost(task, e, night, starts)
        if kept <= found[0] + home.penalty:
            return kept, night, starts
    return found[0] + home.penalty, found[1], found[2]


def has_room(
    task: Task, state: State, e: int, place: tuple[int, tuple[int, ...]]
) -> bool:
    """Whether an event may have a place.

    Parameters
    ----------
    task, state : Task and State
        The week so far.
    e : int
        The event, not placed.
    place : tuple of int and tuple of int
        Night, and first minute of each block.

    Returns
    -------
    bool
        True where nothing is in its way.

    References
    ----------
    Source: definition.
    """
    night, starts = place
    if night not in open_nights_of(task, state, e):
        return False
    room = room_of(task, state, e, np.array([night]))[0]
    block, step = int(task.block[e]), int(task.step[e])
    fits = all(
        s >= 0 and s + block <= room.size and room[s : s + block].all() for s in starts
    )
    return fits and all(
        step <= b - a <= step + int(task.reach[e]) for a, b in pairwise(starts)
    )
