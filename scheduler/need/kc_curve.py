"""Levels and a place in the year in; a crop coefficient on any date out."""

import datetime as dt
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import DateArray, FloatArray
from scheduler.need.crop import Stages, day_of_season, stage_curve_kc
from scheduler.said import day_text
from scheduler.trace import Trace, entered

# the part of the year between the last stage and the next start (common practice, no
# source)
REST = "between seasons it runs straight from kc_end back to kc_initial"
DAYS_OF_YEAR = 365


@dataclass(frozen=True, slots=True)
class Season:
    """A stage curve on the calendar.

    Attributes
    ----------
    start : date
        First day of the initial stage.
    stages : Stages
        Lengths. [days]
    every_year : bool
        Whether it begins anew each year.
    """

    start: dt.date
    stages: Stages
    every_year: bool

    @property
    def text(self) -> str:
        """When it begins, for traces."""
        if self.every_year:
            return f"begins anew each year on {day_text(self.start)}; {REST}"
        return f"one season from {self.start}"

    def stage_dates(self, stage: int) -> DateArray:
        """Days of one stage, counted from 0, in the year of the start."""
        before = sum(self.stages[:stage])
        first = np.datetime64(self.start, "D") + before
        return np.asarray(first + np.arange(self.stages[stage]))


@dataclass(frozen=True, slots=True, eq=False)
class PlantKc:
    """Crop coefficient of a plant on any day, on the plant's own area.

    Attributes
    ----------
    levels : tuple of float
        One for all days, twelve by month, or three of a season. [-]
    season : Season or None
        Where the three stand in the year.
    source : str
        Where the numbers came from.
    inputs : tuple of Trace
        What they were made from.
    note : str
        What a reader must know.
    """

    levels: tuple[float, ...]
    season: Season | None
    source: str
    inputs: tuple[Trace, ...] = ()
    note: str = ""

    def times(self, factor: float) -> "PlantKc":
        """The same curve times an own correction; itself for 1."""
        if factor == 1.0:
            return self
        return replace(
            self,
            levels=tuple(one * factor for one in self.levels),
            inputs=(*self.inputs, entered("kc_factor", factor, "zone.plant")),
            note=f"{self.note}; all times kc_factor {factor:g}".removeprefix("; "),
        )

    def on(self, dates: DateArray) -> FloatArray:
        """Coefficient on dates, of shape (n_days,). [-]."""
        days = dates.astype("datetime64[D]")
        if self.season is not None:
            return _on_curve(self.season, self.levels, days)
        if len(self.levels) == 1:
            return np.full(days.shape, self.levels[0], dtype=np.float64)
        month = days.astype("datetime64[M]").astype(np.int64) % 12
        return np.asarray(np.array(self.levels)[month])


def _on_curve(season: Season, levels: tuple[float, ...], days: DateArray) -> FloatArray:
    first, mid, end = levels
    day = day_of_season(season.start, days, every_year=season.every_year)
    on = stage_curve_kc(day, season.stages, kc_initial=first, kc_mid=mid, kc_end=end)
    length = sum(season.stages)
    if not season.every_year or length >= DAYS_OF_YEAR:
        return on
    rest = np.interp(day.astype(np.float64), (length, DAYS_OF_YEAR + 1), (end, first))
    return np.where(day > length, rest, on)
