"""What uneven water costs in; the tables, lines and sentences of its page out."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

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
from scheduler.said import true_minus
from scheduler.units import shown
from tui.screens.wording import name_cell, name_width, number_lines
from tui.tried import arrow
from tui.widgets.range_bars import RangeRow, RangeRows
from tui.widgets.zone_table import Column

if TYPE_CHECKING:
    from scheduler.money.economics import SiteCost
    from scheduler.money.gain import KnownDu
    from scheduler.money.judged import RuleReturn
    from scheduler.money.retrofit import OptionResult
    from scheduler.money.water_cost import ZoneCost
    from scheduler.site import Rule
    from scheduler.units import System

NOTHING = "do nothing"
DRIVERS = 2  # that are told
OUTLAY = 5  # place of its cell
ROOM = 78  # columns of a line on the narrowest terminal
SHOWN_RULES: "tuple[Rule, ...]" = ("low half", "low quarter", "share served")
ZONE_HEADS = (
    "water", "own", "range", "average", "half", "quarter", "served", "worth"
)  # fmt: skip
ZONE_WIDTHS = (7, 6, 11, 8, 6, 8, 7, 8)
GOES = "range average"  # heads of columns that give way
# prices, interest and life in the order of their keys
NAMES = ("water", "energy", "interest", "life")
HINTS = {
    "water price": "price of water, such as 3.50/kgal or 0.90/m3",
    "energy price": "price of a kWh at every hour, such as 0.15",
    "interest": "interest in percent a year, such as 6",
    "life": "life of every option in years, such as 12",
}
NO_OPTION = (
    "No option is written: add [[option]] to options.toml, press t for a tested "
    "package, or m on the spacing page."
)


def assumptions(cost: "SiteCost", units: "System") -> list[tuple[str, str]]:
    """Each assumption with the key that changes it."""
    tariff = cost.site.tariff
    energy = cost.prices.energy_money_per_kwh if cost.prices else None
    interest = tariff.interest if tariff else None
    lives = sorted(
        {
            line.life_years
            for one in cost.options
            for line in one.outlay.lines
            if line.life_years is not None
        }
    )
    values = (
        per_volume(cost.water_money_per_m3, units),
        shown(energy, "money_per_kwh", units),
        EMPTY if interest is None else f"{interest:.1%}",
        f"{'–'.join(f'{one:g}' for one in dict.fromkeys((*lives[:1], *lives[-1:])))} y"
        if lives
        else EMPTY,
    )
    return list(zip(NAMES, values, strict=True))


def currency(cost: "SiteCost") -> str:
    """Name of the money, as entered."""
    return cost.site.tariff.currency if cost.site.tariff else "money"


# --- the options ---------------------------------------------------------------


def option_columns(
    units: "System", *, roomy: bool, is_tried: bool = False
) -> list[Column]:
    """Heads of the options: break-even first, rules beside each other.

    With a what-if a changed cell holds two numbers; the outlay gives its room then.
    """
    unit = volume_unit(units)
    told = f"option; break-even per {unit}:" if roomy else f"break-even/{unit}"
    if is_tried:
        return [
            Column(told, 30 if roomy else 14, is_right=False),
            *(Column(name, 13 if roomy else 10)
              for name in ("own rule", "low half", "low qu.", "served")),
            *([Column("outlay", 13)] if roomy else []),
            Column("a year", 13 if roomy else 9),
            Column("  verdict", 26 if roomy else 14, is_right=False),
        ]  # fmt: skip
    return [
        Column(told, 34 if roomy else 16, is_right=False),
        Column("own rule", 9),
        Column("low half", 9),
        Column("low quarter" if roomy else "low qu.", 12 if roomy else 8),
        Column("share served" if roomy else "served", 13 if roomy else 7),
        Column("outlay", 8 if roomy else 7),
        Column("a year", 7),
        Column("  verdict", 15, is_right=False),
    ]


def option_rows(
    cost: "SiteCost",
    units: "System",
    before: "SiteCost | None" = None,
    *,
    roomy: bool = True,
) -> list[tuple[str, list[str]]]:
    """Doing nothing, then every option, cheapest first; was→now where it changed."""
    nothing = [NOTHING, EMPTY, EMPTY, EMPTY, EMPTY, "0", "0", ""]
    rows = [("", nothing)]
    old = {one.option.id: one for one in before.options} if before is not None else {}
    for one in cost.options:
        cells = _option_cells(one, units)
        if one.option.id in old:
            was = _option_cells(old[one.option.id], units)
            pairs = zip(was[1:], cells[1:], strict=True)
            changed = [b if a == b else f"{a}→{b.strip()}" for a, b in pairs]
            if not roomy and cells[-1] != was[-1]:  # one of them has room
                changed[-1] = f" →{cells[-1].strip()}"
            cells = [cells[0], *changed]
        rows.append((one.option.id, cells))
    if before is not None and not roomy:
        rows = [(key, [*cells[:OUTLAY], *cells[OUTLAY + 1 :]]) for key, cells in rows]
    return rows


def _option_cells(one: "OptionResult", units: "System") -> list[str]:
    by_rule = {rule.rule: rule for rule in one.returns}
    return [
        option_name(one),
        _tie(one.own, units),
        *(_tie(by_rule.get(rule), units) for rule in SHOWN_RULES),
        money(one.outlay_money),
        money(one.cost.yearly_cost_money if one.cost else None),
        f"  {one.own.verdict}" if one.own else "  not known",
    ]


def _tie(one: "RuleReturn | None", units: "System") -> str:
    price = None if one is None else one.break_even_price_per_m3
    return per_volume(price, units, with_unit=False)


# --- one option ----------------------------------------------------------------


def option_lines(
    one: "OptionResult", before: "OptionResult | None", units: "System"
) -> list[str]:
    """Numbers of one option under its zones' own rules, and what they were."""
    unit = volume_unit(units)
    was = f"{'was':>10}" if before is not None else ""
    lines = [f"{one.option.deed}, zone {' '.join(one.option.zones):<10}"[:26].ljust(26)]
    lines[0] += f"{'now':>10}{was}"
    for name, show in _measures(units, unit):
        old = f"{show(before):>10}" if before is not None else ""
        lines.append(f"{name:<26}{show(one):>10}{old}")
    return lines


