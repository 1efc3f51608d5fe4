"""Numbers of one zone's week in, their chain from the cans to the minutes out."""

from dataclasses import replace

from scheduler.root_zone.storage import Storage
from scheduler.trace import Trace, entered
from scheduler.watering.cycles import Split
from scheduler.watering.run_time import RULE_SOURCE, RuleOutcome
from scheduler.watering.zone_week.inputs import ZoneWeekInput
from scheduler.watering.zone_week.nights import Demand
from scheduler.watering.zone_week.result import Given


def week_traces(
    inputs: ZoneWeekInput,
    given: Given,
    demand: Demand,
    chosen: RuleOutcome,
    whole: tuple[Split, int, float, float],
) -> dict[str, Trace]:
    """Every number of the week by name; `minutes_per_day` reaches the cans.

    Parameters
    ----------
    inputs : ZoneWeekInput
        The week's input.
    given : Given
        Traces from the rooms above.
    demand : Demand
        Nights and need.
    chosen : RuleOutcome
        What the chosen rule asks for.
    whole : tuple of Split, int, float and float
        Cycles, minutes of the week, rain that was stored, realised depth.

    Returns
    -------
    dict of str to Trace
        By name.

    References
    ----------
    Source: definition.
    """
    split, minutes_week, rain_mm, realised_mm = whole
    rain = Trace("effective_rain_mm", rain_mm, demand.rain_formula, demand.rain_source)
    need = Trace(
        "need_mm",
        demand.need_mm,
        *_need_words(inputs.storage),
        (given.etc, rain, *_stores(inputs.storage, given)),
        "depth that must be stored, on the bed",
    )
    rule = entered("rule", chosen.rule, "zones.toml, or the default of soil or pots")
    factor = Trace(
        "factor",
        chosen.factor,
        "mean depth over need that the rule asks for",
        RULE_SOURCE[chosen.rule],
        (rule, given.du),
    )
    gross = Trace(
        "gross_depth_mm", chosen.gross_depth_mm, "need x factor", "definition",
        (need, factor),
    )  # fmt: skip
    exact = Trace(
        "minutes_exact",
        chosen.minutes_exact,
        "gross depth over net rate x 60, for the whole week",
        "definition",
        (gross, given.rate),
        "a net rate from cans holds drift and evaporation: no efficiency on top",
    )
    nights = Trace(
        "nights", float(len(demand.nights)), "nights of the week that water",
        "allowed days, windows and the balance", (need,),
    )  # fmt: skip
    cycles = replace(split.trace, inputs=(*split.trace.inputs, exact, nights))
    per_day = Trace(
        "minutes_per_day",
        float(split.minutes),
        "cycles x whole minutes of a cycle",
        "definition",
        (cycles,),
    )
    realised = Trace(
        "realised_depth_mm", realised_mm, "whole minutes of the week x net rate / 60",
        "definition", (per_day, given.rate),
    )  # fmt: skip
    week = Trace(
        "minutes_week", float(minutes_week), "minutes of a night x nights",
        "definition", (per_day, nights),
    )  # fmt: skip
    every = (rain, need, factor, gross, exact, nights, cycles, per_day, realised, week)
    return {one.name: one for one in every}


def _need_words(storage: Storage | None) -> tuple[str, str]:
    if storage is None:
        return "use of the week less counted rain", "definition"
    return (
        "sum of the depletions that the nights fill, at the position the rule serves",
        "FAO-56 (1998) eq. 85 and ch. 8",
    )


def _stores(storage: Storage | None, given: Given) -> tuple[Trace, ...]:
    start = (given.start,) if given.start is not None else ()
    return (*start, storage.trace) if storage is not None else start


def fixed_traces(inputs: ZoneWeekInput, split: Split) -> dict[str, Trace]:
    """The chain of a zone whose minutes were entered: short, and no weather in it.

    Parameters
    ----------
    inputs : ZoneWeekInput
        The week's input.
    split : Split
        The minutes as entered.

    Returns
    -------
    dict of str to Trace
        By name.

    References
    ----------
    Source: definition.
    """
    zone = inputs.zone
    why = zone.fixed_reason or "fixed minutes"
    own = entered("fixed_min", zone.fixed_minutes, f"zones.toml: {why}")
    minutes = Trace(
        "minutes_per_day", float(split.minutes), "as entered, in whole minutes",
        "entered", (own,), "ET never changes them",
    )  # fmt: skip
    return {"minutes_per_day": minutes}
