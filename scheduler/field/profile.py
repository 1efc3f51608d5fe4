"""Cans along a leg in, one sprinkler's radial profile out."""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from scheduler.arrays import BoolArray, FloatArray, frozen
from scheduler.errors import Finding
from scheduler.units import System, typed

LONGEST_MIN = 24 * 60
# Cells of the raster; near the head, where a step of squared distance is widest, a
# cell is still under a hundredth of the throw.
N_RASTER = 2**16


@dataclass(frozen=True, slots=True, eq=False)
class Profile:
    """Rate of one sprinkler along its radius, straight between the cans.

    Attributes
    ----------
    distance_m, rate_mm_per_h : array of shape (n_points,)
        Points of the profile. [m], [mm/h]
    throw_m : float
        Radius beyond which nothing falls. [m]
    flow_l_per_min : float
        Water under the profile all round the head, an exact integral. [L/min]
    is_sharp : bool
        Whether water still falls at the throw, and none just beyond it.
    raster_mm_per_h : array of shape (65537,)
        Rate at equal steps of squared distance; the last, beyond the throw, is 0.
    """

    distance_m: FloatArray
    rate_mm_per_h: FloatArray
    throw_m: float
    flow_l_per_min: float
    is_sharp: bool
    raster_mm_per_h: FloatArray


def _misread(
    distance: FloatArray, depth: FloatArray, minutes: float, units: System
) -> tuple[str, str] | None:
    """What makes a leg unusable, and what to do about it; None when it is sound."""
    if depth.shape[-1:] != distance.shape or depth.ndim > 2 or distance.size < 2:
        what = f"{distance.size} distances and {depth.shape} readings do not match"
        return what, "give two cans or more, and one distance for each can of a leg"
    if not (np.isfinite(distance).all() and distance[0] >= 0):
        return f"distances {distance.tolist()}", "measure from the head, 0 or more"
    back = np.flatnonzero(np.diff(distance) <= 0)
    if back.size:
        before, after = (typed(r, "m", units) for r in distance[back[0] :][:2])
        what = f"the can at {after} comes after the one at {before}"
        return what, "list the cans outward, each place once"
    bad = depth[(depth < 0) | np.isinf(depth)]
    if bad.size:
        return f"a reading of {bad[0]:g}", "read the can again, or leave it blank"
    if np.isfinite(np.atleast_2d(depth)).any(axis=0).sum() < 2:
        return "fewer than two places have a reading", "set cans along the whole leg"
    if not np.nansum(depth) > 0:
        return "no can caught water", "see whether the head ran"
    if not 0 < minutes <= LONGEST_MIN:
        return f"a run of {minutes:g} minutes", "give above 0 and up to 1440 minutes"
    return None


def _flow_l_per_min(distance: FloatArray, rate: FloatArray) -> float:
    """Integral of 2 pi r p(r) for a profile that is straight between its points."""
    r, p = np.append(0.0, distance), np.append(rate[0], rate)
    a, b = r[:-1], r[1:]
    slope = np.diff(p) / np.where(b > a, b - a, 1.0)
    level = p[:-1] - slope * a
    ring = level * (b**2 - a**2) / 2 + slope * (b**3 - a**3) / 3
    return float(2 * np.pi * ring.sum() / 60)  # mm over m2 is litres


def _end(
    distance: FloatArray, rate: FloatArray, throw_m: float | None, units: System
) -> tuple[float, list[tuple[str, str]]]:
    """Where the pattern ends, and what must be said about that."""
    wet = int(np.flatnonzero(rate > 0)[-1])
    is_dry_beyond = wet + 1 < distance.size
    dry = float(distance[wet + 1]) if is_dry_beyond else math.inf
    if throw_m is not None and throw_m > dry:
        at, throw = typed(dry, "m", units), typed(throw_m, "m", units)
        said = f"the can at {at} stayed dry inside the throw of {throw}"
        return dry, [(said, "the pattern ends at that can; check the throw")]
    if throw_m is not None:
        return throw_m, []
    if is_dry_beyond:
        return dry, []
    last = float(distance[wet])
    at = typed(last, "m", units)
    said = f"the leg stops inside the pattern: the can at {at} still caught water"
    fix = "water beyond it is left out; set cans until one stays dry, or give the throw"
    return last, [(said, fix)]


