"""The nouns of a site: place, zones, packages, plants, ground, pots, water, prices.

All numbers are SI-style; `scheduler.files` converts what people write. Optional
numbers are things a user may not know; whoever needs one says what it assumes instead.
"""

import datetime as dt
from typing import Annotated, Literal, Self

import numpy as np
from pydantic import Field, model_validator

from scheduler.arrays import BoolArray, DateArray
from scheduler.growing import (
    GreenAmptIntake,
    HortonIntake,
    Intake,
    KostiakovIntake,
    PlantGroup,
    PotMove,
    Pots,
    Soil,
    Texture,
)
from scheduler.logged import DateOrder, Station, WindFile
from scheduler.noun import (
    WEEKDAYS,
    Days,
    Fraction,
    NotNegative,
    Noun,
    PartOf,
    Positive,
    Weekday,
)
from scheduler.option import Option
from scheduler.plant import (
    Basis,
    Landscape,
    Plant,
    StageCurve,
    StageDays,
    WeighedUse,
)
from scheduler.supply import (
    BlockedHours,
    Controller,
    EnergyPeriod,
    Shortage,
    Supply,
    Tariff,
    Window,
)
from scheduler.units import System

# the nouns of growing, logs and water are nouns of the site: one import brings all
__all__ = [
    "FORMAT",
    "RULES",
    "WEEKDAYS",
    "AsFound",
    "Basis",
    "BlockedHours",
    "Controller",
    "DateOrder",
    "EnergyPeriod",
    "GreenAmptIntake",
    "HortonIntake",
    "Intake",
    "KostiakovIntake",
    "Landscape",
    "NotNegative",
    "Noun",
    "Option",
    "Package",
    "PartOf",
    "Place",
    "Plant",
    "PlantGroup",
    "Positive",
    "PotMove",
    "Pots",
    "Rule",
    "Shortage",
    "Site",
    "Soil",
    "StageCurve",
    "StageDays",
    "Station",
    "Supply",
    "Tariff",
    "Texture",
    "Watered",
    "Weekday",
    "WeighedUse",
    "WindFile",
    "Window",
    "Zone",
]  # fmt: skip

FORMAT = 1

Rule = Literal[
    "average", "low half", "low quarter", "share served", "low quarter, leached"
]
# The four that need nothing but the catch; the leached one needs salt as well.
RULES: tuple[Rule, ...] = ("average", "low half", "low quarter", "share served")
Watered = Literal["when due", "every allowed day", "fixed minutes", "off"]


# outside these no sprinklers stand: a slip of unit or of a digit
HeadSpacing = Annotated[float, Field(ge=0.1, le=500)]


class Place(Noun):
    """Where the site is, for day length and the sun's path."""

    latitude_deg: float = Field(ge=-66, le=66)
    longitude_deg: float = Field(ge=-180, le=180)
    elevation_m: float = Field(ge=-430, le=5000)
    time_zone: str = Field(min_length=1)
    is_coastal: bool = False
    is_arid: bool = False


class ProfileFile(Noun):
    """One sprinkler's legs of cans: the file, and what turns readings into rates."""

    file: str = Field(min_length=1)
    # wider than any can: a diameter in millimetres under a key that ends in _in
    mouth_mm: Annotated[float | None, Field(gt=0, le=508)] = None
    minutes: Annotated[float | None, Field(gt=0, le=1440)] = None
    throw_m: HeadSpacing | None = None


