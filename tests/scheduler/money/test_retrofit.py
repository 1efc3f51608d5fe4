"""One option of a site."""

import dataclasses
import datetime as dt
from typing import Any

import pytest

from scheduler.money.retrofit import CHOICES, OptionResult, option_result
from scheduler.option import PriceItem
from scheduler.site import Package, Tariff
from tests.scheduler.money.made import option, small_site
from tests.scheduler.money.test_terms import basis, here


def result(**given: Any) -> OptionResult:
    return option_result(here(**given), basis())


def test_every_rule_stands_side_by_side() -> None:
    assert tuple(one.rule for one in result().returns) == CHOICES


def test_under_its_own_rule_a_zone_has_that_rules_return() -> None:
    found = result()
    assert found.own is not None
    half = next(one for one in found.returns if one.rule == "low half")
    assert found.own.saved_m3 == half.saved_m3


def test_the_forecast_is_the_saving_under_the_own_rule() -> None:
    found = result()
    assert found.own is not None
    assert found.potential_saved_m3 == found.own.saved_m3


def test_forecast_and_actual_are_two_numbers() -> None:
    found = result(done_on=dt.date(2026, 6, 1))
    assert found.potential_saved_m3 is not None
    assert [one.saved_m3 for one in found.actual] == [None]


def test_what_is_done_is_shown_without_a_forecast_as_well() -> None:
    found = result(
        done_on=dt.date(2026, 6, 1), du_lq=None, du_lq_low=None, du_lq_high=None
    )
    assert found.returns == ()
    assert len(found.actual) == 1


def test_at_the_same_service_water_is_saved_by_position() -> None:
    assert (result(du_lq=0.9, du_lq_high=0.92).same_service_saved_m3 or 0.0) > 0


def test_a_need_as_entered_says_nothing_by_position() -> None:
    entered = option(zones=("Z4",))
    assert option_result(entered, basis()).same_service_saved_m3 is None


def test_a_missing_price_is_a_finding() -> None:
    found = result(price_money=None)
    assert any("not entered: price: the whole" in one.what for one in found.findings)


def test_a_flow_above_the_pump_is_a_warning() -> None:
    big = Package(id="big", nozzle_flow_l_per_min=90.0, spacing_m=9.0)
    site = small_site()
    site = site.model_copy(update={"packages": (*site.packages, big)})
    found = option_result(here(package="big"), basis(site))
    assert any("more than the pump gives" in one.what for one in found.findings)
    assert any("its rate changes" in one.what for one in found.findings)


def test_worse_heads_do_not_pay() -> None:
    found = result(du_lq=0.5, du_lq_low=0.48, du_lq_high=0.52)
    assert found.own is not None
    assert found.own.saved_m3 < 0
    assert found.own.break_even_price_per_m3 is None


def test_without_a_price_of_water_nothing_drives_the_money() -> None:
    blind = dataclasses.replace(basis(), water_money_per_m3=None)
    assert option_result(here(), blind).sensitivities == ()


def test_a_doubtful_price_moves_the_chance_and_not_the_money() -> None:
    tariff = Tariff(currency="USD", water_price_within=0.5, interest=0.06)
    sure, doubtful = (
        option_result(here(tested_days=4), basis(small_site(tariff=t))).own
        for t in (tariff.model_copy(update={"water_price_within": 0.0}), tariff)
    )
    assert sure is not None
    assert doubtful is not None
    assert sure.net_money == pytest.approx(doubtful.net_money)


def test_items_are_counted_on_the_zones_block() -> None:
    head = PriceItem(what="head", counted_by="head", price_money=20.0)
    found = result(
        price_money=None, items=(head,), block_length_m=36.0, block_width_m=27.0
    )
    # 5 x 4 heads at 9 m
    assert found.outlay_money == pytest.approx(400.0)
