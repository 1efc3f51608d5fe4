"""Spread of a bell-shaped catch in; what a factor serves, lacks and wastes out."""

import math
from statistics import NormalDist

NORMAL = NormalDist()


def normal_factor(cv: float, *, share_served: float) -> float:
    """Mean depth over need that serves a part of a bell-shaped catch.

    Parameters
    ----------
    cv : float
        Coefficient of variation of the catch. [-]
    share_served : float
        Part of the area that must get its need. [-]

    Returns
    -------
    float
        1 / (1 - z CV); infinite where the bell has no water left. [-]

    References
    ----------
    .. [1] Normal theory, after Hart and Reynolds, 1965.

    Examples
    --------
    >>> round(normal_factor(0.2, share_served=0.9), 3)
    1.345
    """
    served = 1.0 - NORMAL.inv_cdf(share_served) * cv
    return math.inf if served <= 0 else 1.0 / served


def normal_served(factor: float, *, cv: float) -> float:
    """Part of a bell-shaped catch that gets its need.

    Parameters
    ----------
    factor : float
        Mean depth over need. [-]
    cv : float
        Coefficient of variation of the catch, above 0. [-]

    Returns
    -------
    float
        0 to 1. [-]

    References
    ----------
    .. [1] Normal theory, after Hart and Reynolds, 1965.

    Examples
    --------
    >>> round(normal_served(1.341, cv=0.2), 2)
    0.9
    """
    return NORMAL.cdf((factor - 1.0) / (factor * cv))


def normal_deficit(factor: float, *, cv: float) -> float:
    """Mean depth that a bell-shaped catch stays below the need, over the need.

    Parameters
    ----------
    factor : float
        Mean depth over need, M. [-]
    cv : float
        Coefficient of variation of the catch, above 0. [-]

    Returns
    -------
    float
        (1 - M) Phi(a) + M CV phi(a) with a = (1 - M) / (M CV). [-]

    References
    ----------
    .. [1] Normal theory, after Hart and Reynolds, 1965.

    Examples
    --------
    >>> round(normal_deficit(1.0, cv=0.2), 3)
    0.08
    """
    spread = factor * cv
    a = (1.0 - factor) / spread
    return (1.0 - factor) * NORMAL.cdf(a) + spread * NORMAL.pdf(a)


def normal_excess(factor: float, *, cv: float) -> float:
    """Mean depth that a bell-shaped catch goes above the need, over the need.

    Parameters
    ----------
    factor : float
        Mean depth over need. [-]
    cv : float
        Coefficient of variation of the catch, above 0. [-]

    Returns
    -------
    float
        factor - 1 + deficit. [-]

    References
    ----------
    .. [1] Normal theory, after Hart and Reynolds, 1965.

    Examples
    --------
    >>> round(normal_excess(1.0, cv=0.2), 3)
    0.08
    """
    return factor - 1.0 + normal_deficit(factor, cv=cv)
