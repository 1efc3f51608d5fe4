"""Need, rate and shares in, minutes of the four rules out, with what each quarter gets.

One factor, never two: net rate from cans holds drift and evaporation already, so no
efficiency divides it again.
"""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.field.bell import low_half_from_low_quarter
from scheduler.field.uniformity import (
    low_half_uniformity,
    low_quarter_uniformity,
    quarter_means,
)
from scheduler.site import RULES, Rule

MIN_PER_H = 60.0
# A position counts as served when rounding alone keeps it below its need.
ROUND_OFF = 1e-9

RULE_SOURCE: dict[Rule, str] = {
    "average": "definition",
    "low half": "Mecham 2010, ASABE IRR10-10040 (low-half basis)",
    "low quarter": "general textbooks: water until the driest quarter's mean is met",
    "share served": "definition, on the measured catches",
    "low quarter, leached": "FAO-29 Rev. 1 (1985) sec. 2.4.2, on the driest quarter",
}
# A row beside the rules: pots whose leaching target asks for more than their rule.
RowName = Literal[Rule, "leaching target"]


@dataclass(frozen=True, slots=True)
class RuleOutcome:
    """What one rule asks of the clock, and what the zone then gets.

    Attributes
    ----------
    rule : str
        Name of the rule, or `leaching target`.
    factor : float
        Mean depth over need; infinite where nothing serves the rule. [-]
    gross_depth_mm : float
        Mean depth of the week. [mm]
    minutes_exact : float
        Minutes of the week before rounding. [min]
    minutes_per_day : float
        The same for one watering; 0 without waterings. [min]
    quarters : tuple of 4 floats
        What the driest to the wettest quarter get, over need. [-]
    above_need : float
        Part of the water that falls above the need. [-]
    short_share : float
        Part of the positions that stay below their need. [-]
    """

    rule: RowName
    factor: float
    gross_depth_mm: float
    minutes_exact: float
    minutes_per_day: float
    quarters: tuple[float, float, float, float]
    above_need: float
    short_share: float


def rule_factor(
    rule: Rule,
    share: FloatArray | None = None,
    *,
    share_served: float = 0.9,
    du_lq: float | None = None,
    du_lh: float | None = None,
    leaching: float | None = None,
) -> float:
    """Mean depth over need that a rule asks for.

    Parameters
    ----------
    rule : str
        `average`, `low half`, `low quarter`, `share served` or `low quarter, leached`.
    share : array of shape (n_positions,), optional
        Catch at each position over the mean catch; None when no cans exist. [-]
    share_served : float
        Part of the positions that `share served` must serve. [-]
    du_lq, du_lh : float, optional
        Uniformity of the driest quarter and half, where it is known already. [-]
    leaching : float, optional
        Leaching requirement, for `low quarter, leached` only. [-]

    Returns
    -------
    float
        1 and up for an honest catch; infinite where the driest part caught nothing.

    Raises
    ------
    SchedulerError
        If the rule needs a number that was not given.

    Notes
    -----
    Low half is 1 / DUlh of the cans; 1 / (0.4 + 0.6 DUlq) only when no cans exist. On
    one published pattern that formula gives 1.16 where the cans give 1.23.

    References
    ----------
    .. [1] Mecham, 2010, ASABE IRR10-10040, abstract: low half instead of low quarter.
    .. [2] von Bernuth and Mecham, Defining the Run Time Multiplier.

    Examples
    --------
    >>> [round(rule_factor(rule, du_lq=0.6), 2)
    ...  for rule in ("average", "low half", "low quarter")]
    [1.0, 1.32, 1.67]
    """
    if rule == "low quarter, leached":
        served = _served_part("low quarter", share, (share_served, du_lq, du_lh))
        served *= 1.0 - _known_leaching(leaching)
    else:
        served = _served_part(rule, share, (share_served, du_lq, du_lh))
    return math.inf if served <= 0 else 1.0 / served


def _known_leaching(leaching: float | None) -> float:
    if leaching is None or not 0 <= leaching < 1:
        raise SchedulerError(
            f"the rule 'low quarter, leached' got a leaching requirement of {leaching}",
            "give the salt of the water and of the soil, or choose another rule",
        )
    return leaching


def _served_part(
    rule: Rule,
    share: FloatArray | None,
    known: tuple[float, float | None, float | None],
) -> float:
    share_served, du_lq, du_lh = known
    if rule == "average":
        return 1.0
    if rule == "share served":
        return _share_at(_given(share, rule), share_served)
    if rule == "low quarter":
        if du_lq is not None:
            return du_lq
        return float(low_quarter_uniformity(_given(share, rule)))
    if du_lh is not None:
        return du_lh
    if share is not None:
        return float(low_half_uniformity(share))
    if du_lq is None:
        _given(share, rule)
    return low_half_from_low_quarter(float(du_lq or 0.0))


def _given(share: FloatArray | None, rule: Rule) -> FloatArray:
    if share is None:
        raise SchedulerError(
            f"rule {rule!r} needs the catch of each position or a uniformity",
            "give the cans, or choose another rule",
        )
    return share


