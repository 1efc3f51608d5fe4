"""What a test.toml may hold, as nouns; used by `can_tests` only."""

import datetime as dt
from typing import Annotated

from pydantic import Field

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


class Exclude(Noun):
    """One can left out, with its reason."""

    can: str = Field(min_length=1)
    reason: str = Field(min_length=1)


class Stated(Noun):
    """A result reported without its readings."""

    du_lq: PartOf
    net_rate_mm_per_h: Positive | None = None
    source: str = Field(min_length=1)
