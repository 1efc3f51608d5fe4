"""Pots and canopies in; what turns a plant's own depth into depth on the bed out."""

import math
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.need.capture import capture_of
from scheduler.need.pot_layout import (
    CM2_PER_M2,
    crowded,
    pot_top_area_cm2,
    pots_per_m2,
)
from scheduler.site import Plant, Pots, Zone
from scheduler.trace import Trace, entered


def held_ml(pots: Pots) -> float | None:
    """Water that one pot holds for its plant.

    Parameters
    ----------
    pots : Pots
        With the available water, or volume, container capacity and unavailable water.

    Returns
    -------
    float or None
        Water between container capacity and what roots cannot get; None when not
        known. [mL]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Pots
    >>> number_3 = Pots(
    ...     top_diameter_mm=254.0, substrate_volume_ml=10000.0,
    ...     container_capacity=0.5, unavailable_water=0.25,
    ... )
    >>> held_ml(number_3)
    2500.0
    """
    if pots.available_water_ml is not None:
        return pots.available_water_ml
    volume, unavailable = pots.substrate_volume_ml, pots.unavailable_water
    if volume is None or unavailable is None or pots.container_capacity is None:
        return None
    return volume * (pots.container_capacity - unavailable)


@dataclass(frozen=True, slots=True)
class BedFactor:
    """What turns a depth on the plant's own area into depth that falls on the bed."""

    factor: float
    trace: Trace


def bed_factor(zone: Zone) -> tuple[BedFactor | None, tuple[Finding, ...]]:
    """Depth that must fall on the bed, over the plant's water on its own area.

    Parameters
    ----------
    zone : Zone
        With plant; pots where the coefficient is on pot top or canopy.

    Returns
    -------
    factor : BedFactor or None
        None when it cannot be known; the findings then hold a stop. [-]
    findings : tuple of Finding
        A capture factor that had to be guessed, pots closer than they can stand, a
        coefficient on an area the zone does not have.

    Notes
    -----
    Bed: 1. Pot top: 1 / capture, because water that falls beside the pots is lost
    whatever the spacing. Canopy over pots: canopy area / (pot top area x capture), the
    canopy counted up to the ground one pot has.

    References
    ----------
    .. [1] Million and Yeager, 2015, HortScience: capture factor 1 to 4 by species.
       The rest is geometry.

    Examples
    --------
    >>> from scheduler.site import Plant, Pots, Zone
    >>> zone = Zone(
    ...     id="P1", name="viburnum", area_m2=400.0, grown_in="pots",
    ...     plant=Plant(name="viburnum", kc=3.0, kc_area="pot top"),
    ...     pots=Pots(top_diameter_mm=254.0, capture_factor=2.0),
    ... )
    >>> bed_factor(zone)[0].factor
    0.5
    """
    plant = zone.plant
    if plant is None:
        return _stopped(zone, "has no plant", "add [zone.plant]")
    if plant.kc_area == "bed":
        trace = Trace(
            "bed_factor", 1.0, "1: the coefficient is on the bed already", "definition"
        )
        about = crowded(zone.id, zone.pots) if zone.pots is not None else ()
        return BedFactor(1.0, trace), about
    if zone.pots is None:
        return _stopped(
            zone,
            f"the coefficient is on the {plant.kc_area}, but how many plants stand on "
            "the bed is not known",
            "give kc for kc_area = 'bed', or [zone.pots] if the plants stand in pots",
        )
    if plant.kc_area == "pot top":
        return _pot_top_factor(zone, zone.pots)
    return _canopy_factor(zone, plant, zone.pots)


def _stopped(zone: Zone, what: str, fix: str) -> tuple[None, tuple[Finding, ...]]:
    return None, (Finding("stop", f"zone {zone.id}: kc_area", what, fix),)


def _pot_top_factor(
    zone: Zone, pots: Pots
) -> tuple[BedFactor | None, tuple[Finding, ...]]:
    capture = capture_of(pots, zone.id)
    factor = 1.0 / capture.factor
    source = "Million and Yeager 2015, HortScience (capture factor)"
    made = Trace("bed_factor", factor, "1 / capture_factor", source, (capture.trace,))
    return BedFactor(factor, made), (*capture.findings, *crowded(zone.id, pots))


def _canopy_factor(
    zone: Zone, plant: Plant, pots: Pots
) -> tuple[BedFactor | None, tuple[Finding, ...]]:
    density = pots_per_m2(pots)
    if plant.canopy_width_m is None or density is None:
        return _stopped(
            zone,
            "the coefficient is on the canopy, but canopy_width or the pots' spacing "
            "is not known",
            "enter canopy_width and spacing, or give kc for kc_area = 'pot top'",
        )
    capture = capture_of(pots, zone.id)
    canopy_m2 = min(math.pi / 4.0 * plant.canopy_width_m**2, 1.0 / density)
    top_cm2 = pot_top_area_cm2(pots)
    factor = canopy_m2 * CM2_PER_M2 / (top_cm2 * capture.factor)
    canopy = Trace(
        "canopy_area_m2",
        canopy_m2,
        "circle of the canopy width, at most the ground of one pot",
        "geometry",
        (
            entered("canopy_width_m", plant.canopy_width_m, "[zone.plant]"),
            Trace("pots_per_m2", density, "1 / (spacing x row spacing)", "geometry"),
        ),
    )
    top = Trace(
        "pot_top_area_cm2",
        top_cm2,
        "circle of the top diameter",
        "geometry",
        (entered("top_diameter_mm", pots.top_diameter_mm, "[zone.pots]"),),
    )
    made = Trace(
        "bed_factor",
        factor,
        "canopy area / (pot top area x capture_factor)",
        "geometry; Million and Yeager 2015, HortScience (capture factor)",
        (canopy, top, capture.trace),
    )
    return BedFactor(factor, made), (*capture.findings, *crowded(zone.id, pots))
