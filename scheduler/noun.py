"""What every noun of a site shares: frozen, strict, finite; and numbers with bounds."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Weekday = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
WEEKDAYS: tuple[Weekday, ...] = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
Positive = Annotated[float, Field(gt=0)]
NotNegative = Annotated[float, Field(ge=0)]
Fraction = Annotated[float, Field(ge=0, le=1)]
PartOf = Annotated[float, Field(gt=0, le=1)]
# No piped water is purer than 0.005 dS/m, none that waters plants is above 20: a slip
# between uS/cm and mS/cm (common practice, no source)
Conductivity = Annotated[float, Field(ge=0.005, le=20)]
# A million of the weakest currencies buy one US dollar (from memory, no source): a
# price a hundred times above any in use is a slip
MOST_PRICE_MONEY = 1e8  # of a cubic metre, a kWh
MOST_RATE_MONEY = 1e9  # of an hour, a kilogram, a kW, a metre of pipe
MOST_SUM_MONEY = 1e13
Price = Annotated[float, Field(ge=0, le=MOST_PRICE_MONEY)]
RatePrice = Annotated[float, Field(ge=0, le=MOST_RATE_MONEY)]
Sum = Annotated[float, Field(ge=0, le=MOST_SUM_MONEY)]
SignedSum = Annotated[float, Field(ge=-MOST_SUM_MONEY, le=MOST_SUM_MONEY)]
# beyond inflation, for prices here stay as they are; more than half is a percentage
# written as a part (common practice, no source)
MOST_INTEREST = 0.5
Interest = Annotated[float, Field(ge=0, le=MOST_INTEREST)]
# nothing buried or bolted is written off over more (common practice, no source)
MOST_LIFE_YEARS = 100.0
Life = Annotated[float, Field(gt=0, le=MOST_LIFE_YEARS)]
# 10 m3/s: a canal, not a pump with one clock (common practice, no source)
MOST_PUMP_L_PER_MIN = 600_000
PumpFlow = Annotated[float, Field(gt=0, le=MOST_PUMP_L_PER_MIN)]
Days = Annotated[tuple[Weekday, ...], Field(strict=False, min_length=1)]


class Noun(BaseModel):
    """A noun of the site: frozen, strict, finite, and no key it does not know."""

    model_config = ConfigDict(
        frozen=True, strict=True, extra="forbid", allow_inf_nan=False
    )
