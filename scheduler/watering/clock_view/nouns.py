"""What a clock holds: programs, starts, stations, days; values for the rooms out."""

import datetime as dt
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.trace import Trace


@dataclass(frozen=True, slots=True)
class Station:
    """One station of a program: a zone's valve and its whole minutes. [min]."""

    number: int
    zone: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Program:
    """One program of the clock.

    Attributes
    ----------
    name : str
        `A`, `B` and so on.
    days : tuple of str
        Weekdays on which its starts fall, by the calendar: a start after midnight
        belongs to the next day.
    starts : tuple of time
        Each start runs all stations once, in their order.
    stations : tuple of Station
        By number.
    """

    name: str
    days: tuple[str, ...]
    starts: tuple[dt.time, ...]
    stations: tuple[Station, ...]

    def length_min(self, delay_min: int) -> int:
        """Minutes that one start takes, with the delay between two stations."""
        between = delay_min * (len(self.stations) - 1)
        return sum(one.minutes for one in self.stations) + between


@dataclass(frozen=True, slots=True, order=True)
class ClockRun:
    """One valve open once, in minutes from the midnight before the first night. [min].

    A week ends where it began: the minutes of the last night run past seven days.
    """

    start_min: int
    zone: str
    minutes: int


@dataclass(frozen=True, slots=True)
class PercentWay:
    """New minutes by percent adjust instead: one or the other, never both.

    Attributes
    ----------
    zone : str
        The zone.
    was_minutes, now_minutes : float
        Keyed in, and wanted. [min]
    percent : int
        What percent adjust would read. [percent]
    gives_minutes : int
        What the clock then runs, in whole minutes. [min]
    """

    zone: str
    was_minutes: float
    now_minutes: int
    percent: int
    gives_minutes: int


@dataclass(frozen=True, slots=True)
class MovedRun:
    """A run that the nearest week which the clock can hold moves.

    `minutes` later, or earlier where below 0. [min].
    """

    zone: str
    night: dt.date
    start: dt.datetime
    minutes: int


@dataclass(frozen=True, slots=True)
class OtherWater:
    """A zone whose week the nearest programs water with other minutes.

    Attributes
    ----------
    zone : str
        The zone.
    was_minutes, now_minutes : int
        Minutes of its week, as planned and as those programs give. [min]
    mm : float or None
        Depth that this adds to the week; None where the zone's rate is not known. [mm]
    nights, was_nights : int
        Nights that water, as those programs give and as planned.
    """

    zone: str
    was_minutes: int
    now_minutes: int
    mm: float | None
    nights: int
    was_nights: int


@dataclass(frozen=True, slots=True)
class Nearest:
    """The nearest week that a clock holds, what it moves, what it waters otherwise."""

    programs: tuple[Program, ...]
    moved: tuple[MovedRun, ...]
    other: tuple[OtherWater, ...] = ()


@dataclass(frozen=True, slots=True)
class ClockView:
    """The timetable of one clock as programs.

    Attributes
    ----------
    programs : tuple of Program
        Expanded, they give the timetable, minute for minute.
    is_held : bool or None
        The clock has enough programs and stations and nothing has to wait; None where
        nobody entered how many programs it has.
    nearest : tuple of Program or None
        The nearest week that the clock can hold; None where it holds this one, or
        where none was found.
    moved : tuple of MovedRun
        What that week moves.
    other : tuple of OtherWater
        What it waters otherwise.
    percent_adjust : int
        What the clock's percent adjust must read. [percent]
    percent_ways : tuple of PercentWay
        Zones whose new minutes percent adjust would give instead.
    percent_for_all : int or None
        One percent that gives every zone its new minutes. [percent]
    overlaps : tuple of (str, str)
        Programs that run at the same time.
    findings : tuple of Finding
        What cannot be held, and what must be looked at.
    traces : tuple of Trace
        Programs and starts needed, against what the clock has.
    id, name : str
        Of the clock; the id is empty where a site has one clock without.
    place : int
        The clock among those of the site, from 0.
    zones : tuple of str
        Its zones, by station.
    """

    programs: tuple[Program, ...]
    is_held: bool | None
    nearest: tuple[Program, ...] | None
    moved: tuple[MovedRun, ...]
    percent_adjust: int
    percent_ways: tuple[PercentWay, ...]
    percent_for_all: int | None
    overlaps: tuple[tuple[str, str], ...]
    findings: tuple[Finding, ...]
    traces: tuple[Trace, ...] = ()
    other: tuple[OtherWater, ...] = ()
    id: str = ""
    name: str = "clock"
    place: int = 0
    zones: tuple[str, ...] = ()
