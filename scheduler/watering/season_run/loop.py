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

# water held, what is held below the allowed part, depletion at the start [mm]
_Zone = tuple[float, float, float]
# number of the day; use, mean depth of the night before, rain [mm]
_Days = list[tuple[int, float, float, float]]


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
    for zone in range(n_zones):
        depths, minutes = _nights(season, zone)
        nights[:, zone] = depths
        night_sums[:, zone] = (sum(d > 0 for d in depths), sum(minutes))
        constants, days = _constants(season, zone), _days(season, zone, depths)
        for position in range(n_positions + with_trace):
            ends: list[float] | None = [] if with_trace else None
            shares = _shares(season, zone, position)
            totals = _position(constants, shares, days, ends)
            if position < n_positions:
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


def _constants(season: SeasonInput, zone: int) -> _Zone:
    total, allowed = float(season.total_mm[zone]), float(season.allowed_mm[zone])
    return total, max(total - allowed, 1e-6), float(season.start_mm[zone])


def _days(season: SeasonInput, zone: int, depths: list[float]) -> _Days:
    use = season.etc_mm_per_day[:, zone].tolist()
    rain = season.rain_mm[:, zone].tolist()
    return list(zip(range(season.n_days), use, depths, rain, strict=True))


def _shares(season: SeasonInput, zone: int, position: int) -> list[float]:
    """Share of a position on every day; the served one stands last."""
    if position == season.share.shape[1]:
        return [float(season.served_share[zone])] * season.n_days
    shares: list[float] = season.share[:, position, zone].tolist()
    return shares if len(shares) > 1 else shares * season.n_days


def _ahead(etc: list[float], is_open: list[bool]) -> list[float]:
    """Use from each day until the next open night, as `SeasonInput.use_ahead_mm`."""
    ahead, running = [0.0] * len(etc), 0.0
    for d in range(len(etc) - 1, -1, -1):
        running += etc[d]
        ahead[d] = running
        if is_open[d]:
            running = 0.0
    return ahead


def _nights(season: SeasonInput, zone: int) -> tuple[list[float], list[float]]:
    """Mean depth and whole minutes of each night, from the served position alone."""
    etc = season.etc_mm_per_day[:, zone].tolist()
    rain = season.rain_mm[:, zone].tolist()
    is_open = season.is_open[:, zone].tolist()
    ahead = _ahead(etc, is_open)
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
    zone: _Zone, shares: list[float], days: _Days, ends: list[float] | None
) -> tuple[float, ...]:
    """One position's sums of the season; depletion at each day's end goes to `ends`."""
    total, below, depletion = zone
    applied = used = percolated = 0.0
    stress, is_kept = 0, ends is not None
    # most days bring no water: then there is nothing to put on, and none to drain
    for d, use, depth, rain in days:
        if depth or rain:
            water = depth * shares[d]
            applied += water
            depletion = depletion - water - rain
            if depletion < 0.0:
                percolated -= depletion
                depletion = 0.0
        short = total - depletion
        if short < below:
            stress += 1
            taken = short / below * use
            if short < taken:
                taken = short
        else:
            taken = use if use < short else short
        used += taken
        depletion += taken
        if is_kept:
            ends.append(depletion)  # type: ignore[union-attr]  # asked once, above
    return applied, used, percolated, depletion, float(stress)
