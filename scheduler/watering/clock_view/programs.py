"""Runs of a week in; programs that give them back, as few as were found, out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from string import ascii_uppercase

from scheduler.site import WEEKDAYS
from scheduler.watering.clock_view.expanded import DAY_MIN
from scheduler.watering.clock_view.nouns import ClockRun, Program, Station


@dataclass(frozen=True, slots=True)
class Piece:
    """Runs of one zone at one time of day: a start time, and the days it falls on."""

    station: Station
    minute: int
    days: frozenset[int]

    def followed(self, delay_min: int) -> tuple[int, frozenset[int]]:
        """Time of day and days on which the next station would begin."""
        at = self.minute + self.station.minutes + delay_min
        later, minute = divmod(at, DAY_MIN)
        return minute, frozenset((day + later) % 7 for day in self.days)


Chain = tuple[Piece, ...]


def week_programs(
    runs: Sequence[ClockRun],
    numbers: Mapping[str, int],
    first: dt.date,
    *,
    delay_min: int = 0,
    most_starts: int | None = None,
) -> tuple[Program, ...]:
    """Programs that give the runs back.

    Parameters
    ----------
    runs : sequence of ClockRun
        The timetable.
    numbers : mapping of str to int
        Station of each zone; a program runs its stations by number.
    first : date
        Day on whose evening the first night begins.
    delay_min : int
        Between two stations of a program. [min]
    most_starts : int, optional
        Starts that a program can hold.

    Returns
    -------
    tuple of Program
        Named from A on in the order of their first start after noon.

    Notes
    -----
    Runs that follow one another by number, on the same days, share a start; programs
    with the same stations and days share one program, unless a start would fall into
    the run of the one before. Linked piece by piece, zone by zone, or not at all,
    whichever takes the fewest programs.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> both = [ClockRun(1320, "Z1", 20), ClockRun(1340, "Z2", 15)]
    >>> found = week_programs(both, {"Z1": 1, "Z2": 2}, dt.date(2026, 6, 8))
    >>> [(one.name, one.days, str(one.starts[0]), len(one.stations)) for one in found]
    [('A', ('mon',), '22:00:00', 2)]
    """
    pieces = _pieces(runs, numbers, first)
    ways = (
        _linked(pieces, delay_min),
        _linked_by_zone(pieces, delay_min),
        [(one,) for one in pieces],
    )
    packed = [_packed(chains, delay_min, most_starts) for chains in ways]
    return named(min(packed, key=len))


def named(programs: Sequence[Program]) -> tuple[Program, ...]:
    """Programs in the order of the night, with letters.

    Parameters
    ----------
    programs : sequence of Program
        In any order.

    Returns
    -------
    tuple of Program
        A to Z, then A2 and so on.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> named([Program("", ("mon",), (dt.time(4),), (Station(1, "Z1", 5),)),
    ...        Program("", ("mon",), (dt.time(22),), (Station(2, "Z2", 5),))])[0].starts
    (datetime.time(22, 0),)
    """

    def order(one: Program) -> tuple[int, int]:
        at = one.starts[0].hour * 60 + one.starts[0].minute
        return _evening(at), one.stations[0].number

    ordered = sorted(programs, key=order)
    return tuple(
        replace(
            one,
            name=ascii_uppercase[i % 26] + (f"{i // 26 + 1}" if i >= 26 else ""),
        )
        for i, one in enumerate(ordered)
    )


def _pieces(
    runs: Sequence[ClockRun], numbers: Mapping[str, int], first: dt.date
) -> list[Piece]:
    days: dict[tuple[Station, int], set[int]] = {}
    for run in runs:
        day, minute = divmod(run.start_min, DAY_MIN)
        station = Station(numbers[run.zone], run.zone, run.minutes)
        days.setdefault((station, minute), set()).add((first.weekday() + day) % 7)
    pieces = (
        Piece(station, minute, frozenset(some))
        for (station, minute), some in days.items()
    )
    return sorted(pieces, key=lambda one: (one.station.number, one.minute))


def _linked(pieces: Sequence[Piece], delay_min: int) -> list[Chain]:
    """Each piece with the one that follows it, where there is one."""
    waiting: dict[tuple[int, frozenset[int]], list[Piece]] = {}
    for one in pieces:  # by number, so the head of a chain comes first
        waiting.setdefault((one.minute, one.days), []).append(one)
    chains = []
    for one in pieces:
        if one not in waiting[one.minute, one.days]:
            continue
        chain: list[Piece] = []
        after: Piece | None = one
        while after is not None:
            waiting[after.minute, after.days].remove(after)
            chain.append(after)
            due = waiting.get(after.followed(delay_min), ())
            number = after.station.number
            after = next((two for two in due if two.station.number > number), None)
        chains.append(tuple(chain))
    return chains


def _linked_by_zone(pieces: Sequence[Piece], delay_min: int) -> list[Chain]:
    """Zones with the zone that follows all their pieces."""
    by_zone: dict[str, list[Piece]] = {}
    for one in pieces:
        by_zone.setdefault(one.station.zone, []).append(one)
    places = {
        zone: {(one.minute, one.days): one for one in some}
        for zone, some in by_zone.items()
    }
    taken: set[str] = set()
    chains: list[Chain] = []
    for zone, some in by_zone.items():
        if zone in taken:
            continue
        rows = [[one] for one in some]
        while True:
            wanted = {row[-1].followed(delay_min) for row in rows}
            number = rows[0][-1].station.number
            after = next(
                (
                    other
                    for other, held in places.items()
                    if other not in taken
                    and next(iter(held.values())).station.number > number
                    and set(held) == wanted
                ),
                None,
            )
            if after is None:
                break
            taken.add(after)
            for row in rows:
                row.append(places[after][row[-1].followed(delay_min)])
        taken.add(zone)
        chains += [tuple(row) for row in rows]
    return chains


def _packed(
    chains: Sequence[Chain], delay_min: int, most_starts: int | None
) -> list[Program]:
    """Chains with the same stations and days in one program, as far as it holds."""
    alike: dict[tuple[tuple[Station, ...], frozenset[int]], list[int]] = {}
    for chain in chains:
        key = tuple(one.station for one in chain), chain[0].days
        alike.setdefault(key, []).append(chain[0].minute)
    programs = []
    for (stations, days), minutes in alike.items():
        one = Program("", tuple(WEEKDAYS[day] for day in sorted(days)), (), stations)
        length = one.length_min(delay_min)
        for some in _apart(sorted(minutes, key=_evening), length, most_starts):
            starts = tuple(dt.time(*divmod(minute, 60)) for minute in some)
            programs.append(replace(one, starts=starts))
    return programs


def _evening(minute: int) -> int:
    """Order of the times of day of one night."""
    return (minute - DAY_MIN // 2) % DAY_MIN


def _apart(
    minutes: Sequence[int], length: int, most_starts: int | None
) -> list[list[int]]:
    """Starts in groups in which none falls into the run of another, around the day."""
    groups: list[list[int]] = []
    for minute in minutes:
        for some in groups:
            is_room = most_starts is None or len(some) < most_starts
            if is_room and all(
                min((minute - one) % DAY_MIN, (one - minute) % DAY_MIN) >= length
                for one in some
            ):
                some.append(minute)
                break
        else:
            groups.append([minute])
    return groups
