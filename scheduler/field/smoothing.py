"""Shares at can places and a root spread in, shares that roots in soil reach out."""

import numpy as np

from scheduler.arrays import FloatArray, IntArray, frozen


def smoothed_shares(
    share: FloatArray,
    place: tuple[IntArray, IntArray],
    distance_m: tuple[float, float],
    *,
    spread_m: float,
) -> FloatArray:
    """Shares averaged over the places that roots reach.

    Parameters
    ----------
    share : array of shape (n_runs, n_positions)
        Catch at each position over the mean catch. [-]
    place : tuple of arrays of shape (n_positions,)
        Row and column of each position.
    distance_m : tuple of float
        From row to row, and from can to can along a row. [m]
    spread_m : float
        How far roots take water from, to each side. [m]

    Returns
    -------
    array of the same shape
        Mean of the positions within the spread, each for itself included. [-]

    Notes
    -----
    Roots are taken to draw alike from every place within the spread. Never for pots,
    which cannot share water. The mean stays 1 by scaling: places at the border of the
    grid count in fewer neighbourhoods.

    References
    ----------
    Source: definition; that soil and roots even out what cans show is common practice,
    no source.

    Examples
    --------
    >>> row, column = np.array([0, 0, 0, 0]), np.array([0, 1, 2, 3])
    >>> smoothed_shares(np.array([[0.6, 1.4, 0.6, 1.4]]), (row, column), (1.0, 1.0),
    ...                 spread_m=1.0).round(2).tolist()
    [[1.0, 0.87, 1.13, 1.0]]
    """
    row, column = (one.astype(np.float64) for one in place)
    down = (row[:, None] - row[None, :]) * distance_m[0]
    along = (column[:, None] - column[None, :]) * distance_m[1]
    # a can at just the spread counts, whatever its last binary digit
    near = np.hypot(down, along) <= spread_m * (1.0 + 1e-9)
    reached = share @ (near / near.sum(axis=1, keepdims=True)).T
    return frozen(reached / reached.mean(axis=1, keepdims=True))
