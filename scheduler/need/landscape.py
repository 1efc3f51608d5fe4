"""Classes of a planting, or its canopy, in; a coefficient on the bed out."""

from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.plant import Closure, Landscape, PlantFactor
from scheduler.tables import read_table
from scheduler.trace import Trace, entered

COSTELLO = (
    "Costello, Matheny and Clark (2000), A Guide to Estimating Irrigation Water Needs "
    "of Landscape Plantings in California"
)
# Share of the ground under the canopy that each word stands for (common practice, no
# source)
CLOSED_SHARE: dict[Closure, float] = {
    "just set out": 0.15,
    "one third": 0.33,
    "half closed": 0.5,
    "two thirds": 0.67,
    "closed": 1.0,
}
# FAO-56 equations 97 to 99, from memory, unverified
BARE_KC = 0.15
TALLEST_M = 2.0
CLUMPING = 2.0
CANOPY_SOURCE = "FAO-56 (1998) eq. 98 and 99, from memory, unverified"
# liners and shrubs of most beds (common practice, no source)
USUAL_HEIGHT_M = 0.5


@dataclass(frozen=True, slots=True)
class ClassKc:
    """A coefficient on the bed from classes, with what must be said of it."""

    kc: float
    trace: Trace
    findings: tuple[Finding, ...]


def landscape_coefficient(
    species_factor: float, *, density_factor: float, microclimate_factor: float
) -> float:
    """Landscape coefficient, KL.

    Parameters
    ----------
    species_factor, density_factor, microclimate_factor : float
        How much the species need, how densely they stand, how exposed they are. [-]

    Returns
    -------
    float
        Use of the planting over reference ET. [-]

    References
    ----------
    .. [1] Costello, Matheny and Clark, 2000, A Guide to Estimating Irrigation Water
       Needs of Landscape Plantings in California, chapter 2: KL = ks kd kmc.

    Examples
    --------
    >>> round(landscape_coefficient(0.2, density_factor=0.5, microclimate_factor=1), 3)
    0.1
    """
    return species_factor * density_factor * microclimate_factor


def landscape_kc(landscape: Landscape, where: str) -> ClassKc:
    """Coefficient of a planting from its three factors.

    Parameters
    ----------
    landscape : Landscape
        A class or an own number for each.
    where : str
        The zone, as findings name it.

    Returns
    -------
    ClassKc
        The product, with a warning for own numbers outside every printed range and a
        note for ranges that nobody has checked.

    References
    ----------
    .. [1] Costello, Matheny and Clark, 2000, chapter 2; species classes: WUCOLS IV.

    Examples
    --------
    >>> landscape_kc(Landscape(species="moderate", density="high"), "zone Z1").kc
    0.6
    """
    parts = [
        _factor("species", landscape.species, landscape.species_factor, where),
        _factor("density", landscape.density, landscape.density_factor, where),
        _factor(
            "microclimate", landscape.microclimate, landscape.microclimate_factor, where
        ),
    ]
    species, density, microclimate = (size for size, _, _ in parts)
    kc = landscape_coefficient(
        species, density_factor=density, microclimate_factor=microclimate
    )
    trace = Trace(
        "landscape_coefficient",
        kc,
        "species_factor x density_factor x microclimate_factor",
        COSTELLO,
        tuple(made for _, made, _ in parts),
    )
    return ClassKc(kc, trace, tuple(one for _, _, said in parts for one in said))


def plant_factor_kc(plant_factor: PlantFactor, where: str) -> ClassKc:
    """Coefficient of a planting from its plant factor class.

    Parameters
    ----------
    plant_factor : str
        Class of the packaged table.
    where : str
        The zone, as findings name it.

    Returns
    -------
    ClassKc
        The middle of the class.

    References
    ----------
    .. [1] WUCOLS IV manual, University of California: share of reference ET by class.
    .. [2] ANSI/ASABE S623, from memory, unverified: flowers, woody and desert plants.

    Examples
    --------
    >>> plant_factor_kc("moderate", "zone Z1").kc
    0.5
    """
    kc, trace, said = _factor("plant", plant_factor, None, where)
    return ClassKc(kc, trace, said)


