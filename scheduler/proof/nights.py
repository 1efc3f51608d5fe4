"""What a zone was told and the log in; nights that watered, days between, out."""

import datetime as dt
import math
from dataclasses import dataclass

from scheduler.log import Watering
from scheduler.proof.told import told_nights
from scheduler.record import History
from scheduler.site import WEEKDAYS, Site, Zone

# A check noted before noon belongs to the night before (common practice, no source).
NOON = dt.time(12)
# Longer than this no pot is left without water (common practice, no source).
MOST_DAYS = 7
ONE_DAY = dt.timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Nights:
    """Which nights watered a zone: as logged, else as told, else every allowed one.

    Attributes
    ----------
    zone : Zone
        For its days and the clock as found.
    site : Site
        For the clock.
    history : History
        Issued weeks, and the lines of the log about this zone.
    """

    zone: Zone
    site: Site
    history: History

    def is_watered(self, night: dt.date) -> bool:
        """Whether a night watered, by what is known best."""
        ran = float(told_nights(self.zone, self.site, self.history, [night]).ran_min[0])
        if math.isnan(ran):
            return WEEKDAYS[night.weekday()] in self.zone.days
        return ran > 0

    def is_skipped(self, night: dt.date) -> bool:
        """Whether somebody noted that a night was left out, and no water besides."""
        noted = [one for one in self._noted() if one.date == night]
        return bool(noted) and all(one.is_skipped for one in noted)

    def minutes(self, night: dt.date) -> float | None:
        """Minutes that ran as somebody noted them; None where nobody did. [min]."""
        ran = [one for one in self._noted() if one.date == night]
        return sum(one.minutes for one in ran) if ran else None

    def days_before(self, night: dt.date) -> tuple[dt.date, ...]:
        """Days whose use the water of a night made up for, a week at most."""
        days = [night]
        while len(days) < MOST_DAYS and not self.is_watered(days[0] - ONE_DAY):
            days.insert(0, days[0] - ONE_DAY)
        return tuple(days)

    def _noted(self) -> tuple[Watering, ...]:
        wanted = self.zone.id.casefold()
        every = self.history.log.of(Watering)
        return tuple(one for one in every if one.zone.casefold() == wanted)


def night_of(date: dt.date, time: dt.time | None) -> dt.date:
    """Night whose water a check caught: the day on whose evening it began.

    Parameters
    ----------
    date : date
        Day of the check.
    time : time or None
        When it was noted; before noon if nobody did.

    Returns
    -------
    date
        The day before, or the day itself for a check after noon.

    References
    ----------
    Source: common practice, no source.

    Examples
    --------
    >>> night_of(dt.date(2026, 6, 3), dt.time(6, 50)).isoformat()
    '2026-06-02'
    """
    is_evening = time is not None and time >= NOON
    return date if is_evening else date - ONE_DAY
