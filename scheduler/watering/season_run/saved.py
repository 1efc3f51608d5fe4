"""A season and another uniformity in, water for the same driest quarter out."""

from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.drawn import drawn_together
from scheduler.field.uniformity import low_quarter_uniformity, quarters_in_order
from scheduler.watering.season_run.inputs import SeasonInput, SeasonResult
from scheduler.watering.season_run.run import season_run

# widest search for the served share, and halvings of it: to a thousandth
LEAST_SHARE, MOST_SHARE, HALVINGS = 0.05, 1.5, 11
# days of stress that count as the same
SAME_DAYS = 0.5


@dataclass(frozen=True, slots=True)
class AtAnotherDU:
    """What one zone would be given at another uniformity.

    Attributes
    ----------
    du_lq : float
        The other DU low quarter. [-]
    served_share : float
        Share of the position that would be filled. [-]
    applied_mm, saved_mm : float
        Mean water put on, and less than now; negative where it is more. [mm]
    stress_days : float
        Days of stress in the driest quarter; not above those of now. [days]
    """

    du_lq: float
    served_share: float
    applied_mm: float
    saved_mm: float
    stress_days: float


def stretched(share: FloatArray, du_lq: float) -> FloatArray:
    """The same map of catches, drawn together or apart to another uniformity.

    Parameters
    ----------
    share : array of shape (..., n_positions, n_zones)
        Catch over the mean catch. [-]
    du_lq : float
        Wanted DU low quarter of the mean over the leading axes, 0 to 1. [-]

    Returns
    -------
    array of the same shape
        Shares, never below 0; mean 1 where none is cut there. [-]

    References
    ----------
    Source: definition: 1 - DU scales with the distance from the mean.

    Examples
    --------
    >>> share = np.array([0.6, 0.8, 1.2, 1.4]).reshape(1, 4, 1)
    >>> stretched(share, 0.8)[0, :, 0].round(2).tolist()
    [0.8, 0.9, 1.1, 1.2]
    """
    mean = share.mean(axis=0) if share.ndim > 2 else share
    now = np.array([low_quarter_uniformity(mean[:, z]) for z in range(mean.shape[1])])
    wider = (1.0 - du_lq) / np.maximum(1.0 - now, 1e-9)
    return drawn_together(share, wider)


def driest_quarter_stress_days(season: SeasonInput, result: SeasonResult) -> float:
    """Mean days of stress over the driest quarter of one zone.

    Parameters
    ----------
    season : SeasonInput
        One zone.
    result : SeasonResult
        Its season.

    Returns
    -------
    float
        Days.

    References
    ----------
    Source: definition; a position on the border counts by its fraction.

    Examples
    --------
    >>> one = np.ones((1, 1))
    >>> wet = SeasonInput(np.ones((1, 4, 1)), one[0], 4 * one, 0 * one, one > 1,
    ...     one[0] > 1, one[0] * np.nan, 40 * one[0], 16 * one[0], 0 * one[0], one[0],
    ...     one[0])
    >>> driest_quarter_stress_days(wet, season_run(wet))
    0.0
    """
    order = np.argsort(season.share.mean(axis=0)[:, 0], kind="stable")
    return float(quarters_in_order(result.stress_days[order, 0])[0])


def at_another_du(season: SeasonInput, du_lq: float) -> AtAnotherDU:
    """Least water at another uniformity with no more stress in the driest quarter.

    Parameters
    ----------
    season : SeasonInput
        One zone, as it is.
    du_lq : float
        The other DU low quarter, 0 to 1. [-]

    Returns
    -------
    AtAnotherDU
        Water, and what it saves.

    Notes
    -----
    The map is drawn together or apart; the rule then serves the position that leaves
    the driest quarter no more days of stress than now (within half a day).

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> ones = np.ones(1)
    >>> yard = SeasonInput(
    ...     np.array([0.6, 0.8, 1.2, 1.4]).reshape(1, 4, 1), 0.6 * ones,
    ...     np.full((90, 1), 5.0), np.zeros((90, 1)), np.ones((90, 1), bool),
    ...     ones > 1, ones * np.nan, 40 * ones, 16 * ones, 0 * ones, ones, 999 * ones)
    >>> at_another_du(yard, 0.9).saved_mm > 100
    True
    """
    now = season_run(season)
    bearable = driest_quarter_stress_days(season, now) + SAME_DAYS
    other = replace(season, share=stretched(season.share, du_lq))
    low, high = LEAST_SHARE, MOST_SHARE  # low gives much water, high gives little
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        tried = replace(other, served_share=np.array([middle]))
        days = driest_quarter_stress_days(tried, season_run(tried))
        low, high = (middle, high) if days <= bearable else (low, middle)
    chosen = replace(other, served_share=np.array([low]))
    result = season_run(chosen)
    applied = float(result.watering_mm.sum())
    return AtAnotherDU(
        du_lq,
        low,
        applied,
        float(now.watering_mm.sum()) - applied,
        driest_quarter_stress_days(chosen, result),
    )
