"""Pots as they stand in; ground per pot and the share of the bed under pot tops out."""

import math

from scheduler.errors import Finding
from scheduler.site import Pots

CM2_PER_M2 = 1e4
# 1 mm on 1 cm2 is 0.1 mL
ML_PER_MM_CM2 = 0.1


def pot_top_area_cm2(pots: Pots) -> float:
    """Area of the open top of one pot.

    Parameters
    ----------
    pots : Pots
        With the top diameter, inside the rim.

    Returns
    -------
    float
        Area. [cm2]

    References
    ----------
    Source: geometry of the circle.

    Examples
    --------
    >>> from scheduler.site import Pots
    >>> round(pot_top_area_cm2(Pots(top_diameter_mm=254.0)), 1)
    506.7
    """
    return math.pi / 4.0 * (pots.top_diameter_mm / 10.0) ** 2


def centres_m(pots: Pots) -> tuple[float, float] | None:
    """Distance of the pots from centre to centre, along and between the rows.

    Parameters
    ----------
    pots : Pots
        With a spacing from centre to centre, or a gap from rim to rim.

    Returns
    -------
    tuple of float, or None
        Along the row, and between the rows; None when neither was entered. [m]

    References
    ----------
    Source: geometry; offset rows without a row spacing are equilateral.

    Examples
    --------
    >>> from scheduler.site import Pots
    >>> centres_m(Pots(top_diameter_mm=200.0, gap_m=0.3))
    (0.5, 0.5)
    """
    along = pots.spacing_m
    if pots.gap_m is not None:
        along = pots.top_diameter_mm / 1000.0 + pots.gap_m
    if along is None:
        return None
    if pots.row_spacing_m is not None:
        return along, pots.row_spacing_m
    return along, along * (math.sqrt(3.0) / 2.0 if pots.pattern == "offset" else 1.0)


def pots_per_m2(pots: Pots) -> float | None:
    """Pots on a square metre of bed, gaps included.

    Parameters
    ----------
    pots : Pots
        With the spacing from centre to centre, or the gap from rim to rim.

    Returns
    -------
    float or None
        Pots per area; None when no spacing was entered. [per m2]

    References
    ----------
    Source: geometry; offset rows without a row spacing are equilateral.

    Examples
    --------
    >>> from scheduler.site import Pots
    >>> pots_per_m2(Pots(top_diameter_mm=254.0, spacing_m=0.5, row_spacing_m=0.4))
    5.0
    """
    centres = centres_m(pots)
    return None if centres is None else 1.0 / (centres[0] * centres[1])


def interception_share(pots: Pots) -> float | None:
    """Share of the bed that is open pot top.

    Parameters
    ----------
    pots : Pots
        With diameter and spacing.

    Returns
    -------
    float or None
        0 to 0.907; None when no spacing was entered. [-]

    Notes
    -----
    Touching round pots reach 0.785 in a square and 0.907 offset; more is impossible.

    References
    ----------
    Source: geometry; worked for 10 in pots on 1 x 2 ft (0.27) in the University of
    Maryland nursery irrigation course, p. 4.4.1.

    Examples
    --------
    >>> from scheduler.site import Pots
    >>> touching = Pots(top_diameter_mm=200.0, spacing_m=0.2, pattern="offset")
    >>> round(interception_share(touching), 3)
    0.907
    """
    density = pots_per_m2(pots)
    return None if density is None else density * pot_top_area_cm2(pots) / CM2_PER_M2


def crowded(zone_id: str, pots: Pots) -> tuple[Finding, ...]:
    """Pots that would overlap: the spacing was entered from rim to rim.

    Parameters
    ----------
    zone_id : str
        The zone, for the finding.
    pots : Pots
        With their spacing.

    Returns
    -------
    tuple of Finding
        A warning, or nothing.

    References
    ----------
    Source: geometry.

    Examples
    --------
    >>> from scheduler.site import Pots
    >>> crowded("Z4", Pots(top_diameter_mm=254.0, spacing_m=0.15))[0].level
    'warning'
    """
    centres = centres_m(pots)
    if centres is None:
        return ()
    along, across = centres
    if pots.pattern == "offset":
        across = math.hypot(along / 2.0, across)
    nearest_mm = 1000.0 * min(along, across)
    # a tenth of a percent for numbers that were rounded or converted
    if nearest_mm >= pots.top_diameter_mm * 0.999:
        return ()
    return (
        Finding(
            "warning",
            f"zone {zone_id}: spacing",
            f"pots of {pots.top_diameter_mm:g} mm cannot stand {nearest_mm:.0f} mm "
            "apart",
            "enter the spacing from centre to centre, or write gap for rim to rim",
        ),
    )
