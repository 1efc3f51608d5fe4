"""What is known of the intake and a rate in; longest run and time to clear out."""

import math

from scheduler.root_zone.infiltration import clearing_min as cleared_min
from scheduler.root_zone.infiltration import run_end, runoff_min
from scheduler.root_zone.intake.model import IntakeModel


def longest_cycle_min(
    model: IntakeModel, wet_rate_mm_per_h: float, *, infiltrated_mm: float = 0.0
) -> float:
    """Longest run before water runs off.

    Parameters
    ----------
    model : IntakeModel
        What is known of the intake.
    wet_rate_mm_per_h : float
        Rate at the wet positions that must not run off. [mm/h]
    infiltrated_mm : float
        What earlier cycles of the same night brought in. [mm]

    Returns
    -------
    float
        Minutes; infinite where no limit is known or none is needed. [min]

    Notes
    -----
    A first runoff that was seen holds the wet positions already and is not scaled. A
    steady intake: surface storage / (rate - intake), too strict for the first run and
    too kind to a late one. A curve: time to ponding and until the surface is full.

    References
    ----------
    .. [1] Surface storage method: landscape scheduling manuals, from memory.
    .. [2] Mein and Larson (ponding), as `scheduler.root_zone.infiltration`.

    Examples
    --------
    >>> from scheduler.trace import entered
    >>> clay = IntakeModel("constant intake", None, 5.08, 6.604, entered("x", None))
    >>> round(longest_cycle_min(clay, 40.64), 2)
    11.14
    """
    if model.first_runoff_min is not None:
        return model.first_runoff_min
    curve, storage = model.curve, model.surface_storage_mm
    if curve is None or storage is None or wet_rate_mm_per_h <= 0:
        return math.inf
    return float(
        runoff_min(
            curve,
            wet_rate_mm_per_h,
            storage_mm=storage,
            infiltrated_mm=infiltrated_mm,
        )
    )


def clearing_min(
    model: IntakeModel,
    wet_rate_mm_per_h: float,
    cycle_min: float,
    *,
    infiltrated_mm: float = 0.0,
) -> float | None:
    """Time after a run until the water that stands has gone in.

    Parameters
    ----------
    model : IntakeModel
        What is known of the intake.
    wet_rate_mm_per_h : float
        Rate at the wet positions. [mm/h]
    cycle_min : float
        Length of the run. [min]
    infiltrated_mm : float
        What earlier cycles of the same night brought in. [mm]

    Returns
    -------
    float or None
        Minutes; None where no intake is known. [min]

    References
    ----------
    Source: definition: time in which the curve takes in what stands.

    Examples
    --------
    >>> from scheduler.trace import entered
    >>> bay = IntakeModel("constant intake", None, 6.35, 2.54, entered("x", None))
    >>> round(clearing_min(bay, 15.748, 15.0), 1)
    22.2
    """
    curve = model.curve
    if curve is None:
        return None
    if wet_rate_mm_per_h <= 0:
        return 0.0
    end = run_end(curve, wet_rate_mm_per_h, cycle_min, infiltrated_mm=infiltrated_mm)
    return cleared_min(curve, end)
