"""What a season rests on, and what comes out of it: arrays over days and zones."""

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt

from scheduler.arrays import BoolArray, FloatArray, frozen
from scheduler.errors import SchedulerError

IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class SeasonInput:
    """A season of many zones; a single zone has n_zones 1.

    Attributes
    ----------
    share : array of shape (1 or n_days, n_positions, n_zones)
        Catch over the mean catch at each position; by day where each watering draws
        one of several tested runs. [-]
    served_share : array of shape (n_zones,)
        Share of the position that the rule serves: 1 / factor. [-]
    etc_mm_per_day, rain_mm : array of shape (n_days, n_zones)
        Unstressed use on the bed, and rain at the roots. [mm]
    is_open : array of shape (n_days, n_zones)
        Whether the night before a day may water.
    is_always : array of shape (n_zones,)
        Whether every open night waters, or only one that is due.
    fixed_mm : array of shape (n_zones,)
        Mean depth of every open night where minutes are fixed; NaN elsewhere. [mm]
    total_mm, allowed_mm : array of shape (n_zones,)
        Water held, and what of it may be used. [mm]
    start_mm : array of shape (n_zones,)
        Depletion before the first day, at every position. [mm]
    min_per_mm : array of shape (n_zones,)
        Minutes that bring a millimetre on average. [min per mm]
    longest_min : array of shape (n_zones,)
        Longest cycle before runoff; infinite without one. [min]
    """

    share: FloatArray
    served_share: FloatArray
    etc_mm_per_day: FloatArray
    rain_mm: FloatArray
    is_open: BoolArray
    is_always: BoolArray
    fixed_mm: FloatArray
    total_mm: FloatArray
    allowed_mm: FloatArray
    start_mm: FloatArray
    min_per_mm: FloatArray
    longest_min: FloatArray

    def __post_init__(self) -> None:
        for name in ("etc_mm_per_day", "rain_mm", "start_mm", "share"):
            values = getattr(self, name)
            if not np.all(np.isfinite(values) & (values >= 0)):
                raise SchedulerError(
                    f"{name} of the season is negative or unknown",
                    "give 0 or more for every day",
                )
        if np.any(self.start_mm > self.total_mm):
            raise SchedulerError(
                "start_mm of the season is more than the zone holds",
                "give total_mm at most",
            )

    @property
    def n_days(self) -> int:
        """Days of the season."""
        return int(self.etc_mm_per_day.shape[0])

    @property
    def n_zones(self) -> int:
        """Zones run together."""
        return int(self.etc_mm_per_day.shape[1])

    def of_zones(self, begin: int, end: int) -> "SeasonInput":
        """The same season of some of the zones, from `begin` up to `end`."""
        parts = {
            one.name: getattr(self, one.name)[..., begin:end] for one in fields(self)
        }
        return SeasonInput(**parts)

    @property
    def use_ahead_mm(self) -> FloatArray:
        """Use from each day until the next open night, of shape (n_days, n_zones)."""
        ahead = np.zeros_like(self.etc_mm_per_day)
        running = np.zeros(self.n_zones)
        for day in range(self.n_days - 1, -1, -1):
            running = running + self.etc_mm_per_day[day]
            ahead[day] = running
            running = np.where(self.is_open[day], 0.0, running)
        return ahead


@dataclass(frozen=True, slots=True, eq=False)
class SeasonResult:
    """What every position got, used and lost.

    Attributes
    ----------
    applied_mm, used_mm, percolation_mm, end_mm : array of shape (n_positions, n_zones)
        Water put on, used by plants, drained below the roots, and depletion at the
        end. [mm]
    stress_days : array of shape (n_positions, n_zones)
        Days with less use than plants asked for.
    waterings, minutes : array of shape (n_zones,)
        Number of nights watered, and their whole minutes together. [-, min]
    watering_mm : array of shape (n_days, n_zones)
        Mean depth of the night before each day; 0 where it did not water. [mm]
    depletion_mm : array of shape (n_days, n_positions + 1, n_zones)
        Depletion at the end of each day, the served position last; of no days where no
        trace was asked for. [mm]
    closure_error_mm : float
        Largest difference, over positions, between what came and what went. [mm]
    """

    applied_mm: FloatArray
    used_mm: FloatArray
    percolation_mm: FloatArray
    end_mm: FloatArray
    stress_days: FloatArray
    waterings: IntArray
    minutes: IntArray
    watering_mm: FloatArray
    depletion_mm: FloatArray
    closure_error_mm: float


def joined(parts: Sequence[SeasonResult]) -> SeasonResult:
    """Results of some zones each, put side by side.

    Parameters
    ----------
    parts : sequence of SeasonResult
        In the order of the zones; at least one.

    Returns
    -------
    SeasonResult
        Of all zones.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> one = np.ones((1, 1))
    >>> part = SeasonResult(
    ...     one, one, one, one, one, one[0], one[0], one, one[None], 0.0)
    >>> joined([part, part]).applied_mm.shape
    (1, 2)
    """
    if len(parts) == 1:
        return parts[0]
    arrays = {
        one.name: frozen(np.concatenate([getattr(p, one.name) for p in parts], axis=-1))
        for one in fields(SeasonResult)
        if one.name != "closure_error_mm"
    }
    counts = {
        name: frozen(arrays.pop(name), np.int64) for name in ("waterings", "minutes")
    }
    worst = max(part.closure_error_mm for part in parts)
    return SeasonResult(**arrays, **counts, closure_error_mm=worst)


def closure_error_mm(season: SeasonInput, sums: tuple[FloatArray, ...]) -> float:
    """Largest difference between what came and what went, over all positions.

    Parameters
    ----------
    season : SeasonInput
        For the rain and the start.
    sums : tuple of arrays of shape (n_positions, n_zones)
        Applied, used, percolated, depletion at the end. [mm]

    Returns
    -------
    float
        Difference. [mm]

    References
    ----------
    Source: definition: in = out + change.

    Examples
    --------
    >>> one = np.ones((1, 1))
    >>> season = SeasonInput(one[None], one[0], 5 * one, 0 * one, one > 0, one[0] > 0,
    ...     one[0] * np.nan, 40 * one[0], 16 * one[0], 0 * one[0], one[0], one[0])
    >>> closure_error_mm(season, (0 * one, 5 * one, 0 * one, 5 * one))
    0.0
    """
    applied, used, percolated, end = sums
    # in place: so many zones are long to copy
    left = applied + (season.rain_mm.sum(axis=0) - season.start_mm)
    left -= used
    left -= percolated
    left += end
    return float(np.max(np.abs(left, out=left), initial=0.0))
