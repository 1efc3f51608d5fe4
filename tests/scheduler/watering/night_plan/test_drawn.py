"""Flow, prices, wind and closed minutes of the nights."""

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from scheduler.record import History
from scheduler.site import BlockedHours, Controller
from scheduler.supply import EnergyPeriod, Tariff
from scheduler.watering.night_plan import night_plan
from scheduler.watering.night_plan.board import NightBoard, moved, pin_of
from scheduler.watering.night_plan.drawn import (
    ClosedSpan,
    closed_spans,
    closed_spans_of,
    energy_price_money_per_kwh,
    night_flow_l_per_min,
    windier_spans,
)
from scheduler.watering.night_plan.result import NightWind
from tests.scheduler.watering.night_plan.made import Watered, eight_zones, site, zone

SPRAY = BlockedHours(
    start=dt.time(23), end=dt.time(1), days=("mon",), reason="spraying"
)


def board(*watered: Watered, **given: Any) -> NightBoard:
    plan = night_plan(site(*(one.zone for one in watered), **given), History(), watered)
    assert plan is not None
    assert plan.board is not None
    return plan.board


def test_the_flow_holds_the_litres_of_the_night() -> None:
    one = board(*eight_zones())
    litres = sum(
        job.cycles * job.cycle_min * (job.flow_l_per_min or 0.0)
        for job in one.week.jobs[0]
    )
    assert night_flow_l_per_min(one, 0).sum() == pytest.approx(litres)


def test_change_overs_take_flow_as_well() -> None:
    one = board(Watered(zone("1")), controller=Controller(change_over_minutes=3))
    assert np.count_nonzero(night_flow_l_per_min(one, 0)) == 23


def test_a_watering_held_before_the_night_takes_only_its_minutes_in_it() -> None:
    one = board(Watered(zone("1")))
    held = moved(one, pin_of(one, ("1", 0), 0, (-15,)))
    assert np.count_nonzero(night_flow_l_per_min(held, 0)) == 5


def test_a_watering_held_long_before_the_night_takes_nothing_of_it() -> None:
    one = board(Watered(zone("1")))
    held = moved(one, pin_of(one, ("1", 0), 0, (-40,)))
    assert not night_flow_l_per_min(held, 0).any()


def test_blocked_minutes_of_the_window_are_told() -> None:
    one = board(Watered(zone("1")), blocked_hours=(SPRAY,))
    assert closed_spans(one, 0) == (ClosedSpan(60, 180, True),)


def test_another_night_is_not_blocked() -> None:
    one = board(Watered(zone("1")), blocked_hours=(SPRAY,))
    assert closed_spans(one, 1) == ()


def test_hours_blocked_for_a_zone_count_for_that_zone() -> None:
    own = SPRAY.model_copy(update={"zones": ("1",)})
    one = board(Watered(zone("1")), blocked_hours=(own,))
    assert (len(closed_spans(one, 0, "1")), closed_spans(one, 0, "2")) == (1, ())


def test_many_closed_spans_are_those_of_each_asked_alone() -> None:
    own = SPRAY.model_copy(update={"zones": ("1",), "start": dt.time(2)})
    one = board(Watered(zone("1")), Watered(zone("2")), blocked_hours=(SPRAY, own))
    wanted = [(night, name) for night in range(7) for name in ("1", "2", "")]
    alone = tuple(closed_spans(one, night, name) for night, name in wanted)
    assert closed_spans_of(one, wanted) == alone


def test_minutes_windier_than_the_mean_are_told() -> None:
    wind = np.where(np.arange(390) < 90, 4.0, 1.0)
    one = replace(board(Watered(zone("1"))), wind=NightWind(wind, "made up"))
    assert windier_spans(one) == ((0, 90),)


def test_without_wind_nothing_is_windier() -> None:
    assert windier_spans(board(Watered(zone("1")))) == ()


def test_energy_is_dear_in_its_period_only() -> None:
    evening = EnergyPeriod(
        start=dt.time(17), end=dt.time(23), days=("mon",), price_money_per_kwh=0.31
    )
    tariff = Tariff(currency="USD", energy_price_money_per_kwh=0.12, period=(evening,))
    one = board(Watered(zone("1")), tariff=tariff)
    price = energy_price_money_per_kwh(one.site, one.hours)
    assert price is not None
    assert (price[0, 59], price[0, 60], price[1, 0]) == (0.31, 0.12, 0.12)
