"""Windows and blocked hours in; the minutes of each night, open or not, out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from scheduler.arrays import BoolArray, frozen
from scheduler.site import WEEKDAYS, BlockedHours, Site, Window
from scheduler.supply import EnergyPeriod, minutes_between
from scheduler.watering.night_plan.clock_change import ChangedNight, changed_night

MINUTES_PER_DAY = 1440
# where no window is entered the night begins here (common practice, no source)
EVENING_MIN = 18 * 60


@dataclass(frozen=True, slots=True, eq=False)
class NightHours:
    """The minutes of the nights.

    Attributes
    ----------
    dates : tuple of date
        Days on whose evening the nights begin.
    first_min : int
        Minute of the day at which every night's count begins. [min]
    is_open : array of shape (n_nights, n_minutes)
        Minutes of the windows, less the hours blocked for all zones, and less those
        that the wall clock skips.
    changes : dict of int to ChangedNight
        Nights in which the clocks change.
    """

    dates: tuple[dt.date, ...]
    first_min: int
    is_open: BoolArray
    changes: dict[int, ChangedNight] = field(default_factory=dict)

    def clock(self, night: int, minute: int) -> dt.datetime:
        """Date and time of a minute of a night."""
        midnight = dt.datetime.combine(self.dates[night], dt.time())
        return midnight + dt.timedelta(minutes=self.first_min + minute)

    def minute(self, night: int, clock: dt.datetime) -> int:
        """Minute of a night of a date and time; below 0 before it begins."""
        since = clock - self.clock(night, 0)
        return round(since.total_seconds() / 60)

    def without(self, blocked: Sequence[BlockedHours]) -> BoolArray:
        """Open minutes less some blocked hours, of the same shape."""
        is_open = np.array(self.is_open)
        for one in blocked:
            for night, start, end in self.reach(one):
                is_open[night, start:end] = False
        return is_open

    def reach(self, one: BlockedHours | EnergyPeriod) -> list[tuple[int, int, int]]:
        """Nights and minutes, first and end, that hours of calendar days take."""
        found = []
        minutes = minutes_between(one.start, one.end)
        first = one.start.hour * 60 + one.start.minute
        for night, date in enumerate(self.dates):
            for later in (-1, 0, 1):  # calendar days that reach into the night
                day = (date + dt.timedelta(days=later)).weekday()
                start = later * MINUTES_PER_DAY + first - self.first_min
                end = start + minutes
                if WEEKDAYS[day] in one.days and end > 0:
                    found.append((night, max(start, 0), end))
        return found


def night_hours(site: Site, dates: Sequence[dt.date]) -> NightHours:
    """Open minutes of the nights of a site.

    Parameters
    ----------
    site : Site
        For its windows and blocked hours.
    dates : sequence of date
        Days on whose evening the nights begin.

    Returns
    -------
    NightHours
        Counted from the start of the first window after the longest closed gap.

    Notes
    -----
    Days of a window name the night, as everywhere: with windows from 22:00 and from
    04:00, the second one of `mon` is that of Tuesday's early hours. Days of blocked
    hours are calendar days.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> night = Window(start=dt.time(22), end=dt.time(4, 30), days=("mon",))
    >>> site = Site(name="a", units="us", place=place, windows=(night,))
    >>> hours = night_hours(site, [dt.date(2026, 6, 8), dt.date(2026, 6, 9)])
    >>> hours.is_open.sum(axis=1).tolist(), str(hours.clock(0, 120))
    ([390, 0], '2026-06-09 00:00:00')
    """
    first = _first_minute(site.windows)
    if not site.windows:
        is_open = np.ones((len(dates), MINUTES_PER_DAY), dtype=bool)
    else:
        is_open = np.zeros((len(dates), MINUTES_PER_DAY), dtype=bool)
        for window in site.windows:
            start = (_start(window) - first) % MINUTES_PER_DAY
            for night, date in enumerate(dates):
                if WEEKDAYS[date.weekday()] in window.days:
                    is_open[night, start : start + window.minutes] = True
        used = np.flatnonzero(is_open.any(axis=0))
        is_open = is_open[:, : used[-1] + 1 if used.size else 1]
    for_all = [one for one in site.blocked_hours if not one.zones]
    hours = NightHours(tuple(dates), first, frozen(is_open, np.bool_))
    is_open = np.array(hours.without(for_all))
    changes = {}
    for night, date in enumerate(dates):
        size, zone = is_open.shape[1], site.place.time_zone
        changed = changed_night(date, first, size, zone)
        if changed is not None:
            changes[night] = changed
            is_open[night] &= ~changed.skipped
    return NightHours(hours.dates, first, frozen(is_open, np.bool_), changes)


def _start(window: Window) -> int:
    return window.start.hour * 60 + window.start.minute


def _first_minute(windows: Sequence[Window]) -> int:
    """Start of the window before which the day is closed longest."""
    if not windows:
        return EVENING_MIN
    closed = np.ones(MINUTES_PER_DAY, dtype=bool)
    for window in windows:
        at = (_start(window) + np.arange(window.minutes)) % MINUTES_PER_DAY
        closed[at] = False

    def gap(window: Window) -> int:
        before = (_start(window) - 1 - np.arange(MINUTES_PER_DAY)) % MINUTES_PER_DAY
        row = closed[before]
        return int(np.argmin(row)) if not row.all() else MINUTES_PER_DAY

    best = max(windows, key=lambda one: (gap(one), -_start(one)))
    return _start(best)
