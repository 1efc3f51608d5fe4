"""What the minutes of a watering cost, beside others."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from scheduler.record import History
from scheduler.watering.night_plan import Pin, night_plan
from scheduler.watering.night_plan.board import NightBoard
from scheduler.watering.night_plan.jobs import week_jobs
from scheduler.watering.night_plan.reasons import why_there
from scheduler.watering.night_plan.result import NightWind
from tests.scheduler.watering.night_plan.made import MONDAY, Watered, site, zone

# a litre costs 1.2 in the first hour of the night, 1.0 later
DEAR = np.where(np.arange(390) < 60, 1.2, 1.0)


def board(start: int, *others: Watered) -> NightBoard:
    """Zone 1 pinned to a minute of the night, in a night whose first hour is dear."""
    watered = (Watered(zone("1")), *others)
    place = site(*(one.zone for one in watered))
    clock = dt.datetime.combine(MONDAY, dt.time(22)) + dt.timedelta(minutes=start)
    pins = (Pin("1", MONDAY, MONDAY, (clock,)),)
    plan = night_plan(place, History(), watered, pins=pins)
    assert plan is not None
    assert plan.board is not None
    cost = {one.zone.id: DEAR for one in watered}
    week = week_jobs(place, watered, plan.board.hours, cost)
    wind = NightWind(np.where(np.arange(390) < 60, 4.0, 1.0), "made up")
    return replace(plan.board, week=week, wind=wind)


def test_a_dear_minute_is_priced() -> None:
    found = why_there(board(0), "1", 0)
    assert found is not None
    assert found.extra == pytest.approx(0.2, abs=1e-5)


def test_the_cheapest_free_place_is_named() -> None:
    found = why_there(board(0), "1", 0)
    assert found is not None
    assert found.free_starts == (60,)
    assert found.free_extra == pytest.approx(0.0, abs=1e-5)


def test_half_in_the_dear_hour_costs_half() -> None:
    found = why_there(board(50), "1", 0)
    assert found is not None
    assert found.extra == pytest.approx(0.1, abs=1e-5)


def test_the_wind_is_that_of_its_minutes() -> None:
    found = why_there(board(50), "1", 0)
    assert found is not None
    assert found.wind_m_per_s == pytest.approx(2.5)


def test_without_a_log_there_is_no_wind() -> None:
    one = replace(board(0), wind=NightWind(None, "no wind log"))
    found = why_there(one, "1", 0)
    assert found is not None
    assert found.wind_m_per_s is None


def test_alone_never_costs_more_than_beside_others() -> None:
    found = why_there(board(0, *(Watered(zone(f"{i}")) for i in range(2, 9))), "1", 0)
    assert found is not None
    assert found.alone_extra <= found.free_extra <= found.extra


def test_a_zone_that_does_not_run_that_night_has_no_reason() -> None:
    assert why_there(board(0), "1", 3) is None
