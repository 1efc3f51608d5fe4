"""What uneven water costs in, a dictionary for JSON out; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from scheduler.reports.cost_quarters import quarters_json
from scheduler.reports.machine import FORMAT, Json, findings_json

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.money.actual import ActualSaving
    from scheduler.money.changes import Changes
    from scheduler.money.economics import SiteCost
    from scheduler.money.gain import KnownDu
    from scheduler.money.judged import RuleReturn
    from scheduler.money.retrofit import OptionResult
    from scheduler.money.rule_cost import RuleCost
    from scheduler.money.water_cost import ZoneCost


def cost_json(cost: SiteCost, findings: Iterable[Finding]) -> Json:
    """Zones, their sum, and options, with None for what is not entered."""
    tariff = cost.site.tariff
    total = cost.total
    return {
        "format": FORMAT,
        "season": cost.year or None,
        "currency": tariff.currency if tariff else None,
        "water_price_money_per_m3": cost.water_money_per_m3,
        "reference": None
        if cost.reference is None
        else {"du_lq": cost.reference[0], "name": cost.reference[1]},
        "zones": [_zone_json(one) for one in cost.zones],
        "total": {
            "volume_m3": total.volume_m3,
            "above_need_m3": total.above_need_m3,
            "money": total.money,
            "above_need_money": total.above_need_money,
            "energy_kwh": total.energy_kwh,
            "energy_money": total.energy_money,
        },
        "demand": None
        if cost.demand is None
        else {
            "power_kw": cost.demand.power_kw,
            "money_a_month": cost.demand.money_a_month,
        },
        "options": [_option_json(one) for one in cost.options],
        "findings": findings_json(findings),
    }


def _zone_json(one: ZoneCost) -> Json:
    against, weekly = one.reference, one.weekly
    return {
        "zone": one.zone_id,
        "rule": one.own.rule,
        "volume_m3": one.own.volume_m3,
        "need_mm": one.need_mm,
        "above_need_m3": one.own.above_need_m3,
        "above_need_low_m3": one.above_need_low_m3,
        "above_need_high_m3": one.above_need_high_m3,
        "money": one.own.money,
        "above_need_money": one.above_need_money,
        "water_money": one.own.water_money,
        "energy_kwh": one.own.energy_kwh,
        "energy_money": one.own.energy_money,
        "deep_percolation_mm": one.own.deep_percolation_mm,
        "stress_days": one.own.stress_days,
        "nitrogen_kg": one.own.nitrogen_kg,
        "nitrogen_money": one.own.nitrogen_money,
        "labour_hours": one.labour_hours,
        "labour_money": one.labour_money,
        "rules": [_rule_json(rule) for rule in one.rules],
        "reference": None
        if against is None
        else {
            "du_lq": against.du_lq,
            "saved_m3": against.saved_m3,
            "saved_same_service_m3": against.saved_same_service_m3,
        },
        "weeks": [
            {"start": str(start), "volume_m3": volume, "above_need_m3": above}
            for start, volume, above in zip(
                weekly.start, weekly.volume_m3, weekly.above_need_m3, strict=True
            )
        ],
    }


def _rule_json(one: RuleCost) -> Json:
    return {
        "rule": one.rule,
        "factor": one.factor,
        "volume_m3": one.volume_m3,
        "above_need_m3": one.above_need_m3,
        "deep_percolation_mm": one.deep_percolation_mm,
        "stress_days": one.stress_days,
        "money": one.money,
        "energy_kwh": one.energy_kwh,
        "nitrogen_kg": one.nitrogen_kg,
    }


def _option_json(one: OptionResult) -> Json:
    own = one.own
    return {
        "id": one.option.id,
        "name": one.option.name,
        "deed": one.option.deed,
        "zones": list(one.option.zones),
        "outlay": one.outlay_money,
        "yearly_cost": one.cost.yearly_cost_money if one.cost else None,
        "net_present_value": own.net_present_value if own else None,
        "break_even_price_per_m3": own.break_even_price_per_m3 if own else None,
        "chance_it_pays": own.chance_it_pays if own else None,
        "verdict": own.verdict if own else "not proven",
        "missing": list(one.missing),
        "lines": [
            {
                "what": line.what,
                "counted_by": line.counted_by,
                "quantity": line.quantity,
                "price": line.unit_money,
                "money": line.money,
                "life_years": line.life_years,
            }
            for line in one.outlay.lines
        ],
        "du": [
            {"zone": zone, "now": _du_json(now), "then": _du_json(then)}
            for zone, now, then in one.known
        ],
        "gain_low": one.gain_low,
        "gain_high": one.gain_high,
        "rules": [_return_json(rule) for rule in one.returns],
        "same_service_saved_m3": one.same_service_saved_m3,
        "potential_saved_m3": one.potential_saved_m3,
        "actual": [_actual_json(saving) for saving in one.actual],
        "sensitivities": [
            {
                "driver": driver.driver,
                "low": driver.low,
                "high": driver.high,
                "net_low": driver.net_low_money,
                "net_high": driver.net_high_money,
            }
            for driver in one.sensitivities
        ],
        "changes": [_changes_json(changes) for changes in one.changes],
        "quarters": [quarters_json(each) for each in one.quarters],
        "years": [
            {
                "water_m3": year.water_m3,
                "energy_kwh": year.energy_kwh,
                "labour_hours": year.labour_hours,
            }
            for year in one.years
        ],
        "chance_by_water_price": None
        if one.curve is None
        else {
            "water_money_per_m3": list(one.curve.water_money_per_m3),
            "chance": list(one.curve.chance),
        },
    }


def _du_json(known: KnownDu) -> Json:
    return {
        "du_lq": known.du_lq,
        "low": known.low,
        "high": known.high,
        "is_difference": known.is_difference,
        "level": known.level,
        "n_days": known.n_days,
        "source": known.source,
    }


def _return_json(one: RuleReturn) -> Json:
    return {
        "rule": one.rule,
        "saved_m3": one.saved_m3,
        "saved": one.saved_money,
        "net": one.net_money,
        "net_present_value": one.net_present_value,
        "internal_rate": one.internal_rate,
        "payback_years": one.payback_years,
        "break_even_price_per_m3": one.break_even_price_per_m3,
        "break_even_water_price_per_m3": one.break_even_water_price_per_m3,
        "break_even_plant_losses": one.break_even_losses_money,
        "chance_it_pays": one.chance_it_pays,
        "verdict": one.verdict,
        "why": one.why,
    }


def _actual_json(one: ActualSaving) -> Json:
    return {
        "zone": one.zone,
        "done_on": one.done_on.isoformat(),
        "du_lq_before": one.du_before,
        "du_lq_after": one.du_after,
        "saved_m3": one.saved_m3,
        "why": one.why,
    }


def _changes_json(one: Changes) -> Json:
    return {
        "zone": one.zone,
        "rate_now_mm_per_h": one.rate_now_mm_per_h,
        "rate_then_mm_per_h": one.rate_then_mm_per_h,
        "minutes_ratio": one.minutes_ratio,
        "longest_night_now_min": one.longest_night_now_min,
        "longest_night_then_min": one.longest_night_then_min,
        "window_min": one.window_min,
        "fits_window": one.fits_window,
        "flow_now_l_per_min": one.flow_now_l_per_min,
        "flow_then_l_per_min": one.flow_then_l_per_min,
        "pump_l_per_min": one.pump_l_per_min,
        "fits_pump": one.fits_pump,
        "pressure_now_kpa": one.pressure_now_kpa,
        "pressure_then_kpa": one.pressure_then_kpa,
    }
