"""One zone's input in; nights, need, rules and the clock's whole minutes out."""

import math
from dataclasses import dataclass

from scheduler.watering.cycles import Split, split, wet_rate_mm_per_h
from scheduler.watering.leached import Adequacy, adequacy, served_rule
from scheduler.watering.run_time import RuleOutcome, rule_factor
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
    zone = inputs.zone
    served = rule_factor(
        served_rule(zone.chosen_rule),
        inputs.share,
        share_served=zone.share_served,
        du_lq=inputs.du_lq,
        du_lh=inputs.du_lh,
    )
    demand = _demand(inputs, served)
    adequate = adequacy(zone.chosen_rule, served, inputs.leaching)
    rules = rule_rows(inputs, demand)
    chosen = next(one for one in rules if one.rule == adequate.ruled_by)
    cut = split(
        chosen.minutes_per_day,
        model=inputs.intake,
        wet_rate_mm_per_h=at_wet_mm_per_h(inputs),
        min_soak_min=zone.intake.min_soak_min,
        rounding=inputs.rounding,
        max_cycles=inputs.max_cycles,
    )
    return Clocked(adequate, demand, rules, chosen, cut)


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
