"""An outlay, its life and interest in; yearly cost, worth and payback out."""

import math
from collections.abc import Callable, Sequence

from scheduler.errors import SchedulerError

HALVINGS = 200
# the search for a rate of return ends here: a thousandfold a year
HIGHEST_RATE = 1000.0


def capital_recovery(interest: float, *, life_years: float) -> float:
    """Yearly payment that pays back an outlay of 1 over its life, with interest.

    Parameters
    ----------
    interest : float
        Of one year, above -1. [-]
    life_years : float
        Years, above 0.

    Returns
    -------
    float
        r / (1 - (1 + r)^-n); 1 / n without interest. [-]

    Raises
    ------
    SchedulerError
        If the life is not above 0 or the interest not above -1.

    References
    ----------
    .. [1] Blank and Tarquin, Engineering Economy (from memory): the A/P factor.

    Examples
    --------
    >>> round(capital_recovery(0.06, life_years=12), 6)
    0.119277
    """
    if not (life_years > 0 and interest > -1):
        raise SchedulerError(
            f"a life of {life_years:g} years at {interest:.1%} interest",
            "give a life above 0 and an interest above -100 %",
        )
    if abs(interest) < 1e-12:
        return 1.0 / life_years
    # expm1 and log1p keep small rates exact
    return interest / -math.expm1(-life_years * math.log1p(interest))


def net_present_value(interest: float, flows_money: Sequence[float]) -> float:
    """Worth today of yearly flows, the first of them today.

    Parameters
    ----------
    interest : float
        Of one year. [-]
    flows_money : sequence of float
        Money in (above 0) and out, one a year.

    Returns
    -------
    float
        Sum of flow / (1 + r)^year.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(net_present_value(0.10, [-100.0, 60.0, 60.0]), 2)
    4.13
    """
    return math.fsum(
        flow / (1.0 + interest) ** year for year, flow in enumerate(flows_money)
    )


def rate_where(worth: Callable[[float], float]) -> float | None:
    """Interest at which a falling worth crosses zero.

    Parameters
    ----------
    worth : callable
        Worth at an interest; must fall with it.

    Returns
    -------
    float or None
        The rate; None where the worth is below zero even at no return of the outlay
        (-99 %), or above zero at any rate.

    References
    ----------
    Source: definition: bisection.

    Examples
    --------
    >>> round(rate_where(lambda r: net_present_value(r, [-100.0, 60.0, 60.0])), 4)
    0.1307
    """
    low, high = -0.99, HIGHEST_RATE
    if worth(low) <= 0 or worth(high) >= 0:
        return None
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if worth(middle) > 0 else (low, middle)
    return 0.5 * (low + high)


def internal_rate(
    outlays: Sequence[tuple[float, float]], *, saved_money: float
) -> float | None:
    """Interest at which the yearly saving just pays for the outlays.

    Parameters
    ----------
    outlays : sequence of (float, float)
        Money and life in years of each part; parts are bought anew when they are worn.
    saved_money : float
        Saved each year, running cost taken off.

    Returns
    -------
    float or None
        None where the outlays are never paid back, or there are none. [-]

    References
    ----------
    Source: definition: the rate at which the sum of yearly costs equals the saving.

    Examples
    --------
    >>> round(internal_rate([(100.0, 2.0)], saved_money=60.0), 4)
    0.1307
    """
    if saved_money <= 0:
        return None

    def worth(rate: float) -> float:
        cost = sum(
            money * capital_recovery(rate, life_years=life) for money, life in outlays
        )
        return saved_money - cost

    return rate_where(worth)


def payback_years(outlay_money: float, *, saved_money: float) -> float | None:
    """Years in which the saving adds up to the outlay, without interest.

    Parameters
    ----------
    outlay_money : float
        Paid now.
    saved_money : float
        Saved each year, running cost taken off.

    Returns
    -------
    float or None
        None where nothing is saved.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> payback_years(9600.0, saved_money=1200.0)
    8.0
    """
    return outlay_money / saved_money if saved_money > 0 else None
