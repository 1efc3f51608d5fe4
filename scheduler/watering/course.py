"""The days behind and a planned week in, depletion evening by evening out."""

import datetime as dt
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.field.uniformity import quarters_in_order
from scheduler.watering.run_time import MIN_PER_H
from scheduler.watering.start import CourseBehind, DaysBehind, course_behind
from scheduler.watering.zone_week import ZoneWeek, ZoneWeekInput, zone_adequacy


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """Depletion of one zone, each evening before the night's watering.

    Attributes
    ----------
    dates : tuple of date
        Days behind, where they are known, then the week.
    n_behind : int
        How many of them lie behind.
    served_mm : array of shape (n_days,)
        At the position that the rule serves. [mm]
    quarter_mm : array of shape (n_days, 4)
        Mean of each quarter, driest first. [mm]
    watering_mm : array of shape (n_days,)
        Mean depth of the night that begins on that evening. [mm]
    allowed_mm : float
        What may be used before the next watering. [mm]
    """

    dates: tuple[dt.date, ...]
    n_behind: int
    served_mm: FloatArray
    quarter_mm: FloatArray
    watering_mm: FloatArray
    allowed_mm: float

    def passed_on(self) -> tuple[dt.date, ...]:
        """Evenings of the week on which the served position passes the allowed line."""
        week = zip(
            self.dates[self.n_behind :], self.served_mm[self.n_behind :], strict=True
        )
        return tuple(day for day, depth in week if depth > self.allowed_mm)


def zone_course(
    inputs: ZoneWeekInput, week: ZoneWeek, behind: DaysBehind | None
) -> Course | None:
    """Depletion of a zone through the days behind and the planned week.

    Parameters
    ----------
    inputs : ZoneWeekInput
        What the week was planned on.
    week : ZoneWeek
        The planned week.
    behind : DaysBehind or None
        The days before, where weather and catch are known.

    Returns
    -------
    Course or None
        None where no balance is kept. Days behind are left out where the week does not
        start from them: a depletion was entered, or a night's setting is not known.

    Notes
    -----
    A quarter is the mean of its catch positions; a position on the border counts by
    its fraction. The served position lies between positions by its share, straight.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8.

    Examples
    --------
    >>> from scheduler.root_zone.intake import intake_model
    >>> from scheduler.root_zone.storage import Storage
    >>> from scheduler.site import Plant, Zone
    >>> from scheduler.trace import entered
    >>> from scheduler.watering.zone_week import zone_week
    >>> none = entered("any", 0.0)
    >>> bay = Zone(id="F1", name="bay", area_m2=900.0, grown_in="soil", rule="average",
    ...            plant=Plant(name="box", kc=1.0, kc_area="bed"))
    >>> inputs = ZoneWeekInput(
    ...     bay, np.ones(24), 12.0, 1.0, 1.0, np.full(7, 4.0), np.zeros(7),
    ...     Storage(40.0, 18.0, none), 0.0, np.ones(7, dtype=bool),
    ...     intake_model(bay)[0], "nearest", None)
    >>> week = zone_week(inputs, rate_trace=none, du_trace=none, etc_trace=none)
    >>> zone_course(inputs, week, None).served_mm[:4].tolist()
    [4.0, 8.0, 12.0, 16.0]
    """
    storage = inputs.storage
    if storage is None or week.served_depletion_mm.size == 0:
        return None
    before = None
    if behind is not None and inputs.zone.start_depletion_mm is None:
        before = course_behind(inputs.zone, storage, behind)
    watered = np.zeros(inputs.etc_mm_per_day.size)
    nightly = inputs.net_rate_mm_per_h * week.minutes_per_day / MIN_PER_H
    watered[list(week.day_index)] = nightly
    served, quarters = week.served_depletion_mm, _quarters(inputs, week.depletion_mm)
    dates = inputs.dates
    if before is not None and behind is not None:
        dates = (*behind.dates, *dates)
        served = np.concatenate([_served(inputs, before), served])
        quarters = np.vstack([_quarters(inputs, before.depletion_mm), quarters])
        watered = np.concatenate([before.watering_mm.mean(axis=1), watered])
    return Course(
        dates=dates,
        n_behind=len(dates) - len(inputs.dates),
        served_mm=frozen(served),
        quarter_mm=frozen(quarters),
        watering_mm=frozen(watered),
        allowed_mm=storage.allowed_mm,
    )


def _quarters(inputs: ZoneWeekInput, depletion_mm: FloatArray) -> FloatArray:
    order = np.argsort(inputs.share, kind="stable")
    return quarters_in_order(depletion_mm[:, order].T).T


def _served(inputs: ZoneWeekInput, before: CourseBehind) -> FloatArray:
    order = np.argsort(inputs.share, kind="stable")
    share = inputs.share[order]
    served = 1.0 / zone_adequacy(inputs).served_factor
    each = [np.interp(served, share, row[order]) for row in before.depletion_mm]
    return np.asarray(each, dtype=np.float64)
