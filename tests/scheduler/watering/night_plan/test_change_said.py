"""What is said of nights in which the clocks change."""

import datetime as dt
from dataclasses import replace

from scheduler.record import History
from scheduler.watering.night_plan import NightPlan, night_plan
from tests.scheduler.watering.night_plan.made import Watered, site, zone

SPRING = dt.date(2026, 3, 7)
AUTUMN = dt.date(2026, 10, 31)


def _plan(night: dt.date, **given: int) -> NightPlan:
    dates = tuple(night + dt.timedelta(days=d) for d in range(7))
    one = replace(Watered(zone("1")), days=(night,), dates=dates, **given)  # type: ignore[arg-type]
    plan = night_plan(site(one.zone), History(), (one,))
    assert plan is not None
    return plan


def _said(plan: NightPlan) -> str:
    (one,) = [one for one in plan.findings if "clock change" in one.where]
    return one.what


def test_the_skipped_hour_is_named_and_stays_empty() -> None:
    plan = _plan(SPRING, cycle_minutes=240)
    assert "23 hours: 02:00 to 03:00 is skipped" in _said(plan)
    (run,) = plan.runs
    assert f"{run.start:%H:%M} {run.end:%H:%M}" == "22:00 02:00"


def test_a_night_too_short_by_the_hour_does_not_fit() -> None:
    assert _plan(SPRING, cycle_minutes=300).summary.fits is False


def test_a_soak_over_the_skipped_hour_is_short() -> None:
    plan = _plan(SPRING, cycles=2, cycle_minutes=85, soak_minutes=180)
    # 23:25 to 03:00 by the clock, an hour less in truth
    assert "1 soaks 155 min instead of 180" in _said(plan)


def test_zones_that_start_in_the_repeated_hour_are_named() -> None:
    said = _said(_plan(AUTUMN, cycles=2, cycle_minutes=60, soak_minutes=125))
    assert "25 hours: 01:00 to 02:00 comes twice; 1 start in it" in said


def test_a_repeated_hour_without_starts_is_said_to_be_harmless() -> None:
    assert "no zone starts in it" in _said(_plan(AUTUMN))