def radial_profile(
    distance_m: npt.ArrayLike,
    depth_mm: npt.ArrayLike,
    *,
    minutes: float,
    throw_m: float | None = None,
    where: str = "profile",
    units: System = "metric",
) -> tuple[Profile | None, tuple[Finding, ...]]:
    """Profile of one sprinkler from cans along one leg, or several legs averaged.

    Parameters
    ----------
    distance_m : array of shape (n_cans,)
        From the head outward. [m]
    depth_mm : array of shape (n_cans,) or (n_legs, n_cans)
        Caught depth, NaN where there is no reading. [mm]
    minutes : float
        Length of the run; 60 if the depths are rates already. [min]
    throw_m : float, optional
        Radius of throw, if it was seen. [m]
    where : str
        Place that findings name.
    units : {'us', 'metric'}
        Units that findings speak in.

    Returns
    -------
    Profile or None
        None when the cans cannot be used; a stop finding says why.
    tuple of Finding
        What was wrong, and what was filled in.

    Notes
    -----
    Straight between cans; between the head and the first can its reading stands.

    References
    ----------
    .. [1] ASABE S398.1 (scope): single-sprinkler test. The interpolation is a choice.

    Examples
    --------
    >>> cone, _ = radial_profile([0.0, 10.0], [12.0, 0.0], minutes=60)
    >>> cone.throw_m, round(cone.flow_l_per_min, 2)
    (10.0, 20.94)
    """
    distance = np.array(distance_m, dtype=np.float64, ndmin=1)
    depth = np.array(depth_mm, dtype=np.float64, ndmin=1)
    wrong = _misread(distance, depth, minutes, units)
    if wrong is not None:
        return None, (Finding("stop", where, *wrong),)
    legs = np.atleast_2d(depth)
    seen = np.asarray(np.isfinite(legs).any(axis=0))
    distance, rate = distance[seen], np.nanmean(legs[:, seen], axis=0) * 60 / minutes
    last_wet = float(distance[rate > 0][-1])
    if throw_m is not None and not (last_wet <= throw_m < math.inf and throw_m > 0):
        throw, wet = typed(throw_m, "m", units), typed(last_wet, "m", units)
        what = f"a throw of {throw}, but the can at {wet} caught water"
        return None, (Finding("stop", where, what, "measure the radius of throw"),)
    end, told = _end(distance, rate, throw_m, units)
    findings = [Finding("warning", where, *one) for one in told]
    findings += _left_out(distance, seen, where, units)
    is_sharp = end == last_wet
    inside = distance <= end if is_sharp else distance < end
    distance = np.append(distance[inside], [] if is_sharp else end)
    rate = np.append(rate[inside], [] if is_sharp else 0.0)
    at = np.sqrt((np.arange(N_RASTER) + 0.5) / N_RASTER) * end
    raster = np.append(np.interp(at, distance, rate), 0.0)
    flow = _flow_l_per_min(distance, rate)
    kept = frozen(distance), frozen(rate)
    return Profile(*kept, end, flow, is_sharp, frozen(raster)), tuple(findings)


def _left_out(
    distance: FloatArray, seen: BoolArray, where: str, units: System
) -> list[Finding]:
    """Notes on places without a reading, near the head and along the leg."""
    notes = []
    if distance[0] > 0:
        what = f"no can nearer to the head than {typed(distance[0], 'm', units)}"
        fix = "its reading stands for the ground inside; add a can by the head"
        notes.append(Finding("note", where, what, fix))
    if not seen.all():
        what = f"{int((~seen).sum())} places have no reading on any leg"
        fix = "a straight line bridges them; read those cans in the next test"
        notes.append(Finding("note", where, what, fix))
    return notes