def _measures(
    units: "System", unit: str
) -> Sequence[tuple[str, Callable[["OptionResult"], str]]]:
    def own(show: Callable[["RuleReturn"], str]) -> Callable[["OptionResult"], str]:
        return lambda one: EMPTY if one.own is None else show(one.own)

    def price(value: float | None) -> str:
        return per_volume(value, units, with_unit=False)

    return (
        (f"break-even per {unit}", own(lambda o: price(o.break_even_price_per_m3))),
        ("  of the water alone", own(lambda o: price(o.break_even_water_price_per_m3))),
        ("break-even plant losses", own(lambda o: money(o.break_even_losses_money))),
        (f"saves, {unit} a year", own(lambda o: volume(o.saved_m3, units))),
        ("saves, money a year", own(lambda o: money(o.saved_money))),
        ("costs a year", _yearly),
        ("net a year", own(lambda o: money(o.net_money))),
        ("worth now", own(lambda o: money(o.net_present_value))),
        ("payback, years", own(_payback)),
        ("chance that it pays", own(lambda o: percent(o.chance_it_pays))),
    )


def _yearly(one: "OptionResult") -> str:
    return money(one.cost.yearly_cost_money if one.cost else None)


def _payback(one: "RuleReturn") -> str:
    return EMPTY if one.payback_years is None else f"{one.payback_years:.1f}"


def reasons(one: "OptionResult", before: "OptionResult | None" = None) -> list[str]:
    """Uniformity now and then, the verdict and why, and what is missing."""
    said = [
        f"{zone}: DU {_du(now)} now, {_du(then)} then ({then.source})"
        for zone, now, then in one.known
    ]
    if one.own is not None:
        said.append(f"{one.own.verdict}: {one.own.why}")
    if one.missing:
        said.append(f"not entered: {', '.join(one.missing)}")
    said += [finding.what for finding in one.findings if finding.level != "note"]
    if one.sensitivities:
        was = _drivers(before) if before is not None else []
        for i, line in enumerate(_drivers(one)):
            old = was[i] if i < len(was) and was[i] != line else ""
            said.append(f"{line}; before: {old}" if old else line)
    actual = "; ".join(f"{a.zone} {a.why or 're-tested'}" for a in one.actual)
    said.append(f"actual saving: {actual or 'not done, nothing re-tested'}")
    return said


def _drivers(one: "OptionResult") -> list[str]:
    """What moves the answer most, in a sentence each."""
    return [
        f"{driver.driver} {'moves it most' if not i else 'then'}: "
        f"{true_minus(driver.low)} gives "
        f"{money(driver.net_low_money)}, {driver.high} {money(driver.net_high_money)}"
        for i, driver in enumerate(one.sensitivities[:DRIVERS])
    ]


def _du(known: "KnownDu") -> str:
    if known.low is None or known.high is None or known.is_difference:
        return f"{known.du_lq:.2f}"
    return f"{known.du_lq:.2f} ({known.low:.2f}–{known.high:.2f})"


# --- zones ---------------------------------------------------------------------


