"""A lift, a pump and its tariff in; energy, its price and the demand charge out."""

import datetime as dt
import math
from collections.abc import Sequence

import numpy as np

from scheduler.site import Site, Supply, Tariff, Weekday, Zone
from scheduler.trace import Trace, entered

# standard gravity, exact by definition; water at 4 degrees
GRAVITY_M_PER_S2 = 9.80665
WATER_KG_PER_M3 = 1000.0
J_PER_KWH = 3.6e6
PA_PER_KPA = 1000.0
MIN_PER_DAY = 1440


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


def head_of_pressure_m(pressure_kpa: float) -> float:
    """Height of water that a pressure holds.

    Parameters
    ----------
    pressure_kpa : float
        Pressure. [kpa]

    Returns
    -------
    float
        Pressure over rho g. [m]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(head_of_pressure_m(98.0665), 6)
    10.0
    """
    return pressure_kpa * PA_PER_KPA / (WATER_KG_PER_M3 * GRAVITY_M_PER_S2)


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


def energy_price(site: Site, zone: Zone) -> float | None:
    """Mean price of energy over the hours in which a zone may be watered.

    Parameters
    ----------
    site : Site
        Its windows and tariff; without windows, all hours of the zone's days.
    zone : Zone
        For its days.

    Returns
    -------
    float or None
        Money per kWh; None where a part of the hours has no price.

    References
    ----------
    Source: definition: mean over the minutes; a later period of the tariff overrides.

    Examples
    --------
    >>> from scheduler.site import EnergyPeriod, Place, Window
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> dear = EnergyPeriod(start=dt.time(20), end=dt.time(23),
    ...                     price_money_per_kwh=0.3)
    >>> site = Site(name="a", units="us", place=here,
    ...     windows=(Window(start=dt.time(22), end=dt.time(2)),),
    ...     tariff=Tariff(currency="USD", energy_price_money_per_kwh=0.1,
    ...                   period=(dear,)))
    >>> yard = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off")
    >>> round(energy_price(site, yard), 3)
    0.15
    """
    if site.tariff is None:
        return None
    open_minutes = _week_of_hours([(w.start, w.end, w.days) for w in site.windows])
    if not site.windows:
        open_minutes = _week_of_hours([(dt.time(0), dt.time(0), zone.days)])
    prices = _week_of_prices(site.tariff)[open_minutes]
    if prices.size == 0 or not np.isfinite(prices).all():
        return None
    return float(prices.mean())


_ORDER: tuple[Weekday, ...] = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_Hours = tuple[dt.time, dt.time, Sequence[Weekday]]


def _minutes_of(start: dt.time, end: dt.time, days: Sequence[Weekday]) -> list[int]:
    """Minutes of the week, Monday 0:00 first; a span may cross midnight."""
    first = start.hour * 60 + start.minute
    length = (end.hour * 60 + end.minute - first) % MIN_PER_DAY or MIN_PER_DAY
    return [
        (_ORDER.index(day) * MIN_PER_DAY + first + i) % (7 * MIN_PER_DAY)
        for day in days
        for i in range(length)
    ]


def _week_of_hours(
    spans: Sequence[_Hours],
) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    every = sorted({minute for span in spans for minute in _minutes_of(*span)})
    return np.array(every, dtype=np.int64)


def _week_of_prices(tariff: Tariff) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    base = tariff.energy_price_money_per_kwh
    prices = np.full(7 * MIN_PER_DAY, math.nan if base is None else base)
    for one in tariff.period:
        prices[_minutes_of(one.start, one.end, one.days)] = one.price_money_per_kwh
    return prices


def pump_power_kw(flow_l_per_min: float, *, energy_kwh_per_m3: float) -> float:
    """Power that a flow draws.

    Parameters
    ----------
    flow_l_per_min : float
        Flow at once. [L/min]
    energy_kwh_per_m3 : float
        Energy of a cubic metre. [kwh per m3]

    Returns
    -------
    float
        Power. [kW]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(pump_power_kw(1000.0, energy_kwh_per_m3=0.35), 2)
    21.0
    """
    return flow_l_per_min * 60.0 / 1000.0 * energy_kwh_per_m3
