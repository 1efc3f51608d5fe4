"""A zone and reference ET in, its daily use as depth on the bed out."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import DateArray, FloatArray
from scheduler.errors import Finding
from scheduler.need.climate import Climate, site_climate
from scheduler.need.container import bed_factor
from scheduler.need.dual_use import DUAL_SOURCE, DualDays, DualUse, Wetting, dual_use
from scheduler.need.kc_curve import PlantKc
from scheduler.need.kc_findings import kc_findings
from scheduler.need.plant_kc import plant_kc
from scheduler.need.table_kc import ADJUSTED
from scheduler.need.weighed import weighed_plant
from scheduler.record import DailySeries
from scheduler.site import Plant, Zone
from scheduler.trace import Trace, entered

# where nobody says which nights water, all of them may
NIGHTLY = Wetting((True,) * 7, None)
# months without a measured day keep the air for which the tables are printed
MONTH_SOURCE = "stations of the site, else FAO-56 (1998) p. 121"
ETC_SOURCE = "FAO-56 (1998) eq. 58; bed factor: definition"


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
    coefficient : PlantKc
        Of the plants; the basal one where the ground is counted apart.
    ground : DualUse or None
        Evaporation from wet ground, where it is counted apart.
    """

    plant: Plant
    on_bed: float
    trace: Trace
    structure: Trace
    coefficient: PlantKc
    ground: DualUse | None = None

    def kc(
        self,
        eto_mm_per_day: FloatArray,
        dates: DateArray,
        rain_mm: FloatArray | None = None,
    ) -> FloatArray:
        """Crop coefficient on the plant's own area, Kcb + Ke where dual. [-]."""
        days = self._dual_days(eto_mm_per_day, dates, rain_mm)
        return self.coefficient.on(dates) if days is None else days.kcb + days.ke

    def etc_mm_per_day(
        self,
        eto_mm_per_day: FloatArray,
        dates: DateArray,
        rain_mm: FloatArray | None = None,
    ) -> FloatArray:
        """Unstressed use on the bed; rain only wets the ground. [mm/day]."""
        return eto_mm_per_day * self.kc(eto_mm_per_day, dates, rain_mm) * self.on_bed

    def etc_trace(
        self,
        eto: Trace,
        eto_mm_per_day: FloatArray,
        dates: DateArray,
        rain_mm: FloatArray | None = None,
    ) -> Trace:
        """Sum of the use over the days, down to every coefficient."""
        use = self.etc_mm_per_day(eto_mm_per_day, dates, rain_mm)
        return Trace(
            "etc_mm",
            float(use.sum()),
            "sum over the days of ETo x Kc x structure factor x bed factor",
            ETC_SOURCE,
            (
                eto,
                self.kc_trace(eto_mm_per_day, dates, rain_mm),
                self.structure,
                self.trace,
            ),
        )

    def kc_trace(
        self,
        eto_mm_per_day: FloatArray,
        dates: DateArray,
        rain_mm: FloatArray | None = None,
    ) -> Trace:
        """Mean coefficient over the days, and what it was made from."""
        days = self._dual_days(eto_mm_per_day, dates, rain_mm)
        own, area = self.coefficient, self.plant.kc_area
        if days is None or self.ground is None:
            return Trace(
                "kc",
                float(own.on(dates).mean()),
                f"crop coefficient on the {area} area, mean of the days",
                own.source,
                own.inputs,
                own.note,
            )
        return _dual_trace(own, self.ground, days)

    def watered_on(self, evenings: DateArray, nights: Sequence[dt.date]) -> "ZoneUse":
        """Same use with its ground wetted on the nights of a first plan.

        `evenings` are the planned days, without a gap; `nights` those that water.
        """
        if self.ground is None or evenings.size == 0:
            return self
        chosen = np.array(list(nights), dtype="datetime64[D]")
        wetting = replace(
            self.ground.wetting,
            first_evening=int(evenings.astype("datetime64[D]").astype(np.int64)[0]),
            planned=tuple(np.isin(evenings, chosen).tolist()),
        )
        return replace(self, ground=replace(self.ground, wetting=wetting))

    def _dual_days(
        self, eto: FloatArray, dates: DateArray, rain: FloatArray | None
    ) -> DualDays | None:
        if self.ground is None:
            return None
        fell = np.zeros(dates.shape) if rain is None else rain
        return self.ground.days(
            self.coefficient.on(dates), eto * self.on_bed, fell, dates
        )


