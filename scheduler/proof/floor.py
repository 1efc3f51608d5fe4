"""Leaching checks and a rule in; how far the driest pot lets a correction cut out."""

from collections.abc import Sequence

from scheduler.errors import SchedulerError
from scheduler.field.guess import ZoneCatch
from scheduler.need.zone_leaching import ZoneLeaching
from scheduler.proof.observed import SeenCheck
from scheduler.site import Zone
from scheduler.watering.leached import adequacy, served_rule
from scheduler.watering.run_time import rule_factor

# Driest pots of checks as near as this to the newest one hold a cut back (common
# practice, no source).
FRESH_DAYS = 28


def held_by_driest(factor: float, floor: float | None) -> float:
    """A correction, its cut no deeper than the driest pot allows.

    Parameters
    ----------
    factor : float
        As learned. [-]
    floor : float or None
        Least factor at which the driest pot gets its use. [-]

    Returns
    -------
    float
        Never below the floor, unless the floor lies above 1: the driest pot takes a
        cut back, it does not ask for more than was planned without learning. [-]

    References
    ----------
    Source: balance of water.

    Examples
    --------
    >>> held_by_driest(0.7, 0.88), held_by_driest(0.7, 1.2), held_by_driest(1.1, 0.9)
    (0.88, 1.0, 1.1)
    """
    return factor if floor is None else max(factor, min(1.0, floor))


def driest_floor(
    zone: Zone,
    catch: ZoneCatch,
    target: ZoneLeaching | None,
    checks: Sequence[SeenCheck],
) -> float | None:
    """Least correction at which the driest pot of the fresh checks gets its use.

    Parameters
    ----------
    zone : Zone
        For its rule.
    catch : ZoneCatch
        For the factor of that rule.
    target : ZoneLeaching or None
        Of its pots.
    checks : sequence of SeenCheck
        Those that count.

    Returns
    -------
    float or None
        None without checks. [-]

    Notes
    -----
    The plan brings its modelled use times correction and factor of the rule; the driest
    pot needs what stayed in it of the water that ran.

    References
    ----------
    Source: balance of water.

    Examples
    --------
    >>> yard = Zone(id="Z4", name="yard", area_m2=9.0, grown_in="pots", watered="off")
    >>> driest_floor(yard, None, None, ()) is None
    True
    """
    if not checks:
        return None
    newest = max(one.seen.date for one in checks)
    fresh = [one for one in checks if (newest - one.seen.date).days <= FRESH_DAYS]
    served = rule_factor(
        served_rule(zone.chosen_rule),
        catch.share,
        share_served=zone.share_served,
        du_lq=catch.du_lq,
        du_lh=catch.du_lh,
    )
    try:
        served = adequacy(zone.chosen_rule, served, target).factor
    except SchedulerError:  # the plan stops on it and says so
        return None
    return max(one.driest_ratio for one in fresh) / served
