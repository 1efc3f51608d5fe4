"""A week's runs and what each zone lifts in; power at once and energy by price out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import DateArray, FloatArray
from scheduler.money.energy import pump_power_kw
from scheduler.said import day_text
from scheduler.site import Site
from scheduler.trace import Trace, entered
from scheduler.watering.energy_hours import (
    MIN_PER_DAY,
    supply_energy_kwh_per_m3,
    week_of_prices,
)
from scheduler.watering.night_plan import PlannedRun
from scheduler.watering.night_plan.together import stretches

MIN_PER_H = 60.0
# a charge for power is read over quarter hours by the clock: common practice, no source
QUARTER_H_MIN = 15


@dataclass(frozen=True, slots=True)
class EnergyAt:
    """Energy at one price.

    Attributes
    ----------
    price_money_per_kwh : float
        The price.
    energy_kwh : float
        Energy in its hours.
    """

    price_money_per_kwh: float
    energy_kwh: float


@dataclass(frozen=True, slots=True)
class PowerWeek:
    """What the pump draws in the planned hours of a week; None where not known.

    Attributes
    ----------
    energy_kwh : float or None
        Of all runs.
    energy_money : float or None
        By the prices of their minutes.
    by_price : tuple of EnergyAt
        Cheapest first; empty where a minute has no price.
    power_kw : float or None
        Mean of the largest quarter hour. [kW]
    at : datetime or None
        When that quarter hour begins.
    flow_l_per_min : float
        Mean flow in it; highest flow of all where no power is known. [L/min]
    demand_money_a_month : float or None
        Power times the price of a kW.
    why : str
        Why a number is not worked out; empty where all are.
    traces : tuple of Trace
        Power, energy and their charges, as far as known.
    """

    energy_kwh: float | None
    energy_money: float | None
    by_price: tuple[EnergyAt, ...]
    power_kw: float | None
    at: dt.datetime | None
    flow_l_per_min: float
    demand_money_a_month: float | None
    why: str
    traces: tuple[Trace, ...] = ()


def power_week(
    site: Site,
    runs: Sequence[PlannedRun],
    extra_head_m: Mapping[str, float] | None = None,
) -> PowerWeek:
    """What the pump draws in the planned hours of a week.

    Parameters
    ----------
    site : Site
        Pump and tariff.
    runs : sequence of PlannedRun
        The nights by the clock.
    extra_head_m : mapping of str to float, optional
        By zone: head that it asks for above that of the site. [m]

    Returns
    -------
    PowerWeek
        With why, where a number lacks.

    Notes
    -----
    One pump lifts all that is open at once to the head of the zone that asks for most;
    its efficiency is taken as the same at every flow. The flow of a run counts from
    its first to its last minute: filling the line and starting the motor are not in
    it.

    References
    ----------
    Source: definition: flow x rho g h / efficiency; quarter hours by the clock.

    Examples
    --------
    >>> from scheduler.site import Place, Supply, Tariff
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=here,
    ...     supply=Supply(source="well", head_m=100.0, pumping_efficiency=1.0),
    ...     tariff=Tariff(currency="USD", energy_price_money_per_kwh=0.1))
    >>> ten = dt.datetime(2026, 6, 8, 22)
    >>> one = PlannedRun("Z", ten.date(), ten, ten + dt.timedelta(minutes=60), 600.0)
    >>> found = power_week(site, (one,))
    >>> round(found.energy_kwh, 2), round(found.power_kw, 2), found.why[:19]
    (9.81, 9.81, 'no price of a kW is')
    """
    found, unknown = _by_minute(site, runs, extra_head_m or {})
    if supply_energy_kwh_per_m3(site.supply)[0] is None:
        why = "head or pumping_efficiency is not entered under [supply]"
        peak = float(found.flow.max(initial=0.0))
        return PowerWeek(None, None, (), None, None, peak, None, why)
    whys = []
    if unknown:
        names = ", ".join(sorted(unknown))
        whys.append(f"the flow of {names} is not known and counts as 0")
    power, at, there = _largest_quarter(found)
    price = site.tariff.demand_price_money_per_kw if site.tariff else None
    if price is None:
        whys.append("no price of a kW is entered: demand_price_money_per_kw")
    by_price = _by_price(site, found)
    money = None
    if by_price is None:
        whys.append("energy has no price in some planned hours")
    else:
        money = sum((e.energy_kwh * e.price_money_per_kwh for e in by_price), 0.0)
    made = PowerWeek(
        energy_kwh=float(found.kw.sum()) / MIN_PER_H,
        energy_money=money,
        by_price=by_price or (),
        power_kw=power,
        at=at,
        flow_l_per_min=there,
        demand_money_a_month=None if price is None else price * power,
        why="; ".join(whys),
    )
    return replace(made, traces=_traces(made, site))


def _traces(made: PowerWeek, site: Site) -> tuple[Trace, ...]:
    """Charge for power and price of energy, each with what it rests on."""
    _, each = supply_energy_kwh_per_m3(site.supply)
    tariff = site.tariff
    when = "" if made.at is None else f", from {day_text(made.at, '%a %d %b %H:%M')}"
    flow = Trace(
        "flow_l_per_min", made.flow_l_per_min,
        f"mean of the largest quarter hour{when}", "definition",
    )  # fmt: skip
    power = Trace(
        "power_kw", made.power_kw,
        "mean over the quarter hour of flow x energy of a cubic metre, at the head of "
        "the zone that asks for most",
        "definition; quarter hours by the clock: common practice, no source",
        (each, flow),
    )  # fmt: skip
    price = tariff.demand_price_money_per_kw if tariff else None
    charge = Trace(
        "demand_money", made.demand_money_a_month,
        "power_kw x demand_price, a month", "definition",
        (power, entered("demand_price_money_per_kw", price, "site.toml: tariff")),
    )  # fmt: skip
    energy = Trace(
        "energy_kwh", made.energy_kwh,
        "flow of every planned minute x energy of a cubic metre", "definition", (each,),
    )  # fmt: skip
    prices = ", ".join(
        f"{one.energy_kwh:.1f} kWh at {one.price_money_per_kwh:g}"
        for one in made.by_price
    )
    money = Trace(
        "energy_money", made.energy_money,
        "energy of every minute x the price of that minute", "definition",
        (energy, entered("energy_at_prices", prices or None, "site.toml: tariff")),
    )  # fmt: skip
    return charge, money


@dataclass(frozen=True, slots=True, eq=False)
class _Minutes:
    """Minutes with water: when, flow and power in each."""

    when: DateArray
    flow: FloatArray
    kw: FloatArray


def _by_minute(
    site: Site, runs: Sequence[PlannedRun], extra_head_m: Mapping[str, float]
) -> tuple[_Minutes, set[str]]:
    """Every minute with water, and the zones whose flow is not known."""
    when: list[DateArray] = [np.zeros(0, dtype="datetime64[m]")]
    flow: list[FloatArray] = [np.zeros(0)]
    power: list[FloatArray] = [np.zeros(0)]
    unknown: set[str] = set()
    for night in sorted({run.night for run in runs}):
        for one in stretches(run for run in runs if run.night == night):
            n = round((one.end - one.start).total_seconds() / MIN_PER_H)
            when.append(np.datetime64(one.start, "m") + np.arange(n))
            flow.append(np.full(n, one.flow_l_per_min))
            unknown |= set(one.unknown)
            head = max(extra_head_m.get(zone, 0.0) for zone in one.zones)
            energy, _ = supply_energy_kwh_per_m3(site.supply, head)
            each = pump_power_kw(one.flow_l_per_min, energy_kwh_per_m3=energy or 0.0)
            power.append(np.full(n, each))
    found = _Minutes(np.concatenate(when), np.concatenate(flow), np.concatenate(power))
    return found, unknown


def _largest_quarter(found: _Minutes) -> tuple[float, dt.datetime | None, float]:
    """Mean power of the largest quarter hour, its beginning, its mean flow."""
    if found.when.size == 0:
        return 0.0, None, 0.0
    quarter = found.when.astype(np.int64) // QUARTER_H_MIN
    names, of = np.unique(quarter, return_inverse=True)
    power = np.bincount(of, found.kw) / QUARTER_H_MIN
    there = np.bincount(of, found.flow) / QUARTER_H_MIN
    best = int(power.argmax())
    start = np.datetime64(int(names[best]) * QUARTER_H_MIN, "m")
    at: dt.datetime = start.astype("datetime64[s]").astype(object)
    return float(power[best]), at, float(there[best])


def _by_price(site: Site, found: _Minutes) -> tuple[EnergyAt, ...] | None:
    if site.tariff is None:
        return None
    # Monday 0:00 begins the week; 1970-01-01 was a Thursday
    of_week = (found.when.astype(np.int64) + 3 * MIN_PER_DAY) % (7 * MIN_PER_DAY)
    price = week_of_prices(site.tariff)[of_week]
    if not np.isfinite(price).all():
        return None
    names, of = np.unique(price, return_inverse=True)
    energy = np.bincount(of, found.kw, minlength=names.size) / MIN_PER_H
    return tuple(
        EnergyAt(float(name), float(one))
        for name, one in zip(names, energy, strict=True)
    )
