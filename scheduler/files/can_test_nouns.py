"""What a test.toml may hold, as nouns; used by `can_tests` only."""

import datetime as dt
from typing import Annotated

from pydantic import Field

from scheduler.field.mixed_units import SmallUnit
from scheduler.files.messy.choices import Choices, Decimal, Labels, Total
from scheduler.record import HeadPlace
from scheduler.site import HeadSpacing, NotNegative, Noun, PartOf, Positive


class Head(Noun):
    """The keys at the top of a test.toml."""

    zone: str = Field(min_length=1)
    date: dt.date
    condition: str = Field(default="as found", min_length=1)
    package: Annotated[str | None, Field(min_length=1)] = None
    note: str = ""


class Can(Noun):
    """The can: mouth as inside diameter or as area, unit of the readings, size."""

    unit: str = Field(min_length=1)
    # wider than any can: a diameter in millimetres under a key that ends in _in
    mouth_mm: Annotated[float | None, Field(gt=0, le=508)] = None
    mouth_area_cm2: Positive | None = None
    capacity_ml: Positive | None = None


class Layout(Noun):
    """How the cans stood on the ground; heads and edges are read beside it."""

    can_spacing_m: HeadSpacing | None = None
    row_spacing_m: HeadSpacing | None = None
    row_bearing_deg: Annotated[float | None, Field(ge=0, le=360)] = None


class Run(Noun):
    """One run: its table, start and length, pressure and wind."""

    file: str = Field(min_length=1)
    start: dt.datetime | None = None
    minutes: Annotated[float | None, Field(gt=0, le=1440)] = None
    pressure_kpa: Positive | None = None
    wind_m_per_s: NotNegative | None = None
    # how an untidy table is to be read, where it can be read in two ways
    sheet: Annotated[str | None, Field(min_length=1)] = None
    column: Annotated[str | None, Field(min_length=1)] = None
    decimal: Decimal | None = None
    total: Total | None = None
    labels: Labels | None = None
    mixed: SmallUnit | None = None

    @property
    def choices(self) -> Choices:
        """What the run says about its table."""
        return Choices(
            self.sheet,
            self.decimal,
            self.total,
            self.column,
            self.labels,
            self.mixed,
            as_keys=True,
        )


class Exclude(Noun):
    """One can left out, with its reason."""

    can: str = Field(min_length=1)
    reason: str = Field(min_length=1)


class Stated(Noun):
    """A result reported without its readings."""

    du_lq: PartOf
    net_rate_mm_per_h: Positive | None = None
    source: str = Field(min_length=1)


# wider than any gauge: a slip of unit or of a digit
Gauge = Annotated[float, Field(gt=0, le=3500)]


class AtHead(Noun):
    """Which head, and in which run."""

    head: Annotated[str | None, Field(min_length=1)] = None
    place: HeadPlace = "head"
    row: int | None = Field(default=None, ge=1)
    column: int | None = Field(default=None, ge=1)
    run: Annotated[str | None, Field(min_length=1)] = None

    @property
    def name(self) -> str:
        """The head as findings name it."""
        if self.head is not None:
            return f"head {self.head}"
        if self.row is not None or self.column is not None:
            parts = (("row", self.row), ("column", self.column))
            return "head in " + ", ".join(f"{a} {b}" for a, b in parts if b is not None)
        if self.place in ("first", "middle", "last", "highest", "lowest"):
            return f"{self.place} head"
        return self.place if self.place != "head" else "a head"


class Pressure(AtHead):
    """One gauge reading."""

    pressure_kpa: Gauge
    is_static: bool = False
    rise_m: float | None = Field(default=None, ge=-300, le=300)


class Flow(AtHead):
    """One bucket test."""

    volume_l: Positive
    seconds: float = Field(gt=0, le=3600)
    pressure_kpa: Gauge | None = None
    new_flow_l_per_min: Positive | None = None
    new_pressure_kpa: Gauge | None = None
    nozzle_mm: Annotated[float | None, Field(gt=0, le=100)] = None


class Meter(Noun):
    """The meter card: dial before and after, unit, multiplier, digits."""

    start: NotNegative
    stop: NotNegative
    unit: str = Field(min_length=1)
    multiplier: Positive | None = None
    digits: int | None = Field(default=None, ge=2, le=12)
    minutes: Annotated[float | None, Field(gt=0, le=1440)] = None
    other_zones: Annotated[tuple[str, ...], Field(strict=False)] = ()
    run: Annotated[str | None, Field(min_length=1)] = None
