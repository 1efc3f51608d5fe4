"""A planned week and prices in; what its uneven water costs, zone by zone, out."""

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from scheduler.arrays import FloatArray
from scheduler.money.economics import SiteCost, zone_prices
from scheduler.money.rule_cost import L_PER_M3, Prices
from scheduler.money.week_positions import PositionWeek, position_week
from scheduler.trace import Trace, entered
from scheduler.week_plan import WeekPlan, ZonePlan


@dataclass(frozen=True, slots=True)
class QuarterWeek:
    """What one quarter of a zone gets in a planned week.

    Attributes
    ----------
    applied_mm, above_need_mm : float
        Water put on, and the part of it above need. [mm]
    passed_mm : float or None
        Water that found no room; None where no balance is kept. [mm]
    """

    applied_mm: float
    above_need_mm: float
    passed_mm: float | None


@dataclass(frozen=True, slots=True, eq=False)
class ZoneWeekCost:
    """One zone's planned week; None where it is not known.

    Attributes
    ----------
    prices : Prices
        As far as entered.
    volume_m3, above_need_m3 : float or None
        Water put on, and the part of it above need. [m3]
    passed_m3, rain_passed_m3 : float or None
        Water of the nights, and rain, that found no room in the roots or the pot. [m3]
    quarters : tuple of QuarterWeek
        Driest first; empty where no need is followed.
    why : str
        Why a number is not known; empty where all are.
    """

    zone_id: str
    prices: Prices
    volume_m3: float | None
    above_need_m3: float | None
    passed_m3: float | None
    rain_passed_m3: float | None
    need_mm: float | None
    quarters: tuple[QuarterWeek, ...]
    why: str
    trace: Trace

    @property
    def money(self) -> float | None:
        """Price of the water put on, and of its pumping."""
        return _times(self.volume_m3, self.prices.money_per_m3)

    @property
    def above_need_money(self) -> float | None:
        """Price of the water above need, and of its pumping."""
        return _times(self.above_need_m3, self.prices.money_per_m3)

    @property
    def energy_kwh(self) -> float | None:
        """Pumping energy of the water put on, in kWh."""
        return _times(self.volume_m3, self.prices.energy_kwh_per_m3)


@dataclass(frozen=True, slots=True, eq=False)
class WeekCost:
    """What uneven water costs a site in one planned week.

    Attributes
    ----------
    start : date
        First day of the week.
    zones : tuple of ZoneWeekCost
        Those that water, or would; zones that are off are left out.
    volume_m3, above_need_m3, passed_m3 : float
        Sums of what is known. [m3]
    money, above_need_money : float or None
        Sums; None where a zone with water has no price.
    unknown : tuple of str
        Zones that a sum leaves out.
    """

    start: dt.date
    zones: tuple[ZoneWeekCost, ...]
    volume_m3: float
    above_need_m3: float
    passed_m3: float
    money: float | None
    above_need_money: float | None
    unknown: tuple[str, ...]

    def of(self, zone_id: str) -> ZoneWeekCost | None:
        """One zone, or None."""
        wanted = zone_id.casefold()
        return next((z for z in self.zones if z.zone_id.casefold() == wanted), None)


