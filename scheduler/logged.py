"""The nouns of files that stations and loggers write: weather and wind."""

import datetime as dt
import re
from typing import Annotated, Literal, Self

from pydantic import Field, field_validator, model_validator

from scheduler.noun import NotNegative, Noun, Positive

DateOrder = Literal["year-month-day", "day-month-year", "month-day-year"]
_OFFSET = re.compile(r"[+-](0\d|1[0-4]):[0-5]\d$")


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
    # of the ET that the file itself reports; None goes by the name of its column
    reference: Literal["grass", "alfalfa"] | None = None
    alfalfa_over_grass: Annotated[float | None, Field(ge=1, le=2)] = None
    is_forecast: bool = False
    issued: dt.date | None = None

    @model_validator(mode="after")
    def _forecast_is_dated(self) -> Self:
        if self.is_forecast and self.issued is None:
            raise ValueError("is_forecast = true needs issued, the day it was made")
        if self.issued is not None and not self.is_forecast:
            raise ValueError("issued belongs to a forecast: add is_forecast = true")
        if self.is_forecast and self.is_typical_year:
            raise ValueError("a forecast is no typical year: take one of the two out")
        return self

    @model_validator(mode="after")
    def _ratio_is_of_alfalfa(self) -> Self:
        if self.alfalfa_over_grass is not None and self.reference == "grass":
            raise ValueError("alfalfa_over_grass is for reference = 'alfalfa'")
        return self


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
