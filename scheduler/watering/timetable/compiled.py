"""A week in; the search's answer by the kernel, compiled where numba is, out."""

from collections.abc import Callable
from functools import cache
from importlib.util import find_spec
from types import FunctionType

import numpy as np

from scheduler.watering.timetable import kernel
from scheduler.watering.timetable.insertion import State, empty_state, put
from scheduler.watering.timetable.kernel import Places, Week
from scheduler.watering.timetable.search import HEAT, chances, price_of_change
from scheduler.watering.timetable.task import NO_ROOM, Task


@cache
def has_numba() -> bool:
    """Whether the extra `fast` is installed.

    Returns
    -------
    bool
        True where the kernel can be compiled.

    References
    ----------
    Source: definition.
    """
    return find_spec("numba") is not None


# callees first: each is compiled against those before it
_PARTS = ("put", "lift", "night_pass", "insert", "ruined", "turns", "rounds_of")


@cache
def _compiled() -> Callable[..., None]:
    """The kernel's loop, compiled together with what it calls, and kept on disk."""
    from numba import njit

    names = dict(vars(kernel))
    for name in _PARTS:
        plain = FunctionType(getattr(kernel, name).__code__, names, name)
        names[name] = njit(cache=True)(plain)
    loop: Callable[..., None] = names["rounds_of"]
    return loop


def search_compiled(
    task: Task, *, rounds: int, seed: int, is_compiled: bool = True
) -> State:
    """The same answer as `search`, without a home to keep.

    Parameters
    ----------
    task : Task
        The week.
    rounds, seed : int
        How long to search, and its chance.
    is_compiled : bool
        False runs the kernel as plain Python, to compare the two.

    Returns
    -------
    State
        The best week met.

    References
    ----------
    Source: as `search`.
    """
    loop = _compiled() if is_compiled else kernel.rounds_of
    state = empty_state(task)
    if not task.n_events:
        return state
    rows = [np.ascontiguousarray(getattr(task, name)) for name in Week._fields[:-1]]
    limits = np.array([task.pump_ml, *task.clock_valves], dtype=np.int64)
    week = Week._make([*rows, limits])
    n_minutes, most = task.is_open.shape[2], state.start.shape[1]
    at = Places(
        state.flow_ml,
        state.valves,
        state.night,
        state.start,
        np.full(task.n_events, NO_ROOM, dtype=np.int64),
        np.zeros(n_minutes + 1, dtype=np.int64),
        np.zeros((most, n_minutes + 1), dtype=np.int64),
        np.zeros(n_minutes + 1, dtype=np.int64),
        np.zeros(most, dtype=np.int64),
    )
    loop(week, at, chances(rounds, seed), HEAT * price_of_change(task))
    done = empty_state(task)
    for e in np.flatnonzero(state.night >= 0).tolist():
        starts = tuple(state.start[e, : task.cycles[e]].tolist())
        put(task, done, e, int(state.night[e]), starts)
    return done