def _share_at(share: FloatArray, share_served: float) -> float:
    """Share that all but the driest positions reach; so many may fall short."""
    short = math.floor(share.size * (1.0 - share_served) + ROUND_OFF)
    return float(np.sort(share)[min(short, share.size - 1)])


def served_share(
    rule: Rule,
    share: FloatArray | None = None,
    *,
    share_served: float = 0.9,
    du_lq: float | None = None,
    du_lh: float | None = None,
) -> float:
    """Share of the mean depth at the position that a rule serves exactly.

    Parameters
    ----------
    rule, share, share_served, du_lq, du_lh
        As in `rule_factor`.

    Returns
    -------
    float
        1 / factor, 0 to 1. [-]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(served_share("low quarter", du_lq=0.72), 2)
    0.72
    """
    return 1.0 / rule_factor(
        rule, share, share_served=share_served, du_lq=du_lq, du_lh=du_lh
    )


def _above_need(factor: float, share: FloatArray) -> float:
    got = factor * share
    return float(np.maximum(got - 1.0, 0.0).sum() / got.sum())


def _short(factor: float, share: FloatArray) -> float:
    return float(np.mean(factor * share < 1.0 - ROUND_OFF))


def rule_outcomes(  # noqa: PLR0913  # a table's columns, each its own input
    *,
    need_mm: float,
    share: FloatArray,
    net_rate_mm_per_h: float,
    n_events: int,
    share_served: float,
    du_lq: float | None,
    du_lh: float | None,
) -> tuple[RuleOutcome, ...]:
    """All four rules side by side.

    Parameters
    ----------
    need_mm : float
        Depth that must be stored in the week. [mm]
    share : array of shape (n_positions,)
        Catch at each position over the mean catch. [-]
    net_rate_mm_per_h : float
        Mean net precipitation rate. [mm/h]
    n_events : int
        Waterings of the week.
    share_served : float
        Part of the positions that `share served` must serve. [-]
    du_lq, du_lh : float or None
        Uniformity of the driest quarter and half. [-]

    Returns
    -------
    tuple of 4 RuleOutcome
        In the order average, low half, low quarter, share served.

    Raises
    ------
    SchedulerError
        If the rate is not above 0.

    Notes
    -----
    The need is the same for all four, so that the rules can be compared; each rule
    planned by itself would also time its waterings by its own driest position.

    References
    ----------
    Source: definition; rules as in `rule_factor`.

    Examples
    --------
    >>> even = rule_outcomes(need_mm=12.0, share=np.ones(8), net_rate_mm_per_h=12.0,
    ...                      n_events=3, share_served=0.9, du_lq=1.0, du_lh=1.0)
    >>> [one.minutes_per_day for one in even]
    [20.0, 20.0, 20.0, 20.0]
    """
    if not net_rate_mm_per_h > 0:
        raise SchedulerError(
            f"the net rate is {net_rate_mm_per_h:g} mm/h", "measure it with cans"
        )
    factors = {
        rule: rule_factor(
            rule, share, share_served=share_served, du_lq=du_lq, du_lh=du_lh
        )
        for rule in RULES
    }
    return tuple(
        outcome_of(
            rule,
            factor,
            need_mm=need_mm,
            share=share,
            net_rate_mm_per_h=net_rate_mm_per_h,
            n_events=n_events,
        )
        for rule, factor in factors.items()
    )


def outcome_of(
    rule: RowName,
    factor: float,
    *,
    need_mm: float,
    share: FloatArray,
    net_rate_mm_per_h: float,
    n_events: int,
) -> RuleOutcome:
    """What one factor asks of the clock, and what the zone then gets.

    Parameters
    ----------
    rule : str
        Name of the row.
    factor : float
        Mean depth over need. [-]
    need_mm : float
        Depth that must be stored in the week. [mm]
    share : array of shape (n_positions,)
        Catch at each position over the mean catch. [-]
    net_rate_mm_per_h : float
        Mean net precipitation rate, above 0. [mm/h]
    n_events : int
        Waterings of the week.

    Returns
    -------
    RuleOutcome
        The row.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> outcome_of("average", 1.0, need_mm=12.0, share=np.ones(8),
    ...            net_rate_mm_per_h=12.0, n_events=3).minutes_per_day
    20.0
    """
    quarter = [float(one) for one in quarter_means(share)]
    gross = need_mm * factor if need_mm > 0 else 0.0
    minutes = gross / net_rate_mm_per_h * MIN_PER_H
    finite = math.isfinite(factor)
    return RuleOutcome(
        rule=rule,
        factor=factor,
        gross_depth_mm=gross,
        minutes_exact=minutes,
        minutes_per_day=minutes / n_events if n_events else 0.0,
        quarters=_four(quarter, factor),
        above_need=_above_need(factor, share) if finite else math.nan,
        short_share=_short(factor, share) if finite else math.nan,
    )


def _four(quarter: list[float], factor: float) -> tuple[float, float, float, float]:
    # nothing times infinity: the dry quarter of a rule that has no factor gets nothing
    a, b, c, d = (one * factor if one > 0 else 0.0 for one in quarter)
    return a, b, c, d
