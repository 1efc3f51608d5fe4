"""A zone's season in; what its uneven water costs, by rule, week and reference, out."""

from dataclasses import dataclass
from weakref import WeakKeyDictionary

import numpy as np

from scheduler.arrays import DateArray, FloatArray, frozen
from scheduler.field.uniformity import low_quarter_uniformity
from scheduler.money.factors import evenness, rules_of
from scheduler.money.rule_cost import (
    L_PER_M3,
    Prices,
    RuleCost,
    even_need_mm,
    rule_cost,
)
from scheduler.season import ZoneSeason
from scheduler.site import Rule, Site
from scheduler.trace import Trace, entered
from scheduler.watering.season_run.saved import at_another_du

DAYS_PER_WEEK = 7


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

    @property
    def above_need_money(self) -> float | None:
        """Price of the water above need, and of its pumping."""
        price = self.prices.money_per_m3
        return None if price is None else self.own.above_need_m3 * price


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
    need = even_need_mm(season, site)

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
        same = same_service_saved_mm(season, reference[0])
        against = AgainstReference(
            *reference, own.volume_m3 - there, same * zone.area_m2 / L_PER_M3
        )
    hours = labour_hours(season)
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


def same_service_saved_mm(season: ZoneSeason, du_lq: float) -> float:
    """Less water at another uniformity with no more stress in the driest quarter.

    Parameters
    ----------
    season : ZoneSeason
        A zone whose season was run.
    du_lq : float
        The other DU low quarter. [-]

    Returns
    -------
    float
        Least water for today's service as the zone is, less the least at the other
        uniformity; below 0 where that is less even. [mm]

    Notes
    -----
    Both are searched alike, so that water which serves nobody even now is not taken
    for a saving of the better uniformity.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> from scheduler.site import Zone
    >>> from scheduler.watering.season_run import SeasonInput
    >>> yard = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             assumed_net_rate_mm_per_h=12.0, assumed_du_lq=0.6)
    >>> catch = assumed(yard, None)[0]
    >>> ones, days = np.ones(1), np.ones((60, 1))
    >>> made = SeasonInput(
    ...     catch.share[None, :, None], 0.6 * ones, 5 * days, 0 * days, days > 0,
    ...     ones > 1, ones * np.nan, 40 * ones, 16 * ones, 0 * ones, ones, 999 * ones)
    >>> season = ZoneSeason(yard, (), input=made, catch=catch)
    >>> same_service_saved_mm(season, 0.8) > 50
    True
    """
    assert season.input is not None, "the caller has looked"
    assert season.catch is not None, "the caller has looked"
    share = season.input.share.mean(axis=0)[:, 0]
    now_mm = _least_mm(season, float(low_quarter_uniformity(share)))
    saved = now_mm - _least_mm(season, du_lq)
    # today's nights serve a map that is drawn together no worse: nothing is lost
    return max(saved, 0.0) if du_lq >= season.catch.du_lq else saved


# Seconds of search that no price can change, asked again at every what-if of a price.
# Kept as long as the season: a number of them that is fixed is too small for the zones
# of a large site, which then push each other out.
_LEAST_MM: WeakKeyDictionary[ZoneSeason, dict[float, float]] = WeakKeyDictionary()


def _least_mm(season: ZoneSeason, du_lq: float) -> float:
    """Least water at a uniformity for the service of today, searched once a season."""
    assert season.input is not None, "the caller has looked"
    known = _LEAST_MM.setdefault(season, {})
    if du_lq not in known:
        known[du_lq] = at_another_du(season.input, du_lq).applied_mm
    return known[du_lq]


def labour_hours(season: ZoneSeason) -> float | None:
    """Hours of watering by hand, in the weeks with a watering.

    Parameters
    ----------
    season : ZoneSeason
        A zone's season.

    Returns
    -------
    float or None
        None where the hours of a week are not entered, or no season was run. [h]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Zone
    >>> yard = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off")
    >>> labour_hours(ZoneSeason(yard, ())) is None
    True
    """
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
                "need_mm", need_mm,
                "the season with an even catch; factor 1, or what leaching asks for",
                "FAO-56 (1998) ch. 8",
            ),
            entered("area_m2", season.zone.area_m2, "zones.toml"),
        ),
        f"rule {own.rule}",
    )  # fmt: skip
