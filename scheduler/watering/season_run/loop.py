"""One zone's season in, day by day and position by position in plain Python, out.

For one or two zones this is faster than numpy: 365 days of calls on 36 numbers cost
more than the numbers. It is also the plain wording that the other two are checked with.
"""

import math

import numpy as np

from scheduler.arrays import frozen
from scheduler.watering.season_run.inputs import (
    SeasonInput,
    SeasonResult,
    closure_error_mm,
)
from scheduler.watering.season_run.lanes import ROUND_OFF


def season_loop(season: SeasonInput, *, with_trace: bool = False) -> SeasonResult:
    """Run a season zone by zone, position by position.

    Parameters
    ----------
    season : SeasonInput
        The season.
    with_trace : bool
        Whether to keep the depletion of every day.

    Returns
    -------
    SeasonResult
        Every position, the same as `season_lanes` within rounding.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8, in the order of example 38.

    Examples
    --------
    >>> one = np.ones((1, 1))
    >>> dry = SeasonInput(one[None], one[0], np.full((3, 1), 6.0), np.zeros((3, 1)),
    ...     np.zeros((3, 1), bool), one[0] > 1, one[0] * np.nan, 160 * one[0],
    ...     64 * one[0], 55 * one[0], one[0], one[0])
    >>> season_loop(dry).end_mm.round(1).tolist()
    [[72.8]]
    """
    n_days, n_zones = season.n_days, season.n_zones
    n_positions = season.share.shape[1]
    sums = np.zeros((5, n_positions, n_zones))
    night_sums = np.zeros((2, n_zones))
    nights = np.zeros((n_days, n_zones))
    trace = np.zeros((n_days if with_trace else 0, n_positions + 1, n_zones))
    ahead = season.use_ahead_mm
    for zone in range(n_zones):
        days = _nights(season, zone, ahead[:, zone].tolist())
        nights[:, zone] = days[0]
        night_sums[:, zone] = (sum(d > 0 for d in days[0]), sum(days[1]))
        for position in range(n_positions + 1):
            is_served = position == n_positions
            if is_served and not with_trace:
                continue
            shares = _shares(season, zone, position)
            ends, totals = _position(season, zone, days[0], shares)
            if not is_served:
                sums[:, position, zone] = totals
            if with_trace:
                trace[:, position, zone] = ends
    applied, used, percolated, end, stress = (frozen(one) for one in sums)
    return SeasonResult(
        applied,
        used,
        percolated,
        end,
        stress,
        frozen(night_sums[0], np.int64),
        frozen(night_sums[1], np.int64),
        frozen(nights),
        frozen(trace),
        closure_error_mm(season, (applied, used, percolated, end)),
    )


def _shares(season: SeasonInput, zone: int, position: int) -> list[float]:
    if position == season.share.shape[1]:
        return [float(season.served_share[zone])]
    shares: list[float] = season.share[:, position, zone].tolist()
    return shares


def _nights(
    season: SeasonInput, zone: int, ahead: list[float]
) -> tuple[list[float], list[float]]:
    """Mean depth and whole minutes of each night, from the served position alone."""
    etc = season.etc_mm_per_day[:, zone].tolist()
    rain = season.rain_mm[:, zone].tolist()
    is_open = season.is_open[:, zone].tolist()
    served, fixed = float(season.served_share[zone]), float(season.fixed_mm[zone])
    per_mm, longest = float(season.min_per_mm[zone]), float(season.longest_min[zone])
    total, allowed = float(season.total_mm[zone]), float(season.allowed_mm[zone])
    always, below = bool(season.is_always[zone]), max(total - allowed, 1e-6)
    depletion, depths, minutes = float(season.start_mm[zone]), [], []
    for d, use in enumerate(etc):
        exact = 0.0
        if is_open[d] and not math.isnan(fixed):
            exact = fixed * per_mm
        elif is_open[d] and (
            (always and depletion > 0) or depletion + ahead[d] > allowed
        ):
            exact = depletion / served * per_mm
        whole = _whole(exact, longest)
        depth = whole / per_mm
        early = max(depletion - served * depth - rain[d], 0.0)
        short = total - early
        depletion = early + min(min(short / below, 1.0) * use, short)
        depths.append(depth)
        minutes.append(whole)
    return depths, minutes


def _whole(exact: float, longest: float) -> float:
    if exact <= 0:
        return 0.0
    limit = math.inf if math.isinf(longest) else max(math.floor(longest + 1e-9), 1)
    cycles = max(math.ceil((exact - ROUND_OFF) / limit), 1)
    each = max(math.floor(exact / cycles + 0.5 + ROUND_OFF), 1)
    if each > limit:
        cycles += 1
        each = math.floor(exact / cycles + 0.5 + ROUND_OFF)
    return float(cycles * each)


def _position(
    season: SeasonInput, zone: int, depths: list[float], shares: list[float]
) -> tuple[list[float], tuple[float, ...]]:
    """One position's days: depletion at each end, and the sums of the season."""
    etc = season.etc_mm_per_day[:, zone].tolist()
    rain = season.rain_mm[:, zone].tolist()
    total, allowed = float(season.total_mm[zone]), float(season.allowed_mm[zone])
    below, is_varied = max(total - allowed, 1e-6), len(shares) > 1
    share, depletion = shares[0], float(season.start_mm[zone])
    applied = used = percolated = 0.0
    stress, ends = 0, []
    for d, use in enumerate(etc):
        water = depths[d] * (shares[d] if is_varied else share)
        applied += water
        early = depletion - water - rain[d]
        if early < 0.0:
            percolated -= early
            early = 0.0
        short = total - early
        taken = use if use < short else short
        if short < below:
            stress += 1
            taken = min(short / below * use, short)
        used += taken
        depletion = early + taken
        ends.append(depletion)
    return ends, (applied, used, percolated, depletion, float(stress))
