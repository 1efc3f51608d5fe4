"""A stated uniformity in, the bell-shaped catch that has it out."""

from statistics import NormalDist

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import ReadingsError


def normal_shares(du_lq: float, n: int = 24) -> FloatArray:
    """Positions of a bell-shaped catch with exactly that uniformity, mean 1.

    Parameters
    ----------
    du_lq : float
        DU low quarter, above 0 and at most 1.
    n : int
        How many positions, a multiple of 4.

    Returns
    -------
    array of shape (n,)
        Shares, ascending; none is negative. Below a DU of about 0.38 the bell would
        reach below zero, and a log-normal catch stands in.

    Raises
    ------
    ReadingsError
        If no bell-shaped catch has that uniformity.

    References
    ----------
    Source: definition (normal quantiles at the middles of n equal parts).

    Examples
    --------
    >>> from scheduler.field.uniformity import low_quarter_uniformity
    >>> round(float(low_quarter_uniformity(normal_shares(0.7))), 6)
    0.7
    """
    if not 0.0 < du_lq <= 1.0:
        raise ReadingsError(f"a DU of {du_lq:g} cannot be", "give 0 to 1, such as 0.71")
    normal = NormalDist()
    z = np.array([normal.inv_cdf((i + 0.5) / n) for i in range(n)])
    quarter = -z[: n // 4].mean()
    share = 1.0 + z * (1.0 - du_lq) / quarter
    return np.asarray(share if share[0] >= 0.0 else _skewed_shares(z, du_lq))


def _skewed_shares(z: FloatArray, du_lq: float) -> FloatArray:
    """Log-normal shares, for a catch so uneven that a bell would reach below zero."""
    low, high = 0.0, 8.0
    for _ in range(80):
        spread = (low + high) / 2
        share = np.exp(spread * (z - z[-1]))  # from the top, so that nothing overflows
        share /= share.mean()
        if share[: z.size // 4].mean() > du_lq:
            low = spread
        else:
            high = spread
    return np.asarray(share)


def low_half_from_low_quarter(du_lq: float) -> float:
    """Low half from the low quarter, for use only where no cans are known.

    Parameters
    ----------
    du_lq : float
        DU low quarter, 0 to 1.

    Returns
    -------
    float
        0.4 + 0.6 DU.

    Notes
    -----
    Normal theory gives 0.372 + 0.628 DU. A published skewed pattern has a low half of
    0.81 where this gives 0.86: measured cans are better.

    References
    ----------
    .. [1] Mecham, 2010, ASABE IRR10-10040 (low-half basis); the constants are from
       memory.

    Examples
    --------
    >>> round(low_half_from_low_quarter(0.6), 2)
    0.76
    """
    return 0.4 + 0.6 * du_lq


def cv_from_low_quarter(du_lq: float) -> float:
    """Coefficient of variation of a bell-shaped catch with that low quarter.

    Parameters
    ----------
    du_lq : float
        DU low quarter, 0 to 1.

    Returns
    -------
    float
        CV.

    References
    ----------
    Source: normal theory, DU = 1 - 1.2711 CV.

    Examples
    --------
    >>> round(cv_from_low_quarter(0.746), 2)
    0.2
    """
    normal = NormalDist()
    return (1.0 - du_lq) / (4.0 * normal.pdf(normal.inv_cdf(0.25)))
