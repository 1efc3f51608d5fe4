"""The wind of the planned hours, fed back into the minutes once."""

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler import week_hours as door
from scheduler.field.package_wind import site_package_wind
from scheduler.plan import WeekPlan, build_week
from scheduler.record import CanTest, History, WindLog
from scheduler.site import Site, Supply, Window
from scheduler.watering.night_plan import at_planned_hours
from tests.scheduler.test_plan import (
    FIRST_VISIT_ML,
    LAST_WEEK,
    TODAY,
    can_test,
    site,
    zone,
)

NIGHT = Window(start=dt.time(20), end=dt.time(6))


def log(*by_hour: float) -> WindLog:
    """Ten days of wind that is the same every day, by the hour of UTC."""
    hours = np.arange(240)
    start = np.datetime64("2026-06-01T00:00", "s") + hours * np.timedelta64(3600, "s")
    none = np.full(hours.size, np.nan)
    speed = np.array(by_hour)[hours % len(by_hour)]
    return WindLog(start, 3600.0, speed, none, none, 2.0, "mast", "wind/mast.csv")


def runs_in(
    *days: tuple[float, ...], slope: float = -0.05, loss: float = 0.03
) -> tuple[CanTest, ...]:
    """Runs of several days, one wind each; the map is drawn apart by wind."""
    base = np.array(FIRST_VISIT_ML, dtype=float)
    tests = []
    for number, winds in enumerate(days, 10):
        made = can_test()
        runs = []
        for i, wind in enumerate(winds):
            pull = 1.0 - slope * (wind - 1.0) / 0.28  # DU is 0.72 at 1 m/s
            catch = base.mean() + (base - base.mean()) * pull
            catch = np.maximum(catch, 0.0) * (1 - loss * wind)
            runs.append(
                replace(
                    made.runs[0],
                    name=f"run{i}",
                    reading=catch,
                    start=None,
                    wind_m_per_s=wind,
                )
            )
        tests.append(
            replace(
                made, name=f"t{number}", date=dt.date(2026, 5, number), runs=tuple(runs)
            )
        )
    return tuple(tests)


def windy_site(**given: Any) -> Site:
    base: dict[str, Any] = {
        "windows": (NIGHT,),
        "supply": Supply(source="well", flow_l_per_min=2000.0),
    }
    return site(
        *(zone(id=name, rule="low quarter", heads=20.0) for name in ("Z4", "Z5")),
        **(base | given),
    )


TESTS = runs_in((1.0,), (2.0,), (1.5, 2.4))


def week(*logs: WindLog, tests: tuple[CanTest, ...] = TESTS) -> WeekPlan:
    history = History(tests=tests, weather=(LAST_WEEK,), wind=logs)
    return build_week(windy_site(), history, TODAY)


def test_without_a_wind_log_nothing_moves() -> None:
    assert all(one.at_hours is None for one in week().zones)


def test_wind_above_that_of_the_tests_lengthens_the_minutes() -> None:
    plan = week(log(2.2)).zones[0]
    assert plan.at_hours is not None
    assert plan.at_hours.minutes_from_tests is not None
    assert plan.minutes_exact is not None
    assert plan.at_hours.wind_m_per_s == pytest.approx(2.2)
    assert plan.minutes_exact > plan.at_hours.minutes_from_tests


def test_the_minutes_are_those_of_du_and_rate_at_the_hours() -> None:
    plan = week(log(2.2)).zones[0]
    assert plan.at_hours is not None
    assert plan.minutes_exact is not None
    old, new = plan.at_hours.from_tests, plan.at_hours.catch
    expected = old.du_lq / new.du_lq * old.net_rate_mm_per_h / new.net_rate_mm_per_h
    before = plan.at_hours.minutes_from_tests
    assert before is not None
    assert plan.minutes_exact / before == pytest.approx(expected)


def test_a_zone_tested_in_the_wind_of_its_hours_keeps_its_minutes() -> None:
    # runs of 3 m/s alone are in the band of the hours, and feed the week
    plan = week(log(3.0), tests=runs_in((3.0,), (1.0,), (1.5, 3.0))).zones[0]
    assert plan.at_hours is not None
    assert plan.at_hours.tests_wind_m_per_s == pytest.approx(3.0)
    assert plan.minutes_exact == pytest.approx(plan.at_hours.minutes_from_tests)


def test_a_zone_without_tests_is_left_alone() -> None:
    other = week(log(2.2)).zones[1]
    assert other.at_hours is None


def test_the_evidence_stays_as_the_tests_found_it() -> None:
    plan = week(log(2.2)).zones[0]
    assert plan.evidence is not None
    assert plan.evidence.du_trace.name == "du_lq"


def test_the_chain_holds_both() -> None:
    names = {one.name for one in week(log(2.2)).zones[0].trace.chain()}
    assert {"du_lq", "du_at_planned_hours", "net_rate_mm_per_h",
            "rate_at_planned_hours_mm_per_h"} <= names  # fmt: skip


def test_a_move_of_the_minutes_is_noted_once() -> None:
    said = [one for one in week(log(2.2)).all_findings if "planned hours" in one.where]
    assert len(said) == 1


def test_the_runs_last_the_minutes_of_the_second_plan() -> None:
    plan = week(log(2.5, 3.0, 1.5))
    assert plan.night is not None
    for one in plan.zones:
        runs = {run.minutes for run in plan.night.runs if run.zone == one.zone.id}
        assert runs <= {one.cycle_minutes}


def _again(first: WeekPlan, history: History, monkeypatch: pytest.MonkeyPatch) -> Any:
    """The week planned from the hours of the week before it: a second feedback."""
    winds = site_package_wind(first.site, history, TODAY)
    fed = at_planned_hours(first.night, first.zones, winds.lines)
    with monkeypatch.context() as patched:
        patched.setattr(door, "at_planned_hours", lambda *_: fed)
        return build_week(first.site, history, TODAY)


@settings(max_examples=12, deadline=None)
@given(
    winds=st.lists(st.floats(0.3, 4.0), min_size=24, max_size=24),
    slope=st.floats(-0.10, -0.01),
    loss=st.floats(0.0, 0.06),
)
def test_a_second_feedback_moves_less_than_a_minute(
    winds: list[float], slope: float, loss: float
) -> None:
    tests = runs_in((1.0,), (2.0,), (3.0, 1.5), slope=slope, loss=loss)
    history = History(tests=tests, weather=(LAST_WEEK,), wind=(log(*winds),))
    with pytest.MonkeyPatch.context() as patch:
        first = build_week(windy_site(), history, TODAY)
        second = _again(first, history, patch)
    for a, b in zip(first.zones, second.zones, strict=True):
        if a.minutes_exact and a.days:
            nights = len(a.days)
            assert abs(a.minutes_exact - b.minutes_exact) / nights < 1.0
