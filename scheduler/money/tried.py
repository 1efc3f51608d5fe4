"""What is known of DU now and then in; the same where another DU is only tried, out."""

from dataclasses import replace

from scheduler.money.gain import KnownDu


def tried_now(tested: KnownDu, du_lq: float) -> KnownDu:
    """A uniformity of now that is only tried, to ask what then.

    Parameters
    ----------
    tested : KnownDu
        What is known in truth.
    du_lq : float
        What is tried. [-]

    Returns
    -------
    KnownDu
        Nobody measured it, so it has no range and proves nothing.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> tried_now(KnownDu(0.6, 0.5, 0.7, 0.9, 4, "cans"), 0.8).low is None
    True
    """
    return KnownDu(du_lq, None, None, tested.level, 0, "a what-if, not measured")


def apart_from_now(then: KnownDu) -> KnownDu:
    """What is known of a uniformity then, as a number that now does not move.

    Parameters
    ----------
    then : KnownDu
        Perhaps a tested difference to now.

    Returns
    -------
    KnownDu
        The same; without a range where that was of the difference, for a
        uniformity that is only tried lends it none.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> found = KnownDu(0.7, 0.05, 0.15, 0.95, 4, "now, plus", is_difference=True)
    >>> apart_from_now(found).low is None
    True
    """
    if not then.is_difference:
        return then
    return replace(then, low=None, high=None, is_difference=False)
