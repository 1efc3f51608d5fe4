"""One zone's input in; nights, whole minutes, cycles and what they do out."""

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding
from scheduler.field.uniformity import quarter_means
from scheduler.root_zone.balance import Balance, run_balance
from scheduler.root_zone.intake import longest_cycle_min
from scheduler.root_zone.storage import Storage
from scheduler.said import signed
from scheduler.trace import Trace
from scheduler.watering.cycles import Split, whole_minutes
from scheduler.watering.leached import Adequacy, leaching_findings, week_leaching
from scheduler.watering.run_time import MIN_PER_H
from scheduler.watering.zone_week.inputs import ZoneWeekInput, depth_text
from scheduler.watering.zone_week.minutes import Clocked, at_wet_mm_per_h, clocked
from scheduler.watering.zone_week.nights import Demand, no_night
from scheduler.watering.zone_week.result import Given, ZoneWeek
from scheduler.watering.zone_week.traces import fixed_traces, week_traces

# depletion past the allowed one that is worth a warning, as part of the allowed one;
# whole minutes and one setting for all nights alone move it by a few per cent
TOLERATED = 0.05
# less than any plant uses; what is over it would have no size
NOTHING_MM = 1e-6
# error of whole minutes that is worth a note: 7.4 min as 7 is -5 %
NOTED_ERROR = 0.05


