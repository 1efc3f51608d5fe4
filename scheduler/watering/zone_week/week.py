"""One zone's input in; nights, whole minutes, cycles and what they do out."""

import math

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding
from scheduler.root_zone.balance import Balance, run_balance
from scheduler.root_zone.storage import Storage
from scheduler.trace import Trace
from scheduler.watering.cycles import Split, split, wet_rate_mm_per_h, whole_minutes
from scheduler.watering.run_time import RuleOutcome, rule_factor, rule_outcomes
from scheduler.watering.zone_week.inputs import ZoneWeekInput, depth_text
from scheduler.watering.zone_week.nights import (
    Demand,
    no_factor,
    refills,
    replaced_use,
)
from scheduler.watering.zone_week.result import Given, ZoneWeek
from scheduler.watering.zone_week.traces import fixed_traces, week_traces

MIN_PER_H = 60.0


def zone_week(
    inputs: ZoneWeekInput,
    *,
    rate_trace: Trace,
    du_trace: Trace,
    etc_trace: Trace,
    start_trace: Trace | None = None,
) -> ZoneWeek:
    """Plan one zone's week: nights, whole minutes, cycles, and what they do.

    Parameters
    ----------
    inputs : ZoneWeekInput
        The zone, its week of weather, catch, storage and intake.
    rate_trace, du_trace, etc_trace, start_trace : Trace
        Where net rate, uniformity, use and the starting depletion came from.

    Returns
    -------
    ZoneWeek
        A stop finding and no minutes where no number of minutes would do.

    Raises
    ------
    SchedulerError
        If the net rate is not above 0 and the zone follows ET.

    Notes
    -----
    When due: an allowed night waters when the position that the rule serves (share
    1 / factor) would otherwise pass its allowed depletion before the next allowed
    night; days beyond the week use the week's mean, without rain. Each event fills that
    position. The clock holds one setting, so all events get the mean of their minutes;
    the week is then run again with whole minutes. Without storage, or every allowed
    day: all allowed nights share the need.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8 (balance, allowed depletion).

    Examples
    --------
    >>> from scheduler.root_zone.intake import intake_model
    >>> from scheduler.site import Plant, Zone
    >>> from scheduler.trace import entered
    >>> yard = Zone(id="Z4", name="yard", area_m2=900.0, grown_in="pots",
    ...             plant=Plant(name="holly", kc=1.0, kc_area="bed"),
    ...             rule="average", rain_counted=0.5)
    >>> inputs = ZoneWeekInput(
    ...     yard, np.ones(24), 12.0, 1.0, 1.0, np.full(7, 4.0), np.zeros(7), None, 0.0,
    ...     np.ones(7, dtype=bool), intake_model(yard)[0], "nearest", None)
    >>> week = zone_week(inputs, rate_trace=entered("net_rate_mm_per_h", 12.0),
    ...                  du_trace=entered("du_lq", 1.0),
    ...                  etc_trace=entered("etc_mm", 28.0))
    >>> week.need_mm, week.minutes_per_day, len(week.day_index)
    (28.0, 20, 7)
    """
    given = Given(rate_trace, du_trace, etc_trace, start_trace)
    if inputs.zone.watered == "fixed minutes":
        return _fixed_week(inputs, given)
    zone = inputs.zone
    factor = rule_factor(
        zone.chosen_rule,
        inputs.share,
        share_served=zone.share_served,
        du_lq=inputs.du_lq,
        du_lh=inputs.du_lh,
    )
    if math.isinf(factor):
        return _week(inputs, given, factor, no_factor(inputs))
    if inputs.storage is None:
        demand = replaced_use(inputs)
    else:
        demand = refills(inputs, inputs.storage, factor)
    return _week(inputs, given, factor, demand)


def _outcomes(inputs: ZoneWeekInput, demand: Demand) -> tuple[RuleOutcome, ...]:
    return rule_outcomes(
        need_mm=demand.need_mm,
        share=inputs.share,
        net_rate_mm_per_h=inputs.net_rate_mm_per_h,
        n_events=len(demand.nights),
        share_served=inputs.zone.share_served,
        du_lq=inputs.du_lq,
        du_lh=inputs.du_lh,
    )


def _cycles(inputs: ZoneWeekInput, minutes: float) -> Split:
    wet = wet_rate_mm_per_h(
        inputs.net_rate_mm_per_h, inputs.share, inputs.zone.intake.wet_share
    )
    return split(
        minutes,
        model=inputs.intake,
        wet_rate_mm_per_h=wet,
        min_soak_min=inputs.zone.intake.min_soak_min,
        rounding=inputs.rounding,
        max_cycles=inputs.max_cycles,
    )


