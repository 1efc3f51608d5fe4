"""A zone's ground or pots in, what is known of their intake out.

The numbers that a person may know, best first: minutes to first runoff seen in the
field, an intake curve or a steady intake with surface storage, or only a soil texture,
for which USDA printed a highest sprinkler rate.
"""

from dataclasses import dataclass, replace
from typing import Literal

from scheduler.errors import Finding
from scheduler.root_zone.infiltration import Curve, Steady
from scheduler.root_zone.intake.curve import StatedCurve, stated_curve
from scheduler.root_zone.intake.usda import USDA_SOURCE, RateLimit, usda_rate_limit
from scheduler.site import Zone
from scheduler.tables import soil_row
from scheduler.trace import Trace, entered

Kind = Literal["first runoff", "curve", "constant intake", "usda rate", "none"]
# the table's surface storage is for ground no steeper than this
LEVEL_SLOPE = 0.03


@dataclass(frozen=True, slots=True)
class IntakeModel:
    """What is known of the intake of a zone's ground, or the absorption of its pots.

    Attributes
    ----------
    kind : str
        Which knowledge it is; `none` sets no limit.
    first_runoff_min : float or None
        Minutes to the first runoff seen; the wet positions are in it. [min]
    intake_mm_per_h : float or None
        Steady intake; for `usda rate` the highest rate of the table. [mm/h]
    surface_storage_mm : float or None
        Depth that stands on the surface before it runs; None when unknown. [mm]
    trace : Trace
        Where that came from.
    where : str
        The zone, for findings.
    grown_in : str
        Pots absorb, soil takes in: the words differ.
    storage_said : tuple of Finding
        What must be said once the surface storage sets the length of a run.
    stated : Curve or None
        An intake that falls as the ground fills; None where it is taken as steady.
    least_cycles : int
        Pulses that somebody asked for, whatever the intake: dry mixes shed water.
    """

    kind: Kind
    first_runoff_min: float | None
    intake_mm_per_h: float | None
    surface_storage_mm: float | None
    trace: Trace
    where: str = "zone"
    grown_in: Literal["soil", "pots"] = "soil"
    storage_said: tuple[Finding, ...] = ()
    stated: Curve | None = None
    least_cycles: int = 1

    @property
    def curve(self) -> Curve | None:
        """How the ground takes in water; None where that is not known."""
        if self.stated is not None or self.intake_mm_per_h is None:
            return self.stated
        return Steady(self.intake_mm_per_h)

    @property
    def word(self) -> str:
        """What the ground does with water: intake, or absorption in pots."""
        return "absorption" if self.grown_in == "pots" else "intake"


def intake_model(zone: Zone) -> tuple[IntakeModel, tuple[Finding, ...]]:
    """Best knowledge of how a zone takes in water.

    Parameters
    ----------
    zone : Zone
        With intake, and soil where it grows in soil.

    Returns
    -------
    model : IntakeModel
        Kind `none` where nothing is known.
    findings : tuple of Finding
        Every guess, and what to watch for to replace it.

    References
    ----------
    .. [1] Surface storage method: common in landscape scheduling manuals, from memory.
    .. [2] USDA table, as `usda_rate_limit`.

    Examples
    --------
    >>> from scheduler.site import Intake, Zone
    >>> bay = Zone(id="F1", name="bay", area_m2=900.0, grown_in="soil", watered="off",
    ...            intake=Intake(first_runoff_min=18.0))
    >>> intake_model(bay)[0].kind
    'first runoff'
    """
    if zone.intake.green_ampt is not None and stated_curve(zone) is None:
        what = "needs the soil's texture, or conductivity, suction and moisture_deficit"
        fix = "enter texture in [zone.soil]"
        model, said = _unknown(zone)
        return model, (
            Finding("warning", f"zone {zone.id}: green_ampt", what, fix),
            *said,
        )
    if zone.intake.first_runoff_min is not None:
        seen = entered("first_runoff_min", zone.intake.first_runoff_min, "zone.intake")
        return _model(zone, "first runoff", seen), ()
    if zone.intake.intake_mm_per_h is not None:
        return _steady(zone, zone.intake.intake_mm_per_h)
    stated = stated_curve(zone)
    if stated is not None:
        return _on_curve(zone, stated)
    limit = usda_rate_limit(zone.soil) if zone.soil is not None else None
    if limit is not None:
        return _by_texture(zone, limit)
    return _unknown(zone)


def _model(
    zone: Zone,
    kind: Kind,
    trace: Trace,
    intake_mm_per_h: float | None = None,
    storage: tuple[Trace | None, tuple[Finding, ...]] = (None, ()),
) -> IntakeModel:
    stands, said = storage
    return IntakeModel(
        kind=kind,
        first_runoff_min=zone.intake.first_runoff_min,
        intake_mm_per_h=intake_mm_per_h,
        surface_storage_mm=None if stands is None else float(stands.value or 0.0),
        trace=trace,
        where=f"zone {zone.id}: intake",
        grown_in=zone.grown_in,
        storage_said=said,
        least_cycles=zone.intake.least_cycles,
    )


