"""One option worked up in, plain text out; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.reports.cost_quarters import quarters_words
from scheduler.reports.cost_words import (
    EMPTY,
    count,
    money,
    option_name,
    per_volume,
    percent,
    volume,
    volume_unit,
)
from scheduler.reports.text import WIDTH, shorten, table
from scheduler.said import signed, true_minus
from scheduler.units import shown

if TYPE_CHECKING:
    from scheduler.money.changes import Changes
    from scheduler.money.economics import SiteCost
    from scheduler.money.gain import KnownDu
    from scheduler.money.judged import RuleReturn
    from scheduler.money.outlay import OutlayLine
    from scheduler.money.retrofit import OptionResult
    from scheduler.units import System


def option_text(one: OptionResult, cost: SiteCost, units: System) -> str:
    """What an option costs, returns and changes."""
    zones = ", ".join(one.option.zones)
    title = f"{option_name(one)} ({one.option.deed}, zone {zones})"
    parts = [fill(title, WIDTH) + "\n" + "=" * min(len(title), WIDTH)]
    parts += [fill(line, WIDTH) for line in uniformity_words(one)]
    parts += list(_outlay(one, units))
    if one.returns:
        parts.append(_returns(one, units))
        parts.append(fill(own_words(one, cost, units), WIDTH))
    if one.sensitivities:
        parts.append(_drivers(one))
    parts += [fill(changes_words(changes, units), WIDTH) for changes in one.changes]
    parts += [fill(quarters_words(each, units), WIDTH) for each in one.quarters]
    parts.append(fill(potential_words(one, units), WIDTH))
    return "\n\n".join(parts)


def uniformity_words(one: OptionResult) -> Iterator[str]:
    """Uniformity now and then of every zone, and what it gains."""
    for zone, now, then in one.known:
        yield (
            f"Zone {zone}: DU {du_words(now)} now ({now.source}, {days_words(now)}), "
            f"{du_words(then)} then ({then.source}, {days_words(then)})."
        )
    if one.gain_low is not None and one.gain_high is not None:
        yield (
            f"Gain of DU {signed(one.gain_low)} to {signed(one.gain_high)}, nine times "
            "in ten."
        )
    elif one.known:
        yield "How far the gain of DU may be off is not known."


def du_words(known: KnownDu) -> str:
    """A uniformity with its range, where known."""
    if known.low is None or known.high is None:
        return f"{known.du_lq:.2f}"
    if known.is_difference:
        return f"{known.du_lq:.2f} (by {signed(known.low)} to {signed(known.high)})"
    return f"{known.du_lq:.2f} ({known.low:.2f}–{known.high:.2f})"


def days_words(known: KnownDu) -> str:
    """On how many days it was tested."""
    if known.n_days == 0:
        return "not tested"
    return f"{known.n_days} day{'s' if known.n_days > 1 else ''}"


def _outlay(one: OptionResult, units: System) -> Iterator[str]:
    if one.option.items:
        head = ("what", "how many", "each", "money", "life")
        yield table(head, [_line(line, units) for line in one.outlay.lines])
    said = f"Outlay {money(one.outlay_money)} after the grant"
    if one.cost is not None:
        said += (
            f", {money(one.cost.yearly_cost_money)} a year over its life at "
            f"{one.cost.interest:.1%}, repairs {money(one.cost.repairs_money)} in it"
        )
    option = one.option
    said += (
        ". Saved besides, as entered: work "
        f"{count(option.labour_saved_hours_a_year)} h, fertilizer "
        f"{money(option.fertilizer_saved_money_a_year)}, plant losses "
        f"{money(option.plant_losses_saved_money_a_year)} a year."
    )
    yield fill(said, WIDTH)


def _line(line: OutlayLine, units: System) -> tuple[str, ...]:
    suffix = "money_per_m"
    if line.is_length:
        many = shown(line.quantity, "m", units, digits=0)
        each = shown(line.unit_money, suffix, units)
    else:
        many = count(line.quantity)
        each = EMPTY if line.unit_money is None else f"{line.unit_money:,.2f}"
    life = EMPTY if line.life_years is None else f"{line.life_years:g} y"
    return shorten(line.what, 30), many, each, money(line.money), life


def _returns(one: OptionResult, units: System) -> str:
    head = ("rule", "break-even", "saves", "net a year", "worth now", "chance",
            "verdict")  # fmt: skip
    return table(head, [_return(rule, units) for rule in one.returns])


def _return(one: RuleReturn, units: System) -> tuple[str, ...]:
    return (
        one.rule,
        per_volume(one.break_even_price_per_m3, units, with_unit=False),
        volume(one.saved_m3, units),
        money(one.net_money),
        money(one.net_present_value),
        percent(one.chance_it_pays),
        one.verdict,
    )


def own_words(one: OptionResult, cost: SiteCost, units: System) -> str:
    """Verdict, payback and break-even under the zones' own rules."""
    own = one.own
    if own is None:
        return "Nothing can be computed of it: see the findings."
    said = f"Under the zones' own rules: {own.verdict} ({own.why})."
    years = own.payback_years
    said += f" Payback {EMPTY if years is None else f'{years:.1f} years'}"
    rate = own.internal_rate
    said += f", return {EMPTY if rate is None else true_minus(f'{rate:.1%}')}."
    alone = per_volume(own.break_even_water_price_per_m3, units)
    said += f" Price of the water alone at which it breaks even: {alone}"
    said += f" (now {per_volume(cost.water_money_per_m3, units)})."
    if own.break_even_losses_money is not None:
        said += (
            " To pay it must save "
            f"{money(own.break_even_losses_money)} of plant losses a year besides."
        )
    if one.same_service_saved_m3 is not None:
        said += (
            " By position, at the same service of the driest quarter, it saves "
            f"{volume(one.same_service_saved_m3, units)} {volume_unit(units)}."
        )
    return said


