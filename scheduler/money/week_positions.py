"""One zone's planned week in; what each catch position gets above need out."""

from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import QuantityError
from scheduler.field.uniformity import quarters_in_order
from scheduler.root_zone.balance import run_balance
from scheduler.watering.zone_week import (
    ZoneWeekInput,
    clocked_in_short,
    zone_adequacy,
)

MIN_PER_H = 60.0


@dataclass(frozen=True, slots=True, eq=False)
class PositionWeek:
    """One zone's week at every catch position.

    Attributes
    ----------
    share : array of shape (n_positions,)
        Catch over the mean catch. [-]
    need_mm : float
        What an even catch would be given in the same week, in whole minutes. [mm]
    applied_mm, above_need_mm : array of shape (n_positions,)
        Water put on, and the part of it above the need. [mm]
    passed_mm, rain_passed_mm : array of shape (n_positions,) or None
        Water of the week's nights, and rain, that found no room in the roots or the
        pot; None where no balance is kept. [mm]
    rain_mm : float
        Rain that got to the roots or the pot. [mm]
    """

    share: FloatArray
    need_mm: float
    applied_mm: FloatArray
    above_need_mm: FloatArray
    passed_mm: FloatArray | None
    rain_passed_mm: FloatArray | None
    rain_mm: float

    def by_quarter(self, values_mm: FloatArray) -> FloatArray:
        """Mean of each quarter.

        Parameters
        ----------
        values_mm : array of shape (n_positions,)
            Anything known at every position. [mm]

        Returns
        -------
        array of shape (4,)
            Driest quarter first. [mm]
        """
        order = np.argsort(self.share, kind="stable")
        return quarters_in_order(values_mm[order])


def position_week(
    inputs: ZoneWeekInput, *, nights: tuple[int, ...], minutes_per_day: int
) -> PositionWeek:
    """What each position of a zone gets in a planned week, and what is too much.

    Parameters
    ----------
    inputs : ZoneWeekInput
        What the week was planned on.
    nights : tuple of int
        Nights that water, counted from 0.
    minutes_per_day : int
        Minutes of each. [min]

    Returns
    -------
    PositionWeek
        By position.

    Raises
    ------
    QuantityError
        If a night lies outside the week.

    Notes
    -----
    The need is that of the position which the zone's rule serves: an even catch would
    have gone the same way and is given just that, more only where leaching asks for
    it, which is no waste. Water of a night finds room before the rain of the day, as
    in the balance; the last night drains on the morning after the week.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8, at every catch position.

    Examples
    --------
    >>> from scheduler.root_zone.intake import intake_model
    >>> from scheduler.root_zone.storage import Storage
    >>> from scheduler.site import Plant, Zone
    >>> from scheduler.trace import entered
    >>> bay = Zone(id="F1", name="bay", area_m2=900.0, grown_in="soil", rule="average",
    ...            watered="every allowed day",
    ...            plant=Plant(name="box", kc=1.0, kc_area="bed"))
    >>> share = np.array([0.5, 1.0, 1.0, 1.5])
    >>> inputs = ZoneWeekInput(
    ...     bay, share, 12.0, 0.5, 0.75, np.full(7, 4.0), np.zeros(7),
    ...     Storage(40.0, 18.0, entered("x", 18.0)), 0.0, np.ones(7, dtype=bool),
    ...     intake_model(bay)[0], "nearest", None)
    >>> week = position_week(inputs, nights=tuple(range(7)), minutes_per_day=20)
    >>> week.need_mm, week.above_need_mm.tolist(), week.passed_mm.tolist()
    (28.0, [0.0, 0.0, 0.0, 14.0], [0.0, 0.0, 0.0, 14.0])
    """
    n_days = inputs.etc_mm_per_day.size
    if any(not 0 <= night < n_days for night in nights):
        raise QuantityError(
            f"nights {nights} of a week of {n_days} days", "count them from 0"
        )
    one_mm = inputs.net_rate_mm_per_h * minutes_per_day / MIN_PER_H
    applied = inputs.share * one_mm * len(nights)
    need = _even_week_mm(inputs)
    passed = rain_passed = None
    if inputs.storage is not None:
        passed, rain_passed = _passed(inputs, nights, one_mm)
    return PositionWeek(
        share=inputs.share,
        need_mm=need,
        applied_mm=frozen(applied),
        above_need_mm=frozen(np.maximum(applied - need, 0.0)),
        passed_mm=passed,
        rain_passed_mm=rain_passed,
        rain_mm=float(inputs.rain_at_roots_mm.sum()),
    )


def _even_week_mm(inputs: ZoneWeekInput) -> float:
    """What an even catch would be given, in whole minutes, water short or not.

    Every share is 1, and it begins where the served position begins.
    """
    served = zone_adequacy(inputs).served_factor
    even = replace(
        inputs,
        share=frozen(np.ones(inputs.share.size)),
        du_lq=1.0,
        du_lh=1.0,
        start_depletion_mm=inputs.start_at_mm(1.0 / served),
        most_minutes=None,
    )
    demand, minutes = clocked_in_short(even, zone_adequacy(even))
    return inputs.net_rate_mm_per_h * minutes * len(demand.nights) / MIN_PER_H


def _passed(
    inputs: ZoneWeekInput, nights: tuple[int, ...], one_mm: float
) -> tuple[FloatArray, FloatArray]:
    """Water and rain that found no room, with a morning after the week."""
    assert inputs.storage is not None, "the caller has looked"
    n_days = inputs.etc_mm_per_day.size
    early = np.zeros((n_days + 1, inputs.share.size))
    early[[night + 1 for night in nights]] = inputs.share * one_mm
    start = np.broadcast_to(inputs.start_depletion_mm, inputs.share.shape)
    run = run_balance(
        start,
        etc_mm_per_day=np.append(inputs.etc_mm_per_day, 0.0),
        rain_mm=np.append(inputs.rain_at_roots_mm, 0.0),
        watering_mm=early,
        storage=inputs.storage,
    )
    before = np.vstack([start[None, :], run.depletion_mm[:-1]])
    of_water = np.maximum(early - before, 0.0)
    of_rain = run.percolation_mm - of_water
    return frozen(of_water.sum(axis=0)), frozen(np.maximum(of_rain, 0.0).sum(axis=0))
