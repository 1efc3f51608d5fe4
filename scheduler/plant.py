"""The nouns of a plant: what it uses, by a number, a table, a class or its canopy."""

import datetime as dt
from collections.abc import Mapping
from typing import Annotated, Any, Literal, Self

from pydantic import Field, field_validator, model_validator

from scheduler.errors import SchedulerError
from scheduler.noun import Noun, PartOf, Positive
from scheduler.tables.crops import crop_row

Basis = Literal["bed", "canopy", "pot top"]
WaterUse = Literal["high", "moderate", "low", "very low"]
Level = Literal["low", "average", "high"]
PlantFactor = Literal[
    "high", "moderate", "low", "very low", "annual flowers",
    "woody plants, humid climate", "woody plants, dry climate", "desert plants",
]  # fmt: skip
Turf = Literal["cool season, California", "warm season, California"]
Closure = Literal["just set out", "one third", "half closed", "two thirds", "closed"]
# ways to say what a plant uses, of which exactly one is given; a crop may stand beside
# an own coefficient, for its roots and the part of the water it may use
OWN = ("kc", "kc_by_month", "stages", "weighed", "turf", "landscape",
       "plant_factor", "closure", "canopy_closed")  # fmt: skip
# those whose coefficient is for the ground that plants and gaps share
ON_BED = ("crop", "turf", "landscape", "plant_factor", "closure", "canopy_closed")
# those that can stand for a basal coefficient
BASAL = ("kc", "kc_by_month", "stages", "crop")
DAYS_OF_YEAR = 365


class StageDays(Noun):
    """Lengths of the four stages, where the table's are not those of the site."""

    initial: int = Field(ge=1)
    development: int = Field(ge=1)
    mid: int = Field(ge=1)
    late: int = Field(ge=1)


class StageCurve(Noun):
    """FAO-56 crop coefficient curve: four stage lengths and three coefficients."""

    start: dt.date
    initial_days: int = Field(ge=1)
    development_days: int = Field(ge=1)
    mid_days: int = Field(ge=1)
    late_days: int = Field(ge=1)
    kc_initial: Positive
    kc_mid: Positive
    kc_end: Positive
    every_year: bool = True

    @model_validator(mode="after")
    def _fits_a_year(self) -> Self:
        lengths = (self.initial_days, self.development_days, self.mid_days)
        _check_year(sum(lengths) + self.late_days, self.every_year)
        return self


def _check_year(n_days: int, every_year: bool) -> None:
    if every_year and n_days > DAYS_OF_YEAR:
        raise ValueError(
            f"the stages take {n_days} days, and the curve begins anew each year: "
            f"{DAYS_OF_YEAR} at most, or every_year = false"
        )


class Landscape(Noun):
    """Landscape coefficient: a class, or an own number, for each of three factors."""

    species: WaterUse | None = None
    species_factor: float | None = Field(default=None, gt=0, le=1.5)
    density: Level = "average"
    density_factor: float | None = Field(default=None, gt=0, le=2)
    microclimate: Level = "average"
    microclimate_factor: float | None = Field(default=None, gt=0, le=2)

    @model_validator(mode="after")
    def _one_species(self) -> Self:
        if (self.species is None) == (self.species_factor is None):
            raise ValueError("give species or species_factor, one of the two")
        return self


class WeighedUse(Noun):
    """Water that pots lost in a day, by weighing, and the reference ET of that day."""

    daily_loss_ml: Positive
    eto_mm: Positive
    on: dt.date | None = None
    pots_weighed: int | None = Field(default=None, ge=1)


