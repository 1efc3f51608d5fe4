"""One zone's week in, the chain from use and cans to the clock's minutes out."""

from dataclasses import replace

from scheduler.site import Intake
from scheduler.trace import Trace, entered
from scheduler.watering.cycles import Split
from scheduler.watering.leached import Adequacy, served_rule
from scheduler.watering.run_time import RULE_SOURCE, RuleOutcome
from scheduler.watering.zone_week.inputs import ZoneWeekInput
from scheduler.watering.zone_week.nights import Demand
from scheduler.watering.zone_week.result import Given


def week_traces(
    inputs: ZoneWeekInput,
    given: Given,
    ruled: tuple[Adequacy, RuleOutcome],
    water: tuple[Demand, float],
    clock: tuple[Split, float, float],
) -> dict[str, Trace]:
    """Traces of every number of a week, by name.

    Parameters
    ----------
    inputs : ZoneWeekInput
        The week's input.
    given : Given
        Traces of rate, uniformity, use and start.
    ruled : tuple of Adequacy and RuleOutcome
        The factor that rules, and what it gives.
    water : tuple of Demand and float
        Nights and need, and the rain that counted. [mm]
    clock : tuple of Split, float, float
        Cycles, rate at the wet positions [mm/h], depth of the whole minutes. [mm]

    Returns
    -------
    dict of str to Trace
        `minutes_per_day` reaches all others; `realised_depth_mm` and `minutes_week`
        rest on it.

    References
    ----------
    Source: definition; each trace names its own.
    """
    adequate, chosen = ruled
    demand, rain_mm = water
    cut, wet_mm_per_h, realised_mm = clock
    need = _need_trace(inputs, given, demand, rain_mm)
    factor = _factor_trace(inputs, given, adequate)
    gross = Trace(
        "gross_depth_mm",
        chosen.gross_depth_mm,
        "need_mm x factor: mean depth of the week",
        "definition",
        (need, factor),
    )
    exact = Trace(
        "minutes_exact",
        chosen.minutes_exact,
        "60 x gross_depth_mm / net_rate_mm_per_h, for the week",
        "definition; the net rate holds drift and evaporation already",
        (given.rate, gross),
    )
    nights = Trace("nights", len(demand.nights), _nights_text(inputs), "definition")
    wet_share = _wet_share(inputs.zone.intake)
    wet = Trace(
        "wet_rate_mm_per_h",
        wet_mm_per_h,
        "rate that at most wet_share of the positions exceeds",
        "definition, on the catches",
        (given.rate, wet_share),
    )
    top = replace(cut.trace, inputs=(exact, nights, wet, *cut.trace.inputs))
    realised = Trace(
        "realised_depth_mm",
        realised_mm,
        "net_rate_mm_per_h x minutes_per_day x nights / 60",
        "definition",
        (given.rate, top, nights),
    )
    week = Trace(
        "minutes_week",
        cut.minutes * len(demand.nights),
        "minutes_per_day x nights",
        "definition",
        (top, nights),
    )
    return {one.name: one for one in (*realised.chain(), week)}


def _nights_text(inputs: ZoneWeekInput) -> str:
    if inputs.chosen_nights is not None:
        return "nights that somebody moved the zone's waterings to"
    if inputs.storage is None or inputs.zone.watered == "every allowed day":
        return "all allowed nights, if anything is needed"
    return (
        "allowed nights on which the served position would pass its allowed depletion "
        "before the next allowed night"
    )


