"""The nouns of water: source and pump, hours, clock, prices, and shortage."""

import datetime as dt
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from scheduler.noun import (
    WEEKDAYS,
    Conductivity,
    Days,
    Interest,
    NotNegative,
    Noun,
    PartOf,
    Positive,
    Price,
    PumpFlow,
    RatePrice,
)


class Supply(Noun):
    """The water source and the pump."""

    source: Literal["well", "pond or river", "bought", "recycled"]
    flow_l_per_min: PumpFlow | None = None
    head_m: Positive | None = None
    pumping_efficiency: PartOf | None = None
    water_ec_ds_per_m: Conductivity | None = None


def minutes_between(start: dt.time, end: dt.time) -> int:
    """Minutes from one time of day to the next other one, past midnight if need be.

    Parameters
    ----------
    start, end : time
        Equal times are a whole day apart.

    Returns
    -------
    int
        1 to 1440. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> minutes_between(dt.time(22), dt.time(4, 30))
    390
    """
    first = start.hour * 60 + start.minute
    return (end.hour * 60 + end.minute - first) % 1440 or 1440


class Window(Noun):
    """Hours in which watering is allowed; may cross midnight."""

    start: dt.time
    end: dt.time
    days: Days = WEEKDAYS

    @property
    def minutes(self) -> int:
        """Minutes from start to end."""
        return minutes_between(self.start, self.end)


class BlockedHours(Noun):
    """Hours in which water must not run, on the calendar days on which they begin."""

    start: dt.time
    end: dt.time
    days: Days = WEEKDAYS
    reason: Literal["spraying", "people", "frost stand-by", "restriction"]
    # none named: all zones
    zones: Annotated[tuple[str, ...], Field(strict=False)] = ()

    @property
    def minutes(self) -> int:
        """Minutes from start to end."""
        return minutes_between(self.start, self.end)


# A watering leaves its place of last week when that saves more than this share of its
# water (a guess: keying in a start costs a minute or two).
MOVE_WORTH = 0.005


class Controller(Noun):
    """What a clock can hold."""

    # what zones name it by; a site's only clock needs none
    id: str = Field(default="", max_length=12)
    name: str = "clock"
    max_starts_per_day: int | None = Field(default=None, ge=1)
    max_valves_at_once: int | None = Field(default=None, ge=1)
    stations: int | None = Field(default=None, ge=1)
    programs: int | None = Field(default=None, ge=1, le=99)
    starts_per_program: int | None = Field(default=None, ge=1, le=99)
    # whether two programs may run at once; else the later one waits for its turn
    programs_overlap: bool | None = None
    percent_step: int = Field(default=1, ge=1, le=50)
    move_worth: float = Field(default=MOVE_WORTH, ge=0, le=1)
    change_over_minutes: int = Field(default=0, ge=0, le=60)
    percent_adjust: int = Field(default=100, ge=1, le=300)


class EnergyPeriod(Noun):
    """Hours in which energy has its own price; may cross midnight."""

    start: dt.time
    end: dt.time
    days: Days = WEEKDAYS
    price_money_per_kwh: Price


class Tariff(Noun):
    """Prices, only those the user entered."""

    currency: str = Field(min_length=1, max_length=8)
    water_price_money_per_m3: Price | None = None
    energy_price_money_per_kwh: Price | None = None
    # hours that have another price than the rest
    period: Annotated[tuple[EnergyPeriod, ...], Field(strict=False)] = ()
    # a month's charge on the pump's power; fewer kWh do not lower it
    demand_price_money_per_kw: RatePrice | None = None
    labour_price_money_per_h: RatePrice | None = None
    nitrogen_price_money_per_kg: RatePrice | None = None
    nitrogen_in_drainage_mg_per_l: NotNegative | None = None
    interest: Interest | None = None
    # how far a price may turn out to be off, as a part of it; 0 takes it as exact
    water_price_within: float = Field(default=0.0, ge=0, le=1)
    energy_price_within: float = Field(default=0.0, ge=0, le=1)


class Shortage(Noun):
    """Less water than the plants ask for: a volume, a cut, or fewer days."""

    volume_m3: NotNegative | None = None
    cut: float | None = Field(default=None, gt=0, le=1)
    days: Annotated[Days | None, Field(min_length=1)] = None
    start: dt.date | None = None
    end: dt.date | None = None
    reason: str = ""

    @model_validator(mode="after")
    def _says_what(self) -> Self:
        if self.volume_m3 is not None and self.cut is not None:
            raise ValueError(
                "give volume (of a week) or cut (part of the plan), not both"
            )
        if self.volume_m3 is None and self.cut is None and self.days is None:
            raise ValueError("give volume (of a week), cut (0 to 1) or days")
        if self.start and self.end and self.end < self.start:
            raise ValueError("the shortage ends before it starts")
        return self

    def is_on(self, day: dt.date) -> bool:
        """Whether it is in force on that day."""
        return (self.start or day) <= day <= (self.end or day)
