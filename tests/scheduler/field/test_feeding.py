"""Which tests and runs feed the week, and why the others do not."""

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from scheduler.field.feeding import feeding_tests, in_band, same_grid
from scheduler.field.wind_during import SiteWind
from scheduler.record import CanLayout, CanRun, CanTest
from tests.scheduler.field.made import can_test, run


def made_on(day: dt.date, condition: str = "as found", *runs: CanRun, **given: Any) -> (
    CanTest
):  # fmt: skip
    return can_test(*(runs or (run(),)), date=day, condition=condition, **given)


MARCH, APRIL, MAY = dt.date(2026, 3, 20), dt.date(2026, 4, 20), dt.date(2026, 5, 20)
NOT_ASKED = SiteWind(usual_from="the site has no [[wind_log]]")
BREEZY = SiteWind(usual_m_per_s=3.0)


def in_wind(name: str, wind_m_per_s: float | None) -> CanRun:
    return replace(run(name=name), wind_m_per_s=wind_m_per_s)


def test_tests_of_one_condition_within_a_season_are_pooled() -> None:
    found = feeding_tests([made_on(MAY), made_on(APRIL)])
    assert [one.date for one in (*found.earlier, *found.newest)] == [APRIL, MAY]


def test_as_found_is_never_pooled_with_after_a_tune_up() -> None:
    found = feeding_tests([made_on(APRIL), made_on(MAY, "after tune-up")])
    assert found.earlier == ()
    assert "another condition" in found.left_out[0]


def test_a_tune_up_between_two_tests_ends_the_search() -> None:
    tests = [made_on(MARCH), made_on(APRIL, "after tune-up"), made_on(MAY)]
    found = feeding_tests(tests)
    assert found.earlier == ()
    assert any("was tested since" in one for one in found.left_out)


def test_a_test_of_another_season_is_left_out() -> None:
    found = feeding_tests([made_on(dt.date(2025, 5, 20)), made_on(MAY)])
    assert "more than 92 days" in found.left_out[0]


@pytest.mark.parametrize(
    "old",
    [
        made_on(APRIL, "as found", run(np.full((4, 6), 50.0))),
        made_on(APRIL, layout=CanLayout(row_bearing_deg=90.0)),
    ],
)
def test_cans_in_other_places_are_not_pooled(old: CanTest) -> None:
    assert not same_grid(old, made_on(MAY))
    assert feeding_tests([old, made_on(MAY)]).earlier == ()


def test_runs_of_the_irrigation_wind_feed_the_week() -> None:
    runs = [in_wind("calm", 1.0), in_wind("breeze", 3.2), in_wind("gale", 6.0)]
    found = in_band(runs, BREEZY, "tests/t")
    assert found.chosen == (1,)
    assert "calm (calm), gale (windy)" in found.why
    assert found.findings == ()


def test_runs_of_one_name_are_told_apart_by_their_day() -> None:
    start = dt.datetime.fromisoformat("2026-05-12T05:40")
    dated = [
        replace(in_wind("run1", 3.0), start=start),
        replace(in_wind("run1", 1.0), start=start + dt.timedelta(8)),
    ]
    found = in_band(dated, BREEZY, "tests/t")
    assert "not used: run1 of 2026-05-20 (calm)" in found.why


def test_without_a_run_in_that_wind_all_are_used_with_a_warning() -> None:
    found = in_band([in_wind("a", 1.0), in_wind("b", 0.5)], BREEZY, "tests/t")
    assert found.chosen == (0, 1)
    assert [one.level for one in found.findings] == ["warning"]


def test_runs_of_unknown_wind_ask_for_it() -> None:
    found = in_band([in_wind("a", None)], BREEZY, "tests/t")
    assert "log or enter its wind" in found.findings[0].fix


def test_a_run_of_unknown_wind_is_kept_beside_those_of_the_band_and_said() -> None:
    runs = [in_wind("breeze", 3.2), in_wind("gale", 6.0), in_wind("new", None)]
    found = in_band(runs, BREEZY, "tests/t")
    assert found.chosen == (0, 2)
    assert "the wind of new is not known" in found.findings[0].what


def test_an_unknown_irrigation_wind_is_said_where_it_would_matter() -> None:
    mixed = in_band([in_wind("a", 1.0), in_wind("b", 3.0)], NOT_ASKED, "tests/t")
    assert [one.level for one in mixed.findings] == ["note"]
    alike = in_band([in_wind("a", 1.0), in_wind("b", 1.5)], NOT_ASKED, "tests/t")
    assert alike.findings == ()
    assert "not known" in alike.why


def test_a_calm_site_takes_every_calm_run() -> None:
    calm = SiteWind(usual_m_per_s=1.2)
    runs = [in_wind("a", 0.2), in_wind("b", 2.2), in_wind("c", 3.0)]
    assert in_band(runs, calm, "tests/t").chosen == (0, 1)
