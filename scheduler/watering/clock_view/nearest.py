"""Programs and what the nights hold in; the nearest week with fewer programs out.

Two programs become one, step by step; every step is held against the open minutes, the
pump, the valves, the soaks and the zones kept apart. Programs of the same nights only
move; of others, the zones water on the nights of both, in cycles no longer than before,
with the minutes of their week as near as whole minutes allow.
"""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from scheduler.site import WEEKDAYS
from scheduler.watering.clock_view.expanded import DAY_MIN
from scheduler.watering.clock_view.nouns import OtherWater, Program, Station
from scheduler.watering.clock_view.room import Room, Spans, night_holds

# steps that are held against the pump before the search gives up
MOST_TRIES = 1500
# programs up to which a nearer week is searched: half a second there, and a clock that
# lacks more than some forty of them is the wrong clock
MOST_PROGRAMS = 48
# programs beside which one is tried, by how near their starts are
NEIGHBOURS = 6

# minutes of water that a join changes in the week, runs that come on top, and minutes
# that it moves
Cost = tuple[int, int, int]
Join = tuple[Cost, Program, tuple[int, int]]


def nearest_programs(
    programs: Sequence[Program], room: Room, *, most: int
) -> tuple[Program, ...] | None:
    """The week with at most so many programs that changes little.

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
    Each step joins the pair that changes the fewest minutes of water; of those the one
    that adds the fewest runs, and then the one that moves the fewest minutes.
    Greedy: another order of steps may come nearer.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import numpy as np
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
        best: Join | None = None
        for found in sorted(_joins(left, room), key=lambda one: one[0]):
            tries += 1
            if tries > MOST_TRIES:
                return None
            others = [one for k, one in enumerate(left) if k not in found[2]]
            if _holds(room, others, found[1]):
                best = found
                break
        if best is None:
            return None
        left = [one for k, one in enumerate(left) if k not in best[2]]
        left.append(best[1])
    return tuple(left)


def _joins(programs: Sequence[Program], room: Room) -> Iterator[Join]:
    """Pairs that could be one program, with what joining them changes and moves."""
    for i, one in enumerate(programs):
        begin = _offsets(one, room)[0]
        later = range(i + 1, len(programs))
        for is_alike in (True, False):
            beside = [k for k in later if _is_alike(one, programs[k], room) == is_alike]
            beside.sort(key=lambda k: abs(_offsets(programs[k], room)[0] - begin))
            for k in beside[:NEIGHBOURS]:
                yield from _joined(one, programs[k], room, (i, k))


def _is_alike(one: Program, other: Program, room: Room) -> bool:
    return len(other.starts) == len(one.starts) and _nights(other, room) == _nights(
        one, room
    )


def _joined(
    one: Program, other: Program, room: Room, pair: tuple[int, int]
) -> Iterator[Join]:
    nights = _nights(one, room) | _nights(other, room)
    both = (one, other)
    offsets = [_offsets(base, room) for base in both]
    ways: dict[tuple[int, ...], tuple[Station, ...]] = {}
    for base in (*offsets, sorted({*offsets[0], *offsets[1]})):
        if len(base) > (room.most_starts or len(base)):
            continue
        stations = _stations(both, nights, len(base), room)
        for way in _starts(base, stations, both, room) if stations else ():
            ways[way] = stations or ()
    for starts, stations in sorted(ways.items()):
        if any(not room.anchor_min <= at < room.anchor_min + DAY_MIN for at in starts):
            continue
        if len({at >= DAY_MIN for at in starts}) > 1 and len(nights) < 7:
            continue  # half its starts would fall on other days
        found = _program(stations, starts, nights)
        more = _many_runs((found,)) - _many_runs(both)
        yield (_changed(found, both), more, _moved(found, both, room)), found, pair


def _starts(
    base: Sequence[int],
    stations: tuple[Station, ...],
    before: Sequence[Program],
    room: Room,
) -> set[tuple[int, ...]]:
    """Starts near some of before that let all stations run and soak."""
    length = Program("", (), (), stations).length_min(room.delay_min)
    soaks = [one.minutes + room.soak_min.get(one.zone, 0) for one in stations]
    step = max(length, *soaks)
    shifts = {0, *(length - one.length_min(room.delay_min) for one in before)}
    found = {tuple(at - shift for at in base) for shift in shifts}
    for begin in {base[0], max(base[0], DAY_MIN)}:
        later = [begin]
        for at in base[1:]:
            later.append(max(at, later[-1] + step))
        found.add(tuple(later))
    for end in {base[-1], min(base[-1], DAY_MIN - 1)}:
        earlier = [end]
        for at in reversed(base[:-1]):
            earlier.append(min(at, earlier[-1] - step))
        found.add(tuple(reversed(earlier)))
    return found


def _stations(
    both: tuple[Program, Program], nights: frozenset[int], n_starts: int, room: Room
) -> tuple[Station, ...] | None:
    """Stations of a joined program; None where a zone cannot run so."""
    found = []
    for zone, number in {(s.zone, s.number) for one in both for s in one.stations}:
        cycles: dict[int, int] = {}
        longest = 0
        for one in both:
            for station in one.stations:
                if station.zone == zone:
                    longest = max(longest, station.minutes)
                    for night in _nights(one, room):
                        cycles[night] = cycles.get(night, 0) + len(one.starts)
        may = room.nights.get(zone)
        if max(cycles.values()) > n_starts or (may is not None and not nights <= may):
            return None
        wanted = week_minutes(both)[zone] / (len(nights) * n_starts)
        minutes = min(int(wanted + 0.5), longest)  # no cycle may outlast its ground
        if minutes < 1:
            return None
        found.append(Station(number, zone, minutes))
    return tuple(sorted(found, key=lambda station: station.number))


def week_minutes(programs: Sequence[Program]) -> dict[str, int]:
    """Minutes of water of each zone in a week.

    Parameters
    ----------
    programs : sequence of Program
        Of one clock.

    Returns
    -------
    dict of str to int
        By zone. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> week_minutes([Program("A", ("mon", "wed"), (dt.time(22), dt.time(23)),
    ...                       (Station(1, "Z1", 10),))])
    {'Z1': 40}
    """
    found: dict[str, int] = {}
    for one in programs:
        for station in one.stations:
            minutes = station.minutes * len(one.days) * len(one.starts)
            found[station.zone] = found.get(station.zone, 0) + minutes
    return found


def other_water(
    before: Sequence[Program],
    after: Sequence[Program],
    room: Room,
    rate_mm_per_h: Mapping[str, float],
) -> tuple[OtherWater, ...]:
    """Zones whose minutes or nights are not those that were planned.

    Parameters
    ----------
    before, after : sequence of Program
        As planned, and of the nearest week.
    room : Room
        For the start of a night's count.
    rate_mm_per_h : mapping of str to float
        Net rate by zone, where it is known. [mm/h]

    Returns
    -------
    tuple of OtherWater
        Empty where starts move and nothing else.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> room = Room(dt.date(2026, 6, 8), 1320, {}, {}, {}, frozenset(), None, None, 0)
    >>> one = Program("A", ("mon",), (dt.time(22),), (Station(1, "Z1", 11),))
    >>> two = Program("A", ("mon", "wed"), (dt.time(22),), (Station(1, "Z1", 5),))
    >>> (found,) = other_water([one], [two], room, {"Z1": 12.0})
    >>> found.was_minutes, found.now_minutes, found.mm, found.nights
    (11, 10, -0.2, 2)
    """
    was, now = week_minutes(before), week_minutes(after)
    was_nights, nights = _zone_nights(before, room), _zone_nights(after, room)
    return tuple(
        OtherWater(
            zone=zone,
            was_minutes=minutes,
            now_minutes=now[zone],
            mm=(now[zone] - minutes) / 60 * rate_mm_per_h[zone]
            if zone in rate_mm_per_h
            else None,
            nights=nights[zone],
            was_nights=was_nights[zone],
        )
        for zone, minutes in was.items()
        if now[zone] != minutes or nights[zone] != was_nights[zone]
    )


def _zone_nights(programs: Sequence[Program], room: Room) -> dict[str, int]:
    found: dict[str, frozenset[int]] = {}
    for one in programs:
        for station in one.stations:
            some = found.get(station.zone, frozenset())
            found[station.zone] = some | _nights(one, room)
    return {zone: len(nights) for zone, nights in found.items()}


def _changed(found: Program, before: Sequence[Program]) -> int:
    """Minutes of water by which the week of its zones changes, all together."""
    was = week_minutes(before)
    return sum(abs(now - was[zone]) for zone, now in week_minutes((found,)).items())


def _many_runs(programs: Sequence[Program]) -> int:
    """Valves opened in a week."""
    return sum(len(one.days) * len(one.starts) * len(one.stations) for one in programs)


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
    """Minutes that runs move, all together; runs that come on top move nothing."""
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
        for a, b in zip(sorted(starts), sorted(now[zone]), strict=False)
    )


def _holds(room: Room, others: Sequence[Program], joined: Program) -> bool:
    """Whether a program can run beside the others on each of its nights."""
    length = joined.length_min(room.delay_min)
    offsets = _offsets(joined, room)
    if any(b - a < length for a, b in pairwise(offsets)):
        return False  # it would stack
    own = _spans(joined, room)
    n_nights = len(next(iter(room.is_open.values())))
    nights = {weekday: _night(weekday, room) for weekday in _nights(joined, room)}
    return all(
        night_holds(room, night, own, _beside(room, weekday, others))
        for weekday, night in nights.items()
        if night < n_nights
    )


def _night(weekday: int, room: Room) -> int:
    return (weekday - room.first.weekday()) % 7


def _beside(room: Room, weekday: int, others: Sequence[Program]) -> Spans:
    return [
        span
        for one in others
        if weekday in _nights(one, room)
        for span in _spans(one, room)
    ]
