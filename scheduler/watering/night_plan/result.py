"""What the nights are made of in, their frozen result out."""

import datetime as dt
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, Protocol

from scheduler.arrays import FloatArray
from scheduler.errors import Finding
from scheduler.field.guess import ZoneCatch
from scheduler.site import Zone
from scheduler.trace import Trace

if TYPE_CHECKING:
    from scheduler.watering.night_plan.board import NightBoard


class WateredZone(Protocol):
    """One zone's week, as far as the nights need it."""

    @property
    def zone(self) -> Zone:
        """The zone."""

    @property
    def status(self) -> str:
        """Planned, fixed, off or blocked."""

    @property
    def days(self) -> tuple[dt.date, ...]:
        """Nights that water."""

    @property
    def dates(self) -> tuple[dt.date, ...]:
        """The seven days."""

    @property
    def cycles(self) -> int | None:
        """Cycles a night."""

    @property
    def cycle_minutes(self) -> int | None:
        """Minutes of each."""

    @property
    def soak_minutes(self) -> int | None:
        """Minutes between them."""

    @property
    def evidence(self) -> ZoneCatch | None:
        """What its cans caught."""

    @property
    def rule(self) -> str | None:
        """Who rules its factor; None where its minutes follow no rule."""


@dataclass(frozen=True, slots=True, eq=False)
class NightWind:
    """Usual wind of the minutes of the night.

    Attributes
    ----------
    by_minute_m_per_s : array of shape (n_minutes,) or None
        None where no log knows all these hours. [m/s]
    source : str
        Where it comes from, or why it is not known.
    first_min : int
        Minute of the day at which the night's count begins. [min]
    """

    by_minute_m_per_s: FloatArray | None
    source: str
    first_min: int = 0


@dataclass(frozen=True, slots=True)
class PlannedRun:
    """One valve open once: a zone, from when to when, on which night.

    Attributes
    ----------
    night : date
        Day on whose evening the night begins.
    start, end : datetime
        On the clock of the site, no zone attached.
    flow_l_per_min : float or None
        None where it is not known. [l_per_min]
    """

    zone: str
    night: dt.date
    start: dt.datetime
    end: dt.datetime
    flow_l_per_min: float | None

    @property
    def minutes(self) -> int:
        """Minutes that water runs."""
        return round((self.end - self.start).total_seconds() / 60)


@dataclass(frozen=True, slots=True)
class Pin:
    """A watering that somebody moved by hand, to stay there when the week is remade.

    Attributes
    ----------
    night : date
        Its night as planned.
    to_night : date
        The night that it was moved to, often the same.
    starts : tuple of datetime
        Start of each cycle, on the clock of the site.
    """

    zone: str
    night: dt.date
    to_night: dt.date
    starts: tuple[dt.datetime, ...]

    def __str__(self) -> str:
        first = f"{self.starts[0]:%H:%M}" if self.starts else "no cycle"
        if self.to_night == self.night:
            return f"{self.night:%a} at {first}"
        return f"{self.night:%a} to {self.to_night:%a} at {first}"


@dataclass(frozen=True, slots=True)
class NightWindow:
    """One night: how long it is, and how long its waterings take.

    Attributes
    ----------
    night : date
        Day on whose evening it begins.
    start, end : datetime
        First and last open minute.
    minutes : int
        From start to end. [min]
    used_minutes : int
        From start to the end of the last zone. [min]
    free_minutes, pairs_minutes : int or None
        Fewest minutes with free starts, and in pairs that start together; None where
        the night has room to spare and nobody asked. [min]
    pairs : tuple of tuple of str
        The pairs.
    peak_flow_l_per_min : float
        Highest flow of the night. [l_per_min]
    """

    night: dt.date
    start: dt.datetime
    end: dt.datetime
    minutes: int
    used_minutes: int
    free_minutes: int | None
    pairs_minutes: int | None
    pairs: tuple[tuple[str, ...], ...]
    peak_flow_l_per_min: float


@dataclass(frozen=True, slots=True)
class NightSummary:
    """The week's nights in one line.

    Attributes
    ----------
    fits : bool or None
        Every watering has its place; None where nothing says what fits.
    minutes_short : int or None
        Minutes by which the window of the worst night is too short. [min]
    gap_to_bound : float or None
        Cost over the least that any timetable can cost, less 1: how far from the best
        possible at most; None where it does not fit. [-]
    bound_kind : str
        Which bound.
    peak_flow_l_per_min : float or None
        Highest flow of the week. [l_per_min]
    pump_l_per_min : float or None
        What the pump gives. [l_per_min]
    most_valves : int
        Most valves open together.
    scale : str
        What the minutes are compared by: water, or money where energy has prices by
        the hour.
    windows : tuple of NightWindow
        The nights that water.
    """

    fits: bool | None
    minutes_short: int | None
    gap_to_bound: float | None
    bound_kind: str
    peak_flow_l_per_min: float | None
    pump_l_per_min: float | None
    most_valves: int
    windows: tuple[NightWindow, ...]
    scale: Literal["water", "money"] = "water"


@dataclass(frozen=True, slots=True)
class NightPlan:
    """Seven nights.

    Attributes
    ----------
    runs : tuple of PlannedRun
        By start, then by zone.
    unplaced : tuple of (str, date)
        Zones and nights without room.
    summary : NightSummary
        The week.
    findings : tuple of Finding
        What must be said.
    traces : tuple of Trace
        Where the numbers of the summary come from.
    wind : NightWind or None
        Usual wind of its minutes.
    board : NightBoard or None
        What a place can be judged by; None where nothing was laid out.
    """

    runs: tuple[PlannedRun, ...]
    unplaced: tuple[tuple[str, dt.date], ...]
    summary: NightSummary
    findings: tuple[Finding, ...]
    traces: tuple[Trace, ...] = ()
    wind: NightWind | None = None
    board: "NightBoard | None" = field(default=None, compare=False, repr=False)
