"""A week as plain arrays in, the search's rounds over them, places out.

The functions below are plain Python over arrays, written as loops so that a compiler
can take them; without one they run slowly and answer the same. They follow `search`
and `insertion` step by step: whole-number costs, the same table of chance, the same
choice among equals.
"""

from typing import NamedTuple

import numpy as np

from scheduler.arrays import BoolArray, FloatArray, IntArray

NO_ROOM = 1 << 61


class Week(NamedTuple):
    """What is asked: the fields of `Task`, plain."""

    job: IntArray
    night: BoolArray
    flow_ml: IntArray
    weight: IntArray
    block: IntArray
    lead: IntArray
    step: IntArray
    reach: IntArray
    cycles: IntArray
    kind: IntArray
    rest: IntArray
    rival: BoolArray
    is_open: BoolArray
    cost_sum: IntArray
    order: IntArray
    volume: IntArray
    clock: IntArray
    limits: IntArray


class Places(NamedTuple):
    """What is placed: the fields of `State`, what each event pays, and scratch."""

    flow_ml: IntArray
    valves: IntArray
    night: IntArray
    start: IntArray
    paid: IntArray
    price: IntArray
    best: IntArray
    last_bad: IntArray
    found: IntArray


def put(week: Week, at: Places, e: int, night: int) -> None:
    """Place an event at its starts."""
    at.night[e] = night
    row = week.clock[e] * at.flow_ml.shape[0] + night
    for i in range(week.cycles[e]):
        for m in range(at.start[e, i], at.start[e, i] + week.block[e]):
            at.flow_ml[night, m] += week.flow_ml[e]
            at.valves[row, m] += 1


def lift(week: Week, at: Places, e: int) -> None:
    """Take an event out, if it has a place."""
    night = at.night[e]
    if night < 0:
        return
    at.night[e] = -1
    row = week.clock[e] * at.flow_ml.shape[0] + night
    for i in range(week.cycles[e]):
        for m in range(at.start[e, i], at.start[e, i] + week.block[e]):
            at.flow_ml[night, m] -= week.flow_ml[e]
            at.valves[row, m] -= 1


def night_pass(week: Week, at: Places, e: int, night: int) -> int:
    """Cheapest place of an event on one night; fills `best`, ends in `found`."""
    n_minutes = at.flow_ml.shape[1]
    kind, block, lead, step = week.kind[e], week.block[e], week.lead[e], week.step[e]
    room = week.limits[0] - week.flow_ml[e]
    row = week.clock[e] * at.flow_ml.shape[0] + night
    most = week.limits[1 + week.clock[e]]
    bad = at.last_bad
    for m in range(n_minutes):
        is_bad = (
            not week.is_open[kind, night, m]
            or at.flow_ml[night, m] > room
            or at.valves[row, m] >= most
        )
        bad[m] = 1 if is_bad else 0
    for other in range(week.job.size):
        if at.night[other] == night and week.rival[week.job[e], week.job[other]]:
            for i in range(week.cycles[other]):
                for m in range(
                    at.start[other, i], at.start[other, i] + week.block[other]
                ):
                    bad[m] = 1
    run = 0
    for m in range(n_minutes):
        run = 0 if bad[m] else run + 1
        s = m + 1 - block
        if s >= 0:
            at.price[s] = NO_ROOM
            if run >= block:
                sums = week.cost_sum[kind, night, m + 1]
                at.price[s] = (
                    sums - week.cost_sum[kind, night, s + lead]
                ) * week.weight[e]
    last = n_minutes + 1 - block
    for s in range(last):
        at.best[0, s] = at.price[s]
    for i in range(1, week.cycles[e]):
        low, low_at = NO_ROOM, -1
        for s in range(last):
            newest, oldest = s - step, s - step - week.reach[e]
            if newest >= 0 and low_at < oldest:  # the least has left the reach
                low, low_at = NO_ROOM, newest
                for t in range(max(oldest, 0), newest + 1):
                    if at.best[i - 1, t] < low:
                        low, low_at = at.best[i - 1, t], t
            elif newest >= 0 and at.best[i - 1, newest] < low:
                low, low_at = at.best[i - 1, newest], newest
            at.best[i, s] = NO_ROOM
            if low < NO_ROOM and at.price[s] < NO_ROOM:
                at.best[i, s] = at.price[s] + low
    final, cheapest = week.cycles[e] - 1, NO_ROOM
    for s in range(last):
        if at.best[final, s] < cheapest:
            cheapest = at.best[final, s]
            at.found[final] = s
    return cheapest


