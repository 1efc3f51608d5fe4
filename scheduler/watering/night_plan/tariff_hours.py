"""A site's prices and the minutes of its nights in; what a litre costs in each out."""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding
from scheduler.site import Site
from scheduler.watering.energy_hours import (
    MIN_PER_DAY,
    supply_energy_kwh_per_m3,
    week_of_prices,
)
from scheduler.watering.night_plan.night_hours import NightHours


@dataclass(frozen=True, slots=True, eq=False)
class NightPrice:
    """Price of water by minute.

    Attributes
    ----------
    over_mean : array of shape (n_nights, n_minutes) or None
        Price of a litre over the mean price of the open minutes; None where minutes
        are compared by water alone. [-]
    source : str
        What it is made of, or why water alone counts.
    findings : tuple of Finding
        Prices that lack.
    mean_money_per_m3 : float or None
        The mean price. [money_per_m3]
    """

    over_mean: FloatArray | None
    source: str
    findings: tuple[Finding, ...] = ()
    mean_money_per_m3: float | None = None


def night_price(site: Site, hours: NightHours) -> NightPrice:
    """Price of a litre, water and pumping, in each minute of the nights.

    Parameters
    ----------
    site : Site
        Tariff and supply.
    hours : NightHours
        The minutes.

    Returns
    -------
    NightPrice
        Water and the energy of that hour on one scale, where all of it is entered and
        the hours differ. The charge on power is of the month, not of a minute, and is
        left out.

    References
    ----------
    Source: definition: price of water + kWh per m3 x price of energy.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> hours = NightHours((dt.date(2026, 6, 8),), 1320, np.ones((1, 390), dtype=bool))
    >>> night_price(Site(name="a", units="us", place=place), hours).source
    'water alone: energy has one price at all hours, or none'
    """
    tariff = site.tariff
    if tariff is None or not tariff.period or not hours.is_open.any():
        alone = "water alone: energy has one price at all hours, or none"
        return NightPrice(None, alone)
    minute = hours.first_min + np.arange(hours.is_open.shape[1])
    weekday = np.array([date.weekday() for date in hours.dates])[:, None]
    of_week = (weekday * MIN_PER_DAY + minute) % (7 * MIN_PER_DAY)
    per_kwh = week_of_prices(tariff)[of_week]
    energy, _ = supply_energy_kwh_per_m3(site.supply)
    water = tariff.water_price_money_per_m3
    lacks = []
    if water is None:
        lacks.append("the price of water (0 if it costs nothing)")
    if energy is None:
        lacks.append("head and pumping_efficiency under [supply]")
    if not np.isfinite(per_kwh[hours.is_open]).all():
        lacks.append("the price of energy in the hours outside the periods")
    if water is None or energy is None or lacks:
        what = "energy has prices by the hour, and they do not count in the night plan"
        said = Finding(
            "note", "site.toml: tariff", what, f"enter {', and '.join(lacks)}"
        )
        return NightPrice(None, "water alone: prices are missing", (said,))
    price = np.nan_to_num(water + energy * per_kwh)
    mean = float(price[hours.is_open].mean())
    if mean <= 0 or np.ptp(price[hours.is_open]) <= 0:
        return NightPrice(None, "water alone: all open minutes have one price")
    source = "water and the energy of its hour, in money"
    return NightPrice(price / mean, source, mean_money_per_m3=mean)