def _factor(
    factor: str, chosen: str | None, own: float | None, where: str
) -> tuple[float, Trace, tuple[Finding, ...]]:
    rows = [one for one in read_table("landscape.csv") if one["factor"] == factor]
    name = f"{factor}_factor"
    if own is not None:
        return own, entered(name, own, "zone.plant"), _outside(name, own, rows, where)
    row = next(one for one in rows if one["class"] == chosen)
    size = float(row["taken"])
    source = row["source"]
    said: tuple[Finding, ...] = ()
    if "memory" in row["status"]:
        source = f"{source}, {row['status']}"
        what = f"{size:g} for {chosen!r} is a table value {row['status']}"
        fix = "check it in the publication, or enter an own number"
        said = (Finding("note", f"{where}: {name}", what, fix),)
    text = f"printed range {row['low']} to {row['high']}; its middle is taken"
    if row["low"] == row["high"]:
        text = ""
    named = entered(f"{factor}_class", chosen, "zone.plant")
    trace = Trace(name, size, "value of the class", source, (named,), text)
    return size, trace, said


def _outside(
    name: str, own: float, rows: list[dict[str, str]], where: str
) -> tuple[Finding, ...]:
    low = min(float(one["low"]) for one in rows)
    high = max(float(one["high"]) for one in rows)
    if low <= own <= high:
        return ()
    what = f"{own:g} lies outside every class ({low:g} to {high:g})"
    return (Finding("warning", f"{where}: {name}", what, "enter a class instead"),)


def canopy_coefficient(canopy_closed: float, *, height_m: float) -> float:
    """Coefficient of plants that cover part of the ground, well watered.

    Parameters
    ----------
    canopy_closed : float
        Share of the ground under leaves, seen from above, 0 to 1. [-]
    height_m : float
        Height of the plants. [m]

    Returns
    -------
    float
        Water use over reference ET, on the ground with its gaps; 0.15 where bare. [-]

    Notes
    -----
    Tall plants reach further round their own ground, so they use more than their
    share of it. Wet ground between plants is not in it.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equations 98 and 99, from memory, unverified.

    Examples
    --------
    >>> round(canopy_coefficient(0.5, height_m=0.5), 2)
    0.72
    """
    full = 1.0 + 0.1 * min(height_m, TALLEST_M)
    spread = canopy_closed ** (1.0 / (1.0 + height_m))
    share = min(1.0, CLUMPING * canopy_closed, spread)
    return float(BARE_KC + (full - BARE_KC) * share)


def canopy_kc(
    closure: Closure | None,
    canopy_closed: float | None,
    height_m: float | None,
    where: str,
) -> ClassKc:
    """Guess of a coefficient on the bed from how far the canopy has closed.

    Parameters
    ----------
    closure : str or None
        Word for it.
    canopy_closed : float or None
        Share of the ground under leaves, where it was estimated. [-]
    height_m : float or None
        Height of the plants; half a metre if not known. [m]
    where : str
        The zone, as findings name it.

    Returns
    -------
    ClassKc
        A start value, always with a warning that it is a guess.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equations 98 and 99, from memory, unverified.

    Examples
    --------
    >>> canopy_kc("closed", None, 1.0, "zone Z1").findings[0].level
    'warning'
    """
    closed = entered("canopy_closed", canopy_closed, "zone.plant")
    if closure is not None:
        word = entered("closure", closure, "zone.plant")
        closed = Trace(
            "canopy_closed",
            CLOSED_SHARE[closure],
            "share of the ground that the word stands for",
            "common practice, no source",
            (word,),
        )
    height = entered("height_m", height_m, "zone.plant")
    if height_m is None:
        fix = "enter height in [zone.plant]"
        height = Trace(
            "height_m", USUAL_HEIGHT_M, "assumed", "common practice, no source", (), fix
        )
    share, tall = closed.value, height.value
    assert isinstance(share, float)
    assert isinstance(tall, float)
    kc = canopy_coefficient(share, height_m=tall)
    fix = "correct it by leaching checks or by weighing pots, then enter kc and kc_from"
    what = f"{kc:.2f} on the bed is a guess from a canopy {share:.0%} closed"
    return ClassKc(
        kc,
        Trace(
            "canopy_coefficient",
            kc,
            "0.15 + (1 + 0.1 x height - 0.15) x min(1, 2 x canopy_closed, "
            "canopy_closed ^ (1 / (1 + height)))",
            CANOPY_SOURCE,
            (closed, height),
            "a guess: correct it by leaching checks",
        ),
        (Finding("warning", f"{where}: kc", what, fix),),
    )
