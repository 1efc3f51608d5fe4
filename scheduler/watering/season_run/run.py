"""A season in, the fastest way to run it chosen, its result out."""

from scheduler.watering.season_run.compiled import is_compiled, season_compiled
from scheduler.watering.season_run.inputs import SeasonInput, SeasonResult, joined
from scheduler.watering.season_run.lanes import season_lanes
from scheduler.watering.season_run.loop import season_loop

# below it the plain loop is faster than numpy's calls
FEW_ZONES = 3
# zones run together: their day stays in the cache (measured, see the bench balance)
BLOCK_ZONES = 2000
# compiling takes some three and a half seconds, which numpy needs for so many zones
COMPILED_ZONES = 60_000


def season_run(season: SeasonInput, *, with_trace: bool = False) -> SeasonResult:
    """Run a season of one or many zones.

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
    >>> import numpy as np
    >>> one = np.ones((1, 1))
    >>> daily = SeasonInput(one[None], one[0], np.full((10, 1), 4.0),
    ...     np.zeros((10, 1)), np.ones((10, 1), bool), one[0] > 0, one[0] * np.nan,
    ...     40 * one[0], 16 * one[0], 4 * one[0], 5 * one[0], 99 * one[0])
    >>> season_run(daily).minutes.tolist()
    [200]
    """
    if season.n_zones < FEW_ZONES:
        return season_loop(season, with_trace=with_trace)
    if season.n_zones >= COMPILED_ZONES and not with_trace and is_compiled():
        return season_compiled(season)
    blocks = range(0, season.n_zones, BLOCK_ZONES)
    return joined(
        [
            season_lanes(
                season.of_zones(begin, begin + BLOCK_ZONES), with_trace=with_trace
            )
            for begin in blocks
        ]
    )
