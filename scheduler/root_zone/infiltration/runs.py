"""A curve and a steady rate in; ponding, first runoff and clearing out."""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from scheduler.arrays import FloatArray
from scheduler.root_zone.infiltration.curves import HALVINGS, MIN_PER_H, Curve, solved

# within it two depths are the same
ROUND_OFF_MM = 1e-9


def ponding_min(
    curve: Curve, rate_mm_per_h: npt.ArrayLike, *, infiltrated_mm: npt.ArrayLike = 0.0
) -> FloatArray:
    """Minutes of a steady rate until water stands on the ground.

    Parameters
    ----------
    curve : Curve
        How the ground takes in water.
    rate_mm_per_h : float or array
        Rate. [mm/h]
    infiltrated_mm : float or array
        What the ground took in before. [mm]

    Returns
    -------
    array
        Minutes, infinite where the ground keeps up. [min]

    References
    ----------
    .. [1] Mein and Larson: ponding when the capacity has fallen to the rate.

    Examples
    --------
    >>> from scheduler.root_zone.infiltration.curves import GreenAmpt
    >>> round(float(ponding_min(GreenAmpt(6.5, 167.0 * 0.3402), 50.0)), 1)
    10.2
    """
    rate = np.asarray(rate_mm_per_h, dtype=np.float64)
    room = np.maximum(curve.room_mm(rate) - np.asarray(infiltrated_mm), 0.0)
    return np.asarray(MIN_PER_H * room / rate)


def runoff_min(
    curve: Curve,
    rate_mm_per_h: npt.ArrayLike,
    *,
    storage_mm: float = 0.0,
    infiltrated_mm: npt.ArrayLike = 0.0,
) -> FloatArray:
    """Minutes of a steady rate until water runs off.

    Parameters
    ----------
    curve : Curve
        How the ground takes in water.
    rate_mm_per_h : float or array
        Rate. [mm/h]
    storage_mm : float
        Depth that stands on the surface before it runs. [mm]
    infiltrated_mm : float or array
        What the ground took in before. [mm]

    Returns
    -------
    array
        Minutes, infinite where the ground keeps up. [min]

    References
    ----------
    .. [1] As `ponding_min`; after ponding the ground takes in what it can, shifted in
       time so that the cumulative infiltration agrees (time compression).

    Examples
    --------
    >>> from scheduler.root_zone.infiltration.curves import Steady
    >>> round(float(runoff_min(Steady(5.08), 40.64, storage_mm=6.604)), 2)
    11.14
    """
    rate = np.asarray(rate_mm_per_h, dtype=np.float64)
    before = np.asarray(infiltrated_mm, dtype=np.float64)
    dry_min = ponding_min(curve, rate, infiltrated_mm=before)
    if storage_mm <= 0.0:
        return dry_min
    ever = np.isfinite(dry_min)
    at_ponding = before + np.where(ever, dry_min, 0.0) * rate / MIN_PER_H
    since_h = curve.ponded_h(at_ponding)

    def standing(hours: FloatArray) -> FloatArray:
        taken = curve.infiltrated_mm(since_h + hours) - at_ponding
        return np.asarray(rate * hours - taken - storage_mm)

    most = np.broadcast_to(storage_mm / rate, standing(np.zeros_like(rate)).shape)
    for _ in range(HALVINGS):
        is_short = ever & (standing(most) < 0)
        if not is_short.any():
            break
        most = np.where(is_short, 2.0 * most, most)
    wet_h = solved(standing, np.zeros_like(most), most)
    # an hour that HALVINGS doublings did not reach is never reached
    ever = ever & (standing(most) >= 0)
    return np.where(ever, dry_min + MIN_PER_H * wet_h, np.inf)


@dataclass(frozen=True, slots=True)
class RunEnd:
    """The ground at the end of one run: what went in, what stands."""

    infiltrated_mm: float
    standing_mm: float


def run_end(
    curve: Curve, rate_mm_per_h: float, minutes: float, *, infiltrated_mm: float = 0.0
) -> RunEnd:
    """What went in and what stands after a run, nothing having run off.

    Parameters
    ----------
    curve : Curve
        How the ground takes in water.
    rate_mm_per_h : float
        Rate. [mm/h]
    minutes : float
        Length of the run. [min]
    infiltrated_mm : float
        What the ground took in before. [mm]

    Returns
    -------
    RunEnd
        Both depths add up to what fell, and what was there before.

    References
    ----------
    .. [1] As `runoff_min`.

    Examples
    --------
    >>> from scheduler.root_zone.infiltration.curves import Steady
    >>> round(run_end(Steady(6.35), 15.748, 15.0).standing_mm, 2)
    2.35
    """
    fell = rate_mm_per_h * minutes / MIN_PER_H
    dry_min = float(ponding_min(curve, rate_mm_per_h, infiltrated_mm=infiltrated_mm))
    if minutes <= dry_min:
        return RunEnd(infiltrated_mm + fell, 0.0)
    at_ponding = infiltrated_mm + rate_mm_per_h * dry_min / MIN_PER_H
    hours = curve.ponded_h(at_ponding) + (minutes - dry_min) / MIN_PER_H
    taken = float(curve.infiltrated_mm(hours))
    return RunEnd(taken, max(infiltrated_mm + fell - taken, 0.0))


def clearing_min(curve: Curve, end: RunEnd) -> float:
    """Minutes after a run until the water that stands has gone in.

    Parameters
    ----------
    curve : Curve
        How the ground takes in water.
    end : RunEnd
        The ground at the end of the run.

    Returns
    -------
    float
        Minutes. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.root_zone.infiltration.curves import Steady
    >>> round(clearing_min(Steady(6.35), run_end(Steady(6.35), 15.748, 15.0)), 1)
    22.2
    """
    if end.standing_mm <= ROUND_OFF_MM:
        return 0.0
    whole = float(curve.ponded_h(end.infiltrated_mm + end.standing_mm))
    return MIN_PER_H * max(whole - float(curve.ponded_h(end.infiltrated_mm)), 0.0)


def past_intake_share(
    curve: Curve,
    rate_mm_per_h: FloatArray,
    minutes: npt.ArrayLike,
    *,
    storage_mm: float = 0.0,
) -> FloatArray:
    """Share of the area that has run off, against the minutes of one run.

    Parameters
    ----------
    curve : Curve
        How the ground takes in water.
    rate_mm_per_h : array of shape (n_positions,)
        Rate at each catch position. [mm/h]
    minutes : array of shape (n_times,)
        Lengths of run. [min]
    storage_mm : float
        Depth that stands on the surface before it runs. [mm]

    Returns
    -------
    array of shape (n_times,)
        Share of the positions, 0 to 1. [-]

    References
    ----------
    Source: definition, on the measured catches.

    Examples
    --------
    >>> from scheduler.root_zone.infiltration.curves import Steady
    >>> wet = np.array([10.0, 20.0, 40.0, 80.0])
    >>> past_intake_share(Steady(15.0), wet, [1.0, 30.0], storage_mm=4.0).tolist()
    [0.0, 0.5]
    """
    first = np.sort(runoff_min(curve, rate_mm_per_h, storage_mm=storage_mm))
    until = np.asarray(minutes, dtype=np.float64)
    # a run that stops as it begins to run off has not passed
    passed = np.searchsorted(first, until * (1.0 - math.ulp(1.0) * 8), side="left")
    return np.asarray(passed / first.size)
