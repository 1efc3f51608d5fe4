"""A week's events in; the least that any timetable of them can cost, out."""

from dataclasses import dataclass
from itertools import combinations, pairwise

import numpy as np

from scheduler.arrays import FloatArray, IntArray
from scheduler.watering.timetable.task import ML_PER_L, NO_LIMIT, WEIGHT_PER_L, Task

# a bound this close to the best week needs no better one
CLOSE = 1e-5
# of the steps of the prices: the first, how much of the last way is kept, and how long
# to wait for a better bound before the steps get shorter (tuned by tests.bench pack)
FIRST_PACE, MEMORY, PATIENCE = 0.2, 0.3, 4


def fill_bound(task: Task) -> float:
    """Cost of the water if it could be poured into the cheapest minutes.

    Parameters
    ----------
    task : Task
        The week.

    Returns
    -------
    float
        In the unit of the grid's costs times litres.

    Notes
    -----
    Each minute takes what the pump gives, at the lowest price that any zone has there;
    cycles, soaks, change-overs and rivals are left out, so no timetable is cheaper.
    Where every event has its one night, nights are poured one by one.

    References
    ----------
    .. [1] Martello and Toth, 1990, Knapsack Problems, section 2.2: the continuous
       relaxation is filled in order of price; from memory.
    """
    return _filled(task)[0] * task.step_cost


def _filled(task: Task) -> tuple[float, FloatArray]:
    """Cost of pouring, in steps, and what room of each minute is then worth."""
    cost = np.diff(task.cost_sum, axis=2).astype(np.float64)
    cost[~task.is_open] = np.inf
    cheapest = cost.min(axis=0)
    room = _room_per_minute(task)
    water = np.asarray(task.volume, dtype=np.float64)
    if task.n_events and (task.night.sum(axis=1) == 1).all():
        night = task.night.argmax(axis=1)
        volume = np.bincount(night, water, task.night.shape[1])
        poured = [_poured(cheapest[n], v, room) for n, v in enumerate(volume)]
        level = np.array([one[1] for one in poured])[:, None]
        total = sum(one[0] for one in poured)
    else:
        total, top = _poured(cheapest.ravel(), float(water.sum()), room)
        level = np.full((1, 1), top)
    worth = np.maximum(level - cheapest, 0.0)
    return total, np.where(np.isfinite(cheapest), worth, 0.0)


def _room_per_minute(task: Task) -> float:
    """Weight that one minute can take, pump and valves; infinite where unlimited."""
    if task.max_valves >= task.n_events:
        by_valves = np.inf
    else:
        by_valves = float(np.sort(task.weight)[::-1][: task.max_valves].sum())
    if task.pump_ml >= NO_LIMIT or not task.flow_ml.all():
        return by_valves
    # weight and flow are rounded apart: the largest ratio keeps the bound a bound
    ratio = float((task.weight / task.flow_ml).max())
    return min(by_valves, task.pump_ml * ratio)


