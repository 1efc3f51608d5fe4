"""Pots and their canopies in; what one pot catches over its open top out."""

from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.need.pot_layout import (
    CM2_PER_M2,
    ML_PER_MM_CM2,
    crowded,
    pot_top_area_cm2,
    pots_per_m2,
)
from scheduler.site import Pots
from scheduler.trace import Trace, entered

# A capture factor of 1 means no canopy effect: rain and sprinkler water reach the pot
# as if nothing grew in it (Million and Yeager, 2015, HortScience: 1 to 4 by species).
NO_CANOPY_EFFECT = 1.0
# Starting values by the shape of the canopy: common practice, no source. The study
# gives 1 to 4 over eleven species, growing with the plant; these stay in its lower half
# so that a wrong guess waters too much and not too little.
BY_CANOPY = {"none": 1.0, "upright": 1.2, "rounded": 1.5, "spreading": 2.0}
WEIGH = "weigh pots before and after a watering beside cans, and enter the ratio"


@dataclass(frozen=True, slots=True)
class Capture:
    """What one pot catches, over what falls on its open top.

    Attributes
    ----------
    factor : float
        At least 0.1. [-]
    trace : Trace
        Where it came from.
    findings : tuple of Finding
        A guess, or more than can fall on the ground of one pot.
    """

    factor: float
    trace: Trace
    findings: tuple[Finding, ...] = ()


def capture_of(pots: Pots, zone_id: str = "") -> Capture:
    """Capture factor of pots as they stand.

    Parameters
    ----------
    pots : Pots
        With a measured factor, or the shape of the canopy, and the spacing.
    zone_id : str, optional
        The zone, for the findings.

    Returns
    -------
    Capture
        As measured, else by the shape of the canopy, else 1; never more than falls on
        the ground that one pot has.

    Notes
    -----
    Leaves bring no more water into a pot than falls on its ground, so that the factor
    is at most ground per pot over pot top area: 1.27 for touching pots in a square,
    1.10 offset. Published factors fall when pots stand closer than one diameter.

    References
    ----------
    .. [1] Million and Yeager, 2015, HortScience 50: capture factor, 1 to 4. The limit
       is a balance of water; the values by canopy are common practice, no source.

    Examples
    --------
    >>> from scheduler.site import Pots
    >>> capture_of(Pots(top_diameter_mm=200.0, capture_factor=2.4)).factor
    2.4
    >>> tight = Pots(top_diameter_mm=200.0, capture_factor=2.4, gap_m=0.0)
    >>> round(capture_of(tight).factor, 2)
    1.27
    """
    where = f"zone {zone_id}: capture_factor"
    own = _before_crowding(pots, where)
    density = pots_per_m2(pots)
    if density is None or crowded(zone_id, pots):
        return own  # pots that cannot stand so: the spacing is a slip, and is said
    top_cm2 = pot_top_area_cm2(pots)
    most = CM2_PER_M2 / density / top_cm2
    if own.factor <= most:
        return own
    trace = Trace(
        "capture_factor",
        most,
        "at most the ground of one pot / pot_top_area_cm2: no more water falls there",
        "balance of water",
        (
            own.trace,
            Trace("pots_per_m2", density, "1 / (spacing x row spacing)", "geometry"),
            Trace("pot_top_area_cm2", top_cm2, "circle of the top", "geometry"),
        ),
    )
    return Capture(most, trace, (*own.findings, *_too_much(pots, most, where)))


def _too_much(pots: Pots, most: float, where: str) -> tuple[Finding, ...]:
    if pots.capture_factor is None and pots.canopy is None:
        return ()  # 1 fits wherever pots can stand
    guess = BY_CANOPY[pots.canopy or "none"]
    own = guess if pots.capture_factor is None else pots.capture_factor
    what = (
        f"{own:g} is more than falls on the ground of one pot at this spacing: "
        f"{most:.2f} is used"
    )
    if pots.capture_factor is None:
        return (Finding("note", where, what, WEIGH),)
    fix = "measure it again as the pots stand now, or correct the spacing"
    return (Finding("warning", where, what, fix),)


def _before_crowding(pots: Pots, where: str) -> Capture:
    if pots.capture_factor is not None:
        value = pots.capture_factor
        return Capture(value, entered("capture_factor", value, "[zone.pots]"))
    if pots.canopy is not None:
        value = BY_CANOPY[pots.canopy]
        trace = Trace(
            "capture_factor",
            value,
            f"guess for a canopy that is {pots.canopy}",
            "common practice, no source",
            (),
            WEIGH,
        )
        what = (
            f"{value:g} is a guess for a canopy that is {pots.canopy} (published: 1 to "
            "4 by species)"
        )
        return Capture(value, trace, (Finding("note", where, what, WEIGH),))
    trace = Trace(
        "capture_factor",
        NO_CANOPY_EFFECT,
        "1 assumed: as if no leaves led water into the pot or past it",
        "common practice, no source",
        (),
        WEIGH,
    )
    what = "not known; 1 is assumed (published values run from 1 to 4)"
    fix = f"{WEIGH}; until then write canopy"
    return Capture(NO_CANOPY_EFFECT, trace, (Finding("warning", where, what, fix),))


def pot_volume_ml(bed_depth_mm: float, pots: Pots) -> float:
    """Water that gets into one pot from a depth that falls on the bed.

    Parameters
    ----------
    bed_depth_mm : float
        Depth on the bed, as cans at the same height would catch it. [mm]
    pots : Pots
        With diameter, and what makes its capture factor.

    Returns
    -------
    float
        Volume in one pot. [mL]

    References
    ----------
    .. [1] Million and Yeager, 2015, HortScience: capture factor, water in the pot over
       what falls on its open top.

    Examples
    --------
    >>> from scheduler.site import Pots
    >>> pots = Pots(top_diameter_mm=254.0, capture_factor=2.0)
    >>> round(pot_volume_ml(10.0, pots), 1)
    1013.4
    """
    capture = capture_of(pots).factor
    return bed_depth_mm * pot_top_area_cm2(pots) * ML_PER_MM_CM2 * capture
