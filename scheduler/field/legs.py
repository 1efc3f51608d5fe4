"""Legs of cans at their own places in, one profile of their average out."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding, SchedulerError
from scheduler.field.profile import Profile, radial_profile
from scheduler.units import System, typed


@dataclass(frozen=True, slots=True, eq=False)
class RadialLeg:
    """One leg of cans outward from the head; NaN where there is no reading.

    `where` is the place that findings name; both arrays have shape (n_cans,), in m and
    mm/h.
    """

    where: str
    distance_m: FloatArray
    rate_mm_per_h: FloatArray


def legs_at_common_places(
    legs: Sequence[RadialLeg],
) -> tuple[FloatArray, FloatArray]:
    """Rates of every leg at all places where any leg has a reading.

    Parameters
    ----------
    legs : sequence of RadialLeg
        One or more.

    Returns
    -------
    distance_m : array of shape (n_places,)
        All places with a reading, outward. [m]
    rate_mm_per_h : array of shape (n_legs, n_places)
        Each leg on a straight line between its own cans; its first reading stands for
        the ground inside, 0 beyond a last can that stayed dry, and NaN (not known)
        beyond a last can that caught water. [mm/h]

    Raises
    ------
    SchedulerError
        If there is no leg, or one has no reading.

    Notes
    -----
    Averaging readings place by place would let a leg jump in and out of the mean where
    legs have cans at different places; lines do not jump.

    References
    ----------
    Source: definition (straight lines, as in the profile itself).

    Examples
    --------
    >>> near = RadialLeg("1", np.array([0.0, 4.0]), np.array([8.0, 0.0]))
    >>> far = RadialLeg("2", np.array([0.0, 2.0, 6.0]), np.array([6.0, 4.0, 0.0]))
    >>> distance_m, rate_mm_per_h = legs_at_common_places([near, far])
    >>> distance_m.tolist()
    [0.0, 2.0, 4.0, 6.0]
    >>> rate_mm_per_h.tolist()
    [[8.0, 4.0, 0.0, 0.0], [6.0, 4.0, 2.0, 0.0]]
    """
    if not legs:
        raise SchedulerError("no leg", "give one leg of cans or more", "profile")
    kept = []
    for leg in legs:
        read = np.isfinite(leg.rate_mm_per_h)
        if not read.any():
            fix = "read its cans, or leave the leg out"
            raise SchedulerError("the leg has no reading", fix, leg.where)
        kept.append((leg.distance_m[read], leg.rate_mm_per_h[read]))
    places = np.unique(np.concatenate([r for r, _ in kept]))
    lines = [
        np.interp(places, r, p, right=0.0 if p[-1] == 0 else np.nan) for r, p in kept
    ]
    return places, np.stack(lines)


def averaged_profile(
    legs: Sequence[RadialLeg],
    *,
    throw_m: float | None = None,
    units: System = "metric",
) -> tuple[Profile | None, tuple[Finding, ...]]:
    """Profile of one sprinkler as the average of its legs.

    Parameters
    ----------
    legs : sequence of RadialLeg
        One or more, at their own places.
    throw_m : float, optional
        Radius of throw, if it was seen. [m]
    units : {'us', 'metric'}
        Units that findings speak in.

    Returns
    -------
    Profile or None
        None when the cans cannot be used; a stop finding says why.
    tuple of Finding
        What was wrong, and what was filled in.

    Raises
    ------
    SchedulerError
        If there is no leg, or one has no reading.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> north = RadialLeg("north", np.array([0.0, 10.0]), np.array([12.0, 0.0]))
    >>> south = RadialLeg("south", np.array([0.0, 10.0]), np.array([10.0, 0.0]))
    >>> profile, _ = averaged_profile([north, south])
    >>> profile.rate_mm_per_h.tolist()
    [11.0, 0.0]
    """
    distance, rate = legs_at_common_places(legs)
    profile, said = radial_profile(
        distance,
        rate,
        minutes=60,
        throw_m=throw_m,
        where=legs[0].where if len(legs) == 1 else f"profile of {len(legs)} legs",
        units=units,
    )
    short = []
    for leg, line in zip(legs, rate, strict=True):
        beyond = distance[np.isnan(line)]
        if beyond.size:
            last = typed(float(distance[~np.isnan(line)][-1]), "m", units)
            what = f"the leg stops at {last}, where the can still caught water"
            fix = "beyond it only the other legs count; set cans until one stays dry"
            short.append(Finding("warning", leg.where, what, fix))
    return profile, (*said, *short)
