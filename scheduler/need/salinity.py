"""Salt of the water and of the root zone in, leaching and salt stress out.

Soil only, but for the last function: pots hold salt by the EC of their leachate.
"""

import math
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.tables.salt import salt_row

# FAO-29: below it, ordinary losses leach as much
ORDINARY_LOSSES = 0.10
# FAO-56, below equation 91: beyond a loss of half the yield the line says nothing
HALF_YIELD = 0.5


@dataclass(frozen=True, slots=True)
class SaltTolerance:
    """How much salt in the soil a crop bears, as the published table has it.

    Attributes
    ----------
    crop : str
        Its name.
    threshold_low, threshold_high : float
        Salt of the saturation extract that costs no yield yet. [dS/m]
    loss_low, loss_high : float
        Part of the yield lost with each dS/m above it. [1 per dS/m]
    source : str
        The publication.
    """

    crop: str
    threshold_low: float
    threshold_high: float
    loss_low: float
    loss_high: float
    source: str


def salt_tolerance(crop: str) -> SaltTolerance:
    """Threshold and slope of a crop in the packaged table.

    Parameters
    ----------
    crop : str
        Name of the crop, such as `bean`.

    Returns
    -------
    SaltTolerance
        Both ends where the publication prints a range.

    Raises
    ------
    SchedulerError
        If the table has no such crop.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, Table 23.

    Examples
    --------
    >>> salt_tolerance("lettuce").threshold_low
    1.3
    """
    row = salt_row(crop)
    return SaltTolerance(
        row["crop"],
        float(row["threshold_low_ds_per_m"]),
        float(row["threshold_high_ds_per_m"]),
        float(row["loss_low_per_ds_per_m"]),
        float(row["loss_high_per_ds_per_m"]),
        row["source"],
    )


def _above_zero(value: float, what: str) -> None:
    if not (math.isfinite(value) and value > 0):
        raise SchedulerError(f"{what} is {value:g}", "give a number above 0")


def _part(value: float, what: str) -> None:
    if not 0 <= value < 1:
        raise SchedulerError(f"{what} is {value:g}", "give 0 or more, below 1")


def leaching_requirement(water_ec_ds_per_m: float, soil_ec_ds_per_m: float) -> float:
    """Part of the water that must pass the roots to hold the soil at a salt content.

    Parameters
    ----------
    water_ec_ds_per_m : float
        Conductivity of the irrigation water, ECw. [dS/m]
    soil_ec_ds_per_m : float
        Conductivity of the saturation extract that the crop bears, ECe. [dS/m]

    Returns
    -------
    float
        Above 0; 1 and more where no amount of water is enough. [-]

    Raises
    ------
    SchedulerError
        If a conductivity is not above 0, or 5 ECe is not above ECw.

    Notes
    -----
    LR = ECw / (5 ECe - ECw), for surface and sprinkler irrigation.

    References
    ----------
    .. [1] Ayers and Westcot, 1985, FAO-29 Rev. 1, section 2.4.2.
    .. [2] Allen et al., 1998, FAO-56, p. 180.

    Examples
    --------
    >>> round(leaching_requirement(0.6, 0.4), 2)
    0.43
    """
    _above_zero(water_ec_ds_per_m, "the EC of the water")
    _above_zero(soil_ec_ds_per_m, "the EC of the soil")
    if 5.0 * soil_ec_ds_per_m <= water_ec_ds_per_m:
        raise SchedulerError(
            f"water of {water_ec_ds_per_m:g} dS/m has five times the salt of the "
            f"{soil_ec_ds_per_m:g} dS/m allowed in the soil, or more: no leaching "
            "holds that",
            "allow more salt in the soil, or blend with better water",
        )
    return water_ec_ds_per_m / (5.0 * soil_ec_ds_per_m - water_ec_ds_per_m)


def depth_with_leaching_mm(et_mm: float, *, leaching: float) -> float:
    """Depth that stores the use and leaches besides.

    Parameters
    ----------
    et_mm : float
        Depth that must be stored. [mm]
    leaching : float
        Part of the water that passes the roots. [-]

    Returns
    -------
    float
        Use / (1 - leaching). [mm]

    Raises
    ------
    SchedulerError
        If the part is below 0, or 1 and more.

    References
    ----------
    .. [1] Ayers and Westcot, 1985, FAO-29 Rev. 1, section 2.4.2.

    Examples
    --------
    >>> round(depth_with_leaching_mm(800.0, leaching=0.1))
    889
    """
    _part(leaching, "the leaching")
    return et_mm / (1.0 - leaching)


def soil_ec_ds_per_m(water_ec_ds_per_m: float, *, leaching: float) -> float:
    """Salt of the soil that a water and a leaching lead to in the long run.

    Parameters
    ----------
    water_ec_ds_per_m : float
        Conductivity of the irrigation water. [dS/m]
    leaching : float
        Part of the water that passes the roots, above 0. [-]

    Returns
    -------
    float
        ECe = (1 + LF) / LF x ECw / 5. [dS/m]

    Raises
    ------
    SchedulerError
        If the water's conductivity or the leaching is not above 0: without leaching
        salt grows without end.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equation 93.

    Examples
    --------
    >>> round(soil_ec_ds_per_m(1.0, leaching=0.15), 2)
    1.53
    """
    _above_zero(water_ec_ds_per_m, "the EC of the water")
    _above_zero(leaching, "the leaching")
    _part(leaching, "the leaching")
    return (1.0 + leaching) / leaching * water_ec_ds_per_m / 5.0


