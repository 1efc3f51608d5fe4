"""What a zone's log taught in, its lines and its JSON out; no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

from scheduler.proof.learned_words import evidence_text
from scheduler.said import day_text

if TYPE_CHECKING:
    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.proof.leaching_check import CheckedPots
    from scheduler.proof.learning import Learned, Observation
    from scheduler.proof.zone_learning import ZoneLearned

WIDTH = 80


def learned_json(learnt: ZoneLearned | None) -> dict[str, Any] | None:
    """What was learned of a zone, on what it rests, and its newest leaching check."""
    if learnt is None:
        return None
    return {
        "kc_correction": learnt.factor,
        "driest_pot_floor": learnt.floor,
        "is_used": not learnt.why_not,
        "why_not": learnt.why_not or None,
        "minutes": _learned_json(learnt.minutes),
        "kc": _learned_json(learnt.kc),
        "rate": _learned_json(learnt.rate),
        "used": [_seen_json(one) for one in learnt.minutes.used],
        "held_back": [_seen_json(one) for one in learnt.minutes.held],
        "weighed_days": [
            {
                "date": one.day.date.isoformat(),
                "where": one.day.where,
                "pots": len(one.day.daily_loss_ml),
                "daily_loss_ml": one.day.mean_loss_ml,
                "eto_mm": one.past.eto_mm,
                "kc_on_pot_top": one.kc_on_pot_top,
            }
            for one in learnt.weights
        ],
        "drift": [
            {"date": one.on.isoformat(), **_learned_json(one)} for one in learnt.drift
        ],
        "check": _check_json(learnt.check),
    }


def _learned_json(one: Learned) -> dict[str, Any]:
    return {
        "factor": one.factor,
        "low": one.low,
        "high": one.high,
        "weight": one.weight,
    }


def _seen_json(one: Observation) -> dict[str, Any]:
    return {
        "date": one.date.isoformat(),
        "kind": one.kind,
        "where": one.where,
        "ratio": one.ratio,
        "error": one.sd,
        "at_least": one.is_at_least,
    }


def _check_json(one: CheckedPots | None) -> dict[str, Any] | None:
    if one is None:
        return None
    new = one.new
    return {
        "date": one.check.date.isoformat(),
        "where": one.check.where,
        "pots": len(one.check.pots),
        "leaching_fraction": one.leaching.fraction,
        "leaching_fraction_low": one.leaching.low,
        "leaching_fraction_high": one.leaching.high,
        "range_level": one.leaching.level,
        "driest_fraction": one.driest,
        "driest_place": one.driest_place,
        "target": one.target,
        "minutes": one.minutes,
        "by_mean_min": new.by_mean if new else None,
        "floor_min": new.floor if new else None,
        "new_minutes": new.minutes if new else None,
        "at_least": one.is_at_least,
        "percent_of_clock": one.percent_of_clock,
    }


def learned_line(plan: ZonePlan) -> str:
    """One line of a zone in the week; empty where nothing was learned of it."""
    learnt = plan.learned
    if learnt is None or not learnt.minutes.used:
        return ""
    one = learnt.minutes
    used = f"use x {learnt.factor:.2f}"
    if learnt.why_not:
        used = f"{one.factor:.2f} not used"
    rests = evidence_text(one.used)
    return f"{plan.zone.id:<5} {used}  ({one.low:.2f}–{one.high:.2f})  {rests}"


def learned_lines(plan: WeekPlan) -> str:
    """Every zone that learned, a line each; empty where none did."""
    lines = [line for line in map(learned_line, plan.zones) if line]
    return "\n".join(["learned from the log:", *lines]) if lines else ""


def learned_text(plan: ZonePlan) -> str:
    """Newest leaching check and the drift of what was learned; empty without any."""
    learnt = plan.learned
    if learnt is None:
        return ""
    parts = [] if learnt.check is None else [_check_text(learnt.check)]
    if learnt.drift:
        weeks = learnt.drift[-8:]
        each = ", ".join(f"{day_text(one.on)} {one.factor:.2f}" for one in weeks)
        first, last = weeks[0], weeks[-1]
        parts.append(
            f"use over what was entered, week by week: {each}; "
            f"{first.low:.2f}–{first.high:.2f} at first, {last.low:.2f}–"
            f"{last.high:.2f} now; of it Kc {learnt.kc.factor:.2f}, "
            f"rate {learnt.rate.factor:.2f}"
        )
    return "\n".join(fill(one, WIDTH, subsequent_indent="  ") for one in parts)


def _check_text(one: CheckedPots) -> str:
    leaching = one.leaching
    text = (
        f"leaching check of {day_text(one.check.date)}, {len(one.check.pots)} pots: "
        f"{leaching.fraction:.0%} by volume ({leaching.low:.0%}–{leaching.high:.0%}), "
        f"driest {one.driest:.0%} at {one.driest_place}, target {one.target:.0%}"
    )
    new = one.new
    if new is None or one.minutes is None:
        return text
    least = "at least " if one.is_at_least else ""
    return (
        f"{text}: {one.minutes:g} min → {least}{new.minutes} "
        f"({new.by_mean:.1f} by the mean, {new.floor:.1f} by the driest pot), or "
        f"percent adjust {one.percent_of_clock} % instead, not both"
    )