class Package(Noun):
    """Head, nozzle, pressure and spacing that belong together."""

    id: str = Field(min_length=1)
    name: str = ""
    nozzle_flow_l_per_min: Positive | None = None
    pressure_kpa: Positive | None = None
    regulator_kpa: Positive | None = None
    lowest_pressure_kpa: Positive | None = None
    highest_pressure_kpa: Positive | None = None
    spacing_m: HeadSpacing | None = None
    row_spacing_m: HeadSpacing | None = None
    layout: Literal["square", "rectangular", "triangular"] = "square"
    profile: ProfileFile | None = None

    @model_validator(mode="after")
    def _range_in_order(self) -> Self:
        low, high = self.lowest_pressure_kpa, self.highest_pressure_kpa
        if low is not None and high is not None and low >= high:
            raise ValueError("lowest_pressure must be below highest_pressure")
        return self

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
    # a part-circle head counts by its share of a full circle
    heads: Positive | None = None
    package: str | None = None
    grown_in: Literal["soil", "pots"]
    watered: Watered = "when due"
    days: Days = WEEKDAYS
    rule: Rule | None = None
    share_served: float = Field(default=0.9, gt=0, lt=1)
    fixed_minutes: Positive | None = None
    fixed_reason: str = ""
    # zones that must not run at the same time
    not_with: Annotated[tuple[str, ...], Field(strict=False)] = ()
    rain_counted: Fraction | None = None
    structure_factor: float = Field(default=1.0, gt=0, le=1.5)
    start_depletion_mm: NotNegative | None = None
    assumed_du_lq: PartOf | None = None
    assumed_net_rate_mm_per_h: Positive | None = None
    plant: Plant | None = None
    pots: Pots | None = None
    soil: Soil | None = None
    group: Annotated[tuple[PlantGroup, ...], Field(strict=False)] = ()
    group_rules: str = "thirstiest"
    # when water is short: 1 keeps its water longest, 9 gives it up first
    priority: int = Field(default=5, ge=1, le=9)
    intake: Intake = Intake()
    as_found: AsFound | None = None
    # id of the clock that opens the valve, and the number of its terminal
    controller: str | None = None
    station: int | None = Field(default=None, ge=1, le=999)
    # watered by hand because the sprinklers leave dry spots
    hand_watering_hours_a_week: NotNegative | None = None
    # ids it had before: tests, log and issued weeks that name one are its own
    formerly: Annotated[tuple[str, ...], Field(strict=False)] = ()

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
        plants = ((self.plant, self.pots), *((g.plant, g.pots) for g in self.group))
        if any(one and one.weighed and not (p or self.pots) for one, p in plants):
            raise ValueError("weighed use needs [zone.pots]")
        self._check_groups()
        if self.grown_in == "pots" and self.rule == "low quarter, leached":
            raise ValueError(
                "rule 'low quarter, leached' is for soil; pots have leaching_target"
            )
        return self

    def _check_groups(self) -> None:
        if self.group and self.plant is None:
            raise ValueError(
                "[[zone.group]] holds more plants: give [zone.plant] first"
            )
        names = [self.plant.name if self.plant else "", *(g.name for g in self.group)]
        if len({one.casefold() for one in names}) < len(names):
            raise ValueError(
                "each [[zone.group]] and the plant need a name of their own"
            )
        if self.grown_in == "soil" and any(one.pots for one in self.group):
            raise ValueError("grown_in = 'soil' has no pots in a [[zone.group]]")
        if self.group_rules not in ("thirstiest", *names):
            raise ValueError(
                f'group_rules is "{self.group_rules}": write thirstiest, or one of '
                + ", ".join(names)
            )

    @model_validator(mode="after")
    def _dual_in_soil(self) -> Self:
        plants = (self.plant, *(one.plant for one in self.group))
        if self.soil is None and any(one.dual for one in plants if one):
            raise ValueError(
                "dual = true is for beds in soil: give [zone.soil], or leave out dual"
            )
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
    options: Annotated[tuple[Option, ...], Field(strict=False)] = ()
    stations: Annotated[tuple[Station, ...], Field(strict=False)] = ()
    wind_logs: Annotated[tuple[WindFile, ...], Field(strict=False)] = ()
    windows: Annotated[tuple[Window, ...], Field(strict=False)] = ()
    blocked_hours: Annotated[tuple[BlockedHours, ...], Field(strict=False)] = ()
    supply: Supply | None = None
    controller: Controller = Controller()
    # further clocks, where there are several
    more_controllers: Annotated[tuple[Controller, ...], Field(strict=False)] = ()
    tariff: Tariff | None = None
    shortage: Shortage | None = None
    demand_from: Literal["week ahead", "last week"] = "week ahead"
    rounding: Literal["nearest", "up"] = "nearest"
    test_every_months: int = Field(default=12, ge=1)
    learn: bool = True
    pinned_today: dt.date | None = None
    # of the papers that people at the clock and in the yard read
    language: Literal["en", "es"] = "en"
    note: str = ""

    def zone(self, zone_id: str) -> Zone | None:
        """Zone with that id (any case), or None."""
        wanted = zone_id.casefold()
        return next((z for z in self.zones if z.id.casefold() == wanted), None)

    @property
    def controllers(self) -> tuple[Controller, ...]:
        """Every clock, in the order of site.toml."""
        return (self.controller, *self.more_controllers)

    def controller_of(self, zone: Zone) -> Controller:
        """Clock that the zone names; the first where it names none that is there."""
        wanted = (zone.controller or "").casefold()
        found = (one for one in self.controllers if one.id.casefold() == wanted)
        return next(found, self.controller)

    def package_of(self, zone: Zone) -> Package | None:
        """Package that the zone names, or None."""
        return self.package(zone.package)

    def package(self, package_id: str | None) -> Package | None:
        """Package with that id, or None."""
        return next((p for p in self.packages if p.id == package_id), None)


def open_nights(site: Site, zone: Zone, dates: DateArray) -> BoolArray:
    """Nights on which the zone, a window and any restriction allow watering.

    Parameters
    ----------
    site : Site
        For the windows.
    zone : Zone
        For its own days.
    dates : array of shape (n_days,)
        Days on whose evening a night begins. [datetime64[D]]

    Returns
    -------
    array of shape (n_days,)
        True where watering may begin.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import numpy as np
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> site = Site(name="Tern Hollow", units="us", place=place)
    >>> zone = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", watered="off",
    ...             days=("mon",))
    >>> open_nights(site, zone, np.array(["2026-06-08"], "datetime64[D]")).tolist()
    [True]
    """
    open_days = {day for window in site.windows for day in window.days}
    allowed = set(zone.days) & (open_days or set(WEEKDAYS))
    days: list[dt.date] = dates.astype("datetime64[D]").tolist()
    short = site.shortage

    def is_open(day: dt.date) -> bool:
        name = WEEKDAYS[day.weekday()]
        if short is not None and short.days is not None and short.is_on(day):
            return name in allowed and name in short.days
        return name in allowed

    return np.array([is_open(day) for day in days], dtype=bool)
