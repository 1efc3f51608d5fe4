"""The nouns of growing: pots, soil, and how the ground takes in water."""

import datetime as dt
from typing import Annotated, Literal, Self

from pydantic import Field, field_validator, model_validator

from scheduler.errors import SchedulerError
from scheduler.noun import (
    Conductivity,
    Fraction,
    NotNegative,
    Noun,
    PartOf,
    Positive,
)
from scheduler.plant import Plant
from scheduler.tables.salt import salt_row

Texture = Literal[
    "sand", "loamy sand", "sandy loam", "loam", "silt loam", "sandy clay loam",
    "clay loam", "silty clay loam", "sandy clay", "silty clay", "clay",
]  # fmt: skip


Pattern = Literal["square", "offset"]


class _Standing(Noun):
    """How pots stand: from centre to centre, or rim to rim."""

    spacing_m: Positive | None = None
    row_spacing_m: Positive | None = None
    gap_m: NotNegative | None = None
    pattern: Pattern = "square"

    @model_validator(mode="after")
    def _one_spacing(self) -> Self:
        if self.gap_m is not None and self.spacing_m is not None:
            raise ValueError(
                "give spacing (centre to centre) or gap (rim to rim), not both"
            )
        if self.row_spacing_m is not None and self.spacing_m is None:
            raise ValueError("row_spacing needs spacing beside it")
        return self


class PotMove(_Standing):
    """Pots moved apart or together on a day, and how they stand since."""

    on: dt.date

    @model_validator(mode="after")
    def _is_whole(self) -> Self:
        if self.spacing_m is None and self.gap_m is None:
            raise ValueError("give the new spacing or gap")
        return self


class Pots(_Standing):
    """Containers: their top, how far apart they stand, and what they hold."""

    # outside these no pot stands on a bed: a slip of unit or of a digit
    top_diameter_mm: float = Field(ge=10, le=5000)
    moved: Annotated[tuple[PotMove, ...], Field(strict=False)] = ()
    canopy: Literal["none", "upright", "rounded", "spreading"] | None = None
    capture_factor: float | None = Field(default=None, ge=0.1, le=6)
    available_water_ml: Positive | None = None
    substrate_volume_ml: Positive | None = None
    container_capacity: PartOf | None = None
    unavailable_water: PartOf | None = None
    allowed_depletion: PartOf | None = None
    leachate_ec_ds_per_m: Conductivity | None = None
    leaching_target: float | None = Field(default=None, ge=0, le=0.5)

    @model_validator(mode="after")
    def _one_move_a_day(self) -> Self:
        days = [one.on for one in self.moved]
        twice = next((day for day in days if days.count(day) > 1), None)
        if twice is not None:
            raise ValueError(
                f"pots are moved twice on {twice}: keep the one after which they stood"
            )
        return self

    @model_validator(mode="after")
    def _one_leaching_target(self) -> Self:
        if self.leachate_ec_ds_per_m is not None and self.leaching_target is not None:
            raise ValueError("give leaching_target or leachate_ec, not both")
        return self

    @model_validator(mode="after")
    def _capacity_above_unavailable(self) -> Self:
        cc, gone = self.container_capacity, self.unavailable_water
        if cc is not None and gone is not None and gone >= cc:
            raise ValueError("unavailable_water must be below container_capacity")
        return self


class PlantGroup(Noun):
    """More plants under the same valve; pots as the zone's own if none are given."""

    name: str = Field(min_length=1)
    plant: Plant
    pots: Pots | None = None


class Soil(Noun):
    """Field soil: texture or own numbers, roots, slope and cover."""

    texture: Texture | None = None
    field_capacity: PartOf | None = None
    wilting_point: PartOf | None = None
    # outside these no roots that sprinklers water: a slip of unit or of a digit
    root_depth_m: float | None = Field(default=None, ge=0.01, le=5)
    root_spread_m: float | None = Field(default=None, gt=0, le=50)
    allowed_depletion: PartOf | None = None
    readily_evaporable_mm: float | None = Field(default=None, ge=1, le=30)
    slope: Fraction | None = None
    cover: Literal["cover", "bare"] = "bare"
    target_ec_ds_per_m: Conductivity | None = None
    salt_crop: str | None = None

    @field_validator("salt_crop")
    @classmethod
    def _known_salt_crop(cls, crop: str | None) -> str | None:
        if crop is None:
            return None
        try:
            return salt_row(crop)["crop"]
        except SchedulerError as unknown:
            raise ValueError(f"{unknown.what}; {unknown.fix}") from None

    @model_validator(mode="after")
    def _one_target_ec(self) -> Self:
        if self.target_ec_ds_per_m is not None and self.salt_crop is not None:
            raise ValueError("give target_ec or salt_crop, not both")
        return self

    @model_validator(mode="after")
    def _water_is_known(self) -> Self:
        own = (self.field_capacity, self.wilting_point)
        if self.texture is None and None in own:
            raise ValueError("give texture, or field_capacity and wilting_point")
        if own[0] is not None and own[1] is not None and own[1] >= own[0]:
            raise ValueError("wilting_point must be below field_capacity")
        return self


# the families whose constants are known here, none of them verified
INTAKE_FAMILIES = (0.1, 0.5, 1.0)


class HortonIntake(Noun):
    """Horton's intake: first rate, last rate, and how fast it falls."""

    initial_mm_per_h: Positive
    final_mm_per_h: Positive
    decay_per_h: Positive

    @model_validator(mode="after")
    def _falls(self) -> Self:
        if self.final_mm_per_h >= self.initial_mm_per_h:
            raise ValueError("the final rate must be below the initial one")
        return self


class GreenAmptIntake(Noun):
    """Green-Ampt intake; what is left out comes from the texture."""

    conductivity_mm_per_h: Positive | None = None
    suction_mm: Positive | None = None
    moisture_deficit: PartOf | None = None


class KostiakovIntake(Noun):
    """Kostiakov's intake: depth of the first hour, exponent, and a steady part."""

    first_hour_mm: Positive
    exponent: float = Field(gt=0, lt=1)
    steady_mm_per_h: NotNegative = 0.0


class Intake(Noun):
    """What the ground or the substrate takes in, as far as it is known."""

    first_runoff_min: Positive | None = None
    intake_mm_per_h: Positive | None = None
    horton: HortonIntake | None = None
    green_ampt: GreenAmptIntake | None = None
    kostiakov: KostiakovIntake | None = None
    family: float | None = None
    surface_storage_mm: NotNegative | None = None
    min_soak_min: NotNegative | None = None
    least_cycles: int = Field(default=1, ge=1, le=20)
    wet_share: float = Field(default=0.25, gt=0, lt=1)

    @field_validator("family")
    @classmethod
    def _known_family(cls, family: float | None) -> float | None:
        if family not in (None, *INTAKE_FAMILIES):
            known = ", ".join(f"{one:g}" for one in INTAKE_FAMILIES)
            raise ValueError(f"{family:g} is no intake family held here: {known}")
        return family

    @model_validator(mode="after")
    def _one_model(self) -> Self:
        curves = (self.horton, self.green_ampt, self.kostiakov, self.family)
        models = (self.first_runoff_min, self.intake_mm_per_h, *curves)
        if sum(one is not None for one in models) > 1:
            raise ValueError(
                "give one of first_runoff_min, intake_mm_per_h, family, [horton], "
                "[green_ampt] or [kostiakov], not several"
            )
        if self.surface_storage_mm is not None and not any(
            one is not None for one in models[1:]
        ):
            raise ValueError(
                "surface_storage_mm needs intake_mm_per_h or an intake curve beside it"
            )
        return self
