"""The change sheet: the plan's numbers, changed zones first, nothing left out."""

import dataclasses
import json

import pytest

from scheduler.plan import WeekPlan, build_week
from scheduler.reports.handed.change_print import change_page, change_text, sides
from scheduler.reports.handed.change_sheet import (
    ChangeSheet,
    change_sheet,
    change_sheet_json,
    now_text,
)
from scheduler.reports.handed.told import Known, zone_runs
from scheduler.site import Controller
from tests.scheduler.reports.handed.made import (
    MONDAY,
    demo_site,
    folder,
    hostile_week,
    week,
    with_zones,
    zone,
)

SITES = ("tern_hollow", "alder_flat")


@pytest.mark.parametrize("name", SITES)
def test_every_zone_stands_on_the_sheet_once(name: str) -> None:
    plan = week(name)
    sheet = change_sheet(plan, plan.site.units)
    stand = [one.zone for one in sheet.changed]
    stand += [told.split()[0] for told in (*sheet.same, *(b for b, _ in sheet.blocked))]
    assert sorted(stand) == sorted(one.zone.id for one in plan.zones)


@pytest.mark.parametrize("name", SITES)
def test_was_and_now_are_the_plans(name: str) -> None:
    plan = week(name)
    for one in change_sheet(plan, plan.site.units).changed:
        planned = zone(plan, one.zone)
        assert one.was == f"{planned.was_minutes:.0f}"
        assert one.now == now_text(planned)


def test_cycles_are_keyed_one_by_one_and_told_together() -> None:
    z7 = next(one for one in change_sheet(week(), "us").changed if one.zone == "Z7")
    planned = zone(week(), "Z7")
    assert z7.now == f"{planned.cycles} × {planned.cycle_minutes}"
    assert z7.detail == (
        f"= {planned.minutes_per_day} min a night, soak {planned.soak_minutes}+ min"
    )


def test_a_zone_that_rests_is_off() -> None:
    plan = week("alder_flat")
    a4 = next(one for one in change_sheet(plan, "metric").changed if one.zone == "A4")
    assert (a4.now, a4.starts, a4.nights) == ("OFF", (), "no night")


def test_every_start_of_the_night_plan_is_on_the_sheet() -> None:
    plan = week()
    for one in change_sheet(plan, "us").changed:
        told = " ".join(one.starts)
        for run in zone_runs(plan, one.zone):
            assert f"{run.start:%H:%M}" in told


def test_a_zone_that_stays_is_listed_small() -> None:
    assert change_sheet(week(), "us").same == (
        "Z8 Propagation bench, fertigated (valve 8): 6 min, every night",
    )


def test_a_blocked_zone_is_left_as_it_is_with_its_reason() -> None:
    ((who, why),) = change_sheet(week(), "us").blocked
    assert who == "Z9 Can yard west, azaleas (valve 9)"
    assert "196 %" in why


@pytest.mark.parametrize("name", SITES)
def test_rain_skips_are_the_plans_at_the_marks_of_the_gauge(name: str) -> None:
    plan = week(name)
    units = plan.site.units
    sheet = change_sheet(plan, units)
    for row in sheet.skips:
        planned = zone(plan, row.zone)
        told = dict(zip(planned.dates, row.rain, strict=True))
        for skip in planned.skips:
            assert skip.date is not None
            inches = skip.at_gauge_mm(units) / 25.4
            whole = f"{skip.at_gauge_mm(units):.0f}"
            assert told[skip.date] == (f"{inches:.2f}" if units == "us" else whole)
        assert all(told[day] == "" for day in planned.dates if day not in planned.days)


def test_a_night_without_a_skip_is_marked() -> None:
    plan = week()
    z1 = zone(plan, "Z1")
    fewer = with_zones(plan, Z1=dataclasses.replace(z1, skips=z1.skips[1:]))
    row = change_sheet(fewer, "us").skips[0]
    assert row.rain[0] == "–"