def _on_curve(
    zone: Zone, stated: StatedCurve
) -> tuple[IntakeModel, tuple[Finding, ...]]:
    """A curve; where nobody knows what may stand on the surface, ponding is runoff."""
    storage, about = _surface_storage(zone)
    said = list(stated.findings)
    if storage is None:
        storage = entered("surface_storage_mm", 0.0, "assumed: none")
        what = "how much may stand on the surface is not known: none is assumed"
        fix = "enter surface_storage in [zone.intake]; more of it allows longer runs"
        said.append(Finding("note", f"zone {zone.id}: surface_storage", what, fix))
    trace = replace(stated.trace, inputs=(*stated.trace.inputs, storage))
    model = _model(zone, "curve", trace, None, (storage, about))
    return replace(model, stated=stated.curve), tuple(said)


def _steady(
    zone: Zone, intake_mm_per_h: float
) -> tuple[IntakeModel, tuple[Finding, ...]]:
    rate = entered("intake_mm_per_h", intake_mm_per_h, "zone.intake")
    storage = _surface_storage(zone)
    inputs = (rate,) if storage[0] is None else (rate, storage[0])
    trace = Trace(
        "intake_model",
        "constant intake",
        "steady intake with what stands on the surface",
        "landscape scheduling manuals, from memory",
        inputs,
    )
    return _model(zone, "constant intake", trace, intake_mm_per_h, storage), ()


def _by_texture(
    zone: Zone, limit: RateLimit
) -> tuple[IntakeModel, tuple[Finding, ...]]:
    assert zone.soil is not None, "the limit is the soil's"
    where, said = f"zone {zone.id}: intake", []
    if zone.soil.slope is None:
        what = "the slope is not entered: level ground is assumed for its highest rate"
        fix = "enter slope in [zone.soil], 0.03 for 3 m in 100 m"
        said.append(Finding("note", where, what, fix))
    if limit.is_from_memory:
        what = (
            f"{limit.max_mm_per_h:g} mm/h for {zone.soil.texture} on this slope is a "
            "table value from memory, unverified"
        )
        fix = "watch a run for the first runoff and enter first_runoff_min"
        said.append(Finding("note", where, what, fix))
    storage = _surface_storage(zone)
    inputs = (limit.trace,) if storage[0] is None else (limit.trace, storage[0])
    trace = Trace(
        "intake_model",
        "usda rate",
        "highest sprinkler rate of the soil; above it, what stands on the surface",
        USDA_SOURCE,
        inputs,
    )
    return _model(zone, "usda rate", trace, limit.max_mm_per_h, storage), tuple(said)


def _surface_storage(zone: Zone) -> tuple[Trace | None, tuple[Finding, ...]]:
    """Stated depth, else the table's for level ground, with a remark, else unknown."""
    stated = zone.intake.surface_storage_mm
    if stated is not None:
        return entered("surface_storage_mm", stated, "zone.intake"), ()
    soil = zone.soil
    if soil is None or soil.texture is None or soil.slope is None:
        return None, ()
    text = soil_row(soil.texture)["surface_storage_0_3pct_mm"]
    if soil.slope > LEVEL_SLOPE or not text:
        return None, ()
    trace = Trace(
        "surface_storage_mm",
        float(text),
        f"table value for {soil.texture} on level ground",
        "landscape scheduling test protocol tables, from memory, unverified",
    )
    said = Finding(
        "note",
        f"zone {zone.id}: surface_storage",
        f"{text} mm for {soil.texture} on level ground is a table value from memory, "
        "unverified",
        "watch a run for the first runoff and enter first_runoff_min",
    )
    return trace, (said,)


def _unknown(zone: Zone) -> tuple[IntakeModel, tuple[Finding, ...]]:
    where = f"zone {zone.id}: intake"
    trace = Trace("intake_model", "none", "nothing is known", "not entered")
    model = _model(zone, "none", trace)
    if zone.watered in ("off", "fixed minutes"):
        return model, ()
    if zone.grown_in == "pots":
        what = (
            "how fast the mix absorbs water is not known: no limit is set on one run; "
            "this is absorption, not soil intake, and a dry bark mix sheds the first "
            "water"
        )
        fix = (
            "watch for water that runs through or over before the pot is wet, enter "
            "those minutes as first_runoff_min, and pre-wet dry pots with a short pulse"
        )
        return model, (Finding("note", where, what, fix),)
    what = "nothing is known of the soil's intake: watering runs in one go"
    fix = "watch a run for the first runoff and enter first_runoff_min"
    return model, (Finding("warning", where, what, fix),)
