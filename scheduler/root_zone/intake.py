"""Soil or substrate in, how long water can run before it runs off out.

The numbers that a person may know, best first: minutes to first runoff seen in the
field, a steady intake with surface storage, or only a soil texture, for which USDA
printed a highest sprinkler rate.
"""

import math
from dataclasses import dataclass
from typing import Literal

from scheduler.errors import Finding
from scheduler.site import Soil, Zone
from scheduler.tables import is_from_memory, soil_row
from scheduler.trace import Trace, entered

Kind = Literal["first runoff", "constant intake", "usda rate", "none"]
MIN_PER_H = 60.0
# upper ends of the slope classes of the USDA table, and its column names
SLOPE_CLASSES = ((0.05, "0_5"), (0.08, "5_8"), (0.12, "8_12"), (math.inf, "12plus"))
# the table's surface storage is for ground no steeper than this
LEVEL_SLOPE = 0.03
USDA_SOURCE = "USDA maximum precipitation rates, reprinted in Landscape Management 2018"


@dataclass(frozen=True, slots=True)
class RateLimit:
    """Highest sprinkler rate for a soil: a limit on the rate, not on a run's length.

    Attributes
    ----------
    max_mm_per_h : float
        The rate. [mm/h]
    is_from_memory : bool
        Whether nobody has checked the value against its publication.
    trace : Trace
        Texture, slope and cover it was read for.
    """

    max_mm_per_h: float
    is_from_memory: bool
    trace: Trace


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
    """

    kind: Kind
    first_runoff_min: float | None
    intake_mm_per_h: float | None
    surface_storage_mm: float | None
    trace: Trace
    where: str = "zone"
    grown_in: Literal["soil", "pots"] = "soil"
    storage_said: tuple[Finding, ...] = ()

    @property
    def word(self) -> str:
        """What the ground does with water: intake, or absorption in pots."""
        return "absorption" if self.grown_in == "pots" else "intake"


def usda_rate_limit(soil: Soil) -> RateLimit | None:
    """Highest sprinkler rate by texture, slope and cover.

    Parameters
    ----------
    soil : Soil
        With texture; no slope is taken as level.

    Returns
    -------
    RateLimit or None
        None without a texture.

    Notes
    -----
    A slope on a boundary belongs to the steeper class. The classes of texture were
    matched to the table's soil groups here.

    References
    ----------
    .. [1] USDA table of maximum precipitation rates, as reprinted in Landscape
       Management, 19 March 2018; slopes of 12 % and over from memory, unverified.

    Examples
    --------
    >>> from scheduler.site import Soil
    >>> loam = Soil(texture="silt loam", slope=0.06, cover="bare")
    >>> usda_rate_limit(loam).max_mm_per_h
    10.16
    """
    if soil.texture is None:
        return None
    slope = soil.slope or 0.0
    band = next(name for upper, name in SLOPE_CLASSES if slope < upper)
    row = soil_row(soil.texture)
    column = f"max_rate_{band}_{soil.cover}_mm_per_h"
    is_unchecked = is_from_memory(row, column)
    trace = Trace(
        "usda_max_rate_mm_per_h",
        float(row[column]),
        f"table value for {soil.texture} (soil group: {row['max_rate_group']}), slope "
        f"{slope:.0%}, {soil.cover}",
        f"{USDA_SOURCE}{', from memory, unverified' if is_unchecked else ''}",
        (entered("texture", soil.texture, "[zone.soil]"),),
        "" if soil.slope is not None else "no slope entered: taken as level",
    )
    return RateLimit(float(row[column]), is_unchecked, trace)


def usda_max_rate_mm_per_h(soil: Soil) -> float | None:
    """Highest sprinkler rate by texture, slope and cover, the number alone.

    Parameters
    ----------
    soil : Soil
        With texture; no slope is taken as level.

    Returns
    -------
    float or None
        The rate; None without a texture. [mm/h]

    References
    ----------
    .. [1] As `usda_rate_limit`.

    Examples
    --------
    >>> from scheduler.site import Soil
    >>> usda_max_rate_mm_per_h(Soil(texture="sand", slope=0.02, cover="cover"))
    50.8
    """
    limit = usda_rate_limit(soil)
    return None if limit is None else limit.max_mm_per_h


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
    if zone.intake.first_runoff_min is not None:
        seen = entered("first_runoff_min", zone.intake.first_runoff_min, "zone.intake")
        return _model(zone, "first runoff", seen), ()
    if zone.intake.intake_mm_per_h is not None:
        return _steady(zone, zone.intake.intake_mm_per_h)
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
    )


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


def longest_cycle_min(model: IntakeModel, wet_rate_mm_per_h: float) -> float:
    """Longest run before water runs off.

    Parameters
    ----------
    model : IntakeModel
        What is known of the intake.
    wet_rate_mm_per_h : float
        Rate at the wet positions that must not run off. [mm/h]

    Returns
    -------
    float
        Minutes; infinite where no limit is known or none is needed. [min]

    Notes
    -----
    Surface storage / (rate - intake). A first runoff that was seen holds the wet
    positions already and is not scaled. With the steady intake of wet ground the
    first run is judged too strictly, and a late one too kindly.

    References
    ----------
    .. [1] Surface storage method: landscape scheduling manuals, from memory.

    Examples
    --------
    >>> from scheduler.trace import entered
    >>> clay = IntakeModel("constant intake", None, 5.08, 6.604, entered("x", None))
    >>> round(longest_cycle_min(clay, 40.64), 2)
    11.14
    """
    if model.first_runoff_min is not None:
        return model.first_runoff_min
    intake, storage = model.intake_mm_per_h, model.surface_storage_mm
    if intake is None or storage is None or not wet_rate_mm_per_h > intake:
        return math.inf
    return MIN_PER_H * storage / (wet_rate_mm_per_h - intake)


def clearing_min(
    model: IntakeModel, wet_rate_mm_per_h: float, cycle_min: float
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

    Returns
    -------
    float or None
        Minutes; None where no steady intake is known. [min]

    References
    ----------
    Source: definition: depth that stands over the steady intake.

    Examples
    --------
    >>> from scheduler.trace import entered
    >>> bay = IntakeModel("constant intake", None, 6.35, 2.54, entered("x", None))
    >>> round(clearing_min(bay, 15.748, 15.0), 1)
    22.2
    """
    if model.intake_mm_per_h is None:
        return None
    standing = max(wet_rate_mm_per_h - model.intake_mm_per_h, 0.0) * cycle_min
    return standing / model.intake_mm_per_h
