"""A catch in; the same map drawn together or apart to another uniformity out.

The one place that does it: for the wind of other hours, and for a uniformity that is
only tried, which its trace then says.
"""

from dataclasses import replace
from typing import TypeVar

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import QuantityError
from scheduler.field.guess import ZoneCatch
from scheduler.field.uniformity import uniformity
from scheduler.trace import Trace

# a catch more even than this has no map to draw
EVEN = 1e-6

Catch = TypeVar("Catch", ZoneCatch, ZoneCatch | None)


def drawn_together(share: FloatArray, pull: float | FloatArray) -> FloatArray:
    """Shares drawn toward their mean, or apart.

    Parameters
    ----------
    share : array of any shape
        Catch over the mean catch. [-]
    pull : float or array that fits the shares
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


def drawn_depth_mm(
    depth_mm: FloatArray, du_lq: float, *, of_du_lq: float
) -> FloatArray:
    """Depths of one run as they would be at another DU of their zone.

    Parameters
    ----------
    depth_mm : array of shape (n_cans,)
        Caught depth in each can. [mm]
    du_lq, of_du_lq : float
        The other DU low quarter of the zone, and the one it has. [-]

    Returns
    -------
    array of shape (n_cans,)
        Drawn as far as the zone is, with the same mean. [mm]

    References
    ----------
    Source: definition, as `drawn_together`.

    Examples
    --------
    >>> drawn_depth_mm(np.array([6.0, 14.0]), 0.8, of_du_lq=0.6).tolist()
    [8.0, 12.0]
    """
    mean = float(depth_mm.mean())
    if 1.0 - of_du_lq < EVEN or mean <= 0.0:
        return depth_mm
    share = drawn_together(depth_mm / mean, (1.0 - du_lq) / (1.0 - of_du_lq))
    return frozen(mean * share / share.mean())


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

    Notes
    -----
    No place catches less than nothing: drawn far apart, a few places stand at 0 and the
    uniformity ends somewhat above the one asked for; the one reached is in the result.

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
    tested = None
    if catch.tested is not None:
        runs = drawn_together(catch.tested, pull)
        tested = frozen(runs / runs.mean(axis=1, keepdims=True))
    found = uniformity(share)
    return replace(
        catch, share=share, tested=tested, du_lq=found.du_lq, du_lh=found.du_lh,
        cu=found.cu,
    )  # fmt: skip


def tried_catch(catch: Catch, du_lq: float | None) -> Catch:
    """The catch of a zone as if it were of another uniformity, to ask what then.

    Parameters
    ----------
    catch : ZoneCatch or None
        What was tested, stated or assumed.
    du_lq : float or None
        DU low quarter to try, above 0 and at most 1; as it is if None. [-]

    Returns
    -------
    ZoneCatch or None
        As `drawn_catch`, with a trace that says it is a what-if. None where there was
        no catch.

    Raises
    ------
    QuantityError
        If the uniformity is not above 0 or above 1.

    References
    ----------
    Source: definition, as `drawn_together`.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> from scheduler.site import Zone
    >>> zone = Zone(id="Z1", name="yard", area_m2=100.0, grown_in="soil",
    ...             watered="off", assumed_net_rate_mm_per_h=12.0)
    >>> tried_catch(assumed(zone, None)[0], 0.8).du_lq.__round__(3)
    0.8
    """
    if catch is None or du_lq is None:
        return catch
    if not 0.0 < du_lq <= 1.0:
        raise QuantityError(
            f"a DU low quarter of {du_lq:g} cannot be tried",
            "give a number above 0 and at most 1",
        )
    drawn = drawn_catch(catch, du_lq)
    trace = Trace(
        "du_lq",
        drawn.du_lq,
        "tried: every place drawn to or from the mean until DU is as asked",
        "definition: 1 - DU scales with the distance from the mean",
        (catch.du_trace,),
        "a what-if, not measured",
    )
    return replace(drawn, du_trace=trace)