def salt_stress_ks(
    soil_ec_ds_per_m: float,
    *,
    threshold_ds_per_m: float,
    loss_per_ec: float,
    ky: float,
) -> float:
    """Part of its full use that a crop takes up from salty, moist soil.

    Parameters
    ----------
    soil_ec_ds_per_m : float
        Conductivity of the saturation extract. [dS/m]
    threshold_ds_per_m : float
        Conductivity that costs no yield yet. [dS/m]
    loss_per_ec : float
        Part of the yield lost with each dS/m above it, 0.19 for 19 per cent. [-]
    ky : float
        Yield response factor. [-]

    Returns
    -------
    float
        1 up to the threshold, else 1 - b / (100 Ky) (ECe - threshold). [-]

    Raises
    ------
    SchedulerError
        If the loss or the factor is not above 0, or the soil is so salty that half of
        the yield would be lost (threshold + 50 / b): beyond, the line does not hold.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equation 91 and its limits on p. 178.

    Examples
    --------
    >>> round(salt_stress_ks(1.5, threshold_ds_per_m=1.0, loss_per_ec=0.19, ky=1.15), 2)
    0.92
    """
    _above_zero(loss_per_ec, "the loss per dS/m")
    _above_zero(ky, "the yield response factor")
    above = soil_ec_ds_per_m - threshold_ds_per_m
    if above <= 0:
        return 1.0
    if above * loss_per_ec >= HALF_YIELD:
        most = threshold_ds_per_m + HALF_YIELD / loss_per_ec
        raise SchedulerError(
            f"{soil_ec_ds_per_m:g} dS/m in the soil cost half of the yield or more: "
            "no reduction of use is published",
            f"it holds below {most:.1f} dS/m: leach first, or choose another crop",
        )
    return max(0.0, 1.0 - loss_per_ec / ky * above)


def water_and_salt_ks(
    depletion_mm: FloatArray | float,
    *,
    total_mm: float,
    allowed_mm: float,
    salt_ks: float,
) -> FloatArray:
    """Part of its full use that a crop takes up from dry and salty soil.

    Parameters
    ----------
    depletion_mm : array of shape (n_days,)
        Depletion of the root zone. [mm]
    total_mm, allowed_mm : float
        Water held, and what of it is used without stress. [mm]
    salt_ks : float
        As `salt_stress_ks` gives it. [-]

    Returns
    -------
    array of shape (n_days,)
        Product of both, 0 to 1. [-]

    Raises
    ------
    SchedulerError
        If the water held is not above the allowed part of it.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equations 84 and 92, Example 39.

    Examples
    --------
    >>> float(water_and_salt_ks(50.0, total_mm=110.0, allowed_mm=44.0,
    ...                         salt_ks=0.917).round(2))
    0.83
    """
    if not 0 <= allowed_mm < total_mm:
        raise SchedulerError(
            f"{allowed_mm:g} mm of {total_mm:g} mm are allowed",
            "allow a part of what the soil holds",
        )
    dry = (total_mm - np.asarray(depletion_mm, dtype=float)) / (total_mm - allowed_mm)
    return np.asarray(np.clip(dry, 0.0, 1.0) * salt_ks)


def pot_leaching_fraction(
    water_ec_ds_per_m: float, leachate_ec_ds_per_m: float
) -> float:
    """Part of the water that leaves a pot at the bottom, from the salt in and out.

    Parameters
    ----------
    water_ec_ds_per_m : float
        Conductivity of what the pots get, with any fertilizer in it. [dS/m]
    leachate_ec_ds_per_m : float
        Conductivity of what drains, measured or wanted. [dS/m]

    Returns
    -------
    float
        EC in over EC of the leachate, above 0 and below 1. [-]

    Raises
    ------
    SchedulerError
        If a conductivity is not above 0, or the leachate has no more salt than the
        water.

    Notes
    -----
    At steady state, when as much salt leaves as comes. Salt that plants take up and
    that coated fertilizer lets go are left out, so it is a guide, not a measurement.

    References
    ----------
    Source: definition (balance of salt).

    Examples
    --------
    >>> pot_leaching_fraction(0.5, 2.5)
    0.2
    """
    _above_zero(water_ec_ds_per_m, "the EC of the water")
    _above_zero(leachate_ec_ds_per_m, "the EC of the leachate")
    if leachate_ec_ds_per_m <= water_ec_ds_per_m:
        raise SchedulerError(
            f"a leachate of {leachate_ec_ds_per_m:g} dS/m has no more salt than the "
            f"water of {water_ec_ds_per_m:g} dS/m: no leaching gets it there",
            "aim at a higher EC of the leachate, or blend with better water",
        )
    return water_ec_ds_per_m / leachate_ec_ds_per_m
