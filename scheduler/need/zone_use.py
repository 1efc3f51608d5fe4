"""A zone and reference ET in, its daily use as depth on the bed out."""

from dataclasses import dataclass

from scheduler.arrays import DateArray, FloatArray
from scheduler.errors import Finding
from scheduler.need.container import bed_factor
from scheduler.need.crop import kc_findings, kc_on
from scheduler.need.weighed import weighed_plant
from scheduler.site import Plant, Zone
from scheduler.trace import Trace, entered


@dataclass(frozen=True, slots=True)
class ZoneUse:
    """What turns reference ET into a depth on the bed.

    Attributes
    ----------
    plant : Plant
        What grows there.
    on_bed : float
        Structure factor times bed factor. [-]
    trace : Trace
        Of the bed factor.
    structure : Trace
        Of the structure factor.
    """

    plant: Plant
    on_bed: float
    trace: Trace
    structure: Trace

    def kc(self, dates: DateArray) -> FloatArray:
        """Crop coefficient on the plant's own area. [-]."""
        return kc_on(self.plant, dates)

    def etc_mm_per_day(
        self, eto_mm_per_day: FloatArray, dates: DateArray
    ) -> FloatArray:
        """Unstressed use on the bed. [mm/day]."""
        return eto_mm_per_day * self.kc(dates) * self.on_bed


def zone_use(
    zone: Zone, dates: DateArray
) -> tuple[ZoneUse | None, tuple[Finding, ...]]:
    """How a zone turns reference ET into a depth on its bed.

    Parameters
    ----------
    zone : Zone
        With plant; pots where the coefficient is on pot top or canopy.
    dates : array of shape (n_days,)
        Days that are asked for, for what must be said of the coefficient.

    Returns
    -------
    use : ZoneUse or None
        None where the zone has no plant, or the area of its coefficient is unknown.
    findings : tuple of Finding
        As `bed_factor` and `kc_findings`.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equation 58; bed factor: definition.

    Examples
    --------
    >>> import numpy as np
    >>> box = Plant(name="box", kc=0.8, kc_area="bed", kc_from="weighed")
    >>> zone = Zone(id="F1", name="box", area_m2=100.0, grown_in="soil", plant=box)
    >>> day = np.array(["2026-06-01"], "datetime64[D]")
    >>> zone_use(zone, day)[0].etc_mm_per_day(np.array([5.0]), day).tolist()
    [4.0]
    """
    plant = weighed_plant(zone)
    if plant is None:
        return None, ()
    zone = zone.model_copy(update={"plant": plant}) if plant != zone.plant else zone
    factor, about_bed = bed_factor(zone)
    findings = (*about_bed, *kc_findings(zone, dates))
    if factor is None:
        return None, findings
    shade = entered("structure_factor", zone.structure_factor, "shade or structure")
    on_bed = zone.structure_factor * factor.factor
    return ZoneUse(plant, on_bed, factor.trace, shade), findings