def zone_lines(
    cost: "SiteCost", before: "SiteCost | None", units: "System", room: int = ROOM
) -> list[str]:
    """Water above the need zone by zone, rules beside each other; worth, and was."""
    if not cost.zones:
        return ["No season can be run: see the findings."]
    was = ["was"] if before is not None else []
    old = {one.zone_id: one for one in before.zones} if before is not None else {}
    rows = [[*ZONE_HEADS, *was]]
    rows += [_zone_cells(one, old.get(one.zone_id), units) for one in cost.zones]
    rows.append(_site_cells(cost, before, units))
    ids = [one.zone_id for one in cost.zones]
    lines = number_lines(rows, (*ZONE_WIDTHS, *(8 for _ in was)), room - 6, GOES)
    wide = name_width(ids, room - len(lines[0]))
    names = [name_cell(one, wide) for one in ("zone", *ids, "site")]
    return [
        f"Above need, {volume_unit(units)} a year; worth in {currency(cost)}",
        *(name + line for name, line in zip(names, lines, strict=True)),
    ]


def _zone_cells(one: "ZoneCost", old: "ZoneCost | None", units: "System") -> list[str]:
    low, high = one.above_need_low_m3, one.above_need_high_m3
    ends = EMPTY
    if low is not None and high is not None:
        ends = f"{volume(low, units)}–{volume(high, units)}"
    by_rule = {rule.rule: volume(rule.above_need_m3, units) for rule in one.rules}
    shown_rules: tuple[Rule, ...] = ("average", *SHOWN_RULES)
    return [
        volume(one.own.volume_m3, units),
        volume(one.own.above_need_m3, units),
        ends,
        *(by_rule.get(rule, EMPTY) for rule in shown_rules),
        money(one.above_need_money),
        *([] if old is None else [money(old.above_need_money)]),
    ]


def _site_cells(
    cost: "SiteCost", before: "SiteCost | None", units: "System"
) -> list[str]:
    total = cost.total
    return [
        volume(total.volume_m3, units),
        volume(total.above_need_m3, units),
        *[""] * 5,
        money(total.above_need_money),
        *([] if before is None else [money(before.total.above_need_money)]),
    ]


def zone_bars(cost: "SiteCost", before: "SiteCost | None") -> RangeRows | None:
    """Worth of the water above need as bars, and before what is tried."""
    worth = {one.zone_id: one.above_need_money for one in cost.zones}
    if not worth or None in worth.values():
        return None  # the table says what is missing
    old = {one.zone_id: one.above_need_money for one in before.zones} if before else {}
    rows = []
    for zone_id, value in worth.items():
        was = old.get(zone_id)
        same = money(was) == money(value)
        text = money(value) if was is None or same else arrow(money(was), money(value))
        rows.append(RangeRow(zone_id, value or 0.0, text, not same and bool(old), was))
    return RangeRows(tuple(rows), (f"above need, {currency(cost)} a year",))


# --- in words ------------------------------------------------------------------


def said(
    cost: "SiteCost",
    one: "OptionResult | None",
    units: "System",
    before: "SiteCost | None" = None,
) -> list[str]:
    """The page in sentences; with a what-if, those that differ as they were."""
    now = _said(cost, one, units)
    if before is None:
        return now
    old = None
    if one is not None:
        ids = {o.option.id: o for o in before.options}
        old = ids.get(one.option.id)
    was = [line for line in _said(before, old, units) if line not in now]
    return [*now, *(f"Before what is tried: {line}" for line in was)]


def _said(cost: "SiteCost", one: "OptionResult | None", units: "System") -> list[str]:
    unit, total = volume_unit(units), cost.total
    assumed = "; ".join(f"{name} {value}" for name, value in assumptions(cost, units))
    lines = [
        f"Assumed, in {currency(cost)}: {assumed}.",
        f"The site puts on {volume(total.volume_m3, units)} {unit} a year, "
        f"{volume(total.above_need_m3, units)} of it above the need of its plants, "
        f"worth {money(total.above_need_money)}.",
    ]
    for zone in cost.zones:
        lines.append(
            f"{zone.zone_id}: {volume(zone.own.above_need_m3, units)} {unit} above "
            f"need by the rule {zone.own.rule}, {count(zone.own.stress_days)} days of "
            "stress in the driest quarter."
        )
    if one is None:
        return lines
    lines.append(f"{option_name(one)}: {'. '.join(reasons(one))}.")
    lines += [
        f"By the rule {rule.rule}: saves {volume(rule.saved_m3, units)} {unit} a year, "
        f"net {money(rule.net_money)}, breaks even at {_tie(rule, units)} per {unit}: "
        f"{rule.verdict}."
        for rule in one.returns
    ]
    return lines
