"""A zone's season and a rule in; water, drainage, stress, energy and money out."""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import frozen
from scheduler.money.even_year import even_year
from scheduler.money.factors import Evenness, zone_factor
from scheduler.season import ZoneSeason
from scheduler.site import Rule, Site

L_PER_M3 = 1000.0
MG_PER_KG = 1e6


@dataclass(frozen=True, slots=True)
class Prices:
    """What a cubic metre costs, as far as it was entered.

    Attributes
    ----------
    water_money_per_m3, energy_money_per_kwh : float or None
        Prices.
    energy_kwh_per_m3 : float or None
        Pumping energy. [kwh per m3]
    nitrogen_mg_per_l : float or None
        Nitrogen in what drains. [mg/L]
    nitrogen_money_per_kg : float or None
        Its price.
    """

    water_money_per_m3: float | None = None
    energy_kwh_per_m3: float | None = None
    energy_money_per_kwh: float | None = None
    nitrogen_mg_per_l: float | None = None
    nitrogen_money_per_kg: float | None = None

    @property
    def pumping_money_per_m3(self) -> float | None:
        """Energy times its price; None where either is missing."""
        if self.energy_kwh_per_m3 is None or self.energy_money_per_kwh is None:
            return None
        return self.energy_kwh_per_m3 * self.energy_money_per_kwh

    @property
    def money_per_m3(self) -> float | None:
        """Water, with its pumping where that is known; None without a water price."""
        if self.water_money_per_m3 is None:
            return None
        return self.water_money_per_m3 + (self.pumping_money_per_m3 or 0.0)


@dataclass(frozen=True, slots=True)
class RuleCost:
    """One zone's year under one rule.

    Attributes
    ----------
    factor : float
        Mean depth over need. [-]
    applied_mm, above_need_mm, deep_percolation_mm : float
        Water put on; what positions got above what an even catch would be given; what
        drained below the roots, rain included. [mm]
    stress_days : float
        Days of stress in the driest quarter. [days]
    volume_m3, above_need_m3 : float
        The same as volumes. [m3]
    water_money, energy_money, money : float or None
        Price of the water, of its pumping, and both; a pumping that is not known is
        not in the sum, and nothing is summed without a water price.
    energy_kwh : float or None
        Pumping energy. [kwh]
    nitrogen_kg, nitrogen_money : float or None
        Nitrogen that drained, and its price; only where entered.
    """

    rule: Rule
    factor: float
    applied_mm: float
    above_need_mm: float
    deep_percolation_mm: float
    stress_days: float
    volume_m3: float
    above_need_m3: float
    water_money: float | None
    energy_kwh: float | None
    energy_money: float | None
    money: float | None
    nitrogen_kg: float | None
    nitrogen_money: float | None


def even_need_mm(season: ZoneSeason, site: Site) -> float:
    """Water that a perfectly even catch would be given in the same nights.

    Parameters
    ----------
    season : ZoneSeason
        A zone whose season was run.
    site : Site
        For the salt of the water.

    Returns
    -------
    float
        Depth. [mm]

    References
    ----------
    Source: definition: the season with every share 1, and the factor that the zone's
    own rule then asks for: 1, or what its leaching asks for, which is no waste.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> from scheduler.site import Place, Zone
    >>> from scheduler.watering.season_run import SeasonInput
    >>> yard = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             assumed_net_rate_mm_per_h=12.0, assumed_du_lq=0.6)
    >>> catch = assumed(yard, None)[0]
    >>> ones, days = np.ones(1), np.ones((60, 1))
    >>> made = SeasonInput(
    ...     catch.share[None, :, None], 0.6 * ones, 5 * days, 0 * days, days > 0,
    ...     ones > 1, ones * np.nan, 40 * ones, 16 * ones, 0 * ones, ones, 999 * ones)
    >>> season = ZoneSeason(yard, (), input=made, catch=catch)
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=here, zones=(yard,))
    >>> even_need_mm(season, site)  # 60 days of 5 mm, less what the roots hold last
    285.0
    """
    assert season.input is not None, "the caller has looked"
    n = season.input.share.shape[1]
    even = Evenness(frozen(np.ones(n)), 1.0, 1.0, None)
    factor = zone_factor(season.zone, site, season.zone.chosen_rule, even)
    return even_year(season, even, factor).watered_mm


def rule_cost(
    season: ZoneSeason,
    site: Site,
    rule: Rule,
    *,
    even: Evenness,
    need_mm: float,
    prices: Prices,
) -> RuleCost:
    """A zone's year under one rule, at a uniformity.

    Parameters
    ----------
    season : ZoneSeason
        A zone whose season was run.
    site : Site
        For the salt of the water.
    rule : str
        The rule.
    even : Evenness
        How even the zone is, or would be.
    need_mm : float
        What an even catch would be given. [mm]
    prices : Prices
        As far as entered.

    Returns
    -------
    RuleCost
        Water, drainage and stress of every position.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8, at every catch position.

    Examples
    --------
    >>> Prices(0.69, 0.35, 0.12).money_per_m3
    0.732
    """
    factor = zone_factor(season.zone, site, rule, even)
    year = even_year(season, even, factor)
    applied, drained = year.watered_mm, year.deep_percolation_mm
    above = float(np.maximum(year.applied_mm - need_mm, 0.0).mean())
    area = season.zone.area_m2
    volume = applied * area / L_PER_M3
    kwh = _times(volume, prices.energy_kwh_per_m3)
    nitrogen = _times(drained * area / MG_PER_KG, prices.nitrogen_mg_per_l)
    return RuleCost(
        rule=rule,
        factor=factor,
        applied_mm=applied,
        above_need_mm=above,
        deep_percolation_mm=drained,
        stress_days=year.stress_days,
        volume_m3=volume,
        above_need_m3=above * area / L_PER_M3,
        water_money=_times(volume, prices.water_money_per_m3),
        energy_kwh=kwh,
        energy_money=_times(volume, prices.pumping_money_per_m3),
        money=_times(volume, prices.money_per_m3),
        nitrogen_kg=nitrogen,
        nitrogen_money=None
        if nitrogen is None
        else _times(nitrogen, prices.nitrogen_money_per_kg),
    )


def _times(amount: float, price: float | None) -> float | None:
    return None if price is None else amount * price
