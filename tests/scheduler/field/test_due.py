"""Tests due: never, stale, or on one run only."""

import datetime as dt
from typing import Any

import pytest

from scheduler.field.due import next_test_date
from scheduler.field.due import tests_due as due_tests
from scheduler.site import Place, Plant, Site, Zone
from tests.scheduler.field.made import can_test, run

TODAY = dt.date(2026, 6, 8)
PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC"
)


def site(**given: Any) -> Site:
    plant = Plant(name="holly", kc=0.85, kc_area="bed")
    base: dict[str, Any] = {
        "id": "Z4", "name": "yard", "area_m2": 9.0, "grown_in": "pots", "plant": plant,
    }  # fmt: skip
    return Site(name="a", units="us", place=PLACE, zones=(Zone(**(base | given)),))


def test_a_zone_never_tested_is_due() -> None:
    (finding,) = due_tests(site(), [], TODAY)
    assert "no usable test" in finding.what


def test_a_test_of_more_than_a_year_ago_is_stale() -> None:
    # Univ. Florida AE194: at least once a year
    old = can_test(run(), date=dt.date(2025, 5, 1))
    (finding,) = due_tests(site(), [old], TODAY)
    assert finding.level == "warning"


def test_one_run_of_this_year_is_only_noted() -> None:
    (finding,) = due_tests(site(), [can_test(run())], TODAY)
    assert finding.level == "note"


def test_two_runs_of_this_year_are_enough() -> None:
    assert due_tests(site(), [can_test(run(), run(name="run2"))], TODAY) == ()


def test_a_zone_with_fixed_minutes_needs_no_test() -> None:
    fixed = site(watered="fixed minutes", fixed_minutes=5.0)
    assert due_tests(fixed, [], TODAY) == ()


def test_a_month_counts_when_its_day_is_reached() -> None:
    old = can_test(run(), run(name="run2"), date=dt.date(2025, 6, 30))
    assert due_tests(site(), [old], dt.date(2026, 6, 29)) == ()
    assert len(due_tests(site(), [old], dt.date(2026, 6, 30))) == 1


def test_two_folders_of_one_day_are_two_runs() -> None:
    both = [can_test(run()), can_test(run(name="run2"))]
    assert due_tests(site(), both, TODAY) == ()


def test_two_nights_of_one_season_on_one_grid_are_two_runs() -> None:
    nights = [can_test(run(), date=dt.date(2026, 5, day)) for day in (12, 20)]
    assert due_tests(site(), nights, TODAY) == ()


def test_a_run_before_a_tune_up_does_not_count_for_the_one_after() -> None:
    before = can_test(run(), date=dt.date(2026, 5, 12), condition="as found")
    after = can_test(run(), date=dt.date(2026, 5, 20), condition="after tune-up")
    (finding,) = due_tests(site(), [before, after], TODAY)
    assert "one run on one day" in finding.what


def test_a_test_of_another_package_is_no_test_of_the_zone() -> None:
    other = can_test(run(), run(name="run2"), package="trial-heads")
    (finding,) = due_tests(site(package="yard-30"), [other], TODAY)
    assert "no usable test" in finding.what


def test_a_test_that_names_the_zone_s_own_package_counts() -> None:
    own = can_test(run(), run(name="run2"), package="yard-30")
    assert due_tests(site(package="yard-30"), [own], TODAY) == ()


def test_a_newer_test_of_another_package_does_not_make_an_old_one_fresh() -> None:
    old = can_test(run(), run(name="run2"), date=dt.date(2025, 5, 1))
    other = can_test(run(), run(name="run2"), package="trial-heads")
    (finding,) = due_tests(site(package="yard-30"), [old, other], TODAY)
    assert "was last tested 1 May 2025" in finding.what


@pytest.mark.parametrize(
    ("tested", "months", "next_one"),
    [
        (dt.date(2026, 5, 12), 12, dt.date(2027, 5, 12)),
        (dt.date(2026, 11, 30), 3, dt.date(2027, 2, 28)),
        (dt.date(2024, 2, 29), 12, dt.date(2025, 2, 28)),
        (dt.date(2026, 12, 31), 1, dt.date(2027, 1, 31)),
        (dt.date(2026, 6, 15), 6, dt.date(2026, 12, 15)),
    ],
)
def test_the_next_test_is_so_many_months_later(
    tested: dt.date, months: int, next_one: dt.date
) -> None:
    assert next_test_date(tested, months) == next_one


@pytest.mark.parametrize("months", [1, 6, 12, 18])
def test_a_test_is_due_on_the_day_that_is_named(months: int) -> None:
    tested = dt.date(2025, 5, 12)
    day = next_test_date(tested, months)
    place = site().model_copy(update={"test_every_months": months})
    tests = [can_test(run(), run(name="run2"), date=tested)]
    before = day - dt.timedelta(days=1)
    assert any("last tested" in one.what for one in due_tests(place, tests, day))
    assert not any("last tested" in one.what for one in due_tests(place, tests, before))
