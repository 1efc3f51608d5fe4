"""What nights hold in; whether a clock's runs fit into them, out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from scheduler.arrays import BoolArray, FloatArray
from scheduler.watering.clock_view.expanded import DAY_MIN
from scheduler.watering.clock_view.nouns import ClockRun

# zone, first minute and end of each run
Spans = list[tuple[str, int, int]]


@dataclass(frozen=True, slots=True, eq=False)
class Room:
    """What the nights hold.

    Attributes
    ----------
    first : date
        Day on whose evening the first night begins.
    anchor_min : int
        Minute of the day at which a night's count begins. [min]
    is_open : dict of str to array of shape (n_nights, n_minutes)
        Minutes in which a zone may run.
    flow_l_per_min : dict of str to float
        Flow of each zone; 0 where it is not known. [l_per_min]
    soak_min : dict of str to int
        Least minutes between two cycles of a zone. [min]
    apart : frozenset of (str, str)
        Zones that must not run together, both ways.
    pump_l_per_min : float or None
        What the pump gives. [l_per_min]
    most_valves : int or None
        Valves that may be open at once.
    delay_min : int
        Change-over before each cycle. [min]
    nights : dict of str to frozenset of int
        Weekdays on whose evening a zone may water, where not all; Monday is 0.
    most_starts : int or None
        Starts that a program of the clock can hold.
    beside : dict of int to Spans
        What other clocks run on each night, from the start of its count; it takes from
        the same pump, and is none of this clock's valves.
    """

    first: dt.date
    anchor_min: int
    is_open: Mapping[str, BoolArray]
    flow_l_per_min: Mapping[str, float]
    soak_min: Mapping[str, int]
    apart: frozenset[tuple[str, str]]
    pump_l_per_min: float | None
    most_valves: int | None
    delay_min: int
    nights: Mapping[str, frozenset[int]] = field(default_factory=dict)
    most_starts: int | None = None
    beside: Mapping[int, Spans] = field(default_factory=dict)


def night_holds(room: Room, night: int, own: Spans, others: Spans) -> bool:
    """Whether runs of one night can stand beside others of the same clock.

    Parameters
    ----------
    room : Room
        What the nights hold.
    night : int
        Counted from 0.
    own, others : list of (str, int, int)
        Zone, start and end of the runs that are asked about, and of those that stand.

    Returns
    -------
    bool
        True where minutes, soaks, pump, valves and zones kept apart allow it.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> one = Room(dt.date(2026, 6, 8), 1320, {"Z1": np.ones((1, 60), dtype=bool)},
    ...            {"Z1": 60.0}, {}, frozenset(), 50.0, None, 0)
    >>> night_holds(one, 0, [("Z1", 0, 20)], [])
    False
    """
    clock = [*own, *others]
    every = [*clock, *room.beside.get(night, ())]
    return (
        all(_is_open(room, night, span) for span in own)
        and _soaks(room, clock, {zone for zone, _, _ in own})
        and _is_apart(room, own, every)
        and _within(room, clock, every)
    )


def week_holds(room: Room, runs: Sequence[ClockRun]) -> bool:
    """Whether every night of a clock's week keeps what its nights hold.

    Parameters
    ----------
    room : Room
        What the nights hold.
    runs : sequence of ClockRun
        What the clock runs.

    Returns
    -------
    bool
        False where one night does not, or where there is no such night.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> one = Room(dt.date(2026, 6, 8), 1320, {"Z1": np.ones((1, 60), dtype=bool)},
    ...            {"Z1": 60.0}, {}, frozenset(), 100.0, None, 0)
    >>> week_holds(one, [ClockRun(1320, "Z1", 60)]), week_holds(
    ...     one, [ClockRun(1321, "Z1", 60)])
    (True, False)
    """
    nights = spans_by_night(runs, room.anchor_min)
    many = len(next(iter(room.is_open.values()))) if room.is_open else 0
    return all(
        night < many and night_holds(room, night, spans, [])
        for night, spans in nights.items()
    )


def spans_by_night(runs: Sequence[ClockRun], anchor_min: int) -> dict[int, Spans]:
    """Runs of a week by night, from the start of its count.

    Parameters
    ----------
    runs : sequence of ClockRun
        In minutes from the midnight before the first night.
    anchor_min : int
        Minute of the day at which a night's count begins. [min]

    Returns
    -------
    dict of int to list of (str, int, int)
        Zone, start and end.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> spans_by_night([ClockRun(1330, "Z1", 20)], 1320)
    {0: [('Z1', 10, 30)]}
    """
    found: dict[int, Spans] = {}
    for run in runs:
        night, at = divmod(run.start_min - anchor_min, DAY_MIN)
        found.setdefault(night, []).append((run.zone, at, at + run.minutes))
    return found


def _is_open(room: Room, night: int, span: tuple[str, int, int]) -> bool:
    zone, start, end = span
    row = room.is_open[zone][night]
    begin = start - room.delay_min
    return begin >= 0 and end <= row.size and bool(row[begin:end].all())


def _soaks(room: Room, every: Spans, zones: set[str]) -> bool:
    for zone in zones:
        runs = sorted((start, end) for name, start, end in every if name == zone)
        soak = max(room.soak_min.get(zone, 0), 0)
        if any(b[0] - a[1] < soak for a, b in pairwise(runs)):
            return False
    return True


def _is_apart(room: Room, own: Spans, every: Spans) -> bool:
    lead = room.delay_min
    return not any(
        (a[0], b[0]) in room.apart and a[1] - lead < b[2] and b[1] - lead < a[2]
        for a in own
        for b in every
    )


def _within(room: Room, clock: Spans, every: Spans) -> bool:
    """Flow and valves of every minute, the change-over counted as running."""
    n = max(end for _, _, end in every) + 1
    flow: FloatArray = np.zeros(n)
    valves = np.zeros(n)
    for zone, start, end in every:
        begin = max(start - room.delay_min, 0)
        flow[begin:end] += room.flow_l_per_min.get(zone, 0.0)
    for _, start, end in clock:
        valves[max(start - room.delay_min, 0) : end] += 1
    # the last digits of a sum of flows are no overdraft
    is_enough = room.pump_l_per_min is None or flow.max() <= room.pump_l_per_min + 1e-6
    return bool(is_enough) and (
        room.most_valves is None or valves.max() <= room.most_valves
    )
