"""Uniformity and rate at the planned hours."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from scheduler.record import History
from scheduler.watering.night_plan import NightPlan, hours_findings, night_plan
from scheduler.watering.night_plan.at_hours import AtHours, at_planned_hours
from scheduler.watering.night_plan.result import NightWind
from tests.scheduler.watering.night_plan.made import Watered, caught, line, site, zone

ONE = Watered(
    zone("1", rule="low quarter"), status="planned", evidence=caught(0.7, 1.0)
)
LINES = {"p1": line(-0.05, -0.02)}


def _night(speed: float | None = 3.0) -> NightPlan:
    plan = night_plan(site(ONE.zone), History(), (ONE,))
    assert plan is not None
    wind = NightWind(None, "none")
    if speed is not None:
        wind = NightWind(np.full(390, speed), "made up", 22 * 60)
    return replace(plan, wind=wind)


def _at(speed: float = 3.0, **given: Any) -> AtHours:
    return at_planned_hours(_night(speed), (replace(ONE, **given),), LINES)["1"]


def test_du_moves_from_the_wind_of_the_tests_to_that_of_the_hours() -> None:
    # 1 to 3 m/s at -0.05 each
    assert _at().catch.du_lq == pytest.approx(0.60)


def test_the_rate_moves_with_it() -> None:
    assert _at().catch.net_rate_mm_per_h == pytest.approx(12.0 * 0.94 / 0.98)


def test_the_wind_is_that_of_the_planned_minutes() -> None:
    # the run takes the first twenty minutes; a storm comes later
    night = _night()
    assert night.wind is not None
    assert night.wind.by_minute_m_per_s is not None
    speed = np.array(night.wind.by_minute_m_per_s)
    speed[20:] = 9.0
    stormy = replace(night, wind=NightWind(speed, "made up", 22 * 60))
    found = at_planned_hours(stormy, (ONE,), LINES)["1"]
    assert found.wind_m_per_s == pytest.approx(3.0)


def test_a_zone_tested_in_the_wind_of_its_hours_is_not_corrected() -> None:
    found = _at(1.0)
    assert found.catch.du_lq == pytest.approx(found.from_tests.du_lq)
    assert found.catch.net_rate_mm_per_h == found.from_tests.net_rate_mm_per_h


def test_the_traces_name_both_winds_and_what_the_tests_gave() -> None:
    chain = {one.name for one in _at().catch.du_trace.chain()}
    assert {
        "wind_at_planned_hours_m_per_s", "wind_of_tests_m_per_s", "du_at_planned_hours",
        "du_lq",
    } <= chain  # fmt: skip


def test_a_rate_that_the_tests_do_not_tell_stays_and_is_said() -> None:
    found = at_planned_hours(_night(), (ONE,), {"p1": line(-0.05)})["1"]
    assert found.catch.net_rate_mm_per_h == 12.0
    assert "do not tell" in found.catch.rate_trace.note


@pytest.mark.parametrize(
    "one",
    [
        replace(ONE, evidence=caught(0.7, None)),
        replace(ONE, evidence=None),
        replace(ONE, status="fixed"),
        replace(ONE, zone=zone("2")),
        replace(ONE, evidence=caught(1.0, 1.0)),
    ],
    ids=["wind of tests unknown", "no cans", "fixed", "no line", "perfectly even"],
)
def test_what_is_not_known_is_not_corrected(one: Watered) -> None:
    assert at_planned_hours(_night(), (one,), LINES) == {}


def test_without_wind_nothing_is_corrected() -> None:
    assert at_planned_hours(_night(None), (ONE,), LINES) == {}


def test_a_zone_without_room_is_not_corrected() -> None:
    full = replace(_night(), runs=())
    assert at_planned_hours(full, (ONE,), LINES) == {}


def test_a_move_of_three_in_a_hundred_is_said() -> None:
    at = replace(_at(), minutes_from_tests=100.0)
    (said,) = hours_findings("1", at, 103.1, "metric")
    assert "3.0 m/s of wind, the tests had 1.0 m/s" in said.what
    assert "DU 0.70 is expected as 0.60" in said.what
    assert "+3%" in said.what


@pytest.mark.parametrize("minutes", [102.9, 97.1, None])
def test_less_is_not(minutes: float | None) -> None:
    at = replace(_at(), minutes_from_tests=100.0)
    assert hours_findings("1", at, minutes, "us") == ()
