"""Waterings moved by hand to other nights, and the minutes planned for these."""

import datetime as dt
from functools import cache

import pytest

from scheduler.plan import build_week
from scheduler.site import Site, Supply, Window
from scheduler.watering.night_plan import Pin
from scheduler.week_hours import chosen_nights
from scheduler.week_plan import WeekPlan, ZonePlan
from tests.scheduler.money.made import TODAY, bay, small_site
from tests.scheduler.money.made_week import HISTORY

WINDOW = Window(start=dt.time(22), end=dt.time(4))
PUMP = Supply(source="well", flow_l_per_min=450.0)
EVEN = {"assumed_net_rate_mm_per_h": 12.0, "assumed_du_lq": 0.8}
# 5 mm are used a day (HISTORY), and no rain falls
USE_MM = 5.0


@cache
def site() -> Site:
    zones = (bay(id="W", **EVEN), bay(id="V", watered="every allowed day", **EVEN))
    return small_site(*zones, windows=(WINDOW,), supply=PUMP)


@cache
def week(*pins: Pin) -> WeekPlan:
    return build_week(site(), HISTORY, TODAY, pins=pins)


def zone(plan: WeekPlan) -> ZonePlan:
    return next(one for one in plan.zones if one.zone.id == "W")


def pin(by: int, *, hour: int = 22) -> Pin:
    """The last watering of W so many nights later."""
    own = zone(week())
    night = own.days[-1]
    to = night + dt.timedelta(days=by)
    ten = dt.datetime.combine(to, dt.time(hour))
    step = dt.timedelta(minutes=(own.cycle_minutes or 0) + (own.soak_minutes or 0))
    return Pin("W", night, to, tuple(ten + i * step for i in range(own.cycles or 1)))


def moved_notes(plan: WeekPlan) -> list[str]:
    return [one.what for one in plan.all_findings if "moved watering" in one.where]


def test_the_last_night_a_day_earlier_has_a_day_less_to_fill() -> None:
    now, before = zone(week(pin(-1))), zone(week())
    assert before.need_mm is not None
    assert now.need_mm == pytest.approx(before.need_mm - USE_MM, abs=1e-6)


def test_the_minutes_are_those_of_the_nights_it_stands_on() -> None:
    now, before = zone(week(pin(-1))), zone(week())
    assert now.days == (*before.days[:-1], before.days[-1] - dt.timedelta(days=1))
    assert (now.minutes_per_day or 0) < (before.minutes_per_day or 0)


def test_what_the_move_does_to_the_minutes_is_said() -> None:
    now, before = zone(week(pin(-1))), zone(week())
    (said,) = moved_notes(week(pin(-1)))
    minutes = f"{now.minutes_per_day} min a night, {before.minutes_per_day} before"
    assert minutes in said


def test_the_move_itself_is_kept_as_it_was_made() -> None:
    made = week(pin(-1)).night
    assert made is not None
    assert made.board is not None
    assert made.board.pins == (pin(-1),)
    assert pin(-1).starts[0] in {run.start for run in made.runs if run.zone == "W"}


def test_another_minute_of_the_same_night_changes_no_minutes() -> None:
    made = week(pin(0, hour=23))
    assert zone(made).minutes_per_day == zone(week()).minutes_per_day
    assert moved_notes(made) == []


def test_the_chain_says_that_the_nights_were_chosen() -> None:
    nights = zone(week(pin(-1))).trace.find("nights")
    assert nights is not None
    assert "moved" in nights.formula


def test_other_zones_keep_their_minutes() -> None:
    assert [
        one.minutes_per_day for one in week(pin(-1)).zones if one.zone.id == "V"
    ] == [one.minutes_per_day for one in week().zones if one.zone.id == "V"]


def test_a_move_that_does_not_fit_changes_nothing() -> None:
    noon = pin(-1, hour=12)
    assert zone(week(noon)).minutes_per_day == zone(week()).minutes_per_day
    assert chosen_nights(week().zones, week(noon).night) == {}
