"""What the planned week adds to a year in, a dictionary for JSON out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.reports.machine import Json

if TYPE_CHECKING:
    from scheduler.money.night_fit import NightFit
    from scheduler.money.option_nights import OptionNights
    from scheduler.money.periods import Span
    from scheduler.money.power import PowerWeek
    from scheduler.money.week_cost import ZoneWeekCost
    from scheduler.money.with_week import WithWeek


def with_week_json(around: WithWeek) -> Json:
    """The week by zone, the three spans, and the nights of every option."""
    week = around.week
    return {
        "week": {
            "start": week.start.isoformat(),
            "volume_m3": week.volume_m3,
            "above_need_m3": week.above_need_m3,
            "passed_m3": week.passed_m3,
            "money": week.money,
            "above_need_money": week.above_need_money,
            "unknown": list(week.unknown),
            "zones": [_zone(one) for one in week.zones],
        },
        "periods": [
            {
                "zone": one.zone or None,
                "week": _span(one.week),
                "so_far": _span(one.so_far),
                "year": _span(one.year),
            }
            for one in around.periods
        ],
        "option_nights": [_nights(one) for one in around.nights],
    }


def _zone(one: ZoneWeekCost) -> Json:
    return {
        "zone": one.zone_id,
        "volume_m3": one.volume_m3,
        "need_mm": one.need_mm,
        "above_need_m3": one.above_need_m3,
        "passed_m3": one.passed_m3,
        "rain_passed_m3": one.rain_passed_m3,
        "money": one.money,
        "above_need_money": one.above_need_money,
        "energy_kwh": one.energy_kwh,
        "quarters": [
            {
                "applied_mm": quarter.applied_mm,
                "above_need_mm": quarter.above_need_mm,
                "passed_mm": quarter.passed_mm,
            }
            for quarter in one.quarters
        ],
        "why": one.why,
    }


def _span(one: Span) -> Json:
    return {
        "volume_m3": one.volume_m3,
        "above_need_m3": one.above_need_m3,
        "above_need_money": one.above_need_money,
    }


def _nights(one: OptionNights) -> Json:
    return {
        "option": one.option_id,
        "fits": one.fits_then,
        "week": {"now": _fit(one.week_now), "then": _fit(one.week_then)},
        "fullest_night": {"now": _fit(one.full_now), "then": _fit(one.full_then)},
        "why": one.why,
    }


def _fit(one: NightFit | None) -> Json | None:
    if one is None:
        return None
    return {
        "when": one.when.isoformat(),
        "fits": one.fits,
        "minutes_short": one.minutes_short,
        "longest_min": one.longest_min,
        "window_min": one.window_min,
        "peak_flow_l_per_min": one.peak_flow_l_per_min,
        "pump_l_per_min": one.pump_l_per_min,
        "most_valves": one.most_valves,
        "ways_out": [{"what": said.what, "fix": said.fix} for said in one.stops],
        "left_out": list(one.left_out),
        "power": _power(one.power),
    }


def _power(one: PowerWeek) -> Json:
    return {
        "power_kw": one.power_kw,
        "at": None if one.at is None else one.at.isoformat(),
        "flow_l_per_min": one.flow_l_per_min,
        "demand_money_a_month": one.demand_money_a_month,
        "energy_kwh": one.energy_kwh,
        "energy_money": one.energy_money,
        "by_price": [
            {"price_money_per_kwh": e.price_money_per_kwh, "energy_kwh": e.energy_kwh}
            for e in one.by_price
        ],
        "why": one.why,
    }
