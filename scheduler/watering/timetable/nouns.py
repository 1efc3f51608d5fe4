"""What waits to be watered and when it may be in; plain values for the rooms out."""

from dataclasses import dataclass

from scheduler.arrays import BoolArray, FloatArray


@dataclass(frozen=True, slots=True)
class Job:
    """One zone's waterings of a week.

    Attributes
    ----------
    zone : str
        Id of the zone.
    cycles, cycle_min, soak_min : int
        Each watering: so many cycles of so many minutes, with soaks between. [min]
    flow_l_per_min : float or None
        What it takes from the pump; None is not known: placed by time only.
    must : tuple of int
        Nights on which it has to run, counted from 0.
    may : tuple of int
        Further nights on which it is allowed to.
    more : int
        Waterings beside those of `must`, each on another night of `may`.
    rest_nights : int
        Nights that must lie between two of its waterings.
    not_with : tuple of str
        Zones that must not run at the same minute; counts both ways.
    kind : int
        Row of the grid's open minutes and costs that the zone goes by.
    most_soak_min : int or None
        Longest soak; None lets cycles lie as far apart as the night is long. [min]
    clock : int
        The clock that opens it: a place in `clock_valves` of the grid.
    """

    zone: str
    cycles: int
    cycle_min: int
    soak_min: int = 0
    flow_l_per_min: float | None = None
    must: tuple[int, ...] = ()
    may: tuple[int, ...] = ()
    more: int = 0
    rest_nights: int = 0
    not_with: tuple[str, ...] = ()
    kind: int = 0
    most_soak_min: int | None = None
    clock: int = 0

    @property
    def elapsed_min(self) -> int:
        """Minutes from the first to the last minute of one watering, soaks included."""
        return self.cycles * self.cycle_min + (self.cycles - 1) * self.soak_min


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """The minutes of the nights, what they cost, and what may run in each.

    Attributes
    ----------
    is_open : array of shape (n_kinds, n_nights, n_minutes)
        Minutes in which water may run; a change-over counts as running.
    cost : array of shape (n_kinds, n_nights, n_minutes)
        Cost of a litre given in that minute, any unit. [-]
    pump_l_per_min : float or None
        What the pump gives; None is not known and limits nothing. [l_per_min]
    max_valves : int or None
        Valves that may be open at once; of several clocks the sum.
    change_over_min : int
        Minutes before each cycle in which the line fills and no other zone may have
        its flow. [min]
    clock_valves : tuple of int or None
        Valves that each clock may have open at once; empty where there is one clock,
        whose limit is `max_valves`.
    """

    is_open: BoolArray
    cost: FloatArray
    pump_l_per_min: float | None = None
    max_valves: int | None = None
    change_over_min: int = 0
    clock_valves: tuple[int | None, ...] = ()


@dataclass(frozen=True, slots=True, order=True)
class Placed:
    """One watering with its place: the minute of the night at which each cycle begins.

    The change-over, if any, lies before each start.
    """

    night: int
    starts: tuple[int, ...]
    zone: str


@dataclass(frozen=True, slots=True)
class Timetable:
    """A week's timetable.

    Attributes
    ----------
    placed : tuple of Placed
        By night, start and zone.
    unplaced : tuple of str
        Zones of waterings for which no room was found, one entry a watering.
    cost : float
        Litres placed times what each costs. [-]
    bound : float or None
        No timetable of all waterings can cost less; None where some are unplaced.
    bound_kind : str
        `fill` or `lagrangian`, whichever is higher.
    """

    placed: tuple[Placed, ...]
    unplaced: tuple[str, ...]
    cost: float
    bound: float | None = None
    bound_kind: str = ""

    @property
    def gap(self) -> float | None:
        """Cost over the bound, less 1: how far from the best possible at most."""
        if self.bound is None or self.bound <= 0:
            return None
        return max(self.cost / self.bound - 1.0, 0.0)
