"""Zone, weather and catch in, one week's input with names for its days out."""

import datetime as dt
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, FloatArray
from scheduler.need.zone_leaching import ZoneLeaching
from scheduler.root_zone.intake import IntakeModel
from scheduler.root_zone.rain import counted_rain_mm
from scheduler.root_zone.storage import Storage
from scheduler.said import day_text
from scheduler.site import Zone
from scheduler.units import shown
from scheduler.watering.cycles import Rounding


@dataclass(frozen=True, slots=True, eq=False)
class ZoneWeekInput:
    """What one zone's week rests on.

    Attributes
    ----------
    share : array of shape (n_positions,)
        Catch at each position over the mean catch. [-]
    etc_mm_per_day, rain_mm : array of shape (n_days,)
        Unstressed use on the bed, and rain. [mm]
    start_depletion_mm : float or array of shape (n_positions,)
        Depletion on the morning of the first day, after the night before. [mm]
    allowed_day : array of shape (n_days,)
        Nights on which watering may begin.
    leaching : ZoneLeaching or None
        Requirement of a soil or target of pots.
    dates : tuple of date
        The days, so that findings can name them; may be empty.
    most_minutes : int or None
        What one watering may have at most, where water is short. [min]
    chosen_nights : tuple of int or None
        Nights that somebody chose for a zone that waters when due, counted from 0; None
        leaves them to its depletion.
    """

    zone: Zone
    share: FloatArray
    net_rate_mm_per_h: float
    du_lq: float
    du_lh: float
    etc_mm_per_day: FloatArray
    rain_mm: FloatArray
    storage: Storage | None
    start_depletion_mm: FloatArray | float
    allowed_day: BoolArray
    intake: IntakeModel
    rounding: Rounding
    max_cycles: int | None
    dates: tuple[dt.date, ...] = ()
    leaching: ZoneLeaching | None = None
    most_minutes: int | None = None
    chosen_nights: tuple[int, ...] | None = None

    @property
    def where(self) -> str:
        """The zone, as findings name it."""
        return f"zone {self.zone.id}"

    def day(self, index: int) -> str:
        """Name of a day, for findings."""
        return (
            day_text(self.dates[index], "%a %d %b")
            if self.dates
            else f"day {index + 1}"
        )

    @property
    def rain_at_roots_mm(self) -> FloatArray:
        """Rain that gets to the roots or the pot, before it is stored or drains."""
        counted = self.zone.rain_counted
        return counted_rain_mm(self.rain_mm, 1.0 if counted is None else counted)

    @property
    def allowed_nights(self) -> tuple[int, ...]:
        """Nights on which watering may begin, counted from 0."""
        return tuple(int(d) for d in np.flatnonzero(self.allowed_day))

    def start_at_mm(self, share: float) -> float:
        """Starting depletion of a position that catches that share of the mean."""
        start = np.broadcast_to(self.start_depletion_mm, self.share.shape)
        order = np.argsort(self.share)
        return float(np.interp(share, self.share[order], start[order]))


def depth_text(depth_mm: float) -> str:
    """Depth in both systems, for findings of a site whose units are not known here.

    Parameters
    ----------
    depth_mm : float
        Depth. [mm]

    Returns
    -------
    str
        Such as `12.7 mm (0.50 in)`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> depth_text(12.7)
    '12.7 mm (0.50 in)'
    """
    return f"{shown(depth_mm, 'mm', 'metric')} ({shown(depth_mm, 'mm', 'us')})"
