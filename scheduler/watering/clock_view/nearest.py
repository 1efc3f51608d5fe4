"""Programs that are too many in; the nearest week with fewer of them out.

Two programs of the same nights and as many starts become one, whose stations run one
after the other; what that moves is weighed in minutes, and every step is held against
the open minutes, the pump, the valves, the soaks and the zones kept apart.
"""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from scheduler.arrays import BoolArray, FloatArray
from scheduler.site import WEEKDAYS
from scheduler.watering.clock_view.expanded import DAY_MIN
from scheduler.watering.clock_view.nouns import Program, Station

# steps that are held against the pump before the search gives up
MOST_TRIES = 1500
# programs up to which a nearer week is searched: half a second there, and a clock that
# lacks more than some forty of them is the wrong clock
MOST_PROGRAMS = 48
# programs beside which one is tried, by how near their starts are
NEIGHBOURS = 6


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


Spans = list[tuple[str, int, int]]


def nearest_programs(
    programs: Sequence[Program], room: Room, *, most: int
) -> tuple[Program, ...] | None:
    """The week with at most so many programs that moves little.

    Parameters
    ----------
    programs : sequence of Program
        Of the timetable.
    room : Room
        What the nights hold.
    most : int
        Programs of the clock.

    Returns
    -------
    tuple of Program or None
        None where no pair could be joined, the search gave up, or there are more than
        `MOST_PROGRAMS`.

    Notes
    -----
    Each step joins the pair that moves the fewest minutes. Greedy: another order of
    steps may come nearer.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> rooms = {zone: np.ones((1, 360), dtype=bool) for zone in ("Z1", "Z2")}
    >>> flow = {"Z1": 60.0, "Z2": 50.0}
    >>> room = Room(dt.date(2026, 6, 8), 1320, rooms, flow, {}, frozenset(), 100.0,
    ...             None, 0)
    >>> two = [Program("A", ("mon",), (dt.time(22),), (Station(1, "Z1", 20),)),
    ...        Program("B", ("mon",), (dt.time(22, 30),), (Station(2, "Z2", 15),))]
    >>> found = nearest_programs(two, room, most=1)
    >>> [(str(one.starts[0]), [s.zone for s in one.stations]) for one in found]
    [('22:00:00', ['Z1', 'Z2'])]
    """
    if len(programs) > max(MOST_PROGRAMS, most):
        return None
    left = list(programs)
    tries = 0
    while len(left) > most:
        best: tuple[int, Program, tuple[int, int]] | None = None
        for moved, joined, pair in sorted(_joins(left, room), key=lambda one: one[0]):
            tries += 1
            if tries > MOST_TRIES:
                return None
            others = [one for k, one in enumerate(left) if k not in pair]
            if _holds(room, others, joined):
                best = moved, joined, pair
                break
        if best is None:
            return None
        left = [one for k, one in enumerate(left) if k not in best[2]]
        left.append(best[1])
    return tuple(left)


def _joins(
    programs: Sequence[Program], room: Room
) -> Iterator[tuple[int, Program, tuple[int, int]]]:
    """Pairs that could be one program, with the minutes that joining them moves."""
    for i, one in enumerate(programs):
        alike = [
            k
            for k in range(i + 1, len(programs))
            if len(programs[k].starts) == len(one.starts)
            and _nights(programs[k], room) == _nights(one, room)
        ]
        begin = _offsets(one, room)[0]
        alike.sort(key=lambda k: abs(_offsets(programs[k], room)[0] - begin))
        for k in alike[:NEIGHBOURS]:
            yield from _joined(one, programs[k], room, (i, k))


def _joined(
    one: Program, other: Program, room: Room, pair: tuple[int, int]
) -> Iterator[tuple[int, Program, tuple[int, int]]]:
    stations = tuple(
        sorted({*one.stations, *other.stations}, key=lambda station: station.number)
    )
    if len(stations) != len(one.stations) + len(other.stations):
        return  # the same zone twice
    length = Program("", (), (), stations).length_min(room.delay_min)
    ways: set[tuple[int, ...]] = set()
    for base in (one, other):
        offsets = _offsets(base, room)
        shift = length - base.length_min(room.delay_min)
        ways |= {tuple(offsets), tuple(at - shift for at in offsets)}
    for offsets_way in sorted(ways):
        if any(
            not room.anchor_min <= at < room.anchor_min + DAY_MIN for at in offsets_way
        ):
            continue
        if len({at >= DAY_MIN for at in offsets_way}) > 1 and len(one.days) < 7:
            continue  # half its starts would fall on other days
        found = _program(stations, offsets_way, _nights(one, room))
        yield _moved(found, (one, other), room), found, pair


