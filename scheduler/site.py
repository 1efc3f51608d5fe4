"""The nouns of a site: place, zones, packages, plants, ground, pots, water, prices.

All numbers are SI-style; `scheduler.files` converts what people write. Optional
numbers are things a user may not know; whoever needs one says what it assumes instead.
"""

import datetime as dt
import re
from typing import Annotated, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, field_validator, model_validator

from scheduler.units import System

FORMAT = 1

Weekday = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
WEEKDAYS: tuple[Weekday, ...] = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
Basis = Literal["bed", "canopy", "pot top"]
Rule = Literal["average", "low half", "low quarter", "share served"]
RULES: tuple[Rule, ...] = ("average", "low half", "low quarter", "share served")
Watered = Literal["when due", "every allowed day", "fixed minutes", "off"]
Texture = Literal[
    "sand", "loamy sand", "sandy loam", "loam", "silt loam", "sandy clay loam",
    "clay loam", "silty clay loam", "sandy clay", "silty clay", "clay",
]  # fmt: skip

DateOrder = Literal["year-month-day", "day-month-year", "month-day-year"]
_OFFSET = re.compile(r"[+-](0\d|1[0-4]):[0-5]\d$")

Positive = Annotated[float, Field(gt=0)]
NotNegative = Annotated[float, Field(ge=0)]
Fraction = Annotated[float, Field(ge=0, le=1)]
PartOf = Annotated[float, Field(gt=0, le=1)]
Days = Annotated[tuple[Weekday, ...], Field(strict=False, min_length=1)]


# outside these no sprinklers stand: a slip of unit or of a digit
HeadSpacing = Annotated[float, Field(ge=0.1, le=500)]


class Noun(BaseModel):
    """A noun of the site: frozen, strict, finite, and no key it does not know."""

    model_config = ConfigDict(
        frozen=True, strict=True, extra="forbid", allow_inf_nan=False
    )


class Place(Noun):
    """Where the site is, for day length and the sun's path."""

    latitude_deg: float = Field(ge=-66, le=66)
    longitude_deg: float = Field(ge=-180, le=180)
    elevation_m: float = Field(ge=-430, le=5000)
    time_zone: str = Field(min_length=1)
    is_coastal: bool = False
    is_arid: bool = False


class Station(Noun):
    """One weather file and what a reader must know of it."""

    name: str = Field(min_length=1)
    file: str = Field(min_length=1)
    is_typical_year: bool = False
    wind_height_m: Positive | None = None
    date_order: DateOrder = "year-month-day"
    distance_km: NotNegative | None = None
    latitude_deg: float | None = Field(default=None, ge=-66, le=66)
    elevation_m: float | None = Field(default=None, ge=-430, le=5000)


class WindFile(Noun):
    """One wind logger's file and what a reader must know of it."""

    name: str = Field(min_length=1)
    file: str = Field(min_length=1)
    clock: str = Field(min_length=1)
    stamp: Literal["start", "end"]
    interval_min: Annotated[float | None, Field(gt=0, le=1440)] = None
    height_m: Positive | None = Field(default=None, le=200)
    date_order: DateOrder = "year-month-day"
    clock_is_confirmed: bool = False

    @field_validator("clock")
    @classmethod
    def _known_clock(cls, clock: str) -> str:
        if clock not in ("local", "standard", "utc") and not _OFFSET.match(clock):
            raise ValueError(
                f'"{clock}" is no clock: local, standard (local without daylight time),'
                " utc, or an offset such as +01:00"
            )
        return clock


class Supply(Noun):
    """The water source and the pump."""

    source: Literal["well", "pond or river", "bought", "recycled"]
    flow_l_per_min: Positive | None = None
    head_m: Positive | None = None
    pumping_efficiency: PartOf | None = None


class Window(Noun):
    """Hours in which watering is allowed; may cross midnight."""

    start: dt.time
    end: dt.time
    days: Days = WEEKDAYS

    @property
    def minutes(self) -> int:
        """Minutes from start to end."""
        start = self.start.hour * 60 + self.start.minute
        end = self.end.hour * 60 + self.end.minute
        return (end - start) % 1440 or 1440