def test_percent_adjust_must_read_100_whatever_it_reads() -> None:
    assert change_sheet(week(), "us").percent == "100 %"
    assert change_sheet(week(), "us").percent_found == ""
    assert change_sheet(hostile_week(), "us").percent_found == "130 %"


def test_a_night_that_crosses_midnight_is_told_by_date() -> None:
    assert change_sheet(week(), "us").crosses.endswith(
        "the night of Mon 8 Jun ends at 04:30 on Tue 9 Jun."
    )


def test_programs_reasons_and_a_name_are_taken_where_they_are_known() -> None:
    known = Known(programs={"Z1": "A"}, reasons={"Z1": "hot"}, name="2026-06-08-r2")
    sheet = change_sheet(week(), "us", known)
    assert (sheet.changed[0].program, sheet.changed[0].why) == ("A", "hot")
    assert sheet.changed[1].program == ""
    assert sheet.name == "2026-06-08-r2"


def test_without_a_night_plan_the_starts_are_said_to_be_missing() -> None:
    bare = dataclasses.replace(week(), night=None)
    assert all(
        "not planned" in one.starts[0] for one in change_sheet(bare, "us").changed
    )


def test_a_night_that_does_not_fit_is_warned_of() -> None:
    plan = week()
    assert plan.night is not None
    summary = dataclasses.replace(plan.night.summary, fits=False, minutes_short=15)
    night = dataclasses.replace(
        plan.night, summary=summary, unplaced=(("Z1", plan.start),)
    )
    sheet = change_sheet(dataclasses.replace(plan, night=night), "us")
    assert "15 min short" in sheet.warnings[0]
    assert sheet.changed[0].no_room == "Mon 8"


def test_the_json_holds_what_is_printed() -> None:
    sheet = change_sheet(week(), "us")
    said = json.loads(json.dumps(change_sheet_json(sheet)))
    assert [one["now"] for one in said["changed"]] == [one.now for one in sheet.changed]
    assert said["report"] == "change-sheet"
    assert said["leave"][0]["zone"].startswith("Z9")


def two_clocks() -> WeekPlan:
    """The demo with its zones on two clocks, the second one with too few programs."""
    site = demo_site()
    clocks = (
        Controller(id="N", name="north", max_valves_at_once=2),
        Controller(id="S", name="shed", programs=3, percent_adjust=80),
    )
    zones = tuple(
        one.model_copy(update={"controller": "NS"[i % 2], "station": 20 - i})
        for i, one in enumerate(site.zones)
    )
    given = {"controller": clocks[0], "more_controllers": clocks[1:], "zones": zones}
    return build_week(site.model_copy(update=given), folder().history, MONDAY)


@pytest.fixture(scope="module")
def walked() -> ChangeSheet:
    return change_sheet(two_clocks(), "us")


def test_zones_stand_by_clock_and_station(walked: ChangeSheet) -> None:
    places = [(one.clock, int(one.station)) for one in walked.changed]
    assert places == sorted(places)
    assert {clock for clock, _ in places} == {"N north", "S shed"}


def test_each_clock_has_its_line_once_on_a_side(walked: ChangeSheet) -> None:
    assert change_text(walked).count("CLOCK S shed") == 1
    assert change_page(walked).count("CLOCK <b>S shed</b>") == sum(
        any(one.clock == "S shed" for one in side.changed) for side in sides(walked)
    )


def test_a_percent_found_on_one_of_several_clocks_is_told_with_its_name(
    walked: ChangeSheet,
) -> None:
    assert walked.percent_found == ""
    assert "Clock S shed was found at 80 %: set it to 100 %." in walked.warnings


def test_a_clock_that_cannot_hold_the_week_is_keyed_with_the_nearest(
    walked: ChangeSheet,
) -> None:
    (one,) = walked.instead
    assert one.why.startswith("S shed cannot hold this week")
    assert len(one.programs) == 3
    assert change_sheet_json(walked)["instead"][0]["programs"] == list(one.programs)
