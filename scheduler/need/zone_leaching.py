"""A zone and its water's salt in, the leaching it asks for and its reason out."""

from dataclasses import dataclass

from scheduler.errors import Finding, SchedulerError
from scheduler.need.salinity import (
    ORDINARY_LOSSES,
    leaching_requirement,
    pot_leaching_fraction,
    salt_tolerance,
)
from scheduler.site import Pots, Soil, Supply, Zone
from scheduler.trace import Trace, entered
from scheduler.units import shown

# FAO-29, Table 1: no restriction on use below it
UNRESTRICTED_DS_PER_M = 0.7
# leaching fraction of pots that nurseries aim at (common practice, no source)
BAND = (0.10, 0.20)
# above it more water drains than stays
MOST = 0.5


@dataclass(frozen=True, slots=True)
class ZoneLeaching:
    """Part of a zone's water that should pass the roots.

    Attributes
    ----------
    fraction : float
        Requirement of a soil, or target of pots; 0 to 1. [-]
    is_target : bool
        True for pots: a target; False for soil: a requirement.
    trace : Trace
        Where it came from.
    """

    fraction: float
    is_target: bool
    trace: Trace

    @property
    def factor(self) -> float:
        """Depth over need where every position gets the mean: 1 / (1 - fraction)."""
        return 1.0 / (1.0 - self.fraction)

    @property
    def is_covered(self) -> bool:
        """Whether the ordinary losses of a soil leach as much already (FAO-29)."""
        return not self.is_target and self.fraction <= ORDINARY_LOSSES


def zone_leaching(
    zone: Zone, supply: Supply | None
) -> tuple[ZoneLeaching | None, tuple[Finding, ...]]:
    """The leaching that a zone asks for, as far as its salt was entered.

    Parameters
    ----------
    zone : Zone
        With soil or pots.
    supply : Supply or None
        For the salt of the water.

    Returns
    -------
    leaching : ZoneLeaching or None
        None where nothing was entered, or no leaching can do what is asked.
    findings : tuple of Finding
        What is missing or out of the usual; a stop where the zone's rule needs it.

    Notes
    -----
    Soil: leaching requirement of FAO-29. Pots: the target itself, or the fraction at
    which the leachate has the wanted EC.

    References
    ----------
    .. [1] Ayers and Westcot, 1985, FAO-29 Rev. 1, section 2.4.2.

    Examples
    --------
    >>> from scheduler.site import Pots, Supply, Zone
    >>> yard = Zone(id="Z4", name="yard", area_m2=900.0, grown_in="pots", watered="off",
    ...             pots=Pots(top_diameter_mm=254.0, leachate_ec_ds_per_m=2.5))
    >>> well = Supply(source="well", water_ec_ds_per_m=0.5)
    >>> zone_leaching(yard, well)[0].fraction
    0.2
    """
    water_ec = supply.water_ec_ds_per_m if supply is not None else None
    try:
        if zone.pots is not None:
            found, said = _of_pots(zone.pots, water_ec, f"zone {zone.id}: leaching")
        elif zone.soil is not None:
            found, said = _of_soil(zone.soil, water_ec, f"zone {zone.id}: salt")
        else:
            found, said = None, ()
    except SchedulerError as refused:
        found, said = None, (refused.finding(f"zone {zone.id}: salt", "warning"),)
    if zone.chosen_rule == "low quarter, leached" and found is None:
        said = (*said, _rule_without_salt(zone))
    return found, said


def _rule_without_salt(zone: Zone) -> Finding:
    return Finding(
        "stop",
        f"zone {zone.id}: rule",
        "the rule 'low quarter, leached' needs a leaching requirement, and none is "
        "known",
        "enter water_ec_ds_per_m under [supply] and target_ec_ds_per_m or salt_crop "
        "under [zone.soil], or choose another rule",
    )


def _water_trace(water_ec: float) -> Trace:
    return entered("water_ec_ds_per_m", water_ec, "site.toml: supply")


def _no_water_ec(where: str, asked: str) -> tuple[Finding, ...]:
    what = f"{asked} is entered, but not the salt of the water: no leaching is planned"
    fix = "measure the water and enter water_ec_ds_per_m under [supply]"
    return (Finding("warning", where, what, fix),)


