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
Days = Annotated[tuple[Weekday, ...], Field(strict=False, min_length=1)]


class Noun(BaseModel):
    """A noun of the site: frozen, strict, finite, and no key it does not know."""

    model_config = ConfigDict(
        frozen=True, strict=True, extra="forbid", allow_inf_nan=False
    )
