"""What an option takes, counted and priced."""

from typing import Any

import pytest

from scheduler.money.outlay import Outlay, outlay
from scheduler.option import Option, PriceItem
from scheduler.site import Package, Tariff
from tests.scheduler.money.made import PACKAGE, bay, option, small_site

NEW = Package(id="new", spacing_m=4.5)


def block(*items: dict[str, Any], **given: Any) -> Option:
    """A block of 9 x 9 m that is re-spaced from four heads to nine."""
    base: dict[str, Any] = {
        "zones": ("Z4",), "package": "new", "price_money": None,
        "block_length_m": 9.0, "block_width_m": 9.0,
        "items": tuple(PriceItem(**one) for one in items),
    }  # fmt: skip
    return option(**(base | given))


def priced(*items: dict[str, Any], hour: float | None = 24.0, **given: Any) -> Outlay:
    tariff = Tariff(currency="USD", labour_price_money_per_h=hour)
    site = small_site(
        bay(area_m2=81.0), packages=(PACKAGE, NEW), tariff=tariff
    )  # fmt: skip
    return outlay(block(*items, **given), site)


HEAD = {"what": "head", "counted_by": "head", "price_money": 20.0}


def test_nine_heads_are_counted_and_priced() -> None:
    found = priced(HEAD).lines[0]
    assert (found.quantity, found.money) == (9.0, 180.0)


def test_the_old_spacing_counts_where_no_package_is_named() -> None:
    assert priced(HEAD, package=None).lines[0].quantity == 4.0


def test_part_circles_and_full_circles_are_counted_apart() -> None:
    part = {"what": "arc", "counted_by": "part-circle head", "price_money": 25.0}
    full = {"what": "full", "counted_by": "full-circle head", "price_money": 20.0}
    assert [one.quantity for one in priced(part, full).lines] == [8.0, 1.0]


def test_pipe_is_counted_by_its_length() -> None:
    pipe = {"what": "pipe", "counted_by": "lateral length", "price_money_per_m": 4.0}
    main = {"what": "main", "counted_by": "main length", "price_money_per_m": 6.0}
    assert [one.money for one in priced(pipe, main).lines] == [108.0, 54.0]


def test_two_elbows_a_head_are_eighteen() -> None:
    elbow = {"what": "elbow", "counted_by": "head", "price_money": 1.0, "each": 2.0}
    assert priced(elbow).lines[0].quantity == 18.0


def test_work_is_priced_by_the_hour() -> None:
    work = {"what": "setting", "counted_by": "head", "work_hours": 0.5}
    assert priced(work).gross_money == pytest.approx(9 * 0.5 * 24)
    assert priced(work, hour=None).missing == ("price: setting",)


def test_a_number_of_ones_own_goes_before_the_count() -> None:
    assert priced({**HEAD, "quantity": 7.0}).lines[0].quantity == 7.0


def test_without_a_block_nothing_is_counted_and_that_is_said() -> None:
    assert "how many: head" in priced(HEAD, block_length_m=None).missing


def test_a_price_that_is_missing_stays_empty() -> None:
    found = priced({"what": "valve", "counted_by": "once"}, HEAD)
    assert found.lines[0].money is None
    assert found.gross_money is None
    assert found.missing == ("price: valve",)


def test_the_grant_is_taken_off_every_part() -> None:
    found = priced(HEAD, grant_share=0.25)
    assert found.net_money == pytest.approx(135.0)
    assert found.gross_money == 180.0


def test_parts_have_their_own_life() -> None:
    valve = {"what": "valve", "counted_by": "once", "price_money": 90.0,
             "life_years": 8.0}  # fmt: skip
    assert priced(HEAD, valve).parts == ((180.0, 12.0), (90.0, 8.0))


def test_a_block_unlike_the_zone_is_said() -> None:
    found = priced(HEAD, block_length_m=18.0)
    assert found.findings[0].what == "its block is 200% of the area of zone Z4"


def test_without_a_spacing_heads_are_not_counted() -> None:
    site = small_site(bay(area_m2=81.0, package=None), packages=())
    found = outlay(block(HEAD, package=None), site)
    assert "no spacing is known in zone Z4" in found.findings[0].what


def test_one_sum_stands_for_all_items() -> None:
    found = outlay(option(zones=("Z4",)), small_site())
    assert found.parts == ((9600.0, 12.0),)
