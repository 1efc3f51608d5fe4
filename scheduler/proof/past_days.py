"""Stations and a gauge in; ETo and rain of past days, with their error, out."""

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from scheduler.arrays import DateArray, FloatArray
from scheduler.need.outlook import MEASURED, outlook
from scheduler.need.reference_et import ReferenceET
from scheduler.record import RainSeries

# Error of one day's ETo as part of itself: by the Penman-Monteith equation from a
# station nearby, and where another year's day stands in for it (common practice, no
# source; days of one month differ by about a quarter).
MEASURED_SD, STAND_IN_SD = 0.10, 0.25
# less rain than this does not reach a pot under its leaves (common practice, no source)
COUNTED_RAIN_MM = 2.0


@dataclass(frozen=True, slots=True, eq=False)
class PastUse:
    """Reference ET of some days, and the rain that fell on them.

    Attributes
    ----------
    date : array of shape (n_days,)
        The days. [datetime64[D]]
    eto_mm_per_day : array of shape (n_days,)
        Reference ET. [mm/day]
    sd : float
        Error of their sum, as part of itself. [-]
    rain_mm : float
        Rain that a gauge or a station measured. [mm]
    is_measured : bool
        Whether every day's ETo was measured.
    """

    date: DateArray
    eto_mm_per_day: FloatArray
    sd: float
    rain_mm: float
    is_measured: bool

    @property
    def eto_mm(self) -> float:
        """Sum over the days. [mm]."""
        return float(self.eto_mm_per_day.sum())


@dataclass(frozen=True, slots=True, eq=False)
class PastDays:
    """Weather that past days are looked up in; nothing of today or later."""

    series: Sequence[ReferenceET]
    rain: RainSeries | None
    today: dt.date
    # zones are often checked on one day: what was looked up is kept
    known: dict[tuple[dt.date, ...], PastUse | None] = field(default_factory=dict)

    def use_of(self, days: Sequence[dt.date]) -> PastUse | None:
        """ETo and rain of some days; None where some day cannot be known at all."""
        asked = tuple(days)
        if asked not in self.known:
            self.known[asked] = self._looked_up(asked)
        return self.known[asked]

    def _looked_up(self, days: Sequence[dt.date]) -> PastUse | None:
        dates = np.array(list(days), dtype="datetime64[D]")
        found, _ = outlook(self.series, self.rain, dates=dates, today=self.today)
        if found is None:
            return None
        measured = [one == MEASURED for one in found.eto_basis]
        daily = found.eto_mm_per_day
        error = np.where(measured, MEASURED_SD, STAND_IN_SD) * daily
        eto = float(daily.sum())
        if eto <= 0:
            return None
        sd = math.sqrt(float((error**2).sum())) / eto
        rain = float(found.rain_mm.sum())
        return PastUse(dates, daily, sd, rain, all(measured))
