"""What one zone's week is made of in, its frozen result out."""

from dataclasses import dataclass

from scheduler.arrays import FloatArray
from scheduler.errors import Finding
from scheduler.trace import Trace
from scheduler.watering.cycles import Split
from scheduler.watering.leached import WeekLeaching
from scheduler.watering.run_time import RowName, RuleOutcome


@dataclass(frozen=True, slots=True, eq=False)
class ZoneWeek:
    """One zone's week.

    Attributes
    ----------
    minutes_exact : float
        Minutes of the week before rounding. [min]
    minutes_week, minutes_per_day : int
        Whole minutes of the week and of one night. [min]
    day_index : tuple of int
        Nights that water, counted from 0.
    night_need_mm : tuple of float
        What each of them is to store at the position that the rule serves. [mm]
    realised_depth_mm : float
        Mean depth that the whole minutes give. [mm]
    realised_error : float
        Over the exact depth, minus 1. [-]
    quarters : tuple of float
        What the driest to the wettest quarter get after rounding, over need. [-]
    served_depletion_mm : array of shape (n_days,)
        At the position that the rule serves, each evening; empty without balance. [mm]
    depletion_mm : array of shape (n_days, n_positions)
        The same at every position. [mm]
    leaching : WeekLeaching or None
        What each quarter leaches; None for fixed minutes.
    traces : dict of str to Trace
        By name; `minutes_per_day` reaches everything above it.
    """

    etc_mm: float
    effective_rain_mm: float
    need_mm: float
    rule: RowName
    factor: float
    rules: tuple[RuleOutcome, ...]
    gross_depth_mm: float
    minutes_exact: float
    minutes_week: int
    day_index: tuple[int, ...]
    minutes_per_day: int
    split: Split
    realised_depth_mm: float
    realised_error: float
    quarters: tuple[float, ...]
    served_depletion_mm: FloatArray
    depletion_mm: FloatArray
    findings: tuple[Finding, ...]
    traces: dict[str, Trace]
    leaching: WeekLeaching | None = None
    night_need_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Given:
    """Traces from the rooms above: rate, uniformity, use, starting depletion, rain."""

    rate: Trace
    du: Trace
    etc: Trace
    start: Trace | None
    rain: Trace | None = None
