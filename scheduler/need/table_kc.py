"""A crop of the table and the site's air in; its coefficient on any day out."""

from dataclasses import dataclass

import numpy as np

from scheduler.errors import Finding
from scheduler.need.climate import Climate, ClimateMean
from scheduler.need.crop import LEAST_ADJUSTED_KC, Stages, kc_climate_adjusted
from scheduler.need.kc_curve import PlantKc, Season
from scheduler.plant import Plant
from scheduler.tables.crops import CropRow, crop_row
from scheduler.trace import Trace, entered

ADJUSTED = "[0.04 (u2 - 2) - 0.004 (RHmin in % - 45)] (height_m / 3)^0.3"


def crop_kc(
    plant: Plant, climate: Climate, where: str
) -> tuple[PlantKc, tuple[Finding, ...]]:
    """Coefficient of a crop of the table, moved to the site's air.

    Parameters
    ----------
    plant : Plant
        With a crop.
    climate : Climate
        Wind and lowest humidity that the site's stations measured.
    where : str
        The zone, as findings name it.

    Returns
    -------
    kc : PlantKc
        The basal coefficient where `plant.dual` is set.
    findings : tuple of Finding
        What was taken as printed for want of better.

    Raises
    ------
    SchedulerError
        If the plant names no crop of the table.

    Notes
    -----
    Mid-season and end follow the mean air of their stage on record; the initial stage,
    and levels below 0.45, stay as printed. A crop without stage lengths keeps its
    coefficient of mid-season through the year.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, Tables 11, 12 and 17, equations 62, 65, 66, 70.

    Examples
    --------
    >>> lawn = Plant(name="lawn", crop="turf cool season")
    >>> crop_kc(lawn, Climate(()), "zone Z1")[0].levels
    (0.95,)
    """
    row, lengths = crop_row(plant.crop or plant.name), plant.crop_days
    levels = row.basal if plant.dual else row.kc
    source = row.kcb_source if plant.dual else row.source
    table = _Tabled(plant, row, "kcb" if plant.dual else "kc", source)
    said = _basal_findings(plant, row, where)
    if lengths is None or plant.planted is None:
        year = np.arange("2025-01-01", "2026-01-01", dtype="datetime64[D]")
        mid = table.level(levels[1], "mid", climate.mean_on(year))
        only = PlantKc(
            (_size(mid),),
            None,
            source,
            (mid,),
            "Table 11 has no stage lengths for it: mid-season every day",
        )
        return only, (*said, *_no_air(mid, where), _no_stages(row, where))
    season = Season(plant.planted, Stages(*lengths), plant.every_year)
    first = table.level(levels[0], "initial", None, is_adjusted=False)
    mid = table.level(levels[1], "mid", climate.mean_on(season.stage_dates(2)))
    end = table.level(levels[2], "end", climate.mean_on(season.stage_dates(3)))
    own = "" if plant.stage_days is None else "; stage lengths as entered"
    made = PlantKc(
        (_size(first), _size(mid), _size(end)),
        season,
        source,
        (first, mid, end),
        season.text + own,
    )
    return made, (*said, *_no_air(mid, where), *_region(plant, row, where))


@dataclass(frozen=True, slots=True)
class _Tabled:
    """Levels of one crop of the table, moved to the site's air."""

    plant: Plant
    row: CropRow
    letter: str
    source: str

    def level(
        self, tabled: float, stage: str, air: ClimateMean | None, *,
        is_adjusted: bool = True,
    ) -> Trace:  # fmt: skip
        """Trace of one level, with its value."""
        name = f"{self.letter}_{stage}"
        if not is_adjusted or tabled < LEAST_ADJUSTED_KC:
            return Trace(name, tabled, f"table value for {self.row.crop}", self.source)
        if air is None:
            note = "not moved to the site's air: wind or lowest humidity not measured"
            formula = f"table value for {self.row.crop}"
            return Trace(name, tabled, formula, self.source, (), note)
        height_m = self.plant.height_m or self.row.height_m
        tall = Trace("height_m", height_m, "of the grown crop", self.row.source)
        if self.plant.height_m is not None:
            tall = entered("height_m", height_m, "zone.plant")
        kc = float(
            kc_climate_adjusted(
                tabled,
                wind_2m_m_per_s=air.wind_2m_m_per_s,
                rh_min=air.rh_min,
                height_m=height_m,
            )
        )
        own = Trace(f"{name}_table", tabled, "table value", self.source)
        equation = {"kcb": "70"}.get(self.letter, "62" if stage == "mid" else "65")
        return Trace(
            name,
            kc,
            f"{own.name} + {ADJUSTED}",
            f"FAO-56 (1998) eq. {equation}",
            (own, *air.traces(stage), tall),
        )


def _size(trace: Trace) -> float:
    assert isinstance(trace.value, float), "made here"
    return trace.value


def _no_air(mid: Trace, where: str) -> tuple[Finding, ...]:
    if "not measured" not in mid.note:
        return ()
    what = (
        f"{mid.value:.2f} of the table is used as printed, for 2 m/s and 45 %: no "
        "station measured both wind and lowest humidity in that stage"
    )
    fix = "add wind and lowest humidity (or dew point) to a weather file"
    return (Finding("note", f"{where}: kc", what, fix),)


def _no_stages(row: CropRow, where: str) -> Finding:
    return Finding(
        "note",
        f"{where}: stages",
        f"no stage lengths are printed for {row.crop}: mid-season holds every day",
        "give planted and [zone.plant.stage_days] for a curve through the year",
    )


def _region(plant: Plant, row: CropRow, where: str) -> tuple[Finding, ...]:
    if plant.stage_days is not None or "stages:" not in row.source:
        return ()
    region = row.source.split("stages:")[1].split(";")[0].strip()
    what = f"the stage lengths of {row.crop} are those printed for {region}"
    fix = "give [zone.plant.stage_days] from your own records"
    return (Finding("note", f"{where}: stages", what, fix),)


def _basal_findings(plant: Plant, row: CropRow, where: str) -> tuple[Finding, ...]:
    if not plant.dual or row.kcb is not None:
        return ()
    what = (
        f"the basal coefficients of {row.crop} are derived from its Kc by the "
        "guidelines of FAO-56 Table 18, from memory, unverified"
    )
    fix = "enter those of FAO-56 Table 17 in [zone.plant.stages]"
    return (Finding("note", f"{where}: kcb", what, fix),)
