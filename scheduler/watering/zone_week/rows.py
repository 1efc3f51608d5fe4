"""One week's input and its need in, the rules side by side out."""

from scheduler.watering.run_time import RuleOutcome, outcome_of, rule_outcomes
from scheduler.watering.zone_week.inputs import ZoneWeekInput
from scheduler.watering.zone_week.nights import Demand


def rule_rows(inputs: ZoneWeekInput, demand: Demand) -> tuple[RuleOutcome, ...]:
    """The four rules, and a row for leaching where the zone asks for one.

    Parameters
    ----------
    inputs : ZoneWeekInput
        The zone, its catch and its leaching.
    demand : Demand
        Nights and need, the same for every row.

    Returns
    -------
    tuple of RuleOutcome
        Average, low half, low quarter, share served; then `low quarter, leached` in
        soil whose requirement is above what ordinary losses cover (or that is watered
        by this rule), or `leaching target` in pots that have one.

    References
    ----------
    .. [1] Ayers and Westcot, 1985, FAO-29 Rev. 1, section 2.4.2: up to 0.10 ordinary
       losses leach enough.

    Examples
    --------
    >>> import numpy as np
    >>> from scheduler.need.zone_leaching import ZoneLeaching
    >>> from scheduler.root_zone.intake import intake_model
    >>> from scheduler.site import Zone
    >>> from scheduler.trace import entered
    >>> bay = Zone(id="F1", name="bay", area_m2=900.0, grown_in="soil", watered="off")
    >>> salty = ZoneLeaching(0.2, False, entered("leaching_requirement", 0.2))
    >>> inputs = ZoneWeekInput(
    ...     bay, np.ones(24), 12.0, 0.8, 0.9, np.full(7, 4.0), np.zeros(7), None, 0.0,
    ...     np.ones(7, dtype=bool), intake_model(bay)[0], "nearest", None,
    ...     leaching=salty)
    >>> rows = rule_rows(inputs, Demand((0,), 28.0))
    >>> rows[-1].rule, round(rows[-1].factor, 4)
    ('low quarter, leached', 1.5625)
    """
    four = rule_outcomes(
        need_mm=demand.need_mm,
        share=inputs.share,
        net_rate_mm_per_h=inputs.net_rate_mm_per_h,
        n_events=len(demand.nights),
        share_served=inputs.zone.share_served,
        du_lq=inputs.du_lq,
        du_lh=inputs.du_lh,
    )
    leaching = inputs.leaching
    is_chosen = inputs.zone.chosen_rule == "low quarter, leached"
    if leaching is None or (leaching.is_covered and not is_chosen):
        return four
    low_quarter = next(one for one in four if one.rule == "low quarter")
    one = outcome_of(
        "leaching target" if leaching.is_target else "low quarter, leached",
        leaching.factor * (1.0 if leaching.is_target else low_quarter.factor),
        need_mm=demand.need_mm,
        share=inputs.share,
        net_rate_mm_per_h=inputs.net_rate_mm_per_h,
        n_events=len(demand.nights),
    )
    return (*four, one)
