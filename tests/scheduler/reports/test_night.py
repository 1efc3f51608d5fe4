"""The nights in words and JSON: the plan's numbers, formatted."""

import datetime as dt

import pytest

from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder
from scheduler.plan import WeekPlan, build_week
from scheduler.record import History
from scheduler.reports.night import night_json, night_text
from scheduler.watering.night_plan import night_plan
from tests.scheduler.watering.night_plan.made import eight_zones, site


@pytest.fixture(scope="module")
def plan() -> WeekPlan:
    found = read_site_folder(demo_source() / "tern_hollow")
    assert found.site is not None
    return build_week(found.site, found.history, dt.date(2026, 6, 8))


def test_the_timetable_has_a_row_for_each_cycle_that_waters(plan: WeekPlan) -> None:
    rows = night_json(plan)["timetable"]
    waterings = sum(len(z.days) * (z.cycles or 0) for z in plan.zones)
    assert len(rows) == waterings
    assert set(rows[0]) == {
        "zone", "night", "start", "end", "start_utc", "end_utc", "flow_l_per_min",
    }  # fmt: skip


def test_the_summary_is_the_plans(plan: WeekPlan) -> None:
    assert plan.night is not None
    summary, said = plan.night.summary, night_json(plan)["summary"]
    assert said["fits"] is True
    assert said["minutes_short"] == 0
    assert said["gap_to_bound"] == summary.gap_to_bound
    assert said["peak_flow_l_per_min"] == summary.peak_flow_l_per_min
    assert said["windows"] == [
        {"start": "22:00", "end": "04:30", "days": [
            "mon", "tue", "wed", "thu", "fri", "sat", "sun"]}
    ]  # fmt: skip


def test_a_site_without_zones_has_an_empty_timetable(plan: WeekPlan) -> None:
    bare = plan.site.model_copy(update={"zones": ()})
    said = night_json(build_week(bare, History(), dt.date(2026, 6, 8)))
    assert (said["timetable"], said["summary"]["fits"]) == ([], None)


def test_the_night_plan_fits_eighty_columns(plan: WeekPlan) -> None:
    assert plan.night is not None
    lines = night_text(plan.night, "us").splitlines()
    assert max(len(line) for line in lines) <= 80
    assert lines[0].startswith("Night plan: fits")


def test_every_run_is_in_the_words(plan: WeekPlan) -> None:
    assert plan.night is not None
    words = night_text(plan.night, "us")
    for run in plan.night.runs:
        assert f"{run.start:%H:%M}–{run.end:%H:%M} {run.zone}" in words


def test_a_night_that_is_too_long_says_the_minutes() -> None:
    from scheduler.site import Controller

    some = eight_zones()
    place = site(
        *(one.zone for one in some),
        pump_gpm=170.0,
        controller=Controller(change_over_minutes=2),
    )
    found = night_plan(place, History(), some)
    assert found is not None
    assert "does not fit, 5 min short" in night_text(found, "us")


def test_without_a_pump_the_words_point_to_the_findings() -> None:
    some = eight_zones()
    found = night_plan(site(pump_gpm=None), History(), some)
    assert found is not None
    assert night_text(found, "us") == "Night plan: none, see the findings"