def zone_week(
    inputs: ZoneWeekInput,
    *,
    rate_trace: Trace,
    du_trace: Trace,
    etc_trace: Trace,
    start_trace: Trace | None = None,
    rain_trace: Trace | None = None,
) -> ZoneWeek:
    """Plan one zone's week: nights, whole minutes, cycles, and what they do.

    Parameters
    ----------
    inputs : ZoneWeekInput
        The zone, its week of weather, catch, storage and intake.
    rate_trace, du_trace, etc_trace, start_trace, rain_trace : Trace
        Where net rate, uniformity, use, starting depletion and rain came from.

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
    1 / its factor) would otherwise pass its allowed depletion before the next allowed
    night; days beyond the week use the week's mean, without rain. Each event fills that
    position. The clock holds one setting, so all events get the mean of their minutes;
    the week is then run again with whole minutes. Without storage, or every allowed
    day: all allowed nights share the need. Leaching adds depth, never nights.

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
    given = Given(rate_trace, du_trace, etc_trace, start_trace, rain_trace)
    zone = inputs.zone
    if zone.watered == "fixed minutes":
        return _fixed_week(inputs)
    return _realised(inputs, given, clocked(inputs))


def _realised(inputs: ZoneWeekInput, given: Given, clock: Clocked) -> ZoneWeek:
    """The week as the whole minutes make it."""
    adequate, demand, cut = clock.adequate, clock.demand, clock.cut
    chosen = clock.chosen
    n_nights, need = len(demand.nights), demand.need_mm
    one_mm = inputs.net_rate_mm_per_h * cut.minutes / MIN_PER_H
    depth = one_mm * n_nights
    is_watered = n_nights > 0 and min(need, chosen.gross_depth_mm) > NOTHING_MM
    error = depth / chosen.gross_depth_mm - 1.0 if is_watered else 0.0
    quarter = quarter_means(inputs.share) * depth
    quarters = tuple((quarter / need).tolist()) if is_watered else ()
    rain, served, positions, about = _balance_results(inputs, demand, adequate, one_mm)
    kept = (cut, at_wet_mm_per_h(inputs), depth)
    traces = week_traces(inputs, given, (adequate, chosen), (demand, rain), kept)
    leaching = week_leaching(
        adequate,
        inputs.leaching,
        quarters,
        (traces["need_mm"], traces["realised_depth_mm"]),
    )
    about += leaching_findings(
        inputs.where,
        inputs.leaching,
        by_rule=chosen.quarters,
        leached=leaching.quarters,
    )
    return ZoneWeek(
        etc_mm=float(inputs.etc_mm_per_day.sum()),
        effective_rain_mm=rain,
        need_mm=need,
        rule=chosen.rule,
        factor=chosen.factor,
        rules=clock.rules,
        gross_depth_mm=chosen.gross_depth_mm,
        minutes_exact=chosen.minutes_exact,
        minutes_week=cut.minutes * n_nights,
        day_index=demand.nights,
        minutes_per_day=cut.minutes,
        split=cut,
        realised_depth_mm=depth,
        realised_error=error,
        quarters=quarters,
        served_depletion_mm=served,
        depletion_mm=positions,
        findings=(*demand.findings, *cut.findings, *_error_note(inputs, error), *about),
        traces=traces,
        leaching=leaching,
        night_need_mm=demand.depth_mm,
    )


def _error_note(inputs: ZoneWeekInput, error: float) -> tuple[Finding, ...]:
    if abs(error) < NOTED_ERROR or inputs.most_minutes is not None:
        return ()  # what a short watering misses is said where water is shared out
    return (
        Finding(
            "note",
            f"{inputs.where}: minutes",
            "whole minutes and the clock's starts miss the depth by "
            f"{signed(error, '.0%')}",
            "water on fewer nights, so that each has more minutes",
        ),
    )


def _balance_results(
    inputs: ZoneWeekInput, demand: Demand, adequate: Adequacy, one_mm: float
) -> tuple[float, FloatArray, FloatArray, tuple[Finding, ...]]:
    """Stored rain, depletion at the served and at all positions, and warnings."""
    if inputs.storage is None or demand.rain_mm is not None:
        none = frozen(np.zeros(0))
        every = frozen(np.zeros((0, inputs.share.size)))
        return float(demand.rain_mm or 0.0), none, every, ()
    run = _run(inputs, inputs.storage, demand, adequate, one_mm)
    served = frozen(run.depletion_mm[:, 0])
    rain = float(run.stored_rain_mm[:, 1].sum())
    begun = inputs.start_at_mm(1.0 / adequate.served_factor)
    about = _passed_findings(inputs, inputs.storage, served, begun)
    return rain, served, frozen(run.depletion_mm[:, 2:]), about


def _run(
    inputs: ZoneWeekInput,
    storage: Storage,
    demand: Demand,
    adequate: Adequacy,
    one_mm: float,
) -> Balance:
    """Balance of the served position, the mean position, and every position."""
    served = 1.0 / adequate.served_factor
    share = np.concatenate([[served, 1.0], inputs.share])
    each = np.broadcast_to(inputs.start_depletion_mm, inputs.share.shape)
    start = np.concatenate([[inputs.start_at_mm(served), each.mean()], each])
    n_days = inputs.etc_mm_per_day.size
    early = np.zeros((n_days, share.size))
    for night in demand.nights:
        if night + 1 < n_days:
            early[night + 1] = share * one_mm
    return run_balance(
        start,
        etc_mm_per_day=inputs.etc_mm_per_day,
        rain_mm=inputs.rain_at_roots_mm,
        watering_mm=early,
        storage=storage,
    )


def _passed_findings(
    inputs: ZoneWeekInput, storage: Storage, served: FloatArray, begun: float
) -> tuple[Finding, ...]:
    """Warnings where the served position gets drier than allowed."""
    if not inputs.allowed_nights:
        return ()  # that no night is allowed is said already
    first, allowed = inputs.allowed_nights[0], storage.allowed_mm
    where = f"{inputs.where}: depletion"
    found = []
    worth_saying = allowed * (1.0 + TOLERATED)
    early = np.flatnonzero(served[: first + 1] > worth_saying)
    if begun > worth_saying or early.size:
        since = "at the start"
        if begun <= worth_saying:
            since = f"by the evening of {inputs.day(int(early[0]))}"
        what = (
            f"more than the allowed {depth_text(allowed)} is used {since} "
            f"({depth_text(max(begun, float(served[first])))} before the first allowed "
            f"night, {inputs.day(first)})"
        )
        fix = "water once by hand now, or allow an earlier night"
        found.append(Finding("warning", where, what, fix))
    later = np.flatnonzero(served[first + 1 :] > worth_saying)
    if later.size:
        driest = first + 1 + int(np.argmax(served[first + 1 :]))
        what = (
            f"the allowed {depth_text(allowed)} is passed on {later.size} day(s) even "
            f"so, most on {inputs.day(driest)} ({depth_text(float(served[driest]))})"
        )
        fix = "allow more nights, or check allowed_depletion and the water held"
        found.append(Finding("warning", where, what, fix))
    return tuple(found)


def _fixed_week(inputs: ZoneWeekInput) -> ZoneWeek:
    """Minutes that somebody fixed, whatever the weather: one run each allowed night."""
    zone, nights = inputs.zone, inputs.allowed_nights
    fixed = float(zone.fixed_minutes or 0.0)
    minutes = whole_minutes(fixed, inputs.rounding) if nights else 0
    limit = longest_cycle_min(inputs.intake, at_wet_mm_per_h(inputs))
    traces = fixed_traces(inputs, minutes)
    known = limit if np.isfinite(limit) else None
    run = Split(
        1 if nights else 0, minutes, 0, minutes, known, traces["minutes_per_day"]
    )
    unknown = float("nan")
    nothing = frozen(np.zeros(0))
    return ZoneWeek(
        etc_mm=float(inputs.etc_mm_per_day.sum()),
        effective_rain_mm=unknown,
        need_mm=unknown,
        rule=zone.chosen_rule,
        factor=unknown,
        rules=(),
        gross_depth_mm=unknown,
        minutes_exact=fixed * len(nights),
        minutes_week=minutes * len(nights),
        day_index=nights,
        minutes_per_day=minutes,
        split=run,
        realised_depth_mm=inputs.net_rate_mm_per_h * minutes * len(nights) / MIN_PER_H,
        realised_error=unknown,
        quarters=(),
        served_depletion_mm=nothing,
        depletion_mm=frozen(np.zeros((0, inputs.share.size))),
        findings=_fixed_findings(inputs, fixed, minutes, limit),
        traces=traces,
    )


def _fixed_findings(
    inputs: ZoneWeekInput, fixed: float, minutes: int, limit: float
) -> tuple[Finding, ...]:
    where = f"{inputs.where}: fixed_minutes"
    if not inputs.allowed_nights:
        return (no_night(inputs),)
    why = inputs.zone.fixed_reason or "as entered"
    what = f"stays at {minutes} min a night ({why})"
    found = [Finding("note", where, what, "nothing to do; ET never changes it")]
    if not fixed.is_integer():
        what = f"{fixed:g} is not whole: the clock gets {minutes} min"
        found.append(Finding("note", where, what, "enter whole minutes"))
    if minutes > limit:
        what = f"{minutes} min in one run is longer than the {limit:.0f} min to runoff"
        fix = "use shorter fixed minutes; fixed minutes are not cut into cycles"
        found.append(Finding("warning", where, what, fix))
    return tuple(found)
