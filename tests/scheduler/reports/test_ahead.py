"""What the week may bring, as lines and JSON: the plan's numbers, formatted."""

import dataclasses
import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.plan import WeekPlan, ZonePlan, build_week
from scheduler.record import DailySeries, History, Origin
from scheduler.reports.ahead import (
    ahead_json,
    ahead_text,
    eto_from,
    range_line,
    skips_line,
    weather_json,
    zone_ahead_text,
)
from scheduler.reports.text import week_text
from tests.scheduler.test_plan import FIRST_VISIT_ML, can_test, site, weather, zone

TODAY = dt.date(2026, 6, 8)


def _years(n_years: int) -> DailySeries:
    """Days of whole years before today, each year a little hotter."""
    n = 365 * n_years
    made = weather(4.0, n_days=n)
    eto = 3.0 + 0.5 * (np.arange(n) // 365) + np.zeros(n)
    return dataclasses.replace(made, eto_mm_per_day=eto)


def _forecast(rain_mm: Any = np.nan) -> DailySeries:
    made = weather(4.0, n_days=7)
    return dataclasses.replace(
        made,
        name="office",
        date=np.datetime64(TODAY) + np.arange(7),
        rain_mm=np.broadcast_to(rain_mm, 7).astype(float),
        origin=Origin(issued=TODAY),
    )


def _plan(*series: DailySeries) -> WeekPlan:
    here = site(zone()).model_copy(update={"demand_from": "week ahead"})
    history = History(tests=(can_test(FIRST_VISIT_ML),), weather=series)
    return build_week(here, history, TODAY)


@pytest.fixture(scope="module")
def plan() -> WeekPlan:
    return _plan(_years(5), _forecast([0.0, 12.7, 0.0, 0.0, 2.54, 0.0, 0.0]))


@pytest.fixture(scope="module")
def one(plan: WeekPlan) -> ZonePlan:
    return plan.zones[0]


def test_the_range_of_a_zone_is_the_plans(one: ZonePlan) -> None:
    found = ahead_json(one, "us")
    assert one.ahead is not None
    assert found["need_low_mm"] == one.ahead.low_mm
    assert found["need_high_mm"] == one.ahead.high_mm
    assert (found["minutes_cool"], found["minutes_hot"]) == (
        one.ahead.minutes_cool,
        one.ahead.minutes_hot,
    )
    assert found["n_years"] == 5


def test_a_zone_without_a_range_has_nulls() -> None:
    found = ahead_json(_plan(_forecast()).zones[0], "us")
    assert [found["need_low_mm"], found["nights_hot"], found["n_years"]] == [None] * 3


def test_a_skip_in_json_is_rounded_up_on_the_gauge_of_the_site(one: ZonePlan) -> None:
    shown, exact = ahead_json(one, "us")["skips"][0], one.skips[0].rain_mm
    assert shown["rain_exact_mm"] == exact
    assert exact <= shown["rain_mm"] < exact + 0.05 * 25.4
    assert shown["night"] == "2026-06-08"


def test_a_line_of_the_range_holds_the_plans_minutes(one: ZonePlan) -> None:
    assert one.ahead is not None
    minutes = (one.ahead.minutes_cool, one.minutes_per_day, one.ahead.minutes_hot)
    assert " – ".join(str(m) for m in minutes) in range_line(one, "us")


def test_nights_are_shown_only_where_their_number_moves(one: ZonePlan) -> None:
    assert one.ahead is not None
    assert "nights" not in range_line(one, "us")
    more = dataclasses.replace(one.ahead, nights_hot=one.ahead.nights_hot + 1)
    moved = dataclasses.replace(one, ahead=more)
    assert "on 6 – 6 – 7 nights" in range_line(moved, "us")


def test_a_zone_without_a_range_has_no_line() -> None:
    assert range_line(_plan(_forecast()).zones[0], "us") == ""


def test_nights_that_agree_are_one_amount(one: ZonePlan) -> None:
    alike = dataclasses.replace(
        one, skips=tuple(dataclasses.replace(s, rain_mm=5.0) for s in one.skips)
    )
    assert skips_line(alike, "us") == "any night 0.20 in"
    assert skips_line(alike, "metric") == "any night 5 mm"


def test_nights_that_differ_are_named(one: ZonePlan) -> None:
    first = dataclasses.replace(one.skips[0], rain_mm=9.0)
    other = dataclasses.replace(one, skips=(first, *one.skips[1:]))
    assert skips_line(other, "metric").startswith("Mon 9, Tue ")


def test_forecast_rain_is_shown_by_day_and_as_not_counted(plan: WeekPlan) -> None:
    text = ahead_text(plan, "us")
    assert "not counted: 09 0.50, 12 0.10 in" in text.replace("\n", " ")


def test_a_dry_forecast_says_none() -> None:
    assert "not counted: none" in ahead_text(_plan(_forecast(0.0)), "us")


def test_without_a_forecast_of_rain_nothing_is_said_of_it() -> None:
    assert "Rain forecast" not in ahead_text(_plan(_forecast()), "us")


def test_the_text_fits_eighty_columns(plan: WeekPlan) -> None:
    lines = ahead_text(plan, "metric").splitlines()
    assert max(len(line) for line in lines) <= 80


def test_each_day_says_on_what_it_rests(plan: WeekPlan) -> None:
    day = weather_json(plan)[1]
    assert (day["date"], day["eto_from"]) == ("2026-06-09", "forecast")
    assert (day["rain_counted_mm"], day["rain_ahead_mm"]) == (0.0, 12.7)


def test_a_plan_without_weather_has_no_days() -> None:
    assert weather_json(_plan()) == []
    assert ahead_text(_plan(), "us") == ""


def test_one_zone_says_what_its_week_may_bring(one: ZonePlan) -> None:
    first, second = zone_ahead_text(one, "us").splitlines()[:2]
    assert first.startswith("cool – planned – hot: ")
    assert second.startswith("skip a night if more rain falls: ")


def test_each_line_of_the_week_begins_with_its_zone(plan: WeekPlan) -> None:
    lines = ahead_text(plan, "us").splitlines()
    assert sum(line.startswith("Z4  ") for line in lines) == 2


def test_the_week_says_on_what_its_eto_rests(plan: WeekPlan) -> None:
    assert eto_from(plan) == "forecast"
    assert "(forecast)" in week_text(plan, "us").splitlines()[1]


def test_without_weather_nothing_is_said_of_a_source() -> None:
    assert eto_from(_plan()) == ""
