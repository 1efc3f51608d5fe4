"""A season in, day by day over all zones and positions at once, out."""

import numpy as np

from scheduler.arrays import BoolArray, FloatArray, frozen
from scheduler.watering.season_run.inputs import (
    SeasonInput,
    SeasonResult,
    closure_error_mm,
)

# binary dust that must not make one more cycle out of 30.000000001 minutes
ROUND_OFF = 1e-9


def whole_minutes_of(minutes: FloatArray, longest_min: FloatArray) -> FloatArray:
    """Whole minutes of a watering cut into equal cycles that do not run off.

    Parameters
    ----------
    minutes : array of shape (n_zones,)
        Exact minutes. [min]
    longest_min : array of shape (n_zones,)
        Longest cycle before runoff. [min]

    Returns
    -------
    array of shape (n_zones,)
        Cycles x whole minutes; above 0 at least one minute each. [min]

    References
    ----------
    Source: definition; the same rounding as `scheduler.watering.cycles`.

    Examples
    --------
    >>> whole_minutes_of(np.array([43.5, 19.2]), np.array([16.2, np.inf])).tolist()
    [45.0, 19.0]
    """
    limit = np.maximum(np.floor(longest_min + ROUND_OFF), 1.0)
    cycles = np.maximum(np.ceil((minutes - ROUND_OFF) / limit), 1.0)
    each = np.maximum(np.floor(minutes / cycles + 0.5 + ROUND_OFF), 1.0)
    over = each > limit
    cycles = np.where(over, cycles + 1.0, cycles)
    each = np.where(over, np.floor(minutes / cycles + 0.5 + ROUND_OFF), each)
    return np.where(minutes > 0, cycles * each, 0.0)


def season_lanes(season: SeasonInput, *, with_trace: bool = False) -> SeasonResult:
    """Run a season over all zones together, numpy over positions and zones.

    Parameters
    ----------
    season : SeasonInput
        The season.
    with_trace : bool
        Whether to keep the depletion of every day.

    Returns
    -------
    SeasonResult
        Every position.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8, in the order of example 38.

    Examples
    --------
    >>> one = np.ones((1, 1))
    >>> dry = SeasonInput(one[None], one[0], np.full((3, 1), 6.0), np.zeros((3, 1)),
    ...     np.zeros((3, 1), bool), one[0] > 1, one[0] * np.nan, 160 * one[0],
    ...     64 * one[0], 55 * one[0], one[0], one[0])
    >>> season_lanes(dry).end_mm.round(1).tolist()
    [[72.8]]
    """
    n_positions = season.share.shape[1]
    shape = (n_positions + 1, season.n_zones)
    share = np.empty(shape)
    share[-1] = season.served_share
    depletion = np.broadcast_to(season.start_mm, shape).copy()
    water, short, use = np.empty(shape), np.empty(shape), np.empty(shape)
    applied, used, percolated = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    stress = np.zeros(shape)
    # all of it allowed: no stress until nothing is left
    below = 1.0 / np.maximum(season.total_mm - season.allowed_mm, 1e-6)
    count, minutes = np.zeros(season.n_zones), np.zeros(season.n_zones)
    nights = np.zeros((season.n_days, season.n_zones))
    trace = np.zeros((season.n_days if with_trace else 0, *shape))
    asks_mm, ahead_mm = _asks_mm(season), season.use_ahead_mm
    ahead_mm[~season.is_open] = -np.inf  # a closed night is never due
    is_varied = season.share.shape[0] > 1
    share[:-1] = season.share[0]
    rainy = np.asarray(season.rain_mm.max(axis=1, initial=0.0) > 0)
    for day in range(season.n_days):
        is_due = depletion[-1] + ahead_mm[day] > asks_mm
        is_wet = is_due.any()
        if is_wet:
            depth, run_min = _night(season, is_due, depletion[-1])
            if is_varied:
                share[:-1] = season.share[day]
            np.multiply(share, depth, out=water)
            applied += water
            count += depth > 0
            minutes += run_min
            nights[day] = depth
            depletion -= water
        if rainy[day]:
            depletion -= season.rain_mm[day]
        if rainy[day] or is_wet:
            np.minimum(depletion, 0.0, out=use)
            percolated -= use
            depletion -= use
        np.subtract(season.total_mm, depletion, out=short)
        np.multiply(short, below, out=use)
        np.minimum(use, 1.0, out=use)
        stress += use < 1.0
        use *= season.etc_mm_per_day[day]
        np.minimum(use, short, out=use)
        used += use
        depletion += use
        if with_trace:
            trace[day] = depletion
    sums = (applied[:-1], used[:-1], percolated[:-1], depletion[:-1])
    return SeasonResult(
        frozen(sums[0]),
        frozen(sums[1]),
        frozen(sums[2]),
        frozen(sums[3]),
        frozen(stress[:-1]),
        frozen(count, np.int64),
        frozen(minutes, np.int64),
        frozen(nights),
        frozen(trace),
        closure_error_mm(season, sums),
    )


def _asks_mm(season: SeasonInput) -> FloatArray:
    """Depletion with the use ahead, above which an open night of a zone waters."""
    is_any = season.is_always | np.isfinite(season.fixed_mm)
    return np.where(is_any, -np.inf, season.allowed_mm)


def _night(
    season: SeasonInput, is_due: BoolArray, served_mm: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Mean depth and whole minutes of a night that is due somewhere."""
    asked = np.where(
        np.isfinite(season.fixed_mm), season.fixed_mm, served_mm / season.served_share
    )
    exact = np.where(is_due, asked * season.min_per_mm, 0.0)
    run_min = whole_minutes_of(exact, season.longest_min)
    return run_min / season.min_per_mm, run_min