class Controller(Noun):
    """What the clock can hold."""

    name: str = "clock"
    max_starts_per_day: int | None = Field(default=None, ge=1)
    max_valves_at_once: int | None = Field(default=None, ge=1)
    percent_adjust: int = Field(default=100, ge=1, le=300)


class Tariff(Noun):
    """Prices, only those the user entered."""

    currency: str = Field(min_length=1, max_length=8)
    water_price_money_per_m3: NotNegative | None = None
    energy_price_money_per_kwh: NotNegative | None = None


class Package(Noun):
    """Head, nozzle, pressure and spacing that belong together."""

    id: str = Field(min_length=1)
    name: str = ""
    nozzle_flow_l_per_min: Positive | None = None
    pressure_kpa: Positive | None = None
    regulator_kpa: Positive | None = None
    spacing_m: HeadSpacing | None = None
    row_spacing_m: HeadSpacing | None = None
    layout: Literal["square", "rectangular", "triangular"] = "square"

    @property
    def area_per_head_m2(self) -> float | None:
        """Ground that one head waters: spacing times row spacing."""
        if self.spacing_m is None:
            return None
        # triangular layouts: the row spacing is what was entered, or the
        # equilateral one (sqrt(3)/2 of the spacing along the row)
        rows = self.row_spacing_m or (
            self.spacing_m * (3**0.5 / 2 if self.layout == "triangular" else 1.0)
        )
        return self.spacing_m * rows


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


class Plant(Noun):
    """What grows there and how much water it uses, on a stated area."""

    name: str = Field(min_length=1)
    kc: Positive | None = Field(default=None, le=8)
    kc_by_month: Annotated[
        tuple[Positive, ...] | None,
        Field(strict=False, min_length=12, max_length=12),
    ] = None
    stages: StageCurve | None = None
    kc_area: Basis
    kc_from: str = ""
    canopy_width_m: Positive | None = None

    @model_validator(mode="after")
    def _one_kc(self) -> Self:
        given = [self.kc, self.kc_by_month, self.stages]
        if sum(one is not None for one in given) != 1:
            raise ValueError(
                "give exactly one of kc, kc_by_month or [zone.plant.stages]"
            )
        return self


class Pots(Noun):
    """Containers: their top, how far apart they stand, and what they hold."""

    # outside these no pot stands on a bed: a slip of unit or of a digit
    top_diameter_mm: float = Field(ge=10, le=5000)
    spacing_m: Positive | None = None
    row_spacing_m: Positive | None = None
    pattern: Literal["square", "offset"] = "square"
    capture_factor: float | None = Field(default=None, ge=0.1, le=6)
    available_water_ml: Positive | None = None
    substrate_volume_ml: Positive | None = None
    container_capacity: PartOf | None = None
    unavailable_water: PartOf | None = None
    allowed_depletion: PartOf | None = None

    @model_validator(mode="after")
    def _capacity_above_unavailable(self) -> Self:
        cc, gone = self.container_capacity, self.unavailable_water
        if cc is not None and gone is not None and gone >= cc:
            raise ValueError("unavailable_water must be below container_capacity")
        return self


class Soil(Noun):
    """Field soil: texture or own numbers, roots, slope and cover."""

    texture: Texture | None = None
    field_capacity: PartOf | None = None
    wilting_point: PartOf | None = None
    root_depth_m: Positive | None = None
    allowed_depletion: PartOf | None = None
    slope: Fraction | None = None
    cover: Literal["cover", "bare"] = "bare"

    @model_validator(mode="after")
    def _water_is_known(self) -> Self:
        own = (self.field_capacity, self.wilting_point)
        if self.texture is None and None in own:
            raise ValueError("give texture, or field_capacity and wilting_point")
        if own[0] is not None and own[1] is not None and own[1] >= own[0]:
            raise ValueError("wilting_point must be below field_capacity")
        return self


