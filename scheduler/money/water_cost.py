"""A zone's season in; what its uneven water costs under every rule out."""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import DateArray, FloatArray, frozen
from scheduler.money.factors import (
    Evenness,
    at_evenness,
    evenness,
    rules_of,
    zone_factor,
)
from scheduler.season import ZoneSeason
from scheduler.site import Rule, Site
from scheduler.trace import Trace, entered
from scheduler.watering.season_run import season_run
from scheduler.watering.season_run.saved import (
    at_another_du,
    driest_quarter_stress_days,
)

L_PER_M3 = 1000.0
MG_PER_KG = 1e6
DAYS_PER_WEEK = 7


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
        """Water and pumping together, as far as known; None where neither is."""
        known = [
            one
            for one in (self.water_money_per_m3, self.pumping_money_per_m3)
            if one is not None
        ]
        return sum(known) if known else None


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
        Price of the water, of its pumping, and both as far as known.
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


@dataclass(frozen=True, slots=True, eq=False)
class Weekly:
    """A zone's season by weeks.

    Attributes
    ----------
    start : array of shape (n_weeks,)
        First day of each week; the last may be short. [datetime64[D]]
    volume_m3, above_need_m3 : array of shape (n_weeks,)
        Water put on, and the part of it above need: the season's part in each week, as
        the rule gives every watering the same factor. [m3]
    """

    start: DateArray
    volume_m3: FloatArray
    above_need_m3: FloatArray


@dataclass(frozen=True, slots=True)
class AgainstReference:
    """A zone against a stated uniformity.

    Attributes
    ----------
    du_lq : float
        The reference. [-]
    name : str
        What it is.
    saved_m3 : float
        Less water at it under the zone's own rule. [m3]
    saved_same_service_m3 : float
        Less water at it with no more stress in the driest quarter. [m3]
    """

    du_lq: float
    name: str
    saved_m3: float
    saved_same_service_m3: float


@dataclass(frozen=True, slots=True, eq=False)
class ZoneCost:
    """One zone's year.

    Attributes
    ----------
    need_mm : float
        What an even catch would be given in the same nights. [mm]
    own : RuleCost
        Under the zone's own rule.
    rules : tuple of RuleCost
        Side by side.
    above_need_low_m3, above_need_high_m3 : float or None
        At the high and the low end of the range of DU; None where it is not known.
    """

    season: ZoneSeason
    prices: Prices
    need_mm: float
    own: RuleCost
    rules: tuple[RuleCost, ...]
    above_need_low_m3: float | None
    above_need_high_m3: float | None
    weekly: Weekly
    reference: AgainstReference | None
    labour_hours: float | None
    labour_money: float | None
    trace: Trace

    @property
    def zone_id(self) -> str:
        """Id of the zone."""
        return self.season.zone.id


def even_need_mm(season: ZoneSeason) -> float:
    """Water that a perfectly even catch would be given in the same nights.

    Parameters
    ----------
    season : ZoneSeason
        A zone whose season was run.

    Returns
    -------
    float
        Depth. [mm]

    References
    ----------
    Source: definition: the season with every share 1 and factor 1.

    Examples
    --------
    >>> from scheduler.money.factors import Evenness
    >>> Evenness(np.ones(4), 1.0, 1.0, 0.0).pull
    0.0
    """
    assert season.input is not None, "the caller has looked"
    n = season.input.share.shape[1]
    even = Evenness(frozen(np.ones(n)), 1.0, 1.0, None)
    result = season_run(at_evenness(season.input, even, 1.0))
    return float(result.watering_mm.sum())


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
    assert season.input is not None, "the caller has looked"
    factor = zone_factor(season.zone, site, rule, even)
    made = at_evenness(season.input, even, factor)
    result = season_run(made)
    applied = float(result.watering_mm.sum())
    above = float(np.maximum(result.applied_mm[:, 0] - need_mm, 0.0).mean())
    drained = float(result.percolation_mm.mean())
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
        stress_days=driest_quarter_stress_days(made, result),
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


