"""Soil or pots in, the water they hold for plants out: all of it and the allowed part.

Depths are on the bed, so that they can be set against rain and sprinkler water.
"""

from dataclasses import dataclass, replace

from scheduler.errors import Finding
from scheduler.need.capture import capture_of
from scheduler.need.container import held_ml
from scheduler.need.pot_layout import pot_top_area_cm2
from scheduler.root_zone.crop_depletion import crop_depletion, crop_of
from scheduler.site import Pots, Soil, Zone
from scheduler.tables import is_from_memory, soil_row
from scheduler.tables.crops import CropRow
from scheduler.trace import Trace, entered

MM_PER_M = 1000.0
# 1 mL on 1 cm2 stands 10 mm high
MM_PER_ML_CM2 = 10.0
# Available water over the top of a pot: a cell of a tray holds some 5 mm, a tree in a
# pot a metre deep some 250 mm (common practice, no source); outside these it is a slip.
HELD_IN_POTS_MM = (2.0, 500.0)
# FAO-56 (1998) p. 162, read from memory: "a value of 0.50 for p is commonly used"
USUAL_ALLOWED_IN_SOIL = 0.5
# common practice, no source: pots are watered again when 30 % of their water is gone
USUAL_ALLOWED_IN_POTS = 0.3
SOIL_SOURCE = "FAO-56 (1998) eq. 82"


@dataclass(frozen=True, slots=True)
class Storage:
    """Water that a root zone or pot holds, as depth on the bed.

    Attributes
    ----------
    total_mm : float
        Total available water, TAW: from full to where plants wilt. [mm]
    allowed_mm : float
        Part that may be used before the next watering, RAW. [mm]
    trace : Trace
        Where both came from.
    """

    total_mm: float
    allowed_mm: float
    trace: Trace


def zone_storage(
    zone: Zone, *, etc_mm_per_day: float | None = None
) -> tuple[Storage | None, tuple[Finding, ...]]:
    """Water that a zone's root zone or pots hold.

    Parameters
    ----------
    zone : Zone
        With soil, or pots.
    etc_mm_per_day : float, optional
        Mean use of the days, which moves the allowed part of a crop of the table; as
        tabled, for 5 mm/day, if not given. [mm/day]

    Returns
    -------
    storage : Storage or None
        Total and allowed depth on the bed; None when it cannot be known: then no
        balance is kept and the week's use is replaced.
    findings : tuple of Finding
        What was assumed, or what is missing.

    Notes
    -----
    Soil: 1000 (field capacity - wilting point) x root depth. Pots: water one pot holds,
    over what a millimetre on the bed brings into it (pot top area x capture factor).

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 162, equations 82 and 83; Table 22.
    .. [2] Rawls, Brakensiek and Saxton, 1982 (water content by texture).
    .. [3] Million and Yeager, 2015, HortScience (capture factor).

    Examples
    --------
    >>> from scheduler.site import Plant, Soil, Zone
    >>> onion = Zone(
    ...     id="F1", name="onions", area_m2=900.0, grown_in="soil",
    ...     plant=Plant(name="onion", kc=1.0, kc_area="bed"),
    ...     soil=Soil(field_capacity=0.15, wilting_point=0.06, root_depth_m=0.4,
    ...               allowed_depletion=0.3),
    ... )
    >>> storage, findings = zone_storage(onion)
    >>> round(storage.total_mm), round(storage.allowed_mm), findings
    (36, 11, ())
    """
    if zone.grown_in == "pots":
        return _pot_storage(zone, zone.pots)
    return _soil_storage(zone, zone.soil, etc_mm_per_day)


def _unknown(zone: Zone, what: str, fix: str) -> tuple[None, tuple[Finding, ...]]:
    text = f"{what}, so no balance is kept: the week's use is replaced"
    return None, (Finding("note", f"zone {zone.id}: storage", text, fix),)


def _soil_storage(
    zone: Zone, soil: Soil | None, etc_mm_per_day: float | None
) -> tuple[Storage | None, tuple[Finding, ...]]:
    if soil is None:
        return _unknown(zone, "the soil is not described", "add [zone.soil]")
    crop = crop_of(zone)
    root, about_root = _roots(zone, soil, crop)
    if root is None:
        fix = "dig where plants stand and enter the root depth in [zone.soil]"
        return _unknown(zone, "the root depth is not known", fix)
    assert isinstance(root.value, float), "made here"
    full, about_full = _water_content(zone, soil, "field_capacity", "fc")
    dry, about_dry = _water_content(zone, soil, "wilting_point", "wp")
    held = full - dry
    if held <= 0:
        said = Finding(
            "warning",
            f"zone {zone.id}: field_capacity",
            f"{full:g} is not above the wilting point {dry:g} ({soil.texture}), "
            "so no balance is kept",
            "enter both field_capacity and wilting_point from one soil test",
        )
        return None, (said,)
    total = Trace(
        "total_available_water_mm",
        MM_PER_M * held * root.value,
        "1000 x (field_capacity - wilting_point) x root_depth_m",
        SOIL_SOURCE,
        (*(trace for trace, _ in (about_full, about_dry)), root),
    )
    about_allowed: tuple[Finding, ...] = ()
    if soil.allowed_depletion is None and crop is not None:
        allowed = crop_depletion(crop, etc_mm_per_day)
    else:
        allowed, about_allowed = _allowed(
            zone, soil.allowed_depletion, USUAL_ALLOWED_IN_SOIL, "FAO-56 (1998) p. 162"
        )
    said_too = (*about_root, *about_full[1], *about_dry[1], *about_allowed)
    return _storage(MM_PER_M * held * root.value, total, allowed), said_too