def _poured(cost: FloatArray, volume: float, room: float) -> tuple[float, float]:
    """Cost of a volume in the cheapest minutes, and the price of the last of them."""
    price = np.sort(cost[np.isfinite(cost)])
    if volume <= 0 or not price.size:
        return 0.0, 0.0
    if not np.isfinite(room):
        return float(volume * price[0]), float(price[0])
    full = min(int(volume // room), price.size)
    last = float(price[min(full, price.size - 1)])
    return float(price[:full].sum() * room + (volume - full * room) * last), last


@dataclass(frozen=True, slots=True, eq=False)
class _Alone:
    """Cheapest places of an event when nothing else is there, night by night."""

    nights: IntArray
    best: list[FloatArray]
    step: int

    @property
    def cost(self) -> FloatArray:
        return np.asarray(self.best[-1].min(axis=1))

    def starts(self, row: int) -> list[int]:
        found = [int(self.best[-1][row].argmin())]
        for earlier in self.best[-2::-1]:
            found.append(int(earlier[row, : found[-1] - self.step + 1].argmin()))
        return found


def _alone(task: Task, price: tuple[FloatArray, FloatArray], e: int) -> _Alone:
    """Places of an event at prices of room."""
    nights = np.flatnonzero(task.night[e])
    kind, block, lead = int(task.kind[e]), int(task.block[e]), int(task.lead[e])
    n_minutes = task.is_open.shape[2]
    last = n_minutes + 1 - block
    sums, step = task.cost_sum[kind][nights], int(task.step[e])
    cost = (sums[:, block:] - sums[:, lead : lead + last]) * float(task.weight[e])
    for running, size in zip(price, (float(task.flow_ml[e]), 1.0), strict=True):
        if size and running.any():
            cost += (running[nights, block:] - running[nights, :last]) * size
    bad = np.zeros((nights.size, n_minutes + 1), dtype=np.int64)
    np.cumsum(~task.is_open[kind][nights], axis=1, out=bad[:, 1:])
    cost[bad[:, block:] != bad[:, :last]] = np.inf
    best = [cost]
    for _ in range(int(task.cycles[e]) - 1):
        following = np.full_like(cost, np.inf)
        before = np.minimum.accumulate(best[-1], axis=1)
        following[:, step:] = cost[:, step:] + before[:, :-step]
        best.append(following)
    return _Alone(nights, best, step)


def _night_rows(alone: _Alone, many: int, rest: int) -> tuple[int, ...]:
    """Cheapest rows for several waterings of one zone, with its rest between."""
    cost = alone.cost
    if many == 1:
        return (int(cost.argmin()),)
    sets = [
        rows
        for rows in combinations(range(cost.size), many)
        if all(alone.nights[b] - alone.nights[a] > rest for a, b in pairwise(rows))
    ]
    if not sets:  # asked for more than its nights hold: each by itself is a bound
        return (int(cost.argmin()),) * many
    return min(sets, key=lambda rows: float(cost[list(rows)].sum()))


def lagrangian_bound(task: Task, *, best: float, rounds: int) -> float:
    """Cost of the week when room on pump and valves is bought instead of kept.

    Parameters
    ----------
    task : Task
        The week.
    best : float
        Cost of a timetable that is known.
    rounds : int
        Steps of the prices of room.

    Returns
    -------
    float
        In the unit of the grid's costs times litres; a bound at any prices.

    Notes
    -----
    L(p) = sum of each zone's cheapest places at cost + p, its waterings on nights that
    keep its rest, less what the room of every minute is worth at p; prices move along
    use - room by Polyak's step.

    References
    ----------
    .. [1] Fisher, 1981, Management Science 27(1):1-18, from memory.
    """
    shape = task.is_open.shape[1:]
    prices = [np.zeros(shape), np.zeros(shape)]
    if task.pump_ml < NO_LIMIT:  # begin where the poured water stands
        prices[0] = _filled(task)[1] * WEIGHT_PER_L / ML_PER_L
    caps = (float(task.pump_ml), float(task.max_valves))
    limits = [cap < NO_LIMIT for cap in caps]
    steps = _Steps(best / task.step_cost)
    way = [np.zeros(shape), np.zeros(shape)]
    for _ in range(rounds):
        value, use = _bought(task, prices)
        for price, cap, is_on in zip(prices, caps, limits, strict=True):
            value -= float(price.sum()) * cap if is_on else 0.0
        for i in range(2):
            if limits[i]:
                over = (use[i] - caps[i]) / caps[i]
                way[i] = MEMORY * way[i] + (1.0 - MEMORY) * over
                way[i][(prices[i] <= 0) & (way[i] < 0)] = 0.0
        step = steps.after(value, sum(float((one * one).sum()) for one in way))
        if step == 0:
            break
        prices = [
            np.maximum(price + step * one / max(cap, 1.0), 0.0)
            for price, one, cap in zip(prices, way, caps, strict=True)
        ]
    return steps.top * task.step_cost


@dataclass(slots=True)
class _Steps:
    """Length of the next step of the prices, by what the last ones brought."""

    target: float
    top: float = 0.0
    pace: float = FIRST_PACE
    stale: int = 0

    def after(self, value: float, size: float) -> float:
        """Polyak's step after a bound; 0 ends the search."""
        self.stale = 0 if value > self.top else self.stale + 1
        self.top = max(self.top, value)
        if size == 0 or self.target - self.top <= CLOSE * abs(self.target):
            return 0.0
        if self.stale == PATIENCE:
            self.pace, self.stale = self.pace * 0.6, 0
        return self.pace * (self.target - value) / size


def _bought(
    task: Task, prices: list[FloatArray]
) -> tuple[float, tuple[FloatArray, FloatArray]]:
    none = np.zeros((prices[0].shape[0], 1))
    running = (
        np.concatenate([none, prices[0].cumsum(axis=1)], axis=1),
        np.concatenate([none, prices[1].cumsum(axis=1)], axis=1),
    )
    use = (np.zeros_like(prices[0]), np.zeros_like(prices[0]))
    value = 0.0
    for e, many in _alike(task):
        alone = _alone(task, running, e)
        for row in _night_rows(alone, many, int(task.rest[e])):
            value += float(alone.cost[row])
            night = int(alone.nights[row])
            for start in alone.starts(row):
                end = start + int(task.block[e])
                use[0][night, start:end] += task.flow_ml[e]
                use[1][night, start:end] += 1
    return value, use


def _alike(task: Task) -> list[tuple[int, int]]:
    """First event of each row of equal events of one zone, and how many they are."""
    found: list[tuple[int, int]] = []
    for e in range(task.n_events):
        first = found[-1][0] if found else -1
        if (
            first >= 0
            and task.job[first] == task.job[e]
            and np.array_equal(task.night[first], task.night[e])
        ):
            found[-1] = (first, found[-1][1] + 1)
        else:
            found.append((e, 1))
    return found


def lower_bound(task: Task, *, best: float, rounds: int) -> tuple[float, str]:
    """The higher of the two bounds.

    Parameters
    ----------
    task : Task
        The week, all of it placed.
    best : float
        Cost of a timetable that is known.
    rounds : int
        Steps of the Lagrangian; 0 leaves it out.

    Returns
    -------
    bound : float
        No timetable costs less.
    kind : str
        `fill` or `lagrangian`.

    References
    ----------
    Source: definition.
    """
    fill = fill_bound(task)
    if rounds < 1 or not task.n_events or best - fill <= CLOSE * abs(best):
        return min(fill, best), "fill"
    other = lagrangian_bound(task, best=best, rounds=rounds)
    if other > fill:
        return min(other, best), "lagrangian"
    return min(fill, best), "fill"
