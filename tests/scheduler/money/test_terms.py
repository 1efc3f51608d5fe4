"""An option's zones now and then, and its cost."""

from dataclasses import replace
from typing import Any

import pytest

from scheduler.field.evidence import zone_catch
from scheduler.money.gain import KnownDu, Trials, known_now
from scheduler.money.judged import ZoneTerms
from scheduler.money.outlay import outlay
from scheduler.money.terms import (
    Basis,
    ZoneBasis,
    doubts_of,
    option_cost,
    option_terms,
)
from scheduler.money.tried import tried_now
from scheduler.option import Option
from scheduler.site import Site, Tariff
from tests.scheduler.money.made import (
    HISTORY,
    PACKAGE,
    TODAY,
    bay,
    option,
    season,
    small_site,
)
from tests.scheduler.money.test_gain import trials
from tests.scheduler.money.test_response import by_need


def basis(site: Site | None = None) -> Basis:
    catch, _ = zone_catch(bay(), PACKAGE, HISTORY.tests, TODAY)
    assert catch is not None
    now = known_now(bay(), catch, HISTORY.tests, TODAY)
    zone = ZoneBasis(bay(), catch, season(), now)
    trials = Trials({}, (), "")
    return Basis(site or small_site(), HISTORY, trials, 0.6868, {"z4": zone})


def here(**given: Any) -> Option:
    return option(zones=("Z4",), season_need_mm=None, **given)


def cost(tariff: Tariff, **given: Any) -> Any:
    site = small_site(tariff=tariff)
    one = here(**given)
    return option_cost(one, site, outlay(one, site))


def test_the_interest_of_the_tariff_serves_options_without_their_own() -> None:
    tariff = Tariff(currency="USD", interest=0.04)
    assert cost(tariff, interest=None)[0].interest == 0.04
    assert cost(tariff, interest=0.08)[0].interest == 0.08


def test_an_interest_that_nobody_entered_is_missing() -> None:
    assert cost(Tariff(currency="USD"), interest=None) == (None, ("interest",))


def test_other_savings_are_summed_as_far_as_entered() -> None:
    tariff = Tariff(currency="USD", labour_price_money_per_h=20.0)
    found, _ = cost(
        tariff, labour_saved_hours_a_year=10.0, plant_losses_saved_money_a_year=300.0
    )
    assert found.other_money == pytest.approx(500.0)


def test_hours_without_their_price_are_missing() -> None:
    _, missing = cost(Tariff(currency="USD"), labour_saved_hours_a_year=10.0)
    assert missing == ("price of an hour of work",)


def test_a_zone_has_its_price_of_pumping_now_and_then() -> None:
    terms, said = option_terms(here(), basis())
    assert said == ()
    # 70.4 m at 55 %, 0.12 a kWh
    assert terms[0].pump_now_money_per_m3 == pytest.approx(0.0419, abs=1e-4)
    assert terms[0].pump_then_money_per_m3 == terms[0].pump_now_money_per_m3


def test_water_of_a_zone_is_shared_by_its_options() -> None:
    one = basis()
    first, second = (option_terms(here(), one)[0][0] for _ in "ab")
    assert first.response is second.response


def test_a_zone_of_which_nothing_is_known_stops_the_option() -> None:
    terms, said = option_terms(option(zones=("Z9",)), basis())
    assert terms == ()
    assert "zone Z9 has no rate" in said[0].what


def test_without_a_uniformity_to_come_nothing_can_be_told() -> None:
    blind = here(du_lq=None, du_lq_low=None, du_lq_high=None)
    assert "nothing tells its uniformity" in option_terms(blind, basis())[1][0].what


def zone_terms(now: int, then: int, caution: str = "") -> ZoneTerms:
    return ZoneTerms(
        by_need(),
        KnownDu(0.58, 0.56, 0.60, 0.9, now, "stated"),
        KnownDu(0.78, 0.76, 0.80, 0.9, then, "stated", caution),
        None,
        None,
    )


def test_three_days_of_both_leave_no_doubt() -> None:
    assert doubts_of((zone_terms(3, 3),), (0.1, 0.3)) == ()


def test_each_side_that_is_tested_too_little_is_named() -> None:
    assert doubts_of((zone_terms(1, 0),), (0.1, 0.3)) == (
        "DU now tested on 1 day, 3 are the least",
        "DU then not tested, 3 are the least",
    )


def test_a_wind_that_was_not_tested_is_a_doubt() -> None:
    doubts = doubts_of((zone_terms(3, 3, "extrapolated"),), (0.1, 0.3))
    assert doubts == ("extrapolated",)


def test_a_gain_below_zero_is_no_noise() -> None:
    assert doubts_of((zone_terms(3, 3),), (-0.3, -0.1)) == ()


def test_a_tried_uniformity_of_now_does_not_move_what_would_stand_there() -> None:
    at = basis()
    tested = at.zones["z4"]
    at = replace(at, trials=trials())
    now = tried_now(tested.now, 0.9)
    tried = replace(at, zones={"z4": replace(tested, now=now, tested=tested)})
    (before,), _ = option_terms(here(package="new"), at)
    (after,), _ = option_terms(here(package="new"), tried)
    assert before.then.is_difference
    assert (after.now.du_lq, after.then.du_lq) == (0.9, before.then.du_lq)
    assert not after.then.is_difference
    assert after.then.low is None
