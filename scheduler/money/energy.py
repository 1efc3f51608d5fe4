"""A pressure, a tariff and hours in; head, the price of energy and power out."""

import datetime as dt

import numpy as np

from scheduler.site import Site, Zone
from scheduler.watering.energy_hours import (
    GRAVITY_M_PER_S2,
    WATER_KG_PER_M3,
    week_of_hours,
    week_of_prices,
)

PA_PER_KPA = 1000.0


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
    >>> from scheduler.site import EnergyPeriod, Place, Tariff, Window
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
    open_minutes = week_of_hours([(w.start, w.end, w.days) for w in site.windows])
    if not site.windows:
        open_minutes = week_of_hours([(dt.time(0), dt.time(0), zone.days)])
    prices = week_of_prices(site.tariff)[open_minutes]
    if prices.size == 0 or not np.isfinite(prices).all():
        return None
    return float(prices.mean())


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
