"""Wind by minute and what a package makes of it in; cost of a litre by minute out."""

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError


def extra_water(
    factor: FloatArray,
    rate_mm_per_h: FloatArray,
    *,
    ref_factor: float,
    ref_rate_mm_per_h: float,
) -> FloatArray:
    """Water beyond that of the reference wind which the chosen rule then asks for.

    Parameters
    ----------
    factor : array of any shape
        The rule's factor at the wind of each minute. [-]
    rate_mm_per_h : array of the same shape
        Net rate at that wind. [mm/h]
    ref_factor : float
        Factor that the week was planned with. [-]
    ref_rate_mm_per_h : float
        Net rate that the week was planned with. [mm/h]

    Returns
    -------
    array of the same shape
        As a share of the water; below 0 in a minute calmer than the reference. [-]

    Raises
    ------
    SchedulerError
        If a factor or a rate is not above 0.

    Notes
    -----
    factor(w) / factor(ref) x rate(ref) / rate(w) - 1. Under the rule `average` the
    factor is 1 at any wind, so it pays for drift alone.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> extra_water(np.array([1.5]), np.array([9.5]), ref_factor=1.25,
    ...             ref_rate_mm_per_h=10.0).round(3).tolist()
    [0.263]
    """
    least = min(
        ref_factor,
        ref_rate_mm_per_h,
        float(np.min(factor, initial=np.inf)),
        float(np.min(rate_mm_per_h, initial=np.inf)),
    )
    if not least > 0:
        raise SchedulerError(
            f"a factor or a rate is {least:g}",
            "give factors and rates above 0",
            "timetable",
        )
    return np.asarray(factor / ref_factor * (ref_rate_mm_per_h / rate_mm_per_h) - 1.0)


def litre_cost(
    extra: FloatArray, price_money_per_m3: FloatArray | float | None = None
) -> FloatArray:
    """Cost of a litre of the plan in each minute.

    Parameters
    ----------
    extra : array of any shape
        Extra water of each minute. [-]
    price_money_per_m3 : array of the same shape or float, optional
        Water and energy at the hour's tariff; without it the cost is in litres.
        [money_per_m3]

    Returns
    -------
    array of the same shape
        1 + extra, in litres, or times the price, in thousandths of money.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> litre_cost(np.array([0.0, 0.25]), np.array([2.0, 1.0])).tolist()
    [2.0, 1.25]
    """
    price = 1.0 if price_money_per_m3 is None else price_money_per_m3
    return np.asarray((1.0 + extra) * price)
