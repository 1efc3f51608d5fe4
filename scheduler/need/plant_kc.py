"""A plant and the site's air in; its crop coefficient on any day, and why, out."""

from scheduler.errors import Finding
from scheduler.need.climate import Climate
from scheduler.need.crop import Stages
from scheduler.need.kc_curve import PlantKc, Season
from scheduler.need.landscape import ClassKc, canopy_kc, landscape_kc, plant_factor_kc
from scheduler.need.table_kc import crop_kc
from scheduler.plant import Plant, Turf
from scheduler.tables import read_table
from scheduler.trace import entered

MONTHS = (
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
)  # fmt: skip
CURVE_SOURCE = "entered; FAO-56 (1998) eq. 66 between the stages"


def plant_kc(
    plant: Plant, climate: Climate, where: str
) -> tuple[PlantKc, tuple[Finding, ...]]:
    """Crop coefficient of a plant by whatever was given for it.

    Parameters
    ----------
    plant : Plant
        With a number, a curve, a crop of the table, classes, or its canopy.
    climate : Climate
        Wind and lowest humidity; only coefficients of the table follow them.
    where : str
        The zone, as findings name it.

    Returns
    -------
    kc : PlantKc
        The basal coefficient where `plant.dual` is set.
    findings : tuple of Finding
        What was taken from a table for want of better, and guesses.

    Notes
    -----
    Entered numbers stay as entered. A crop without stage lengths keeps its
    coefficient of mid-season. Whatever gives it, `plant.kc_factor` corrects it.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 6, equations 62, 65, 66; basal: 70.

    Examples
    --------
    >>> import numpy as np
    >>> box = Plant(name="boxwood", kc=0.8, kc_area="bed")
    >>> kc, _ = plant_kc(box, Climate(()), "zone Z1")
    >>> kc.on(np.array(["2026-06-01", "2026-06-02"], "datetime64[D]")).tolist()
    [0.8, 0.8]
    """
    kc, findings = _given_kc(plant, climate, where)
    return kc.times(plant.kc_factor), findings


def _given_kc(
    plant: Plant, climate: Climate, where: str
) -> tuple[PlantKc, tuple[Finding, ...]]:
    if plant.source == "crop":
        return crop_kc(plant, climate, where)
    if plant.turf is not None:
        return _turf(plant.turf), ()
    made = _of_class(plant, where)
    if made is None:
        return _entered(plant), ()
    kc = PlantKc((made.kc,), None, made.trace.source, (made.trace,))
    return kc, made.findings


def _turf(turf: Turf) -> PlantKc:
    row = next(one for one in read_table("turf.csv") if one["turf"] == turf)
    levels = tuple(float(row[month]) for month in MONTHS)
    note = f"by month, in steps, for turf of the {turf.replace(', ', ' in ')}"
    return PlantKc(levels, None, f"{row['source']}, {row['status']}", (), note)


def _of_class(plant: Plant, where: str) -> ClassKc | None:
    if plant.landscape is not None:
        return landscape_kc(plant.landscape, where)
    if plant.plant_factor is not None:
        return plant_factor_kc(plant.plant_factor, where)
    if plant.closure is None and plant.canopy_closed is None:
        return None
    return canopy_kc(plant.closure, plant.canopy_closed, plant.height_m, where)


def _entered(plant: Plant) -> PlantKc:
    source = plant.kc_from or "entered"
    if plant.kc is not None:
        return PlantKc((plant.kc,), None, source)
    if plant.kc_by_month is not None:
        return PlantKc(tuple(plant.kc_by_month), None, source, (), "by month, in steps")
    curve = plant.stages
    assert curve is not None, "the plant holds one of the three"
    lengths = Stages(
        curve.initial_days, curve.development_days, curve.mid_days, curve.late_days
    )
    season = Season(curve.start, lengths, curve.every_year)
    levels = (curve.kc_initial, curve.kc_mid, curve.kc_end)
    names = ("kc_initial", "kc_mid", "kc_end")
    inputs = tuple(
        entered(name, kc, "zone.plant.stages")
        for name, kc in zip(names, levels, strict=True)
    )
    return PlantKc(levels, season, plant.kc_from or CURVE_SOURCE, inputs, season.text)
