"""Nights as laid out in; every cycle by the clock, flow, price, and pins out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from scheduler.arrays import BoolArray
from scheduler.site import Site
from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.night_hours import NightHours
from scheduler.watering.night_plan.result import NightWind, Pin
from scheduler.watering.timetable import Job, Placed


@dataclass(frozen=True, slots=True, eq=False)
class NightBoard:
    """Everything a place in the nights can be judged by.

    Attributes
    ----------
    site : Site
        Windows, blocked hours, tariff.
    hours : NightHours
        Minutes of the nights.
    week : WeekJobs
        What runs on each night, moved waterings where they were moved to.
    wind : NightWind
        Usual wind of the minutes.
    placed : tuple of tuple of Placed
        Places of each night.
    pins : tuple of Pin
        Waterings moved by hand.
    allowed : mapping of str to array of shape (n_nights,)
        Nights on which a zone may be watered.
    """

    site: Site
    hours: NightHours
    week: WeekJobs
    wind: NightWind
    placed: tuple[tuple[Placed, ...], ...]
    pins: tuple[Pin, ...]
    allowed: Mapping[str, BoolArray]
    # looked through once: every cycle of a large week asks for its job
    _jobs: tuple[dict[str, Job], ...] = field(init=False, repr=False)
    _pins: dict[tuple[str, dt.date], Pin] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        jobs = tuple({one.zone: one for one in reversed(j)} for j in self.week.jobs)
        pins = {(one.zone, one.to_night): one for one in reversed(self.pins)}
        object.__setattr__(self, "_jobs", jobs)
        object.__setattr__(self, "_pins", pins)

    def job(self, zone: str, night: int) -> Job | None:
        """What a zone asks for on a night; the first where it asks twice."""
        return self._jobs[night].get(zone)

    def pin(self, zone: str, night: int) -> Pin | None:
        """Pin that put a zone on a night."""
        return self._pins.get((zone, self.hours.dates[night]))


@dataclass(frozen=True, slots=True)
class BoardCycle:
    """One cycle on the board.

    Attributes
    ----------
    zone : str
        Id of the zone.
    night, start_min, end_min : int
        Night, counted from 0, and minutes of that night. [min]
    cycle, cycles : int
        Which of how many, counted from 1.
    flow_l_per_min : float or None
        None where it is not known. [l_per_min]
    is_moved : bool
        Moved by hand.
    """

    zone: str
    night: int
    start_min: int
    end_min: int
    cycle: int
    cycles: int
    flow_l_per_min: float | None
    is_moved: bool


def board_cycles(board: NightBoard) -> tuple[BoardCycle, ...]:
    """Every cycle of the week.

    Parameters
    ----------
    board : NightBoard
        The nights.

    Returns
    -------
    tuple of BoardCycle
        By night, start and zone.

    References
    ----------
    Source: definition.
    """
    found = []
    for night, some in enumerate(board.placed):
        for one in some:
            job = board.job(one.zone, night)
            minutes = job.cycle_min if job else 0
            flow, is_moved = board.week.flow[one.zone], bool(board.pin(one.zone, night))
            found += [
                BoardCycle(
                    one.zone, night, start, start + minutes, k, len(one.starts), flow,
                    is_moved,
                )
                for k, start in enumerate(one.starts, 1)
            ]  # fmt: skip
    return tuple(
        sorted(found, key=lambda one: (one.night, one.start_min, one.zone, one.cycle))
    )


def pin_of(
    board: NightBoard, watering: tuple[str, int], night: int, starts: Sequence[int]
) -> Pin:
    """Pin that moves a watering of the board.

    Parameters
    ----------
    board : NightBoard
        The nights.
    watering : tuple of str and int
        Zone and the night on which it stands now.
    night : int
        The night that it goes to.
    starts : sequence of int
        Minute of that night at which each cycle begins. [min]

    Returns
    -------
    Pin
        From the night as planned, also for what was moved before.

    References
    ----------
    Source: definition.
    """
    zone, now = watering
    before = board.pin(zone, now)
    planned = before.night if before else board.hours.dates[now]
    clock = tuple(board.hours.clock(night, one) for one in starts)
    return Pin(zone, planned, board.hours.dates[night], clock)


def board_night(board: NightBoard, pin: Pin) -> int:
    """Night on which a watering with this pin stands on the board, -1 if on none.

    Parameters
    ----------
    board : NightBoard
        The nights.
    pin : Pin
        Made by `pin_of`.

    Returns
    -------
    int
        Counted from 0.

    References
    ----------
    Source: definition.
    """
    key = (pin.zone, pin.night)
    date = next(
        (one.to_night for one in board.pins if (one.zone, one.night) == key), pin.night
    )
    return board.hours.dates.index(date) if date in board.hours.dates else -1


def moved(board: NightBoard, pin: Pin) -> NightBoard:
    """Board with one watering at another place, whether that breaks rules or not.

    Parameters
    ----------
    board : NightBoard
        The nights.
    pin : Pin
        The place, as `pin_of` makes it.

    Returns
    -------
    NightBoard
        To look at; the same board where the watering is not on it.

    References
    ----------
    Source: definition.
    """
    was = board_night(board, pin)
    job = board.job(pin.zone, was) if was >= 0 else None
    if job is None or pin.to_night not in board.hours.dates:
        return board
    night = board.hours.dates.index(pin.to_night)
    jobs, placed = [*board.week.jobs], [*board.placed]
    jobs[was] = tuple(one for one in jobs[was] if one is not job)
    placed[was] = tuple(one for one in placed[was] if one.zone != pin.zone)
    jobs[night] = (*jobs[night], job)
    starts = tuple(board.hours.minute(night, one) for one in pin.starts)
    placed[night] = (*placed[night], Placed(0, starts, pin.zone))
    others = (
        one for one in board.pins if (one.zone, one.night) != (pin.zone, pin.night)
    )
    week = replace(board.week, jobs=tuple(jobs))
    return replace(board, week=week, placed=tuple(placed), pins=(*others, pin))