def _week(
    inputs: ZoneWeekInput, given: Given, factor: float, demand: Demand
) -> ZoneWeek:
    """Whole minutes for the nights of the demand, and the week run with them."""
    rules = _outcomes(inputs, demand)
    rule = inputs.zone.chosen_rule
    chosen = next(one for one in rules if one.rule == rule)
    cut = _cycles(inputs, chosen.minutes_per_day)
    minutes_week = cut.minutes * len(demand.nights)
    realised = minutes_week / MIN_PER_H * inputs.net_rate_mm_per_h
    run = _run(inputs, demand.nights, realised)
    if demand.rain_mm is not None:
        rain = demand.rain_mm
    else:
        rain = float(run.stored_rain_mm.mean(axis=-1).sum()) if run else 0.0
    after = realised / demand.need_mm if demand.need_mm > 0 else 0.0
    findings = [*demand.findings, *cut.findings, *_start_findings(inputs, factor)]
    whole = (cut, minutes_week, rain, realised)
    return ZoneWeek(
        etc_mm=float(inputs.etc_mm_per_day.sum()),
        effective_rain_mm=rain,
        need_mm=demand.need_mm,
        rule=rule,
        factor=factor,
        rules=rules,
        gross_depth_mm=chosen.gross_depth_mm,
        minutes_exact=chosen.minutes_exact,
        minutes_week=minutes_week,
        day_index=demand.nights,
        minutes_per_day=cut.minutes if demand.nights else 0,
        split=cut,
        realised_depth_mm=realised,
        realised_error=_error(realised, chosen.gross_depth_mm),
        quarters=tuple(one / factor * after for one in chosen.quarters)
        if math.isfinite(factor)
        else (),
        served_depletion_mm=_served(inputs, run, factor),
        depletion_mm=frozen(run.depletion_mm if run else np.zeros((0, 0))),
        findings=tuple(findings),
        traces=week_traces(inputs, given, demand, chosen, whole),
    )


def _error(realised_mm: float, gross_mm: float) -> float:
    return realised_mm / gross_mm - 1.0 if gross_mm > 0 else 0.0


def _run(
    inputs: ZoneWeekInput, nights: tuple[int, ...], depth_week_mm: float
) -> Balance | None:
    """Balance of the week at every position; a night waters the morning after."""
    if inputs.storage is None:
        return None
    n_days, n_positions = inputs.etc_mm_per_day.size, inputs.share.size
    watering = np.zeros((n_days, n_positions))
    for night in nights:
        if night + 1 < n_days:
            watering[night + 1] = inputs.share * depth_week_mm / len(nights)
    return run_balance(
        np.broadcast_to(inputs.start_depletion_mm, inputs.share.shape),
        etc_mm_per_day=inputs.etc_mm_per_day,
        rain_mm=inputs.rain_at_roots_mm,
        watering_mm=watering,
        storage=inputs.storage,
    )


def _served(inputs: ZoneWeekInput, run: Balance | None, factor: float) -> FloatArray:
    """Depletion each evening at the position that the rule serves."""
    if run is None or not math.isfinite(factor):
        return frozen([])
    order = np.argsort(inputs.share)
    at = inputs.share[order]
    evening = [np.interp(1 / factor, at, day[order]) for day in run.depletion_mm]
    return frozen(evening)


def _start_findings(inputs: ZoneWeekInput, factor: float) -> list[Finding]:
    """Say when the zone is drier than allowed before it can be watered at all."""
    store: Storage | None = inputs.storage
    if store is None or not math.isfinite(factor):
        return []
    start = inputs.start_at_mm(1 / factor)
    if start <= store.allowed_mm + 1e-9:
        return []
    return [
        Finding(
            "warning",
            f"{inputs.where}: depletion",
            f"the week starts with {depth_text(start)} used at the position the rule "
            f"serves; {depth_text(store.allowed_mm)} are allowed",
            "water it before the week begins, and look whether the plants wilt",
        )
    ]


def _fixed_week(inputs: ZoneWeekInput, given: Given) -> ZoneWeek:
    """Minutes as entered, whatever the weather; depth only where a rate is known."""
    zone = inputs.zone
    minutes = whole_minutes(zone.fixed_minutes or 0.0, inputs.rounding)
    cut = Split(1, minutes, 0, minutes, None, given.rate)
    nights = inputs.allowed_nights
    depth = minutes * len(nights) / MIN_PER_H * inputs.net_rate_mm_per_h
    said = Finding(
        "note",
        f"{inputs.where}: fixed_minutes",
        f"stays at {minutes} min a night ({zone.fixed_reason or 'as entered'})",
        "nothing to do; ET never changes it",
    )
    return ZoneWeek(
        etc_mm=0.0,
        effective_rain_mm=0.0,
        need_mm=0.0,
        rule=zone.chosen_rule,
        factor=1.0,
        rules=(),
        gross_depth_mm=0.0,
        minutes_exact=(zone.fixed_minutes or 0.0) * len(nights),
        minutes_week=minutes * len(nights),
        day_index=nights,
        minutes_per_day=minutes,
        split=cut,
        realised_depth_mm=depth,
        realised_error=0.0,
        quarters=(),
        served_depletion_mm=frozen([]),
        depletion_mm=frozen(np.zeros((0, 0))),
        findings=(said,),
        traces=fixed_traces(inputs, cut),
    )
