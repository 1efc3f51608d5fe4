"""A site's week, by the clock."""

import datetime as dt
from typing import Any

import pytest

from scheduler.issued import IssuedRun, IssuedWeek
from scheduler.record import History
from scheduler.site import BlockedHours, Controller
from scheduler.unit_table import L_PER_US_GALLON
from scheduler.watering.night_plan import NightPlan, night_plan
from tests.scheduler.watering.night_plan.made import (
    DATES,
    MONDAY,
    Watered,
    eight_zones,
    site,
    zone,
)


def _plan(*watered: Watered, history: History | None = None, **given: Any) -> NightPlan:
    place = site(*(one.zone for one in watered), **given)
    plan = night_plan(place, history or History(), watered)
    assert plan is not None
    return plan


def test_the_worked_night_fits_under_200_gpm() -> None:
    summary = _plan(*eight_zones()).summary
    assert (summary.fits, summary.minutes_short) == (True, 0)
    assert (summary.windows[0].free_minutes, summary.windows[0].pairs_minutes) == (
        310,
        340,
    )


def test_the_worked_night_under_170_gpm_offers_both_figures() -> None:
    window = _plan(*eight_zones(), pump_gpm=170.0).summary.windows[0]
    assert (window.free_minutes, window.pairs_minutes, window.minutes) == (
        385,
        405,
        390,
    )


@pytest.mark.parametrize(("change_over", "short"), [(1, 0), (2, 5)])
def test_the_worked_night_with_change_overs(change_over: int, short: int) -> None:
    clock = Controller(change_over_minutes=change_over)
    summary = _plan(*eight_zones(), pump_gpm=170.0, controller=clock).summary
    assert (summary.fits, summary.minutes_short) == (short == 0, short)


def test_minutes_of_the_zones_are_conserved() -> None:
    runs = _plan(*eight_zones(DATES)).runs
    total = sum((one.end - one.start).total_seconds() / 60 for one in runs)
    assert total == 7 * 620


def test_no_minute_takes_more_than_the_pump() -> None:
    summary = _plan(*eight_zones(DATES)).summary
    assert summary.peak_flow_l_per_min is not None
    assert summary.peak_flow_l_per_min <= 200 * L_PER_US_GALLON + 1e-6
    assert summary.most_valves == 2


def test_every_run_lies_in_the_window_of_its_night() -> None:
    for run in _plan(*eight_zones(DATES)).runs:
        begin = dt.datetime.combine(run.night, dt.time(22))
        assert begin <= run.start
        assert run.end <= begin + dt.timedelta(minutes=390)


def test_runs_after_midnight_bear_the_date_of_the_clock_and_of_their_night() -> None:
    last = max(_plan(*eight_zones()).runs, key=lambda one: one.start)
    assert (last.night, last.start.date()) == (MONDAY, DATES[1])


def test_cycles_keep_their_soak() -> None:
    a, b = _plan(Watered(zone("1"), cycles=2, cycle_minutes=15, soak_minutes=23)).runs
    assert b.start - a.end >= dt.timedelta(minutes=23)


def test_spraying_keeps_the_water_away() -> None:
    spray = BlockedHours(
        start=dt.time(22), end=dt.time(3), reason="spraying", zones=("1",)
    )
    (run,) = _plan(Watered(zone("1")), blocked_hours=(spray,)).runs
    assert run.start >= dt.datetime.fromisoformat("2026-06-09T03:00")


def test_the_last_issued_week_keeps_its_starts() -> None:
    start = dt.datetime.fromisoformat(
        "2026-06-02T01:17"
    )  # in the night of Monday, a week before
    told = IssuedRun("1", start, start + dt.timedelta(minutes=20))
    week = IssuedWeek("2026-W23", dt.date(2026, 6, 1), (), (told,))
    (run,) = _plan(Watered(zone("1")), history=History(issued=(week,))).runs
    assert run.start == start + dt.timedelta(days=7)


def test_a_week_issued_without_a_timetable_keeps_nothing() -> None:
    week = IssuedWeek("2026-W23", dt.date(2026, 6, 1), ())
    (run,) = _plan(Watered(zone("1")), history=History(issued=(week,))).runs
    assert run.start == dt.datetime.fromisoformat("2026-06-08T22:00")


def test_a_watering_without_room_is_named_with_its_night() -> None:
    plan = _plan(Watered(zone("1"), cycle_minutes=391))
    assert plan.unplaced == (("1", MONDAY),)
    assert plan.summary.fits is False


def test_without_a_pump_nothing_is_planned() -> None:
    plan = _plan(*eight_zones(), pump_gpm=None)
    assert (plan.runs, plan.summary.fits) == ((), None)


def test_the_order_of_zones_does_not_matter() -> None:
    some = eight_zones(DATES[:2])
    assert _plan(*some[::-1]).runs == _plan(*some).runs


def test_the_plan_says_how_far_it_is_from_the_best() -> None:
    gap = _plan(*eight_zones()).summary.gap_to_bound
    assert gap is not None
    assert 0 <= gap < 1e-6
