"""What a zone catches and another uniformity in, the same catch drawn to it out.

For trying only: it answers what the week or the season would be if the zone were that
even, and says so in its trace.
"""

from dataclasses import replace
from typing import TypeVar

from scheduler.arrays import frozen
from scheduler.errors import QuantityError
from scheduler.field.guess import ZoneCatch
from scheduler.field.uniformity import uniformity
from scheduler.trace import Trace
from scheduler.watering.season_run.saved import stretched

Catch = TypeVar("Catch", ZoneCatch, ZoneCatch | None)


def catch_at_du(catch: Catch, du_lq: float | None) -> Catch:
    """The catch of a zone as if it were of another uniformity.

    Parameters
    ----------
    catch : ZoneCatch or None
        What was tested, stated or assumed.
    du_lq : float or None
        DU low quarter to try, above 0 and at most 1; as it is if None. [-]

    Returns
    -------
    ZoneCatch or None
        Same places, same rate; the shares drawn together or apart, and its measures
        taken from them. None where there was no catch.

    Raises
    ------
    QuantityError
        If the uniformity is not above 0 or above 1.

    Notes
    -----
    No place catches less than nothing: drawn far apart, a few places stand at 0 and the
    uniformity ends somewhat above the one asked for; the one reached is in the result.

    References
    ----------
    Source: definition, as `stretched`.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> from scheduler.site import Zone
    >>> zone = Zone(id="Z1", name="yard", area_m2=100.0, grown_in="soil",
    ...             watered="off", assumed_net_rate_mm_per_h=12.0)
    >>> catch_at_du(assumed(zone, None)[0], 0.8).du_lq.__round__(3)
    0.8
    """
    if catch is None or du_lq is None:
        return catch
    if not 0.0 < du_lq <= 1.0:
        raise QuantityError(
            f"a DU low quarter of {du_lq:g} cannot be tried",
            "give a number above 0 and at most 1",
        )
    runs = stretched(catch.run_share[:, :, None], du_lq)[:, :, 0]
    runs = runs / runs.mean(axis=1, keepdims=True)
    share = runs.mean(axis=0)
    reached = uniformity(share)
    trace = Trace(
        "du_lq",
        reached.du_lq,
        "tried: every place drawn to or from the mean until DU is as asked",
        "definition: 1 - DU scales with the distance from the mean",
        (catch.du_trace,),
        "a what-if, not measured",
    )
    return replace(
        catch,
        share=frozen(share),
        tested=None if catch.tested is None else frozen(runs),
        du_lq=reached.du_lq,
        du_lh=reached.du_lh,
        cu=reached.cu,
        du_trace=trace,
    )