def _drivers(one: OptionResult) -> str:
    head = ("what drives it", "low", "high", "net at low", "net at high")
    rows = [
        (
            driver.driver,
            true_minus(driver.low),
            true_minus(driver.high),
            money(driver.net_low_money),
            money(driver.net_high_money),
        )
        for driver in one.sensitivities
    ]
    return table(head, rows)


def changes_words(one: Changes, units: System) -> str:
    """What else an option changes in a zone."""

    def pair(now: float | None, then: float | None, suffix: str) -> str:
        first = shown(now, suffix, units, with_unit=False)
        return f"{first} → {shown(then, suffix, units)}"

    ratio = EMPTY if one.minutes_ratio is None else f"× {one.minutes_ratio:.2f}"
    pump = shown(one.pump_l_per_min, "l_per_min", units)
    night = f"{count(one.longest_night_now_min)} → {count(one.longest_night_then_min)}"
    return (
        f"What else changes in {one.zone}: rate "
        f"{pair(one.rate_now_mm_per_h, one.rate_then_mm_per_h, 'mm_per_h')}; minutes "
        f"{ratio}; longest night, by itself, {night} min of {count(one.window_min)} "
        f"{_fits(one.fits_window)}; flow at once "
        f"{pair(one.flow_now_l_per_min, one.flow_then_l_per_min, 'l_per_min')} of "
        f"{pump} {_fits(one.fits_pump)}; pressure "
        f"{pair(one.pressure_now_kpa, one.pressure_then_kpa, 'kpa')}."
    )


def _fits(fits: bool | None) -> str:
    if fits is None:
        return "(not known)"
    return "(fits)" if fits else "(does not fit)"


def potential_words(one: OptionResult, units: System) -> str:
    """What is forecast, and what was re-tested; never mixed."""
    unit = volume_unit(units)
    said = f"Potential, as forecast: {volume(one.potential_saved_m3, units)} {unit}."
    if not one.actual:
        return said + f" Actual, as re-tested: {EMPTY} (not done yet)."
    for saving in one.actual:
        why = f" ({saving.why})" if saving.why else ""
        said += (
            f" Actual in {saving.zone}, as re-tested: "
            f"{volume(saving.saved_m3, units)} {unit}{why}."
        )
    return said
