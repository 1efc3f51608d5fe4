"""Water of a week against the settings before: by hand, and what is left out."""

import dataclasses
import datetime as dt

import pytest

from scheduler.record import IssuedWeek, IssuedZone
from scheduler.site import AsFound, Controller
from scheduler.watering.week_water import week_water
from tests.scheduler.watering.night_plan.made import DATES, MONDAY, Watered, site, zone

# ten nozzles of package p1 give 95 gpm (made.py), 359.6 L/min
FLOW = 95 * 3.785411784


def watered(**given: object) -> Watered:
    found = AsFound(minutes=30.0, days=("mon", "thu"))
    one = Watered(zone("1", as_found=found), days=DATES[:3], cycle_minutes=20)
    return dataclasses.replace(one, **given)  # type: ignore[arg-type]


def issued(start: dt.date, minutes: float, n_days: int) -> IssuedWeek:
    days = tuple(start + dt.timedelta(days=i) for i in range(n_days))
    return IssuedWeek(f"{start}", start, (IssuedZone("1", minutes, 1, days),))


# --- by hand -------------------------------------------------------------------


def test_minutes_times_nights_times_flow() -> None:
    found = week_water(site(watered().zone), (watered(),))
    assert found.total_m3 == pytest.approx(20 * 3 * FLOW / 1000)


def test_every_cycle_counts() -> None:
    found = week_water(site(), (watered(cycles=3, cycle_minutes=5),))
    assert found.total_m3 == pytest.approx(3 * 5 * 3 * FLOW / 1000)


def test_before_is_the_clock_as_found_where_no_week_was_issued() -> None:
    found = week_water(site(), (watered(),))
    assert found.was_m3 == pytest.approx(30 * 2 * FLOW / 1000)
    assert found.change == pytest.approx(0.0)
    assert found.zones[0].was_from == "clock as found"


def test_a_clock_found_at_another_percentage_ran_so_much() -> None:
    place = site(controller=Controller(percent_adjust=150))
    found = week_water(place, (watered(),))
    assert found.was_m3 == pytest.approx(1.5 * 30 * 2 * FLOW / 1000)


def test_before_is_the_last_issued_week() -> None:
    weeks = (
        issued(MONDAY - dt.timedelta(days=14), 50.0, 7),
        issued(MONDAY - dt.timedelta(days=7), 40.0, 2),
    )
    found = week_water(site(), (watered(),), weeks)
    assert found.was_m3 == pytest.approx(40 * 2 * FLOW / 1000)
    assert found.change == pytest.approx(60 / 80 - 1)


def test_an_issue_of_this_week_is_not_the_week_before() -> None:
    found = week_water(site(), (watered(),), (issued(MONDAY, 40.0, 2),))
    assert found.zones[0].was_from == "clock as found"


# --- what is left out ------------------------------------------------------------


def test_a_blocked_zone_is_named_and_in_no_sum() -> None:
    found = week_water(site(), (watered(status="blocked"),))
    assert (found.total_m3, found.was_m3) == (0.0, None)
    assert found.not_counted == (("1", "blocked"),)


def test_a_zone_of_unknown_flow_is_named() -> None:
    bare = Watered(zone("1", package=None, heads=None))
    assert week_water(site(), (bare,)).not_counted == (("1", "flow not known"),)


def test_a_zone_that_is_off_needs_no_flow() -> None:
    bare = Watered(zone("1", package=None), status="off", cycles=None, days=())
    assert week_water(site(), (bare,)).not_counted == ()


def test_only_zones_whose_setting_is_known_are_held_against_before() -> None:
    other = Watered(zone("2"), days=DATES, cycle_minutes=60)
    found = week_water(site(), (watered(), other))
    assert found.alike_m3 == pytest.approx(20 * 3 * FLOW / 1000)
    assert found.zones[1].was_m3 is None
    assert found.change == pytest.approx(0.0)


def test_the_total_rests_on_every_zone() -> None:
    other = Watered(zone("2"), days=DATES)
    found = week_water(site(), (watered(), other))
    assert found.trace.value == pytest.approx(sum(one.now_m3 for one in found.zones))
    assert len(found.trace.inputs) == 2
