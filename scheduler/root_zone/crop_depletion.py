"""A crop of the table and its daily use in, the part of the water it may use out."""

from scheduler.need.crop import USUAL_ETC_MM_PER_DAY, depletion_part
from scheduler.site import Zone
from scheduler.tables.crops import CropRow, crop_row
from scheduler.trace import Trace

TABLE = "FAO-56 (1998) Table 22"


def crop_of(zone: Zone) -> CropRow | None:
    """Row of the crop that a zone's plant names.

    Parameters
    ----------
    zone : Zone
        The zone.

    Returns
    -------
    CropRow or None
        None where no crop of the table is named.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Plant
    >>> lawn = Zone(id="L1", name="lawn", area_m2=90.0, grown_in="soil",
    ...             plant=Plant(name="lawn", crop="turf cool season"))
    >>> crop_of(lawn).depletion
    0.4
    """
    if zone.plant is None or zone.plant.crop is None:
        return None
    return crop_row(zone.plant.crop)


def crop_depletion(crop: CropRow, etc_mm_per_day: float | None) -> Trace:
    """Part of the available water that a crop uses without stress.

    Parameters
    ----------
    crop : CropRow
        Of the table.
    etc_mm_per_day : float or None
        Mean unstressed use; as tabled where it is not known. [mm/day]

    Returns
    -------
    Trace
        Lower on days of high use; within 0.1 to 0.8.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 162 and Table 22, footnote 2.

    Examples
    --------
    >>> from scheduler.tables.crops import crop_row
    >>> trace = crop_depletion(crop_row("turf cool season"), 8.0)
    >>> round(trace.value, 2)
    0.28
    """
    tabled = Trace(
        "depletion_table",
        crop.depletion,
        f"table value for {crop.crop}, for {USUAL_ETC_MM_PER_DAY:g} mm/day",
        TABLE,
    )
    if etc_mm_per_day is None:
        return Trace("allowed_depletion", crop.depletion, tabled.formula, TABLE)
    part = float(depletion_part(crop.depletion, etc_mm_per_day=etc_mm_per_day))
    use = Trace(
        "mean_etc_mm_per_day", etc_mm_per_day, "mean use of the days", "definition"
    )
    return Trace(
        "allowed_depletion",
        part,
        "depletion_table + 0.04 x (5 - mean_etc_mm_per_day), within 0.1 to 0.8",
        f"{TABLE}, footnote 2",
        (tabled, use),
    )