def _need_trace(
    inputs: ZoneWeekInput, given: Given, demand: Demand, rain_mm: float
) -> Trace:
    rain = Trace(
        "effective_rain_mm",
        rain_mm,
        demand.rain_formula,
        demand.rain_source,
        (given.rain or entered("rain_mm", float(inputs.rain_mm.sum())),),
    )
    if inputs.storage is None or demand.rain_mm is not None:
        return Trace(
            "need_mm",
            demand.need_mm,
            "etc_mm - effective_rain_mm, never below 0",
            "definition",
            (given.etc, rain),
        )
    start = () if given.start is None else (given.start,)
    return Trace(
        "need_mm",
        demand.need_mm,
        "sum over the nights of the depletion at the position that the rule serves "
        "(share 1 / factor); rain is in the balance, not taken off again",
        "FAO-56 (1998) ch. 8",
        (given.etc, rain, *start, inputs.storage.trace),
    )


def _factor_trace(inputs: ZoneWeekInput, given: Given, adequate: Adequacy) -> Trace:
    """The one factor: of the rule alone, leached, or the larger of two."""
    rule, leaching = inputs.zone.chosen_rule, inputs.leaching
    own = _rule_trace(inputs, given, adequate.served_factor)
    if rule == "low quarter, leached" and leaching is not None:
        return Trace(
            "factor",
            adequate.factor,
            "rule_factor / (1 - leaching_requirement)",
            RULE_SOURCE[rule],
            (replace(own, name="rule_factor"), leaching.trace),
            "the driest quarter leaches the requirement, the others more",
        )
    if leaching is None or not leaching.is_target:
        return own
    wanted = Trace(
        "leaching_factor",
        leaching.factor,
        "1 / (1 - leaching_target)",
        "balance of water",
        (leaching.trace,),
    )
    who = "the leaching target" if adequate.ruled_by != rule else f"the rule {rule!r}"
    return Trace(
        "factor",
        adequate.factor,
        "the larger of rule_factor and leaching_factor, never both",
        "definition",
        (replace(own, name="rule_factor"), wanted),
        f"{who} rules",
    )


def _rule_trace(inputs: ZoneWeekInput, given: Given, factor: float) -> Trace:
    rule = inputs.zone.chosen_rule
    named = entered("rule", rule, "zones.toml")
    if inputs.zone.rule is None:
        usual = "low quarter in pots, else low half"
        source = "common practice, no source"
        named = Trace("rule", rule, "none is entered", source, (), usual)
    low_half = Trace(
        "du_lh",
        inputs.du_lh,
        "mean of the driest half over the mean; 0.4 + 0.6 x du_lq without cans",
        RULE_SOURCE["low half"],
        (given.du,),
    )
    served = entered("share_served", inputs.zone.share_served, "zones.toml")
    formula, below = {
        "average": ("1: uniformity is left out", ()),
        "low half": ("1 / du_lh", (low_half,)),
        "low quarter": ("1 / du_lq", (given.du,)),
        "share served": (
            "1 / share of the mean that share_served of the positions reach",
            (served, given.du),
        ),
    }[served_rule(rule)]
    source = RULE_SOURCE[served_rule(rule)]
    return Trace("factor", factor, formula, source, (named, *below))


def fixed_traces(inputs: ZoneWeekInput, minutes: int) -> dict[str, Trace]:
    """Chain of a zone whose minutes were entered: short, and no weather in it.

    Parameters
    ----------
    inputs : ZoneWeekInput
        The week's input.
    minutes : int
        The minutes of one night as the clock holds them. [min]

    Returns
    -------
    dict of str to Trace
        By name.

    References
    ----------
    Source: definition.
    """
    why = inputs.zone.fixed_reason or "fixed minutes"
    own = entered("fixed_min", inputs.zone.fixed_minutes, f"zones.toml: {why}")
    top = Trace(
        "minutes_per_day",
        minutes,
        "as entered, in whole minutes",
        "entered",
        (own,),
        "ET never changes them",
    )
    return {one.name: one for one in top.chain()}


def _wet_share(intake: Intake) -> Trace:
    if "wet_share" in intake.model_fields_set:
        return entered("wet_share", intake.wet_share, "zone.intake")
    source = "common practice, no source"
    return Trace("wet_share", intake.wet_share, "assumed", source)
