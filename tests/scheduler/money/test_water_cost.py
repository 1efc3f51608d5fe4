"""A zone's year: ranges, weeks, reference; and a better map never costs more."""

import gc
import weakref
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.money import water_cost
from scheduler.money.water_cost import ZoneCost, same_service_saved_mm, zone_cost
from scheduler.season import run_season
from scheduler.site import Tariff
from scheduler.watering.season_run import SeasonInput
from scheduler.watering.season_run.saved import AtAnotherDU, at_another_du
from tests.scheduler.money.made import (
    HISTORY,
    PRICES,
    TODAY,
    bay,
    plan,
    season,
    small_site,
)


def cost(**given: Any) -> ZoneCost:
    days = plan().days
    assert days is not None
    return zone_cost(season(), small_site(), PRICES, dates=days.date, **given)


def test_weeks_add_up_to_the_year() -> None:
    found = cost()
    assert found.weekly.volume_m3.sum() == pytest.approx(found.own.volume_m3)
    assert found.weekly.above_need_m3.sum() == pytest.approx(found.own.above_need_m3)
    assert found.weekly.start.size == 53


def test_a_range_of_du_is_a_range_of_water_above_need() -> None:
    found = cost(du_range=(0.6, 0.9))
    assert found.above_need_low_m3 is not None
    assert found.above_need_high_m3 is not None
    low, high = found.above_need_low_m3, found.above_need_high_m3
    assert low < found.own.above_need_m3 < high


def test_without_a_range_of_du_there_is_none_of_water() -> None:
    assert cost().above_need_low_m3 is None


def test_held_against_itself_a_zone_saves_nothing() -> None:
    one = season()
    assert one.catch is not None
    found = cost(reference=(one.catch.du_lq, "itself")).reference
    assert found is not None
    assert found.saved_m3 == pytest.approx(0.0, abs=1e-9)
    assert found.saved_same_service_m3 == pytest.approx(0.0, abs=1e-9)


@settings(max_examples=15, deadline=None)
@given(st.floats(0.0, 1.0))
def test_catches_drawn_to_their_mean_never_cost_more_water(part: float) -> None:
    # asked of the search itself, which knows no floor; whole minutes move it a little
    one = season()
    assert one.catch is not None
    assert one.input is not None
    now = at_another_du(one.input, one.catch.du_lq).applied_mm
    du = one.catch.du_lq + part * (1.0 - one.catch.du_lq)
    assert at_another_du(one.input, du).applied_mm <= 1.005 * now
    assert same_service_saved_mm(one, du) >= 0.0


def test_a_less_even_map_costs_more_water_for_the_same_service() -> None:
    assert same_service_saved_mm(season(), 0.5) < 0.0


def test_a_more_even_map_saves_water_for_the_same_service() -> None:
    assert same_service_saved_mm(season(), 0.9) > 10.0


def test_a_search_is_made_once_for_each_season_of_a_large_site(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[float] = []

    def search(of: SeasonInput, du_lq: float) -> AtAnotherDU:
        asked.append(du_lq)
        return AtAnotherDU(du_lq, 1.0, 100.0 * (2.0 - du_lq), 0.0, 0.0)

    monkeypatch.setattr(water_cost, "at_another_du", search)
    many = [replace(season()) for _ in range(300)]
    first = [same_service_saved_mm(one, 0.9) for one in many]
    assert len(asked) == 2 * len(many)
    assert [same_service_saved_mm(one, 0.9) for one in many] == first
    same_service_saved_mm(many[0], 0.8)  # of now it is known
    assert len(asked) == 2 * len(many) + 1


def test_what_was_searched_goes_with_its_season() -> None:
    one = replace(season())
    same_service_saved_mm(one, 0.9)
    assert one in water_cost._LEAST_MM
    seen = weakref.ref(one)
    del one
    gc.collect()
    assert seen() is None


def test_hours_by_hand_count_in_weeks_with_a_watering() -> None:
    zone = bay(hand_watering_hours_a_week=3.0)
    site = small_site(
        zone, tariff=Tariff(currency="USD", labour_price_money_per_h=20.0)
    )
    made = run_season(site, HISTORY, TODAY)
    assert made.days is not None
    found = zone_cost(made.zones[0], site, PRICES, dates=made.days.date)
    weeks = int((found.weekly.volume_m3 > 0).sum())
    assert found.labour_hours == pytest.approx(3.0 * weeks)
    assert found.labour_money == pytest.approx(60.0 * weeks)


def test_hours_that_nobody_entered_stay_empty() -> None:
    assert cost().labour_hours is None


def test_the_number_says_where_it_came_from() -> None:
    names = [one.name for one in cost().trace.chain()]
    assert {"need_mm", "applied_mm", "net_rate_mm_per_h"} <= set(names)


def test_arrays_of_the_weeks_cannot_be_written_to() -> None:
    assert not np.any([cost().weekly.volume_m3.flags.writeable])
