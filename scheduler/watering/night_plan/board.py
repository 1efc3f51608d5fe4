"""Nights as laid out in; every cycle by the clock, flow, price, and pins out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, FloatArray, frozen
from scheduler.site import Site
from scheduler.watering.night_plan.calm import NightWind
from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.night_hours import NightHours
from scheduler.watering.night_plan.result import Pin
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

    def job(self, zone: str, night: int) -> Job | None:
        """What a zone asks for on a night."""
        return next((one for one in self.week.jobs[night] if one.zone == zone), None)

    def pin(self, zone: str, night: int) -> Pin | None:
        """Pin that put a zone on a night."""
        date = self.hours.dates[night]
        found = (one for one in self.pins if (one.zone, one.to_night) == (zone, date))
        return next(found, None)


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


def night_flow_l_per_min(
    board: NightBoard, night: int, placed: Sequence[Placed] | None = None
) -> FloatArray:
    """Flow in each minute of a night.

    Parameters
    ----------
    board : NightBoard
        The nights.
    night : int
        Which.
    placed : sequence of Placed, optional
        Places to look at instead of the board's.

    Returns
    -------
    array of shape (n_minutes,)
        Change-overs included; zones of unknown flow count as 0. [l_per_min]

    References
    ----------
    Source: definition.
    """
    grid = board.week.grids[night]
    flow = np.zeros(grid.is_open.shape[2])
    for one in board.placed[night] if placed is None else placed:
        job = board.job(one.zone, night)
        minutes = job.cycle_min if job else 0
        for start in one.starts:
            first = max(start - grid.change_over_min, 0)
            flow[first : start + minutes] += board.week.flow[one.zone] or 0.0
    return frozen(flow)


def energy_price_money_per_kwh(site: Site, hours: NightHours) -> FloatArray | None:
    """Price of energy in each minute of the nights.

    Parameters
    ----------
    site : Site
        For its tariff.
    hours : NightHours
        The nights.

    Returns
    -------
    array of shape (n_nights, n_minutes), or None
        A later period overrides; not a number where a minute has no price; None without
        periods: one price for all hours moves nothing. [money_per_kwh]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> hours = NightHours((dt.date(2026, 6, 8),), 1320, np.ones((1, 390), dtype=bool))
    >>> site = Site(name="a", units="us", place=place)
    >>> energy_price_money_per_kwh(site, hours) is None
    True
    """
    tariff = site.tariff
    if tariff is None or not tariff.period:
        return None
    base = tariff.energy_price_money_per_kwh
    price = np.full(hours.is_open.shape, np.nan if base is None else base)
    for one in tariff.period:
        for night, start, end in hours.reach(one):
            price[night, start:end] = one.price_money_per_kwh
    return frozen(price)


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