def zone_cost(
    season: ZoneSeason,
    site: Site,
    prices: Prices,
    *,
    dates: DateArray,
    du_range: tuple[float, float] | None = None,
    reference: tuple[float, str] | None = None,
) -> ZoneCost:
    """What a zone's uneven water costs in a year.

    Parameters
    ----------
    season : ZoneSeason
        A zone whose season was run.
    site : Site
        For salt and the price of work.
    prices : Prices
        As far as entered.
    dates : array of shape (n_days,)
        Days of the season. [datetime64[D]]
    du_range : (float, float), optional
        Low and high end of the zone's own DU. [-]
    reference : (float, str), optional
        A DU to hold it against, and its name.

    Returns
    -------
    ZoneCost
        Under every rule, by weeks, with a range.

    References
    ----------
    Source: definition; `rule_cost` names its own.

    Examples
    --------
    >>> Prices().money_per_m3 is None
    True
    """
    assert season.catch is not None, "the caller has looked"
    assert season.input is not None, "the caller has looked"
    catch, zone = season.catch, season.zone
    need = even_need_mm(season)

    def cost(rule: Rule, du_lq: float | None = None) -> RuleCost:
        return rule_cost(
            season, site, rule, even=evenness(catch, du_lq), need_mm=need, prices=prices
        )

    rules = tuple(cost(rule) for rule in rules_of(zone))
    own = next(one for one in rules if one.rule == zone.chosen_rule)
    low = high = None
    if du_range is not None:
        ends = [cost(own.rule, du).above_need_m3 for du in du_range]
        low, high = min(*ends, own.above_need_m3), max(*ends, own.above_need_m3)
    against = None
    if reference is not None:
        there = cost(own.rule, reference[0]).volume_m3
        same = at_another_du(season.input, reference[0]).saved_mm
        if reference[0] >= catch.du_lq:
            # today's nights serve the drawn-together map no worse: nothing is lost
            same = max(same, 0.0)
        against = AgainstReference(
            *reference, own.volume_m3 - there, same * zone.area_m2 / L_PER_M3
        )
    hours = _labour_hours(season)
    hour = site.tariff.labour_price_money_per_h if site.tariff else None
    return ZoneCost(
        season=season,
        prices=prices,
        need_mm=need,
        own=own,
        rules=rules,
        above_need_low_m3=low,
        above_need_high_m3=high,
        weekly=_weekly(season, own, dates),
        reference=against,
        labour_hours=hours,
        labour_money=None if hours is None or hour is None else hours * hour,
        trace=_trace(season, own, need),
    )


def _labour_hours(season: ZoneSeason) -> float | None:
    """Hours of watering by hand, in the weeks with a watering."""
    a_week = season.zone.hand_watering_hours_a_week
    if a_week is None or season.watering_mm is None:
        return None
    depth = season.watering_mm
    weeks = np.add.reduceat(depth, np.arange(0, depth.size, DAYS_PER_WEEK))
    return a_week * float((weeks > 0).sum())


def _weekly(season: ZoneSeason, own: RuleCost, dates: DateArray) -> Weekly:
    assert season.watering_mm is not None, "the caller has looked"
    begins = np.arange(0, dates.size, DAYS_PER_WEEK)
    depth = np.add.reduceat(season.watering_mm, begins)
    volume = depth * season.zone.area_m2 / L_PER_M3
    part = own.above_need_m3 / own.volume_m3 if own.volume_m3 > 0 else 0.0
    return Weekly(
        frozen(dates[begins], "datetime64[D]"), frozen(volume), frozen(volume * part)
    )


def _trace(season: ZoneSeason, own: RuleCost, need_mm: float) -> Trace:
    assert season.trace is not None, "the caller has looked"
    return Trace(
        "above_need_m3",
        own.above_need_m3,
        "mean over the positions of what each got above need_mm, x area",
        "definition",
        (
            season.trace,
            Trace(
                "need_mm", need_mm, "the season with an even catch, factor 1",
                "FAO-56 (1998) ch. 8",
            ),
            entered("area_m2", season.zone.area_m2, "zones.toml"),
        ),
        f"rule {own.rule}",
    )  # fmt: skip