def insert(week: Week, at: Places, e: int) -> None:
    """Put an event where it costs least; NO_ROOM is paid without a place."""
    at.paid[e] = NO_ROOM
    if week.block[e] > at.flow_ml.shape[1]:
        return
    cheapest, at_night = NO_ROOM, -1
    for night in range(at.flow_ml.shape[0]):
        free = week.night[e, night]
        for other in range(week.job.size):
            if free and week.job[other] == week.job[e] and at.night[other] >= 0:
                free = abs(at.night[other] - night) > week.rest[e]
        if free:
            cost = night_pass(week, at, e, night)
            if cost < cheapest:
                cheapest, at_night = cost, night
    if at_night < 0:
        return
    at.paid[e] = night_pass(week, at, e, at_night)
    for i in range(week.cycles[e] - 1, 0, -1):
        low = NO_ROOM
        newest = at.found[i] - week.step[e]
        for s in range(max(newest - week.reach[e], 0), newest + 1):
            if at.best[i - 1, s] < low:
                low = at.best[i - 1, s]
                at.found[i - 1] = s
    for i in range(week.cycles[e]):
        at.start[e, i] = at.found[i]
    put(week, at, e, at_night)


def ruined(week: Week, at: Places, u: FloatArray, out: IntArray) -> int:
    """Events that one round takes out, into `out`; how many."""
    n = week.job.size
    many = min(2 + int(u[0] * 5), n)
    n_waiting = 0
    for e in range(n):
        n_waiting += at.night[e] < 0
    first = int(u[2] * n)
    if n_waiting:
        wanted = int(u[2] * n_waiting)
        for e in range(n):
            if at.night[e] < 0:
                if wanted == 0:
                    first = e
                wanted -= 1
    out[0], count = first, 1
    if u[1] < 0.5:
        for k in range(4, 3 + many):
            e = int(u[k] * n)
            is_new = True
            for i in range(count):
                is_new = is_new and out[i] != e
            if is_new:
                out[count] = e
                count += 1
        return count
    night, centre = at.night[first], at.start[first, 0]
    if night < 0:
        for k in range(week.night.shape[1] - 1, -1, -1):
            if week.night[first, k]:
                night = k
        centre = int(u[4] * at.flow_ml.shape[1])
    while count < many:
        nearest, least = -1, NO_ROOM
        for e in range(n):
            away = abs(at.start[e, 0] - centre)
            if at.night[e] == night and away < least:
                is_new = True
                for i in range(count):
                    is_new = is_new and out[i] != e
                if is_new:
                    nearest, least = e, away
        if nearest < 0:
            break
        out[count] = nearest
        count += 1
    return count


def turns(week: Week, out: IntArray, count: int, u: FloatArray) -> IntArray:
    """Order of putting back: the larger earlier, with some chance."""
    keys = np.zeros(count)
    for k in range(count):
        keys[k] = -float(week.volume[out[k]]) * (0.5 + u[10 + k])
    order = np.arange(count)
    for i in range(1, count):
        k = i
        while k > 0 and keys[order[k]] < keys[order[k - 1]]:
            order[k], order[k - 1] = order[k - 1], order[k]
            k -= 1
    return order


def rounds_of(week: Week, at: Places, table: FloatArray, scale: float) -> None:
    """Greedy, then ruin and recreation; leaves the best week in `night` and `start`."""
    n = week.job.size
    for k in range(n):
        insert(week, at, week.order[k])
    total, lost = 0, 0
    for e in range(n):
        if at.paid[e] < NO_ROOM:
            total += at.paid[e]
        else:
            lost += 1
    best_total, best_lost = total, lost
    kept_night, kept_start = at.night.copy(), at.start.copy()
    out = np.zeros(8, dtype=np.int64)
    was_night, was_paid = np.zeros(8, dtype=np.int64), np.zeros(8, dtype=np.int64)
    was_start = np.zeros((8, at.start.shape[1]), dtype=np.int64)
    n_rounds = table.shape[0]
    for i in range(n_rounds):
        u = table[i]
        count = ruined(week, at, u, out)
        for k in range(count):
            e = out[k]
            was_night[k], was_paid[k] = at.night[e], at.paid[e]
            was_start[k] = at.start[e]
            lift(week, at, e)
        order = turns(week, out, count, u)
        for k in range(count):
            insert(week, at, out[order[k]])
        now_total, now_lost = total, lost
        for k in range(count):
            new, old = at.paid[out[k]], was_paid[k]
            now_total += (new if new < NO_ROOM else 0) - (old if old < NO_ROOM else 0)
            now_lost += (1 if new >= NO_ROOM else 0) - (1 if old >= NO_ROOM else 0)
        heat = scale * (1.0 - i / n_rounds)
        worse = float(now_total - total)
        if now_lost < lost or (now_lost == lost and -worse >= heat * u[3]):
            total, lost = now_total, now_lost
            if lost < best_lost or (lost == best_lost and total < best_total):
                best_total, best_lost = total, lost
                kept_night[:] = at.night
                kept_start[:] = at.start
        else:
            for k in range(count):
                lift(week, at, out[k])
            for k in range(count):
                e = out[k]
                at.paid[e] = was_paid[k]
                at.start[e] = was_start[k]
                if was_night[k] >= 0:
                    put(week, at, e, was_night[k])
    at.night[:] = kept_night
    at.start[:] = kept_start