def week_cost(plan: WeekPlan, cost: SiteCost, zone_ids: Sequence[str] = ()) -> WeekCost:
    """What uneven water costs in a planned week, from the plan of that week itself.

    Parameters
    ----------
    plan : WeekPlan
        The week.
    cost : SiteCost
        For the prices in force.
    zone_ids : sequence of str, optional
        Only these zones.

    Returns
    -------
    WeekCost
        By zone; the zones add up to the site.

    References
    ----------
    Source: definition; by position as `position_week`.

    Examples
    --------
    >>> from scheduler.money.economics import site_cost
    >>> from scheduler.record import History
    >>> from scheduler.site import Place, Site
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> monday = dt.date(2026, 6, 8)
    >>> site = Site(name="a", units="us", place=here)
    >>> year = site_cost(site, History(), monday)
    >>> week_cost(WeekPlan(site, monday, monday, ()), year).volume_m3
    0.0
    """
    wanted = {one.casefold() for one in zone_ids}
    zones = tuple(
        _zone(one, zone_prices(cost.site, one.zone, cost.water_money_per_m3))
        for one in plan.zones
        if one.status != "off" and (not wanted or one.zone.id.casefold() in wanted)
    )

    def total(value: Callable[[ZoneWeekCost], float | None]) -> float:
        return sum((value(one) or 0.0 for one in zones), 0.0)

    has_price = all(
        one.prices.money_per_m3 is not None for one in zones if one.volume_m3
    )
    is_known = bool(zones) and has_price
    return WeekCost(
        start=plan.start,
        zones=zones,
        volume_m3=total(lambda one: one.volume_m3),
        above_need_m3=total(lambda one: one.above_need_m3),
        passed_m3=total(lambda one: one.passed_m3),
        money=total(lambda one: one.money) if is_known else None,
        above_need_money=total(lambda one: one.above_need_money) if is_known else None,
        unknown=tuple(one.zone_id for one in zones if one.above_need_m3 is None),
    )


def _zone(one: ZonePlan, prices: Prices) -> ZoneWeekCost:
    if one.input is None or one.minutes_per_day is None:
        return _without_need(one, prices)
    nights = tuple(one.dates.index(day) for day in one.days)
    found = position_week(one.input, nights=nights, minutes_per_day=one.minutes_per_day)
    m3 = one.zone.area_m2 / L_PER_M3
    above = float(found.above_need_mm.mean()) * m3
    has_balance = found.passed_mm is not None and found.rain_passed_mm is not None
    return ZoneWeekCost(
        zone_id=one.zone.id,
        prices=prices,
        volume_m3=float(found.applied_mm.mean()) * m3,
        above_need_m3=above,
        passed_m3=_mean(found.passed_mm, m3),
        rain_passed_m3=_mean(found.rain_passed_mm, m3),
        need_mm=found.need_mm,
        quarters=_quarters(found),
        why="" if has_balance else "what the roots or the pot hold is not known",
        trace=_trace(one, found, above),
    )


def _mean(values_mm: FloatArray | None, m3: float) -> float | None:
    return None if values_mm is None else float(values_mm.mean()) * m3


def _quarters(found: PositionWeek) -> tuple[QuarterWeek, ...]:
    applied = found.by_quarter(found.applied_mm).tolist()
    above = found.by_quarter(found.above_need_mm).tolist()
    passed: list[float | None] = [None] * len(applied)
    if found.passed_mm is not None:
        passed = found.by_quarter(found.passed_mm).tolist()
    return tuple(QuarterWeek(*row) for row in zip(applied, above, passed, strict=True))


def _without_need(one: ZonePlan, prices: Prices) -> ZoneWeekCost:
    """A zone whose minutes follow no need, or that is blocked."""
    depth = one.realised_depth_mm
    volume = None if depth is None else depth * one.zone.area_m2 / L_PER_M3
    why = "its minutes are fixed: they follow no need"
    if one.status == "blocked":
        volume, why = None, "it is blocked: see the findings of the week"
    elif volume is None:
        why += ", and no rate is known"
    trace = Trace("above_need_m3", None, why, "not computed")
    return ZoneWeekCost(
        one.zone.id, prices, volume, None, None, None, None, (), why, trace
    )


def _trace(one: ZonePlan, found: PositionWeek, above_m3: float) -> Trace:
    return Trace(
        "above_need_m3",
        above_m3,
        "mean over the positions of what each gets above need_mm, x area",
        "definition",
        (
            one.trace,
            Trace(
                "need_mm", found.need_mm,
                "the week with an even catch, in whole minutes; more only where "
                "leaching asks for it",
                "FAO-56 (1998) ch. 8",
            ),
            entered("area_m2", one.zone.area_m2, "zones.toml"),
        ),
        f"rule {one.rule}",
    )  # fmt: skip


def _times(amount: float | None, price: float | None) -> float | None:
    return None if amount is None or price is None else amount * price
