"""Readings of a run in, depths, net and gross precipitation rate out."""

import math
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, IntArray, frozen
from scheduler.errors import ReadingsError, TooFewCansError
from scheduler.field.uniformity import MIN_CANS
from scheduler.record import CanRun
from scheduler.site import Package
from scheduler.trace import Trace
from scheduler.units import converted


@dataclass(frozen=True, slots=True, eq=False)
class Catch:
    """One run as depths.

    Attributes
    ----------
    depth_mm : array of shape (n_cans,)
        Depth of each usable can in reading order; raw readings when `is_relative`
        (the mouth is unknown), of which only ratios mean anything. [mm]
    row, column : array of shape (n_cans,)
        Where each can stood.
    """

    run: CanRun
    depth_mm: FloatArray
    row: IntArray
    column: IntArray
    n_cans: int
    is_relative: bool
    mean_ml: float | None
    mean_depth_mm: float | None
    net_rate_mm_per_h: float | None
    gross_rate_mm_per_h: float | None
    net_over_gross: float | None
    mouth_area_cm2: float | None
    # where the gross rate came from, if not from the caller alone
    gross_from: str = ""
    gross_trace: Trace | None = None


def caught_depth_mm(
    volume_ml: FloatArray | float, *, mouth_area_cm2: float
) -> FloatArray:
    """Depth of water from the volume that a can caught.

    Parameters
    ----------
    volume_ml : array of any shape, or float
        Caught volume. [mL]
    mouth_area_cm2 : float
        Inside area of the mouth. [cm2]

    Returns
    -------
    array of the same shape
        Depth. [mm]

    References
    ----------
    Source: definition, 1 mL over 1 cm2 is 10 mm.

    Examples
    --------
    >>> float(caught_depth_mm(52.0, mouth_area_cm2=100.0))
    5.2
    """
    return np.asarray(np.asarray(volume_ml, dtype=np.float64) / mouth_area_cm2 * 10.0)


def mouth_area_cm2(mouth_mm: float) -> float:
    """Area of a round can mouth.

    Parameters
    ----------
    mouth_mm : float
        Inside diameter of the mouth. [mm]

    Returns
    -------
    float
        Area. [cm2]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(mouth_area_cm2(107.95), 2)
    91.52
    """
    return math.pi * (mouth_mm / 10.0) ** 2 / 4.0


def gross_rate_mm_per_h(flow_l_per_min: float, *, area_per_head_m2: float) -> float:
    """Precipitation rate that the nozzles deliver.

    Parameters
    ----------
    flow_l_per_min : float
        Flow of one full-circle head. [L/min]
    area_per_head_m2 : float
        Ground that one head waters. [m2]

    Returns
    -------
    float
        Rate. [mm/h]

    References
    ----------
    Source: definition; in US units in/h = 96.25 gpm/ft2, which handbooks print 96.3.

    Examples
    --------
    >>> round(gross_rate_mm_per_h(17.41, area_per_head_m2=83.6), 1)
    12.5
    """
    return flow_l_per_min * 60.0 / area_per_head_m2


def package_gross_rate_mm_per_h(package: Package | None) -> float | None:
    """Gross rate of a package, where its flow and spacing are known.

    Parameters
    ----------
    package : Package or None
        Head, nozzle and spacing.

    Returns
    -------
    float or None
        Rate. [mm/h]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> package_gross_rate_mm_per_h(None) is None
    True
    """
    if package is None:
        return None
    flow, ground = package.nozzle_flow_l_per_min, package.area_per_head_m2
    if flow is None or ground is None:
        return None
    return gross_rate_mm_per_h(flow, area_per_head_m2=ground)


def _usable(run: CanRun, keep_excluded: bool) -> tuple[IntArray, IntArray]:
    has = np.isfinite(run.reading)
    if not keep_excluded:
        for one in run.excluded:
            has[one.row, one.column] = False
    row, column = np.nonzero(has)
    return row.astype(np.int64), column.astype(np.int64)


def catch(
    run: CanRun,
    *,
    mouth_area_cm2: float | None,
    gross_rate_mm_per_h: float | None = None,
    keep_excluded: bool = False,
) -> Catch:
    """Depths and rates of one run; coded places are left out, a zero is kept.

    Parameters
    ----------
    run : CanRun
        Readings as the cans stood.
    mouth_area_cm2 : float or None
        Inside area of the mouth, needed for volumes. [cm2]
    gross_rate_mm_per_h : float, optional
        What the nozzles deliver. [mm/h]
    keep_excluded : bool
        Whether places excluded with a reason count after all.

    Returns
    -------
    Catch
        Depths, means and rates; None where something is unknown.

    Raises
    ------
    TooFewCansError
        If fewer than 4 places hold a reading.
    ReadingsError
        If a reading is negative or all are zero.

    References
    ----------
    .. [1] Univ. Maryland irrigation-audit course, page 4.7 (net rate from cans).

    Examples
    --------
    >>> run = CanRun("1", "run1.csv", np.array([[50.0, 60.0, 40.0, 50.0]]),
    ...              (("", "", "", ""),), (("A1", "B1", "C1", "D1"),), "ml", 30.0)
    >>> round(catch(run, mouth_area_cm2=100.0).net_rate_mm_per_h, 1)
    10.0
    """
    row, column = _usable(run, keep_excluded)
    reading = run.reading[row, column]
    if reading.size < MIN_CANS:
        raise TooFewCansError(int(reading.size), MIN_CANS)
    if (reading < 0).any():
        raise ReadingsError("a reading is negative", "read the can again", run.where)
    if not reading.any():
        raise ReadingsError(
            "no water caught", "valve shut, wrong zone or wrong file?", run.where
        )
    volume = run.unit in ("ml", "fl_oz")
    ml = converted(float(reading.mean()), run.unit, to="ml") if volume else None
    is_relative = volume and mouth_area_cm2 is None
    if is_relative:
        depth = reading
    elif volume:
        each = reading * converted(1.0, run.unit, to="ml")
        depth = caught_depth_mm(each, mouth_area_cm2=mouth_area_cm2 or math.nan)
    else:
        depth = reading * converted(1.0, run.unit, to="mm")
    mean = None if is_relative else float(depth.mean())
    net = mean / run.minutes * 60.0 if mean is not None and run.minutes else None
    ratio = net / gross_rate_mm_per_h if net and gross_rate_mm_per_h else None
    return Catch(
        run=run,
        depth_mm=frozen(depth),
        row=frozen(row, np.int64),
        column=frozen(column, np.int64),
        n_cans=int(depth.size),
        is_relative=is_relative,
        mean_ml=ml,
        mean_depth_mm=mean,
        net_rate_mm_per_h=net,
        gross_rate_mm_per_h=gross_rate_mm_per_h,
        net_over_gross=ratio,
        mouth_area_cm2=mouth_area_cm2,
    )