def _roots(
    zone: Zone, soil: Soil, crop: CropRow | None
) -> tuple[Trace | None, tuple[Finding, ...]]:
    """Root depth as entered, else the end of the table's range that suits watering."""
    if soil.root_depth_m is not None:
        return entered("root_depth_m", soil.root_depth_m, "[zone.soil]"), ()
    if crop is None:
        return None, ()
    low, high = crop.root_low_m, crop.root_high_m
    text = f"printed {low:g} to {high:g} m for {crop.crop}; the low end suits watering"
    said = Finding(
        "warning",
        f"zone {zone.id}: root_depth",
        f"not entered: {low:g} m of grown {crop.crop} is taken; young plants root less",
        "dig where plants stand and enter the root depth in [zone.soil]",
    )
    return Trace("root_depth_m", low, text, crop.source), (said,)


def _water_content(
    zone: Zone, soil: Soil, name: str, column: str
) -> tuple[float, tuple[Trace, tuple[Finding, ...]]]:
    """Own number if there is one, else the table's value for the texture."""
    own = soil.field_capacity if column == "fc" else soil.wilting_point
    if own is not None:
        return own, (entered(name, own, "[zone.soil]"), ())
    assert soil.texture is not None, "the soil holds a texture or both numbers"
    row = soil_row(soil.texture)
    size = float(row[column])
    is_unchecked = is_from_memory(row, column)
    source = "Rawls, Brakensiek and Saxton (1982)"
    if is_unchecked:
        source += ", from memory, unverified"
    trace = Trace(name, size, f"table value for {soil.texture}", source)
    if not is_unchecked:
        return size, (trace, ())
    said = Finding(
        "note",
        f"zone {zone.id}: {name}",
        f"{size:g} for {soil.texture} is a table value from memory, unverified",
        "enter field_capacity and wilting_point from a soil test",
    )
    return size, (trace, (said,))


def _allowed(
    zone: Zone, own: float | None, usual: float, source: str
) -> tuple[Trace, tuple[Finding, ...]]:
    if own is not None:
        return entered("allowed_depletion", own, f"[zone.{zone.grown_in}]"), ()
    fix = f"enter allowed_depletion in [zone.{zone.grown_in}]"
    said = Finding(
        "note",
        f"zone {zone.id}: allowed_depletion",
        f"not entered: {usual:g} of the available water is assumed ({source})",
        fix,
    )
    return Trace("allowed_depletion", usual, "assumed", source, (), fix), (said,)


def _storage(total_mm: float, total: Trace, allowed: Trace) -> Storage:
    assert isinstance(allowed.value, float), "made here"
    allowed_mm = total_mm * allowed.value
    trace = Trace(
        "allowed_depletion_mm",
        allowed_mm,
        "total_available_water_mm x allowed_depletion",
        "FAO-56 (1998) eq. 83",
        (total, allowed),
    )
    return Storage(total_mm, allowed_mm, trace)


def _pot_storage(
    zone: Zone, pots: Pots | None
) -> tuple[Storage | None, tuple[Finding, ...]]:
    held = held_ml(pots) if pots is not None else None
    if pots is None or held is None:
        return _unknown(
            zone,
            "the water one pot holds is not known",
            _missing_of_pots(pots),
        )
    capture, factor, about_capture = _capture(zone, pots)
    top_cm2 = pot_top_area_cm2(pots)
    total_mm = MM_PER_ML_CM2 * held / (top_cm2 * factor)
    total = Trace(
        "total_available_water_mm",
        total_mm,
        "10 x available_water_ml / (pot_top_area_cm2 x capture_factor), on the bed",
        "definition; capture factor: Million and Yeager 2015, HortScience",
        (
            entered("available_water_ml", held, "[zone.pots]"),
            Trace("pot_top_area_cm2", top_cm2, "circle of the top", "geometry"),
            capture,
        ),
    )
    allowed, about_allowed = _allowed(
        zone,
        pots.allowed_depletion,
        USUAL_ALLOWED_IN_POTS,
        "common practice, no source",
    )
    said = (*about_capture, *about_allowed, *_odd_depth(zone, pots, held))
    return _storage(total_mm, total, allowed), said


def _odd_depth(zone: Zone, pots: Pots, held: float) -> tuple[Finding, ...]:
    """Water that no pot of that width could hold: a slip of unit or of a digit."""
    depth_mm = MM_PER_ML_CM2 * held / pot_top_area_cm2(pots)
    least, most = HELD_IN_POTS_MM
    if least <= depth_mm <= most:
        return ()
    what = (
        f"{held:g} mL in a pot {pots.top_diameter_mm:g} mm wide is a depth of "
        f"{depth_mm:,.2f} mm; pots hold {least:g} to {most:g} mm"
    )
    fix = "check top_diameter, available_water_ml and their units"
    return (Finding("warning", f"zone {zone.id}: storage", what, fix),)


def _missing_of_pots(pots: Pots | None) -> str:
    """What to enter: what is missing of three numbers, or one weighed one."""
    parts = ("substrate_volume_ml", "container_capacity", "unavailable_water")
    missing = [one for one in parts if pots is None or getattr(pots, one) is None]
    weigh = "weigh a drained pot and a dry one; enter available_water_ml in [zone.pots]"
    if len(missing) == len(parts):
        return weigh
    return f"enter {' and '.join(missing)} as well, or {weigh}"


def _capture(zone: Zone, pots: Pots) -> tuple[Trace, float, tuple[Finding, ...]]:
    found = capture_of(pots, zone.id)
    if zone.plant is not None and zone.plant.kc_area != "bed":
        # the depth on the bed rests on it too and has said so
        return found.trace, found.factor, ()
    # here a guess moves nights, not water
    said = tuple(replace(one, level="note") for one in found.findings)
    return found.trace, found.factor, said