def _program(
    stations: tuple[Station, ...], offsets: Sequence[int], nights: frozenset[int]
) -> Program:
    late = offsets[0] >= DAY_MIN
    days = sorted((night + late) % 7 for night in nights)
    starts = tuple(dt.time(*divmod(at % DAY_MIN, 60)) for at in sorted(offsets))
    return Program("", tuple(WEEKDAYS[day] for day in days), starts, stations)


def _offsets(one: Program, room: Room) -> list[int]:
    """Starts as minutes from the midnight before their night, in order."""
    minutes = (start.hour * 60 + start.minute for start in one.starts)
    return sorted(at if at >= room.anchor_min else at + DAY_MIN for at in minutes)


def _nights(one: Program, room: Room) -> frozenset[int]:
    """Weekdays of the nights on which a program runs."""
    late = _offsets(one, room)[0] >= DAY_MIN
    return frozenset((WEEKDAYS.index(day) - late) % 7 for day in one.days)


def _spans(one: Program, room: Room) -> Spans:
    """Zone, start and end of every run of one night, from the start of its count."""
    found: Spans = []
    for offset in _offsets(one, room):
        at = offset - room.anchor_min
        for station in one.stations:
            found.append((station.zone, at, at + station.minutes))
            at += station.minutes + room.delay_min
    return found


def _moved(found: Program, before: Sequence[Program], room: Room) -> int:
    """Minutes that runs move, all together."""
    was: dict[str, list[int]] = {}
    for one in before:
        for zone, start, _ in _spans(one, room):
            was.setdefault(zone, []).append(start)
    now: dict[str, list[int]] = {}
    for zone, start, _ in _spans(found, room):
        now.setdefault(zone, []).append(start)
    return sum(
        abs(a - b)
        for zone, starts in was.items()
        for a, b in zip(sorted(starts), sorted(now[zone]), strict=True)
    )


def _holds(room: Room, others: Sequence[Program], joined: Program) -> bool:
    """Whether a program can run beside the others on each of its nights."""
    length = joined.length_min(room.delay_min)
    offsets = _offsets(joined, room)
    if any(b - a < length for a, b in pairwise(offsets)):
        return False  # it would stack
    own = _spans(joined, room)
    n_nights = len(next(iter(room.is_open.values())))
    nights = [(weekday - room.first.weekday()) % 7 for weekday in _nights(joined, room)]
    return all(
        _night_holds(room, night, own, others) for night in nights if night < n_nights
    )


def _night_holds(room: Room, night: int, own: Spans, others: Sequence[Program]) -> bool:
    weekday = (room.first.weekday() + night) % 7
    beside = [
        span
        for one in others
        if weekday in _nights(one, room)
        for span in _spans(one, room)
    ]
    every = [*own, *beside]
    return (
        all(_is_open(room, night, span) for span in own)
        and _soaks(room, every, {zone for zone, _, _ in own})
        and _is_apart(room, own, every)
        and _within(room, every)
    )


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


def _within(room: Room, every: Spans) -> bool:
    """Flow and valves of every minute, the change-over counted as running."""
    n = max(end for _, _, end in every) + 1
    flow: FloatArray = np.zeros(n)
    valves = np.zeros(n)
    for zone, start, end in every:
        begin = max(start - room.delay_min, 0)
        flow[begin:end] += room.flow_l_per_min.get(zone, 0.0)
        valves[begin:end] += 1
    # the last digits of a sum of flows are no overdraft
    is_enough = room.pump_l_per_min is None or flow.max() <= room.pump_l_per_min + 1e-6
    return bool(is_enough) and (
        room.most_valves is None or valves.max() <= room.most_valves
    )
