"""Plans, tests and findings in, plain dictionaries for JSON out; no arithmetic."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

import numpy as np

from scheduler.field.range_words import ONE_RUN
from scheduler.reports.ahead import ahead_json, weather_json
from scheduler.reports.changes import change_json, clock_json, controllers_json
from scheduler.reports.hydraulics import hydraulics_json
from scheduler.reports.leaching import leaching_json
from scheduler.reports.learned import learned_json
from scheduler.reports.night import hours_json, night_json
from scheduler.reports.pots import groups_json, pots_json
from scheduler.reports.shape import shape_json
from scheduler.reports.shortfall import short_json

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.field.driest_window import DriestWindow
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation
    from scheduler.field.nights import NightRanges
    from scheduler.field.ranges import Range
    from scheduler.field.together import Together
    from scheduler.field.uniformity import Uniformity
    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.trace import Trace
    from scheduler.units import System
    from scheduler.watering.run_time import RuleOutcome


FORMAT = 1
Json = dict[str, Any]


def finding_json(finding: Finding) -> Json:
    """One finding: `level where what fix`."""
    return {
        "level": finding.level,
        "where": finding.where,
        "what": finding.what,
        "fix": finding.fix,
    }


def findings_json(findings: Iterable[Finding]) -> list[Json]:
    """Findings in their order."""
    return [finding_json(one) for one in findings]


def clean(value: Any) -> Any:
    """Numbers that JSON can hold: None for what is not finite, lists for arrays."""
    if isinstance(value, dict):
        return {key: clean(one) for key, one in value.items()}
    if isinstance(value, np.ndarray):
        return clean(value.tolist())
    if isinstance(value, list | tuple):
        return [clean(one) for one in value]
    if isinstance(value, np.generic):
        return clean(value.item())
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value


def _uniformity_json(measured: Uniformity | None) -> Json | None:
    if measured is None:
        return None
    return {
        "n_cans": measured.n_cans,
        "du_lq": measured.du_lq,
        "du_lh": measured.du_lh,
        "cu": measured.cu,
        "cv": measured.cv,
    }


def another_night_json(nights: NightRanges | None, found: Range | None) -> Json:
    """A range of other nights; null with a note where one run cannot tell."""
    return {
        "du_lq_low": found.low if found else None,
        "du_lq_high": found.high if found else None,
        "level": found.level if found else None,
        "n_runs": nights.n_runs if nights else None,
        "note": ONE_RUN if nights and found is None else None,
    }


def together_json(summed: Together | None) -> Json | None:
    """Catches summed by position over runs: measures and their two ranges."""
    if summed is None:
        return None
    cell, nights = summed.du_lq, summed.nights
    return {
        **(_uniformity_json(summed.measured) or {}),
        "n_runs": summed.n_runs,
        "n_days": summed.n_days,
        "one_run_du_lq": summed.one_run_du_lq,
        "du_lq_low": cell.low if cell else None,
        "du_lq_high": cell.high if cell else None,
        "range_level": cell.level if cell else None,
        "as_many_other_nights": another_night_json(
            nights, nights.as_many_nights if nights else None
        ),
        "season_water_is_upper_bound": summed.is_upper_bound,
    }


def driest_windows_json(windows: Iterable[DriestWindow]) -> list[Json]:
    """Scheduling coefficient by window; null where a whole window is dry."""
    return [
        {
            "window_rows": one.window_rows,
            "window_columns": one.window_columns,
            "row": one.row,
            "column": one.column,
            "area_share": one.share,
            "driest_over_mean": one.driest_over_mean,
            "scheduling_coefficient": clean(one.scheduling_coefficient),
        }
        for one in windows
    ]


def run_json(run: RunEvaluation) -> Json:
    """One run of a catch-can test; wind keys are null where the wind is not known."""
    caught, measured, ranges = run.catch, run.uniformity, run.ranges
    wind = run.wind
    return {
        "run": run.run,
        "n_cans": caught.n_cans,
        "mean_ml": caught.mean_ml,
        "mean_depth_mm": caught.mean_depth_mm,
        "net_rate_mm_per_h": caught.net_rate_mm_per_h,
        "net_rate_low_mm_per_h": run.net_low,
        "net_rate_high_mm_per_h": run.net_high,
        "gross_rate_mm_per_h": caught.gross_rate_mm_per_h,
        "gross_rate_from": caught.gross_from or None,
        "net_over_gross": caught.net_over_gross,
        "du_lq": measured.du_lq,
        "du_lq_low": ranges.du_lq.low if ranges else None,
        "du_lq_high": ranges.du_lq.high if ranges else None,
        "range_level": ranges.du_lq.level if ranges else None,
        "du_lh": measured.du_lh,
        "cu": measured.cu,
        "cu_low": ranges.cu.low if ranges else None,
        "cu_high": ranges.cu.high if ranges else None,
        "cv": measured.cv,
        "driest_windows": driest_windows_json(run.driest_windows),
        "as_kept": _uniformity_json(run.as_kept),
        "wind_m_per_s": wind.mean_m_per_s if wind else caught.run.wind_m_per_s,
        "wind_gust_m_per_s": wind.gust_m_per_s if wind else None,
        "wind_direction_deg": wind.direction_deg if wind else None,
        "wind_logged": wind.share_logged if wind else None,
        "wind_band": wind.band if wind else None,
        "wind_from": wind.source if wind else None,
    }


def _stated_json(test: TestEvaluation) -> Json | None:
    if test.stated is None:
        return None
    return {
        "du_lq": test.stated.du_lq,
        "net_rate_mm_per_h": test.stated.net_rate_mm_per_h,
        "source": test.stated.source,
    }


def _another_night(test: TestEvaluation) -> Json | None:
    """One night like those tested; null where the runs were not put together."""
    nights = test.together.nights if test.together else None
    return another_night_json(nights, nights.one_night) if nights else None


def evaluation_json(
    tests: Iterable[TestEvaluation], findings: Iterable[Finding]
) -> Json:
    """Every test of a site."""
    return {
        "format": FORMAT,
        "tests": [
            {
                "zone": test.zone,
                "test": test.test,
                "date": test.date.isoformat(),
                "condition": test.condition,
                "package": test.package,
                "runs": [run_json(run) for run in test.runs],
                "pooled": together_json(test.together),
                "another_night": _another_night(test),
                "stated": _stated_json(test),
                **shape_json(test),
                "hydraulics": hydraulics_json(test.hydraulics),
                "findings": findings_json(test.findings),
            }
            for test in tests
        ],
        "findings": findings_json(findings),
    }


def cans_json(run: RunEvaluation | None, findings: Iterable[Finding]) -> Json:
    """The tailgate answer: one run, and what must be said about it."""
    return {
        "format": FORMAT,
        "run": run_json(run) if run else None,
        "findings": findings_json(findings),
    }


def _rule_json(outcome: RuleOutcome) -> Json:
    return {
        "rule": outcome.rule,
        "factor": outcome.factor,
        "gross_depth_mm": outcome.gross_depth_mm,
        "minutes_exact": outcome.minutes_exact,
        "minutes_per_day": outcome.minutes_per_day,
        "quarters": list(outcome.quarters),
        "above_need": outcome.above_need,
        "short_share": outcome.short_share,
    }


def zone_json(plan: ZonePlan, units: System = "metric") -> Json:
    """One zone's week; units are those of the gauge that rain skips are read on.

    A blocked zone reads `off` with `blocked` true: no numbers.
    """
    return {
        "zone": plan.zone.id,
        "name": plan.zone.name,
        "valve": plan.zone.valve,
        "status": "off" if plan.status == "blocked" else plan.status,
        "blocked": plan.status == "blocked",
        "eto_mm": plan.eto_mm,
        "kc": plan.kc,
        "etc_mm": plan.etc_mm,
        "effective_rain_mm": plan.effective_rain_mm,
        "need_mm": plan.need_mm,
        "rule": plan.rule,
        "factor": plan.factor,
        "rules": [_rule_json(one) for one in plan.rules],
        "gross_depth_mm": plan.gross_depth_mm,
        "learned": learned_json(plan.learned),
        "minutes_exact": plan.minutes_exact,
        "minutes_week": plan.minutes_week,
        "days": [day.isoformat() for day in plan.days],
        "minutes_per_day": plan.minutes_per_day,
        "cycles": plan.cycles,
        "cycle_minutes": plan.cycle_minutes,
        "soak_minutes": plan.soak_minutes,
        "was_minutes": plan.was_minutes,
        "was_from": plan.was_from,
        **change_json(plan.changed),
        "realised_depth_mm": plan.realised_depth_mm,
        "realised_error": plan.realised_error,
        "quarters": list(plan.quarters),
        "served_depletion_mm": list(plan.served_depletion_mm),
        "allowed_depletion_mm": plan.allowed_mm,
        "leaching": leaching_json(plan.leaching),
        "pot_water": pots_json(plan.pot_water),
        "groups": groups_json(plan.groups),
        **ahead_json(plan, units),
        **hours_json(plan),
        "evidence": plan.evidence.basis if plan.evidence else None,
        "findings": findings_json(plan.findings),
    }


def week_json(plan: WeekPlan, findings: Iterable[Finding]) -> Json:
    """One week of a site."""
    return {
        "format": FORMAT,
        "site": plan.site.name,
        "today": plan.today.isoformat(),
        "start": plan.start.isoformat(),
        "zones": [zone_json(one, plan.site.units) for one in plan.zones],
        "weather": weather_json(plan),
        "short_water": short_json(plan.short),
        **night_json(plan),
        "clock": clock_json(plan.clock),
        "clocks": [clock_json(one) for one in plan.clocks],
        "controllers": controllers_json(plan.site),
        "findings": findings_json((*findings, *plan.findings)),
        "tests_due": findings_json(plan.tests_due),
    }


def trace_json(trace: Trace) -> Json:
    """The chain that one number rests on, inputs before results."""
    return {
        "format": FORMAT,
        "quantity": trace.name,
        "chain": [
            {
                "name": one.name,
                "value": one.value,
                "formula": one.formula,
                "source": one.source,
                "inputs": [given.name for given in one.inputs],
                "note": one.note,
            }
            for one in trace.chain()
        ],
    }


def inspection_json(findings: Iterable[Finding], due: Iterable[Finding]) -> Json:
    """Everything wrong with a folder, and the tests that are due."""
    return {
        "format": FORMAT,
        "findings": findings_json(findings),
        "tests_due": findings_json(due),
    }