def _of_soil(
    soil: Soil, water_ec: float | None, where: str
) -> tuple[ZoneLeaching | None, tuple[Finding, ...]]:
    target = _soil_target(soil)
    if target is None:
        return None, _salt_unanswered(water_ec, where)
    if water_ec is None:
        asked = "target_ec" if soil.salt_crop is None else "salt_crop"
        return None, _no_water_ec(where, asked)
    soil_ec = float(target.value or 0.0)
    needed = leaching_requirement(water_ec, soil_ec)
    if needed >= 1.0:
        raise SchedulerError(
            f"water of {shown(water_ec, 'ds_per_m', 'metric')} cannot hold the soil at "
            f"{shown(soil_ec, 'ds_per_m', 'metric')}: all of it would have to drain",
            "allow more salt in the soil, or blend with better water",
        )
    made = ZoneLeaching(
        needed,
        False,
        Trace(
            "leaching_requirement",
            needed,
            "water_ec_ds_per_m / (5 x target_ec_ds_per_m - water_ec_ds_per_m)",
            "FAO-29 Rev. 1 (1985) sec. 2.4.2",
            (_water_trace(water_ec), target),
        ),
    )
    return made, _covered(made, where)


def _covered(made: ZoneLeaching, where: str) -> tuple[Finding, ...]:
    if not made.is_covered:
        return ()
    what = f"the leaching requirement is {made.fraction:.2f}: ordinary losses cover it"
    fix = "nothing to do (FAO-29: up to 0.10); no water is added for salt"
    return (Finding("note", where, what, fix),)


def _soil_target(soil: Soil) -> Trace | None:
    """Salt that the soil may hold: as entered, or the crop's threshold."""
    if soil.target_ec_ds_per_m is not None:
        return entered("target_ec_ds_per_m", soil.target_ec_ds_per_m, "zone.soil")
    if soil.salt_crop is None:
        return None
    crop = salt_tolerance(soil.salt_crop)
    note = ""
    if crop.threshold_high > crop.threshold_low:
        low, high = crop.threshold_low, crop.threshold_high
        note = f"printed as {low:g} to {high:g}; the lower end is taken"
    return Trace(
        "target_ec_ds_per_m",
        crop.threshold_low,
        f"salt in the soil at which {crop.crop} loses no yield yet",
        crop.source,
        (entered("salt_crop", crop.crop, "zone.soil"),),
        note,
    )


def _salt_unanswered(water_ec: float | None, where: str) -> tuple[Finding, ...]:
    if water_ec is None or water_ec < UNRESTRICTED_DS_PER_M:
        return ()
    what = (
        f"the water has {shown(water_ec, 'ds_per_m', 'metric')}, and nothing says how "
        "much salt the soil may hold: no leaching is planned"
    )
    fix = "enter target_ec_ds_per_m or salt_crop under [zone.soil]"
    return (Finding("note", where, what, fix),)


def _of_pots(
    pots: Pots, water_ec: float | None, where: str
) -> tuple[ZoneLeaching | None, tuple[Finding, ...]]:
    if pots.leaching_target is not None:
        own = entered("leaching_target", pots.leaching_target, "zone.pots")
        return _as_target(pots.leaching_target, own, where)
    if pots.leachate_ec_ds_per_m is None:
        return None, ()
    if water_ec is None:
        return None, _no_water_ec(where, "leachate_ec")
    target = pot_leaching_fraction(water_ec, pots.leachate_ec_ds_per_m)
    if target > MOST:
        raise SchedulerError(
            f"a leachate of {pots.leachate_ec_ds_per_m:g} dS/m from water of "
            f"{water_ec:g} dS/m needs {target:.0%} of the water to drain: not planned",
            "aim at a higher EC of the leachate, or blend with better water",
        )
    leachate = entered("leachate_ec_ds_per_m", pots.leachate_ec_ds_per_m, "zone.pots")
    trace = Trace(
        "leaching_target",
        target,
        "water_ec_ds_per_m / leachate_ec_ds_per_m",
        "balance of salt at steady state",
        (_water_trace(water_ec), leachate),
        "water_ec must hold the fertilizer that is fed with the water",
    )
    return _as_target(target, trace, where)


def _as_target(
    target: float, trace: Trace, where: str
) -> tuple[ZoneLeaching | None, tuple[Finding, ...]]:
    made = ZoneLeaching(target, True, trace)
    if target == 0.0 or BAND[0] <= target <= BAND[1]:
        return made, ()
    side, risk = (
        ("below", "salts may build up, and dry pots stay unseen")
        if target < BAND[0]
        else ("above", "more water and fertilizer drain than are usually needed")
    )
    what = f"the leaching target of {target:.0%} is {side} the usual 10 to 20 %: {risk}"
    fix = "nothing to do if it is meant; else check the EC of the leachate"
    return made, (Finding("note", where, what, fix),)
