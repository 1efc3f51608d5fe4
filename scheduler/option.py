"""The nouns of a retrofit: what might be done, what it takes, and what it costs.

Every price is the user's own. What is not known is left out and stays empty.
"""

import datetime as dt
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from scheduler.noun import (
    Fraction,
    Interest,
    Life,
    NotNegative,
    Noun,
    PartOf,
    Positive,
    RatePrice,
    SignedSum,
    Sum,
)

# what may be counted on a block of heads; `once` is one of a zone
CountedBy = Literal[
    "head", "full-circle head", "part-circle head", "lateral", "lateral length",
    "main length", "once",
]  # fmt: skip
Deed = Literal["do nothing", "tune up", "re-space", "replace"]
LENGTHS = ("lateral length", "main length")


class PriceItem(Noun):
    """One line of the outlay: what, how it is counted, and its price or hours."""

    what: str = Field(min_length=1)
    counted_by: CountedBy
    # how many of it for each, such as two elbows a head
    each: Positive = 1.0
    # a number of one's own in place of the count
    quantity: NotNegative | None = None
    price_money: Sum | None = None
    price_money_per_m: RatePrice | None = None
    # work on one of it, priced by the tariff's price of an hour
    work_hours: NotNegative | None = None
    life_years: Life | None = None

    @model_validator(mode="after")
    def _one_price(self) -> Self:
        given = (self.price_money, self.price_money_per_m, self.work_hours)
        if sum(one is not None for one in given) > 1:
            raise ValueError("give one of price_money, price_money_per_ft, work_hours")
        if self.price_money is not None and self.counted_by in LENGTHS:
            raise ValueError(
                f"what is counted by {self.counted_by} has price_money_per_ft "
                "(or price_money_per_m), not price_money"
            )
        if self.price_money_per_m is not None and self.counted_by not in LENGTHS:
            raise ValueError(f"what is counted by {self.counted_by} has price_money")
        return self


class Option(Noun):
    """One thing that might be done in some zones."""

    id: str = Field(min_length=1, max_length=12)
    name: str = Field(min_length=1)
    deed: Deed
    zones: Annotated[tuple[str, ...], Field(strict=False, min_length=1)]
    # what would stand there; its tests tell the uniformity
    package: str | None = None
    # in place of tests: a uniformity with its range (nine times in ten), and from where
    du_lq: PartOf | None = None
    du_lq_low: PartOf | None = None
    du_lq_high: PartOf | None = None
    du_from: str = ""
    tested_days: int | None = Field(default=None, ge=1)
    # in place of the season that is run: the depth that must be stored in a year
    season_need_mm: Positive | None = None
    block_length_m: Positive | None = None
    block_width_m: Positive | None = None
    heads_stand: Literal["on the edge", "half a spacing inside"] = "on the edge"
    items: Annotated[tuple[PriceItem, ...], Field(strict=False)] = ()
    # the whole outlay in one sum, in place of items
    price_money: Sum | None = None
    price_within: float = Field(default=0.0, ge=0, le=1)
    life_years: Life | None = None
    interest: Interest | None = None
    repairs_money_a_year: Sum = 0.0
    grant_share: Fraction = 0.0
    labour_saved_hours_a_year: float | None = None
    fertilizer_saved_money_a_year: SignedSum | None = None
    plant_losses_saved_money_a_year: SignedSum | None = None
    # the day it was done; tests from then on tell what it really brought
    done_on: dt.date | None = None

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if self.items and self.price_money is not None:
            raise ValueError("give price_money or [[option.items]], not both")
        low, high = self.du_lq_low, self.du_lq_high
        if (low is None) != (high is None):
            raise ValueError("give du_lq_low and du_lq_high together")
        if low is None or high is None:
            return self
        if self.du_lq is None or not low <= self.du_lq <= high:
            raise ValueError("du_lq must lie from du_lq_low to du_lq_high")
        return self