def _dual_trace(own: PlantKc, ground: DualUse, days: DualDays) -> Trace:
    kcb = Trace(
        "kcb",
        float(days.kcb.mean()),
        "basal coefficient of the plants, mean of the days",
        own.source,
        own.inputs,
        own.note,
    )
    wind = Trace(
        "wind_2m_months_m_per_s",
        float(days.wind_2m_m_per_s.mean()),
        "mean wind at 2 m of the month on record, else 2 m/s",
        MONTH_SOURCE,
    )
    dry = Trace(
        "rh_min_months",
        float(days.rh_min.mean()),
        "mean lowest humidity of the month on record, else 45 %",
        MONTH_SOURCE,
    )
    most = Trace(
        "kc_max",
        float(days.most.mean()),
        f"1.2 + {ADJUSTED}, at least kcb + 0.05",
        "FAO-56 (1998) eq. 72",
        (wind, dry),
    )
    cover = entered("ground_cover", ground.ground_cover, "zone.plant")
    if ground.ground_cover is None:
        cover = Trace(
            "ground_cover",
            float(days.cover.mean()),
            "((kcb - 0.15) / (kc_max - 0.15)) ^ (1 + 0.5 x height)",
            "FAO-56 (1998) eq. 76",
        )
    ke = Trace(
        "ke",
        float(days.ke.mean()),
        "kr x (kc_max - kcb), at most (1 - ground_cover) x kc_max, day by day",
        DUAL_SOURCE,
        (most, cover, *ground.inputs),
        f"{ground.wetting.text}; {int(days.is_wetted.sum())} of {days.ke.size} days "
        "follow such a night",
    )
    kc = float((days.kcb + days.ke).mean())
    return Trace(
        "kc", kc, "kcb + ke, mean of the days", "FAO-56 (1998) eq. 69", (kcb, ke)
    )


def zone_use(
    zone: Zone,
    dates: DateArray,
    *,
    weather: Iterable[DailySeries] = (),
    wetting: Wetting | None = None,
) -> tuple[ZoneUse | None, tuple[Finding, ...]]:
    """How a zone turns reference ET into a depth on its bed.

    Parameters
    ----------
    zone : Zone
        With plant; pots where the coefficient is on pot top or canopy.
    dates : array of shape (n_days,)
        Days that are asked for, for what must be said of the coefficient.
    weather : iterable of DailySeries
        The site's stations; only coefficients of a table follow their air.
    wetting : Wetting or None
        Nights that wet the ground; every one if not given.

    Returns
    -------
    use : ZoneUse or None
        None where the zone has no plant, or its coefficient cannot be known.
    findings : tuple of Finding
        As `bed_factor`, `plant_kc`, `kc_findings` and `dual_use`.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equations 58 and 69; bed factor: definition.

    Examples
    --------
    >>> box = Plant(name="box", kc=0.8, kc_area="bed", kc_from="weighed")
    >>> zone = Zone(id="F1", name="box", area_m2=100.0, grown_in="soil", plant=box)
    >>> day = np.array(["2026-06-01"], "datetime64[D]")
    >>> zone_use(zone, day)[0].etc_mm_per_day(np.array([5.0]), day).tolist()
    [4.0]
    """
    plant, where = weighed_plant(zone), f"zone {zone.id}"
    if plant is None:
        return None, ()
    zone = zone.model_copy(update={"plant": plant}) if plant != zone.plant else zone
    factor, about_bed = bed_factor(zone)
    follows_air = plant.source == "crop" or plant.dual
    climate = site_climate(weather) if follows_air else Climate(())
    if factor is None:
        return None, about_bed
    kc, about_kc = plant_kc(plant, climate, where)
    ground, about_ground = _ground(zone, plant, wetting or NIGHTLY, climate)
    findings = (*about_bed, *about_kc, *kc_findings(zone, kc, dates), *about_ground)
    if any(one.level == "stop" for one in findings):
        return None, findings
    on_bed = zone.structure_factor * factor.factor
    use = ZoneUse(plant, on_bed, factor.trace, _structure(zone), kc, ground)
    return use, findings


def _ground(
    zone: Zone, plant: Plant, wetting: Wetting, climate: Climate
) -> tuple[DualUse | None, tuple[Finding, ...]]:
    if not plant.dual:
        return None, ()
    where = f"zone {zone.id}"
    if zone.soil is not None:
        return dual_use(plant, zone.soil, wetting, climate, where)
    what = f"dual of {plant.name} is for beds in soil, and no soil is described"
    return None, (Finding("stop", f"{where}: dual", what, "leave out dual"),)


def _structure(zone: Zone) -> Trace:
    if zone.structure_factor == 1.0:
        return Trace(
            "structure_factor", 1.0, "1: open ground, no shade entered", "definition"
        )
    where = "zones.toml: shade or a structure over the plants"
    return entered("structure_factor", zone.structure_factor, where)
