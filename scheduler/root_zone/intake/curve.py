"""A zone's own intake constants in, its intake curve and where it came from out."""

from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.root_zone.crop_depletion import crop_of
from scheduler.root_zone.infiltration import (
    Curve,
    GreenAmpt,
    Horton,
    Kostiakov,
    intake_family,
)
from scheduler.root_zone.storage import USUAL_ALLOWED_IN_SOIL
from scheduler.site import GreenAmptIntake, Soil, Zone
from scheduler.tables import green_ampt_row, soil_row
from scheduler.trace import Trace, entered

HORTON_SOURCE = "Horton's equation, as used by Hung and Krinik 1995"
GREEN_AMPT_SOURCE = "Green and Ampt; Mein and Larson; Rawls et al. 1983, Table 2"
FAMILY_SOURCE = "SCS NEH section 15, from memory, unverified"
# ground that is almost full still lacks a little: the front needs something to fill
LEAST_DEFICIT = 0.01
DEFICIT_WAY = "pore space that is empty when the allowed depletion is used up"
_NOTHING: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class StatedCurve:
    """An intake curve, where it came from, and what must be said of it."""

    curve: Curve
    trace: Trace
    findings: tuple[Finding, ...] = ()


def stated_curve(zone: Zone) -> StatedCurve | None:
    """Intake curve that a zone states, or None.

    Parameters
    ----------
    zone : Zone
        With `horton`, `green_ampt`, `kostiakov` or `family` under its intake.

    Returns
    -------
    StatedCurve or None
        None where the zone states no curve, or none that can be made: Green-Ampt
        without a texture and without numbers of its own.

    References
    ----------
    .. [1] As the curves of `scheduler.root_zone.infiltration`.

    Examples
    --------
    >>> from scheduler.site import HortonIntake, Intake, Zone
    >>> falling = HortonIntake(
    ...     initial_mm_per_h=75.0, final_mm_per_h=10.0, decay_per_h=2.0)
    >>> bay = Zone(id="F1", name="bay", area_m2=900.0, grown_in="soil", watered="off",
    ...            intake=Intake(horton=falling))
    >>> stated_curve(bay).curve.initial_mm_per_h
    75.0
    """
    intake = zone.intake
    if intake.horton is not None:
        h = intake.horton
        curve = Horton(h.initial_mm_per_h, h.final_mm_per_h, h.decay_per_h)
        inputs = [
            entered("initial_mm_per_h", h.initial_mm_per_h, "zone.intake.horton"),
            entered("final_mm_per_h", h.final_mm_per_h, "zone.intake.horton"),
            entered("decay_per_h", h.decay_per_h, "zone.intake.horton"),
        ]
        return StatedCurve(curve, _trace("Horton", HORTON_SOURCE, inputs))
    if intake.kostiakov is not None:
        k = intake.kostiakov
        inputs = [
            entered("first_hour_mm", k.first_hour_mm, "zone.intake.kostiakov"),
            entered("exponent", k.exponent, "zone.intake.kostiakov"),
            entered("steady_mm_per_h", k.steady_mm_per_h, "zone.intake.kostiakov"),
        ]
        trace = _trace("Kostiakov", "Kostiakov's equation, from memory", inputs)
        curve_k = Kostiakov(k.first_hour_mm, k.exponent, k.steady_mm_per_h)
        return StatedCurve(curve_k, trace)
    if intake.family is not None:
        return _family(zone, intake.family)
    if intake.green_ampt is not None:
        return _green_ampt(zone, intake.green_ampt)
    return None


def _trace(name: str, source: str, inputs: list[Trace]) -> Trace:
    formula = f"{name} intake, by cumulative infiltration"
    return Trace("intake_model", name, formula, source, tuple(inputs))


def _family(zone: Zone, family: float) -> StatedCurve:
    said = Finding(
        "note",
        f"zone {zone.id}: intake",
        f"intake family {family:g} is from memory, unverified, and the families were "
        "made for borders and furrows, not for sprinklers",
        "watch a run for the first runoff and enter first_runoff_min",
    )
    inputs = [entered("family", family, "zone.intake")]
    trace = _trace("intake family", FAMILY_SOURCE, inputs)
    return StatedCurve(intake_family(family), trace, (said,))


def _green_ampt(zone: Zone, stated: GreenAmptIntake) -> StatedCurve | None:
    texture = zone.soil.texture if zone.soil is not None else None
    row = green_ampt_row(texture) if texture is not None else {}
    own = "zone.intake.green_ampt"
    conductivity, suction = stated.conductivity_mm_per_h, stated.suction_mm
    deficit, said = stated.moisture_deficit, _NOTHING
    if deficit is None and zone.soil is not None and row:
        deficit = _deficit(zone, zone.soil, float(row["porosity"]))
        said = (_dryness_note(zone, deficit),)
    if not row and None in (conductivity, suction, deficit):
        return None
    inputs = [
        entered("conductivity_mm_per_h", conductivity, own)
        if conductivity is not None
        else _of_texture("conductivity_mm_per_h", row),
        entered("suction_mm", suction, own)
        if suction is not None
        else _of_texture("suction_mm", row),
        Trace("moisture_deficit", deficit, DEFICIT_WAY, "common practice, no source")
        if said
        else entered("moisture_deficit", deficit, own),
    ]
    values = [float(one.value or 0.0) for one in inputs]
    curve = GreenAmpt(values[0], values[1] * values[2])
    return StatedCurve(curve, _trace("Green-Ampt", GREEN_AMPT_SOURCE, inputs), said)


def _of_texture(name: str, row: dict[str, str]) -> Trace:
    return Trace(
        name, float(row[name]), f"table value for {row['texture']}", row["source"]
    )


def _deficit(zone: Zone, soil: Soil, porosity: float) -> float:
    """Pore space that is empty when the allowed depletion is used."""
    row = soil_row(soil.texture) if soil.texture is not None else {}
    full = soil.field_capacity or float(row["fc"])
    dry = soil.wilting_point or float(row["wp"])
    crop = crop_of(zone)
    usual = USUAL_ALLOWED_IN_SOIL if crop is None else crop.depletion
    part = soil.allowed_depletion or usual
    return max(porosity - (full - part * (full - dry)), LEAST_DEFICIT)


def _dryness_note(zone: Zone, deficit: float) -> Finding:
    return Finding(
        "note",
        f"zone {zone.id}: moisture_deficit",
        f"{deficit:.2f} is assumed: the empty pore space of the texture when the "
        "allowed depletion is used up",
        "enter moisture_deficit in [zone.intake.green_ampt]; wetter ground runs off "
        "sooner",
    )
