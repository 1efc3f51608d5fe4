"""The one door, on weather that has not happened yet."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.plan import ZonePlan, build_week
from scheduler.record import DailySeries, History, Origin
from scheduler.site import Zone
from tests.scheduler.test_plan import (
    LAST_WEEK,
    TODAY,
    can_test,
    planned,
    site,
    weather,
    zone,
)


def _forecast(eto: float, rain_mm: float) -> DailySeries:
    made = weather(eto, rain_mm, n_days=7)
    days = np.datetime64(TODAY) + np.arange(7)
    return replace(made, name="office", date=days, origin=Origin(issued=TODAY))


def _ahead(*series: DailySeries, one: Zone | None = None) -> ZonePlan:
    here = site(one or zone()).model_copy(update={"demand_from": "week ahead"})
    history = History(tests=(can_test(),), weather=series)
    return build_week(here, history, TODAY).zones[0]


def test_a_forecast_makes_the_need_of_the_week() -> None:
    # 7 x 6 mm of ETo, Kc 0.85, nothing fell
    plan = _ahead(weather(4.0), _forecast(6.0, 0.0))
    assert plan.need_mm == pytest.approx(7 * 6.0 * 0.85)


@settings(max_examples=15, deadline=None)
@given(st.floats(0.0, 60.0))
def test_more_rain_ahead_never_raises_the_minutes(rain_mm: float) -> None:
    dry = _ahead(weather(4.0), _forecast(6.0, 0.0))
    wet = _ahead(weather(4.0), _forecast(6.0, rain_mm))
    assert wet.minutes_per_day is not None
    assert dry.minutes_per_day is not None
    assert wet.minutes_per_day <= dry.minutes_per_day


def test_the_need_has_a_range_where_years_are_measured() -> None:
    plan = _ahead(weather(4.0, n_days=1500))
    assert plan.ahead is not None
    assert plan.need_mm is not None
    assert plan.ahead.low_mm <= plan.need_mm <= plan.ahead.high_mm
    assert plan.ahead.n_years == 4


def test_last_weeks_use_has_no_range() -> None:
    assert planned(zone(), can_test(), days=weather(4.0, n_days=1500)).ahead is None


def test_every_planned_night_has_its_rain_skip() -> None:
    plan = planned(zone(), can_test())
    assert tuple(one.date for one in plan.skips) == plan.days


def test_the_days_of_the_week_say_on_what_they_rest() -> None:
    plan = build_week(site(zone()), History(weather=(LAST_WEEK,)), TODAY)
    assert plan.weather is not None
    assert set(plan.weather.eto_basis) == {"measured"}
