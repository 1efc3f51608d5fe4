"""A board and one watering in; what its minutes cost, and what others would, out."""

from dataclasses import dataclass

import numpy as np

from scheduler.watering.night_plan.board import NightBoard
from scheduler.watering.timetable.insertion import (
    State,
    cheapest_place,
    empty_state,
    place_cost,
    put,
)
from scheduler.watering.timetable.task import WEIGHT_PER_L, Task, task_of


@dataclass(frozen=True, slots=True)
class WhyThere:
    """Why a watering stands where it does.

    Attributes
    ----------
    extra : float
        Water that its minutes ask for beyond that at the mean wind of the night. [-]
    free_extra : float
        The same at the cheapest place that is free now. [-]
    free_starts : tuple of int
        Minutes of the night at which the cycles of that place begin. [min]
    alone_extra : float
        The same if nothing else ran that night. [-]
    wind_m_per_s : float or None
        Mean usual wind of its minutes; None where it is not known. [m/s]
    """

    extra: float
    free_extra: float
    free_starts: tuple[int, ...]
    alone_extra: float
    wind_m_per_s: float | None


def why_there(board: NightBoard, zone: str, night: int) -> WhyThere | None:
    """Reckon what a place costs beside others.

    Parameters
    ----------
    board : NightBoard
        The nights.
    zone : str
        Id of the zone.
    night : int
        Night on which it is watered.

    Returns
    -------
    WhyThere or None
        None where it has no place that night.

    References
    ----------
    Source: definition; costs as in `minute_cost`, places as in `cheapest_place`.
    """
    jobs, grid = board.week.jobs[night], board.week.grids[night]
    placed = {one.zone: one.starts for one in board.placed[night]}
    if zone not in placed:
        return None
    task = task_of(jobs, grid)
    mine = next(e for e in range(task.n_events) if task.zones[int(task.job[e])] == zone)
    empty, full = empty_state(task), empty_state(task)
    for e in range(task.n_events):
        starts = placed.get(task.zones[int(task.job[e])])
        if starts is not None and e != mine:
            put(task, full, e, 0, _blocks(task, e, starts))
    own = place_cost(task, mine, 0, _blocks(task, mine, placed[zone]))
    free = _cheapest(task, full, mine)
    alone = _cheapest(task, empty, mine)
    lead = int(task.lead[mine])
    per = task.step_cost * WEIGHT_PER_L / float(task.volume[mine])
    return WhyThere(
        own * per - 1.0,
        (free[0] if free else own) * per - 1.0,
        tuple(one + lead for one in free[1]) if free else placed[zone],
        (alone[0] if alone else own) * per - 1.0,
        _wind(board, placed[zone], int(task.block[mine]) - lead),
    )


def _blocks(task: Task, e: int, starts: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(one - int(task.lead[e]) for one in starts)


def _cheapest(task: Task, state: State, e: int) -> tuple[int, tuple[int, ...]] | None:
    found = cheapest_place(task, state, e)
    return (found[0], found[2]) if found else None


def _wind(board: NightBoard, starts: tuple[int, ...], minutes: int) -> float | None:
    speed = board.wind.by_minute_m_per_s
    if speed is None:
        return None
    return float(np.mean([speed[one : one + minutes].mean() for one in starts]))
