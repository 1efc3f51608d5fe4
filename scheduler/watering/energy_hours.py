"""A lift, a pump, a tariff in; energy of a cubic metre, its price by minute out."""

import datetime as dt
import math
from collections.abc import Sequence

import numpy as np

from scheduler.arrays import FloatArray, IntArray
from scheduler.site import WEEKDAYS, Supply, Tariff, Weekday
from scheduler.trace import Trace, entered

# standard gravity, exact by definition; water at 4 degrees
GRAVITY_M_PER_S2 = 9.80665
WATER_KG_PER_M3 = 1000.0
J_PER_KWH = 3.6e6
MIN_PER_DAY = 1440

Hours = tuple[dt.time, dt.time, Sequence[Weekday]]


def pumping_energy_kwh_per_m3(head_m: float, *, efficiency: float) -> float:
    """Energy to lift a cubic metre.

    Parameters
    ----------
    head_m : float
        Total dynamic head. [m]
    efficiency : float
        Of pump and motor together, above 0 to 1. [-]

    Returns
    -------
    float
        rho g h / efficiency. [kwh per m3]

    Notes
    -----
    In US units 0.00314 kWh per kgal and foot of head over the efficiency.

    References
    ----------
    Source: definition (potential energy).

    Examples
    --------
    >>> round(pumping_energy_kwh_per_m3(100.0, efficiency=1.0), 4)
    0.2724
    """
    return WATER_KG_PER_M3 * GRAVITY_M_PER_S2 * head_m / efficiency / J_PER_KWH


def supply_energy_kwh_per_m3(
    supply: Supply | None, extra_head_m: float = 0.0
) -> tuple[float | None, Trace]:
    """Energy of a cubic metre from a site's pump.

    Parameters
    ----------
    supply : Supply or None
        The pump.
    extra_head_m : float
        Head that another pressure asks for besides, below 0 where it asks less. [m]

    Returns
    -------
    energy : float or None
        None where head or efficiency is not entered. [kwh per m3]
    trace : Trace
        Where it came from.

    References
    ----------
    Source: definition (potential energy).

    Examples
    --------
    >>> pump = Supply(source="well", head_m=70.4, pumping_efficiency=0.55)
    >>> round(supply_energy_kwh_per_m3(pump)[0], 3)
    0.349
    """
    head = supply.head_m if supply else None
    efficiency = supply.pumping_efficiency if supply else None
    value = None
    if head is not None and efficiency is not None:
        value = pumping_energy_kwh_per_m3(
            max(head + extra_head_m, 0.0), efficiency=efficiency
        )
    parts = (
        entered("head_m", head, "site.toml: supply"),
        entered("extra_head_m", extra_head_m, "pressure of the package"),
        entered("pumping_efficiency", efficiency, "site.toml: supply"),
    )
    formula = "density of water x gravity x head / efficiency, in kWh"
    return value, Trace("energy_kwh_per_m3", value, formula, "definition", parts)


def _minutes_of(start: dt.time, end: dt.time, days: Sequence[Weekday]) -> list[int]:
    """Minutes of the week, Monday 0:00 first; a span may cross midnight."""
    first = start.hour * 60 + start.minute
    length = (end.hour * 60 + end.minute - first) % MIN_PER_DAY or MIN_PER_DAY
    return [
        (WEEKDAYS.index(day) * MIN_PER_DAY + first + i) % (7 * MIN_PER_DAY)
        for day in days
        for i in range(length)
    ]


def week_of_hours(spans: Sequence[Hours]) -> IntArray:
    """Minutes of a week that lie in some spans.

    Parameters
    ----------
    spans : sequence of (time, time, days)
        Start, end and days of each; may cross midnight.

    Returns
    -------
    array of shape (n_minutes,)
        Minutes of the week, Monday 0:00 first, each once. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> week_of_hours([(dt.time(23, 59), dt.time(0, 1), ("sun",))]).tolist()
    [0, 10079]
    """
    every = sorted({minute for span in spans for minute in _minutes_of(*span)})
    return np.array(every, dtype=np.int64)


def week_of_prices(tariff: Tariff) -> FloatArray:
    """Price of energy in each minute of a week.

    Parameters
    ----------
    tariff : Tariff
        Prices; a later period overrides an earlier one.

    Returns
    -------
    array of shape (10080,)
        Monday 0:00 first; NaN where none is entered. [money_per_kwh]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> week_of_prices(Tariff(currency="USD", energy_price_money_per_kwh=0.1))[:2]
    array([0.1, 0.1])
    """
    base = tariff.energy_price_money_per_kwh
    prices = np.full(7 * MIN_PER_DAY, math.nan if base is None else base)
    for one in tariff.period:
        prices[_minutes_of(one.start, one.end, one.days)] = one.price_money_per_kwh
    return prices