class Intake(Noun):
    """What the ground or the substrate takes in, as far as it is known."""

    first_runoff_min: Positive | None = None
    intake_mm_per_h: Positive | None = None
    surface_storage_mm: NotNegative | None = None
    min_soak_min: NotNegative | None = None
    wet_share: float = Field(default=0.25, gt=0, lt=1)

    @model_validator(mode="after")
    def _one_model(self) -> Self:
        if self.first_runoff_min is not None and self.intake_mm_per_h is not None:
            raise ValueError("give first_runoff_min or intake_mm_per_h, not both")
        if self.surface_storage_mm is not None and self.intake_mm_per_h is None:
            raise ValueError("surface_storage_mm needs intake_mm_per_h beside it")
        return self


class AsFound(Noun):
    """What the clock was set to before anybody changed it."""

    minutes: NotNegative
    days: Days = WEEKDAYS
    cycles: int = Field(default=1, ge=1)


class Zone(Noun):
    """One zone: the valve, its ground, its plants and how it is watered."""

    id: str = Field(min_length=1, max_length=12)
    name: str = Field(min_length=1)
    valve: str = ""
    area_m2: Positive
    package: str | None = None
    grown_in: Literal["soil", "pots"]
    watered: Watered = "when due"
    days: Days = WEEKDAYS
    rule: Rule | None = None
    share_served: float = Field(default=0.9, gt=0, lt=1)
    fixed_minutes: Positive | None = None
    fixed_reason: str = ""
    rain_counted: Fraction | None = None
    structure_factor: float = Field(default=1.0, gt=0, le=1.5)
    start_depletion_mm: NotNegative | None = None
    assumed_du_lq: PartOf | None = None
    assumed_net_rate_mm_per_h: Positive | None = None
    plant: Plant | None = None
    pots: Pots | None = None
    soil: Soil | None = None
    intake: Intake = Intake()
    as_found: AsFound | None = None

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if self.watered == "fixed minutes" and self.fixed_minutes is None:
            raise ValueError("watered = 'fixed minutes' needs fixed_minutes")
        if self.fixed_minutes is not None and self.watered != "fixed minutes":
            raise ValueError("fixed_minutes needs watered = 'fixed minutes'")
        if self.watered in ("when due", "every allowed day") and self.plant is None:
            raise ValueError("give [zone.plant], or watered = 'fixed minutes' or 'off'")
        if self.grown_in == "pots" and self.soil is not None:
            raise ValueError("pots are not soil: give [zone.pots], not [zone.soil]")
        if self.grown_in == "soil" and self.pots is not None:
            raise ValueError("grown_in = 'soil' has no [zone.pots]")
        return self

    @property
    def chosen_rule(self) -> Rule:
        """The run-time rule: as entered, else low half in soil, low quarter in pots."""
        if self.rule is not None:
            return self.rule
        return "low quarter" if self.grown_in == "pots" else "low half"


class Site(Noun):
    """Everything a site folder says about what the site is."""

    name: str = Field(min_length=1)
    units: System
    place: Place
    zones: Annotated[tuple[Zone, ...], Field(strict=False)] = ()
    packages: Annotated[tuple[Package, ...], Field(strict=False)] = ()
    stations: Annotated[tuple[Station, ...], Field(strict=False)] = ()
    wind_logs: Annotated[tuple[WindFile, ...], Field(strict=False)] = ()
    windows: Annotated[tuple[Window, ...], Field(strict=False)] = ()
    supply: Supply | None = None
    controller: Controller = Controller()
    tariff: Tariff | None = None
    demand_from: Literal["week ahead", "last week"] = "week ahead"
    rounding: Literal["nearest", "up"] = "nearest"
    test_every_months: int = Field(default=12, ge=1)
    pinned_today: dt.date | None = None
    note: str = ""

    def zone(self, zone_id: str) -> Zone | None:
        """Zone with that id (any case), or None."""
        wanted = zone_id.casefold()
        return next((z for z in self.zones if z.id.casefold() == wanted), None)

    def package_of(self, zone: Zone) -> Package | None:
        """Package that the zone names, or None."""
        return self.package(zone.package)

    def package(self, package_id: str | None) -> Package | None:
        """Package with that id, or None."""
        return next((p for p in self.packages if p.id == package_id), None)
