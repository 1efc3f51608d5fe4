"""One zone's input in; nights, need, rules and the clock's whole minutes out."""

import math
from dataclasses import dataclass, replace

from scheduler.trace import entered
from scheduler.watering.cycles import Split, split, wet_rate_mm_per_h
from scheduler.watering.leached import Adequacy, adequacy, served_rule
from scheduler.watering.run_time import MIN_PER_H, RuleOutcome, rule_factor
from scheduler.watering.zone_week.inputs import ZoneWeekInput
from scheduler.watering.zone_week.nights import (
    Demand,
    no_factor,
    refills,
    replaced_use,
)
from scheduler.watering.zone_week.rows import rule_rows


@dataclass(frozen=True, slots=True)
class Clocked:
    """What the clock is to do, and why.

    Attributes
    ----------
    adequate : Adequacy
        The factor that rules.
    demand : Demand
        Nights and what they must store.
    rules, chosen : RuleOutcome
        The rules side by side, and the one that rules.
    cut : Split
        Whole minutes of a night in cycles and soaks.
    """

    adequate: Adequacy
    demand: Demand
    rules: tuple[RuleOutcome, ...]
    chosen: RuleOutcome
    cut: Split


def clocked(inputs: ZoneWeekInput) -> Clocked:
    """Nights, need and whole minutes of a zone that follows ET.

    Parameters
    ----------
    inputs : ZoneWeekInput
        The zone, its week of weather, catch, storage and intake.

    Returns
    -------
    Clocked
        No nights and a stop finding in the demand where no minutes would do.

    References
    ----------
    Source: definition; each part names its own.
    """
    adequate = zone_adequacy(inputs)
    demand = _demand(inputs, adequate.served_factor)
    rules = rule_rows(inputs, demand)
    chosen = next(one for one in rules if one.rule == adequate.ruled_by)
    return Clocked(
        adequate, demand, rules, chosen, _cut(inputs, chosen.minutes_per_day)
    )


def zone_adequacy(inputs: ZoneWeekInput) -> Adequacy:
    """Which factor rules a zone, whatever its week needs.

    Parameters
    ----------
    inputs : ZoneWeekInput
        The zone, its catch and its leaching.

    Returns
    -------
    Adequacy
        The rule's factor, or the leaching target's where it is larger.

    References
    ----------
    Source: definition; as `rule_factor` and `adequacy`.
    """
    zone = inputs.zone
    served = rule_factor(
        served_rule(zone.chosen_rule),
        inputs.share,
        share_served=zone.share_served,
        du_lq=inputs.du_lq,
        du_lh=inputs.du_lh,
    )
    return adequacy(zone.chosen_rule, served, inputs.leaching)


def clocked_in_short(inputs: ZoneWeekInput, adequate: Adequacy) -> tuple[Demand, int]:
    """Nights, need and whole minutes alone, without the rules side by side.

    Parameters
    ----------
    inputs : ZoneWeekInput
        As of `clocked`.
    adequate : Adequacy
        As `zone_adequacy` gives it, for many weeks of one zone.

    Returns
    -------
    demand : Demand
        Nights and what they must store.
    minutes : int
        Of one night, the same as `clocked` gives. [min]

    References
    ----------
    Source: definition; each part names its own.
    """
    demand = _demand(inputs, adequate.served_factor)
    if not demand.nights:
        return demand, 0
    depth = demand.need_mm * adequate.factor / len(demand.nights)
    exact = MIN_PER_H * depth / inputs.net_rate_mm_per_h
    return demand, _cut(inputs, exact).minutes


def _cut(inputs: ZoneWeekInput, minutes: float) -> Split:
    """Cycles of one watering, within what there is where water is short."""
    most = math.inf if inputs.most_minutes is None else float(inputs.most_minutes)
    made = split(
        min(minutes, most),
        model=inputs.intake,
        wet_rate_mm_per_h=at_wet_mm_per_h(inputs),
        min_soak_min=inputs.zone.intake.min_soak_min,
        rounding="down" if most < minutes else inputs.rounding,
        max_cycles=inputs.max_cycles,
    )
    if most >= minutes:
        return made
    share = entered("most_minutes", most, "water is short: what this zone may have")
    trace = replace(made.trace, inputs=(*made.trace.inputs, share))
    return replace(made, trace=trace)


def at_wet_mm_per_h(inputs: ZoneWeekInput) -> float:
    """Rate at the wet positions that intake must bear.

    Parameters
    ----------
    inputs : ZoneWeekInput
        The zone and its catch.

    Returns
    -------
    float
        Rate that at most the zone's wet share exceeds. [mm/h]

    References
    ----------
    Source: definition, on the catches.
    """
    wet_share = inputs.zone.intake.wet_share
    return wet_rate_mm_per_h(inputs.net_rate_mm_per_h, inputs.share, wet_share)


def _demand(inputs: ZoneWeekInput, factor: float) -> Demand:
    if math.isinf(factor):
        return no_factor(inputs)
    if inputs.storage is None:
        return replaced_use(inputs)
    return refills(inputs, inputs.storage, factor)
