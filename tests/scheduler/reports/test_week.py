"""Reports hold no arithmetic: what they show is the plan's number, formatted."""

import datetime as dt
import json

import pytest
from click.testing import CliRunner

from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder
from scheduler.plan import WeekPlan, build_week
from scheduler.reports.machine import clean, trace_json, week_json, zone_json
from scheduler.reports.text import explain_text, rules_text, trace_line, week_text
from scheduler.trace import Trace, entered
from scheduler.units import shown
from tui.cli import main


@pytest.fixture(scope="module")
def plan() -> WeekPlan:
    found = read_site_folder(demo_source() / "tern_hollow")
    assert found.site is not None
    return build_week(found.site, found.history, dt.date(2026, 6, 8))


def test_each_minute_in_the_week_is_the_plans(plan: WeekPlan) -> None:
    lines = week_text(plan, "us").splitlines()
    for one in plan.zones:
        line = next(row for row in lines if row.startswith(f"{one.zone.id} "))
        if one.cycles and one.cycles > 1:
            assert f"{one.cycles} x {one.cycle_minutes}" in line
        elif one.minutes_per_day:
            assert f" {one.minutes_per_day} " in line


def test_a_blocked_zone_says_so_and_shows_no_minutes(plan: WeekPlan) -> None:
    line = next(x for x in week_text(plan, "us").splitlines() if x.startswith("Z9"))
    assert "blocked" in line


def test_the_week_fits_eighty_columns(plan: WeekPlan) -> None:
    assert max(len(line) for line in week_text(plan, "metric").splitlines()) <= 80


def test_each_rule_shows_the_plans_factor_and_quarters(plan: WeekPlan) -> None:
    one = next(p for p in plan.zones if p.zone.id == "Z4")
    text = rules_text(one)
    for outcome in one.rules:
        line = next(x for x in text.splitlines() if outcome.rule in x)
        assert f"{outcome.factor:.2f}" in line
        assert f"{outcome.quarters[0]:.0%}" in line


def test_json_numbers_are_the_plans(plan: WeekPlan) -> None:
    for one in plan.zones:
        value = zone_json(one)
        assert value["minutes_per_day"] == one.minutes_per_day
        assert value["need_mm"] == one.need_mm


def test_a_blocked_zone_reads_off_and_blocked_without_numbers(plan: WeekPlan) -> None:
    value = zone_json(next(p for p in plan.zones if p.zone.id == "Z9"))
    assert (value["status"], value["blocked"]) == ("off", True)
    assert value["minutes_per_day"] is None


def test_the_week_is_plain_json(plan: WeekPlan) -> None:
    text = json.dumps(clean(week_json(plan, ())), allow_nan=False)
    assert json.loads(text)["format"] == 1


def test_numbers_that_json_cannot_hold_become_null() -> None:
    assert clean({"a": float("nan"), "b": [float("inf"), 1.0]}) == {
        "a": None,
        "b": [None, 1.0],
    }


def test_the_chain_is_printed_from_the_cans_to_the_minutes(plan: WeekPlan) -> None:
    one = next(p for p in plan.zones if p.zone.id == "Z4")
    text = explain_text(one.trace, "us")
    assert text.index("net rate =") < text.index("minutes per day =")
    assert text.lstrip().startswith("1  mean")
    names = [step["name"] for step in trace_json(one.trace)["chain"]]
    assert names[-1] == "minutes_per_day"


def test_a_line_of_the_chain_shows_value_unit_formula_and_source() -> None:
    rate = Trace("net_rate_mm_per_h", 12.19, "depth over time", "definition")
    expected = shown(12.19, "mm_per_h", "us")
    assert f"net rate = {expected}: depth over time [definition]" in trace_line(
        rate, "us"
    )


def test_a_number_nobody_knows_is_a_dash() -> None:
    assert "= –" in trace_line(entered("net_rate_mm_per_h", None), "us")


def test_a_range_says_that_neighbouring_cans_make_it_wider() -> None:
    run = CliRunner().invoke(main, ["cans", "41 52 60 48 66 71 58 39"])
    assert "neighbouring cans" in run.stdout.replace("\n", " ")