class Plant(Noun):
    """What grows there and how much water it uses, on a stated area."""

    name: str = Field(min_length=1)
    kc: Positive | None = Field(default=None, le=8)
    kc_by_month: Annotated[
        tuple[Positive, ...] | None,
        Field(strict=False, min_length=12, max_length=12),
    ] = None
    stages: StageCurve | None = None
    weighed: WeighedUse | None = None
    crop: str | None = None
    planted: dt.date | None = None
    every_year: bool = True
    stage_days: StageDays | None = None
    turf: Turf | None = None
    landscape: Landscape | None = None
    plant_factor: PlantFactor | None = None
    closure: Closure | None = None
    canopy_closed: PartOf | None = None
    kc_area: Basis
    kc_from: str = ""
    kc_factor: float = Field(default=1.0, ge=0.2, le=3)
    canopy_width_m: Positive | None = None
    height_m: float | None = Field(default=None, gt=0, le=40)
    dual: bool = False
    ground_cover: PartOf | None = None

    @model_validator(mode="before")
    @classmethod
    def _bed_unless_said(cls, given: Any) -> Any:
        """Tables and classes are for the ground: the area need not be written."""
        if not isinstance(given, Mapping) or "kc_area" in given:
            return given
        is_on_bed = any(given.get(one) is not None for one in ON_BED)
        return {**given, "kc_area": "bed"} if is_on_bed else given

    @field_validator("crop")
    @classmethod
    def _known_crop(cls, crop: str | None) -> str | None:
        if crop is None:
            return None
        try:
            return crop_row(crop).crop
        except SchedulerError as unknown:
            raise ValueError(f"{unknown.what}; {unknown.fix}") from None

    @property
    def source(self) -> str:
        """The way in which the use is given."""
        return next((one for one in OWN if getattr(self, one) is not None), "crop")

    @property
    def crop_days(self) -> tuple[int, int, int, int] | None:
        """Lengths of the crop's stages: own ones, else the table's, if it has any."""
        if self.stage_days is not None:
            own = self.stage_days
            return own.initial, own.development, own.mid, own.late
        return None if self.crop is None else crop_row(self.crop).stage_days

    def with_kc(self, kc: object, kc_from: str) -> dict[str, object]:
        """Fields of the same plant with one entered coefficient instead of its own."""
        others = {**dict.fromkeys(OWN), "dual": False, "ground_cover": None}
        others["kc_factor"] = 1.0
        return {**self.model_dump(), **others, "kc": kc, "kc_from": kc_from}

    def times(self, factor: float) -> dict[str, object]:
        """Fields of the same plant with its coefficient times a factor."""
        return {**self.model_dump(), "kc_factor": self.kc_factor * factor}

    @model_validator(mode="after")
    def _one_source(self) -> Self:
        given = [one for one in OWN if getattr(self, one) is not None]
        if len(given) > 1 or (not given and self.crop is None):
            found = f" (found {', '.join(given)})" if given else ""
            raise ValueError(
                "give exactly one of kc, kc_by_month, [zone.plant.stages], "
                "[zone.plant.weighed], crop, turf, [zone.plant.landscape], "
                "plant_factor, closure or canopy_closed"
                f"{found}"
            )
        if self.weighed is not None and self.kc_area != "pot top":
            raise ValueError("[zone.plant.weighed] needs kc_area = 'pot top'")
        if self.source in ON_BED and self.kc_area != "bed":
            raise ValueError(
                f"{self.source} gives a coefficient for the bed: leave out kc_area, or "
                "write kc_area = 'bed'"
            )
        return self

    @model_validator(mode="after")
    def _stages_of_the_crop(self) -> Self:
        if self.crop is None:
            if self.planted is not None or self.stage_days is not None:
                raise ValueError("planted and [zone.plant.stage_days] need crop")
            return self
        if self.source != "crop":
            return self
        lengths = self.crop_days
        if lengths is None:
            if self.planted is not None:
                raise ValueError(
                    f"the table has no stage lengths for {self.crop}: leave out "
                    "planted, or give [zone.plant.stage_days]"
                )
            return self
        if self.planted is None:
            raise ValueError(
                f"{self.crop} goes through stages: give planted, the first day of its "
                "season"
            )
        _check_year(sum(lengths), self.every_year)
        return self

    @model_validator(mode="after")
    def _dual_is_basal(self) -> Self:
        if not self.dual:
            if self.ground_cover is not None:
                raise ValueError("ground_cover needs dual = true")
            return self
        if self.source not in BASAL or self.kc_area != "bed":
            raise ValueError(
                "dual = true needs kc, kc_by_month, [zone.plant.stages] or crop on "
                "kc_area = 'bed': the number entered is then the basal one"
            )
        if self.height_m is None and self.crop is None:
            raise ValueError("dual = true needs height, the plants' height")
        return self
