"""The nouns of a retrofit."""

from typing import Any

import pytest
from pydantic import ValidationError

from scheduler.option import Option, PriceItem

WHOLE: dict[str, Any] = {"id": "B", "name": "b", "deed": "re-space", "zones": ("Z1",)}


def test_an_item_has_one_price() -> None:
    with pytest.raises(ValidationError, match="give one of price_money"):
        PriceItem(what="head", counted_by="head", price_money=20.0, work_hours=0.5)


def test_pipe_is_priced_by_its_length() -> None:
    with pytest.raises(ValidationError, match="counted by lateral length has"):
        PriceItem(what="pipe", counted_by="lateral length", price_money=2.0)


def test_a_head_is_priced_by_the_piece() -> None:
    with pytest.raises(ValidationError, match="counted by head has price_money"):
        PriceItem(what="head", counted_by="head", price_money_per_m=2.0)


def test_a_price_may_be_left_out() -> None:
    assert PriceItem(what="head", counted_by="head").price_money is None


def test_one_sum_and_items_do_not_stand_together() -> None:
    item = PriceItem(what="head", counted_by="head")
    with pytest.raises(ValidationError, match=r"price_money or \[\[option.items\]\]"):
        Option(**WHOLE, price_money=9600.0, items=(item,))


def test_a_range_has_two_ends() -> None:
    with pytest.raises(ValidationError, match="together"):
        Option(**WHOLE, du_lq=0.78, du_lq_low=0.75)


@pytest.mark.parametrize("du", [None, 0.7, 0.9])
def test_a_uniformity_lies_in_its_range(du: float | None) -> None:
    with pytest.raises(ValidationError, match="must lie from"):
        Option(**WHOLE, du_lq=du, du_lq_low=0.75, du_lq_high=0.81)


def test_an_option_is_somewhere() -> None:
    with pytest.raises(ValidationError, match="zones"):
        Option(**(WHOLE | {"zones": ()}))
