"""The night sheet: like nights once, valves together, flow, what is blocked."""

import dataclasses
import datetime as dt
import json

import pytest

from scheduler.reports.handed.night_sheet import (
    NO_PLAN,
    NightSheet,
    night_sheet,
    night_sheet_json,
)
from scheduler.site import BlockedHours, Tariff
from scheduler.supply import EnergyPeriod
from scheduler.units import shown
from scheduler.watering.night_plan.together import stretches
from scheduler.week_plan import WeekPlan
from tests.scheduler.reports.handed.made import week

SITES = ("tern_hollow", "alder_flat")


def sheet(name: str = "tern_hollow") -> NightSheet:
    return night_sheet(week(name), week(name).site.units)


def with_site(plan: WeekPlan, **given: object) -> WeekPlan:
    return dataclasses.replace(plan, site=plan.site.model_copy(update=given))


@pytest.mark.parametrize("name", SITES)
def test_every_night_is_on_the_sheet_once(name: str) -> None:
    titles = " ".join(one.title for one in sheet(name).parts)
    for day in week(name).zones[0].dates:
        assert titles.count(f"{day:%a} {day.day}") == 1


@pytest.mark.parametrize("name", SITES)
def test_every_run_has_its_place_in_a_lane(name: str) -> None:
    plan = week(name)
    assert plan.night is not None
    first = plan.night.summary.windows[0]
    lanes = {one.name: one.runs for one in sheet(name).parts[0].picture.lanes}
    for run in plan.night.runs:
        if run.night == first.night:
            minutes = (run.end - run.start) // dt.timedelta(minutes=1)
            start = (run.start - first.start) // dt.timedelta(minutes=1)
            assert (start, start + minutes) in lanes[run.zone]


@pytest.mark.parametrize("name", SITES)
def test_flows_are_the_plans(name: str) -> None:
    plan = week(name)
    assert plan.night is not None
    night = plan.night.summary.windows[0].night
    told = stretches(one for one in plan.night.runs if one.night == night)
    for row, one in zip(sheet(name).parts[0].rows, told, strict=True):
        flow = shown(one.flow_l_per_min, "l_per_min", plan.site.units)
        assert row.flow.startswith("not known" if one.unknown == one.zones else flow)
        assert row.zones == " + ".join(one.zones)
        assert row.hours == f"{one.start:%H:%M}–{one.end:%H:%M}"


def test_an_unknown_flow_is_said_beside_the_known_ones() -> None:
    rows = sheet().parts[0].rows
    assert "193.6 gpm + Z8 (not known)" in [row.flow for row in rows]


def test_the_pump_and_the_highest_flow_are_told() -> None:
    assert sheet().pump == "200.0 gpm"
    assert sheet().told[0].startswith("Highest flow 193.6 gpm, 3 valves at once")


def test_a_blocked_zone_is_said_to_be_missing() -> None:
    assert "Not in the plan: Z9" in " ".join(sheet().told)


def test_blocked_hours_and_energy_periods_are_listed() -> None:
    spray = BlockedHours(start=dt.time(0, 30), end=dt.time(1), reason="spraying",
                         zones=("Z1",))  # fmt: skip
    dear = EnergyPeriod(start=dt.time(17), end=dt.time(23), price_money_per_kwh=0.31)
    tariff = Tariff(currency="USD", period=(dear,))
    plan = with_site(week(), blocked_hours=(spray,), tariff=tariff)
    notes = night_sheet(plan, "us").parts[0].notes
    assert notes == (
        "17:00–23:00 energy at 0.31 USD/kWh",
        "00:30–01:00 blocked: spraying (Z1)",
    )


def test_a_night_with_other_blocked_hours_is_told_apart() -> None:
    people = BlockedHours(start=dt.time(0, 30), end=dt.time(1), reason="people",
                          days=("wed",))  # fmt: skip
    plan = with_site(week(), blocked_hours=(people,))
    assert len(night_sheet(plan, "us").parts) == len(sheet().parts) + 1


def test_the_change_over_is_told() -> None:
    clock = week().site.controller.model_copy(update={"change_over_minutes": 2})
    told = night_sheet(with_site(week(), controller=clock), "us").told
    assert "Lines fill in the 2 min before each start." in told


def test_what_does_not_fit_is_told_first_with_its_zones() -> None:
    plan = week()
    assert plan.night is not None
    summary = dataclasses.replace(plan.night.summary, fits=False, minutes_short=15)
    night = dataclasses.replace(
        plan.night, summary=summary, unplaced=(("Z1", plan.start),)
    )
    told = night_sheet(dataclasses.replace(plan, night=night), "us").told
    assert told[0] == "It does not fit: 15 min short."
    assert "No room for Z1 on the night of Mon 8 Jun." in told


def test_without_a_plan_of_the_nights_it_says_what_to_enter() -> None:
    bare = dataclasses.replace(week(), night=None)
    assert night_sheet(bare, "us").told == (NO_PLAN,)
    assert night_sheet(bare, "us").parts == ()


def test_the_json_holds_what_is_printed() -> None:
    said = json.loads(json.dumps(night_sheet_json(sheet())))
    assert said["report"] == "night-sheet"
    assert len(said["nights"]) == len(sheet().parts)
    assert said["nights"][0]["together"][0]["flow"] == sheet().parts[0].rows[0].flow
