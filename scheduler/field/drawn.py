"""A catch in; the same map drawn together or apart to another uniformity out."""

from dataclasses import replace

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.field.guess import ZoneCatch
from scheduler.field.uniformity import uniformity

# a catch more even than this has no map to draw
EVEN = 1e-6


def drawn_together(share: FloatArray, pull: float) -> FloatArray:
    """Shares drawn toward their mean, or apart.

    Parameters
    ----------
    share : array of any shape
        Catch over the mean catch. [-]
    pull : float
        What the distance from the mean is multiplied with; 0 is perfectly even. [-]

    Returns
    -------
    array of the same shape
        Shares, never below 0. [-]

    References
    ----------
    Source: definition: 1 - DU scales with the distance from the mean.

    Examples
    --------
    >>> drawn_together(np.array([0.6, 1.4]), 0.5).tolist()
    [0.8, 1.2]
    """
    return frozen(np.maximum(1.0 + (share - 1.0) * pull, 0.0))


def drawn_catch(catch: ZoneCatch, du_lq: float) -> ZoneCatch:
    """A zone's catch as it would be at another DU.

    Parameters
    ----------
    catch : ZoneCatch
        What its cans caught.
    du_lq : float
        The other DU low quarter. [-]

    Returns
    -------
    ZoneCatch
        The same map, each run drawn alike, its measures taken anew; as it is where
        the catch is perfectly even and so has no map.

    References
    ----------
    Source: definition, as `drawn_together`.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> from scheduler.site import Zone
    >>> zone = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             assumed_net_rate_mm_per_h=12.0, assumed_du_lq=0.6)
    >>> round(drawn_catch(assumed(zone, None)[0], 0.7).du_lq, 3)
    0.7
    """
    if 1.0 - catch.du_lq < EVEN:
        return catch
    pull = (1.0 - du_lq) / (1.0 - catch.du_lq)
    share = drawn_together(catch.share, pull)
    share = frozen(share / share.mean())
    tested = None if catch.tested is None else drawn_together(catch.tested, pull)
    found = uniformity(share)
    return replace(
        catch, share=share, tested=tested, du_lq=found.du_lq, du_lh=found.du_lh,
        cu=found.cu,
    )  # fmt: skip
