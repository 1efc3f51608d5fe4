"""One zone's planned week and a cool and a hot week's use in; their minutes out.

The week is planned anew for each. Where its nights would then fall so that the week's
need lies on the wrong side of the planned one (a night that slips into the next week
takes its water along), the planned nights are kept.
"""

from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.trace import Trace
from scheduler.watering.leached import Adequacy
from scheduler.watering.zone_week import (
    Demand,
    ZoneWeek,
    ZoneWeekInput,
    clocked_in_short,
    zone_adequacy,
)


@dataclass(frozen=True, slots=True)
class NeedRange:
    """What the zone needs in a cool and in a hot week, one in ten each.

    Attributes
    ----------
    low_mm, high_mm : float
        Need of the cool and the hot week, around the planned one. [mm]
    minutes_cool, minutes_hot : int
        Whole minutes of one night. [min]
    nights_cool, nights_hot : int
        How many nights they run.
    n_years : int
        Years that the range rests on.
    low, high : Trace
        Where the two needs came from.
    """

    low_mm: float
    high_mm: float
    minutes_cool: int
    minutes_hot: int
    nights_cool: int
    nights_hot: int
    n_years: int
    low: Trace
    high: Trace


def need_range(
    inputs: ZoneWeekInput,
    week: ZoneWeek,
    *,
    cool: tuple[FloatArray, Trace],
    hot: tuple[FloatArray, Trace],
    n_years: int,
) -> NeedRange:
    """Need and minutes of a cool and of a hot week.

    Parameters
    ----------
    inputs : ZoneWeekInput
        What the week was planned on.
    week : ZoneWeek
        The planned week.
    cool, hot : tuple of array of shape (n_days,) and Trace
        Use on the bed in such a week [mm/day], and its reference ET.
    n_years : int
        Years that they rest on.

    Returns
    -------
    NeedRange
        low_mm is never above the planned need, high_mm never below: no day of the cool
        week uses more than planned, none of the hot week less.

    References
    ----------
    Source: definition; the week as in `zone_week`.

    Examples
    --------
    >>> from scheduler.root_zone.intake import intake_model
    >>> from scheduler.site import Plant, Zone
    >>> from scheduler.trace import entered
    >>> from scheduler.watering.zone_week import zone_week
    >>> yard = Zone(id="Z4", name="yard", area_m2=900.0, grown_in="pots",
    ...             plant=Plant(name="holly", kc=1.0, kc_area="bed"), rule="average")
    >>> inputs = ZoneWeekInput(
    ...     yard, np.ones(24), 12.0, 1.0, 1.0, np.full(7, 4.0), np.zeros(7), None, 0.0,
    ...     np.ones(7, dtype=bool), intake_model(yard)[0], "nearest", None)
    >>> eto = entered("eto_mm", 28.0)
    >>> week = zone_week(inputs, rate_trace=eto, du_trace=eto, etc_trace=eto)
    >>> found = need_range(inputs, week, cool=(np.full(7, 3.0), eto),
    ...                    hot=(np.full(7, 5.0), eto), n_years=9)
    >>> found.low_mm, found.high_mm, found.minutes_cool, found.minutes_hot
    (21.0, 35.0, 15, 25)
    """
    adequate = zone_adequacy(inputs)
    # wet ground dries sooner in a hot week, and may use less on single days
    least = np.minimum(cool[0], inputs.etc_mm_per_day)
    most = np.maximum(hot[0], inputs.etc_mm_per_day)
    low, low_minutes = _told(inputs, week, least, adequate)
    high, high_minutes = _told(inputs, week, most, adequate)
    return NeedRange(
        low_mm=low.need_mm,
        high_mm=high.need_mm,
        minutes_cool=low_minutes,
        minutes_hot=high_minutes,
        nights_cool=len(low.nights),
        nights_hot=len(high.nights),
        n_years=n_years,
        low=_trace("need_low_mm", (low, low_minutes), week, cool[1]),
        high=_trace("need_high_mm", (high, high_minutes), week, hot[1]),
    )


def _told(
    inputs: ZoneWeekInput, week: ZoneWeek, etc: FloatArray, adequate: Adequacy
) -> tuple[Demand, int]:
    """The week under another use: planned anew, else on the planned nights."""
    other = replace(inputs, etc_mm_per_day=etc)
    demand, minutes = clocked_in_short(other, adequate)
    more = demand.need_mm - week.need_mm
    is_hot = bool(etc.sum() > inputs.etc_mm_per_day.sum())
    if inputs.storage is None or (more >= 0 if is_hot else more <= 0):
        return demand, minutes
    kept = np.isin(np.arange(etc.size), week.day_index)
    # on exactly these nights the zone fills what is lacking, due or not
    every = inputs.zone.model_copy(update={"watered": "every allowed day"})
    return clocked_in_short(replace(other, allowed_day=kept, zone=every), adequate)


def _trace(name: str, told: tuple[Demand, int], week: ZoneWeek, eto: Trace) -> Trace:
    demand, minutes = told
    return Trace(
        name,
        demand.need_mm,
        f"as need_mm, with the ETo of that week: {len(demand.nights)} nights of "
        f"{minutes} min",
        "definition; nights and minutes as those of the planned week",
        (week.traces["need_mm"], eto),
    )
