"""An option's nights in, sentences about fit, overlap and power out; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from scheduler.reports.cost_words import EMPTY, money
from scheduler.said import day_text
from scheduler.units import shown

if TYPE_CHECKING:
    from scheduler.money.night_fit import NightFit
    from scheduler.money.option_nights import OptionNights
    from scheduler.money.power import PowerWeek
    from scheduler.units import System


def nights_words(one: OptionNights, units: System) -> tuple[str, ...]:
    """Whether the nights of all zones fit, now and then, and what the pump draws."""
    return (
        *_occasion("All zones together, this week", one.week_now, one.week_then, units),
        *_occasion(
            "All zones together, the fullest night of the season",
            one.full_now,
            one.full_then,
            units,
        ),
        *((f"{_none_or_some(one)}: {one.why}.",) if one.why else ()),
        *power_words(one),
    )


def _none_or_some(one: OptionNights) -> str:
    if one.week_then is None and one.full_then is None:
        return "Nights not worked out"
    return "Not all nights are worked out"


def _occasion(
    name: str, now: NightFit | None, then: NightFit | None, units: System
) -> Iterator[str]:
    if then is None:
        return
    was = EMPTY if now is None else str(now.longest_min)
    day = day_text(then.when)
    said = (
        f"{name} ({day}): takes {was} → {then.longest_min} min of "
        f"{then.window_min}, {fit_words(then)}"
    )
    if now is not None and not now.fits:
        said += f" (now: {fit_words(now)})"
    said += f"; worst overlap {overlap_words(now, then, units)}"
    if then.left_out:
        said += f"; not in it: {', '.join(then.left_out)}"
    yield f"{said}."
    for stop in then.stops:
        name = f"{stop.where} " if stop.where.startswith("zone ") else ""
        yield f"{_capital(name + stop.what)}. Ways out, the cheapest first: {stop.fix}."


def fit_words(one: NightFit) -> str:
    """Whether it fits, and how many minutes are missing."""
    if one.fits:
        return "fits"
    if one.minutes_short:
        return f"does not fit, {one.minutes_short} min short"
    return "does not fit"


def overlap_words(now: NightFit | None, then: NightFit, units: System) -> str:
    """Highest flow at once against the pump."""
    was = None if now is None else now.peak_flow_l_per_min
    pump = shown(then.pump_l_per_min, "l_per_min", units)
    return (
        f"{shown(was, 'l_per_min', units, with_unit=False)} → "
        f"{shown(then.peak_flow_l_per_min, 'l_per_min', units)} of {pump}, "
        f"{then.most_valves} valve{'s' if then.most_valves != 1 else ''} at most"
    )


def power_words(one: OptionNights) -> Iterator[str]:
    """Charge for power and energy by its price, before and after."""
    if one.week_then is None:
        return
    now = one.week_now.power if one.week_now else None
    then = one.week_then.power
    if then.power_kw is None:
        yield f"Power and energy of these hours: not worked out: {then.why}."
        return
    yield (
        f"Pump in the planned hours of this week: largest quarter hour "
        f"{_kw(now)} → {_kw(then)} kW, charge for power {_demand(now)} → "
        f"{_demand(then)} a month; energy {_kwh(now)} → {_kwh(then)} kWh, "
        f"{_cost(now)} → {_cost(then)}{_by_price(now, then)}."
    )
    if one.full_now and one.full_then:
        was, full = one.full_now.power, one.full_then.power
        yield (
            f"In the fullest night of the season: {_kw(was)} → {_kw(full)} kW, charge "
            f"for power {_demand(was)} → {_demand(full)} a month."
        )
    if then.why:
        yield f"Not worked out, or too low: {then.why}."


def _by_price(now: PowerWeek | None, then: PowerWeek) -> str:
    """Energy at each price, where there are several."""
    before = {e.price_money_per_kwh: e.energy_kwh for e in now.by_price} if now else {}
    after = {one.price_money_per_kwh: one.energy_kwh for one in then.by_price}
    prices = sorted({*before, *after})
    if len(prices) < 2:
        return ""
    told = ", ".join(
        f"{before.get(price, 0.0):.0f} → {after.get(price, 0.0):.0f} kWh at {price:g}"
        for price in prices
    )
    return f" ({told})"


def _kw(one: PowerWeek | None) -> str:
    return EMPTY if one is None or one.power_kw is None else f"{one.power_kw:.1f}"


def _demand(one: PowerWeek | None) -> str:
    return money(one.demand_money_a_month) if one else EMPTY


def _kwh(one: PowerWeek | None) -> str:
    return EMPTY if one is None or one.energy_kwh is None else f"{one.energy_kwh:.0f}"


def _cost(one: PowerWeek | None) -> str:
    if one is None or one.energy_money is None:
        return EMPTY
    return f"{one.energy_money:.2f}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
