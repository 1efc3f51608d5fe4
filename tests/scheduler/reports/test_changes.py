"""Changes and programs in words and JSON: the plan's own numbers, formatted."""

import datetime as dt
from dataclasses import replace

import pytest

from scheduler.log import Log, Override
from scheduler.plan import WeekPlan
from scheduler.reports.changes import (
    change_json,
    changes_text,
    clock_json,
    clock_line,
    clock_text,
    percent_text,
)
from tests.scheduler.test_plan import zone
from tests.scheduler.test_week_changes import BEFORE, override, week


@pytest.fixture(scope="module")
def plan() -> WeekPlan:
    return week(zone())


@pytest.mark.parametrize(
    ("change", "text"),
    [(None, "–"), (0.0, "0 %"), (0.004, "0 %"), (-0.0833, "−8 %"), (0.125, "+12 %")],
)
def test_a_percent_carries_its_sign(change: float | None, text: str) -> None:
    assert percent_text(change) == text


def test_a_change_stands_with_was_now_percent_and_why(plan: WeekPlan) -> None:
    line = changes_text(plan).splitlines()[1]
    assert line.split(maxsplit=6) == [
        "Z4", "24", "→", "27", "+12", "%", "first plan; was as found",
    ]  # fmt: skip


def test_unchanged_zones_stand_in_one_line() -> None:
    assert changes_text(week(zone(), issued=BEFORE)) == "unchanged: Z4"


def test_zones_that_are_left_stand_in_one_line() -> None:
    assert "left as the clock is: Z4" in changes_text(week(zone(watered="off")))


def test_an_override_is_shown_with_its_reason() -> None:
    text = changes_text(week(zone(), issued=BEFORE, log=override(8)))
    assert "override kept: Z4 20 min, 8 Jun 2026: leaves rolled" in text


def test_the_json_holds_change_reason_and_effects() -> None:
    told = week(zone(rule="average"), issued=BEFORE).zones[0].changed
    found = change_json(told)
    assert told is not None
    assert (found["change"], found["reason"]) == (told.change, "rule now average")
    assert found["effects"][0]["cause"] == "rule"


def test_a_zone_without_a_change_has_empty_keys() -> None:
    assert change_json(None)["overrides"] == []


def test_the_json_of_the_clock_holds_programs_and_percent(plan: WeekPlan) -> None:
    found = clock_json(plan.clock)
    assert found is not None
    assert found["programs"][0]["stations"] == [
        {"station": 1, "zone": "Z4", "minutes": 27}
    ]
    assert found["percent_ways"][0]["percent"] == 112


def test_a_week_without_a_timetable_has_no_clock() -> None:
    assert clock_json(None) is None


def test_the_line_counts_programs(plan: WeekPlan) -> None:
    assert plan.clock is not None
    assert clock_line(plan.clock).startswith("Clock: 1 program (")


def test_the_programs_are_shown_to_be_keyed_in(plan: WeekPlan) -> None:
    assert plan.clock is not None
    start = plan.clock.programs[0].starts[0]
    text = clock_text(plan.clock)
    assert f"start {start:%H:%M}; station 1 (Z4) 27 min" in text
    assert "percent adjust must read 100" in text


def test_one_percent_for_all_is_one_or_the_other(plan: WeekPlan) -> None:
    assert plan.clock is not None
    text = " ".join(clock_text(plan.clock).split())
    assert "set percent adjust to 112: one or the other, never both" in text


def test_a_percent_by_zone_says_what_it_gives(plan: WeekPlan) -> None:
    assert plan.clock is not None
    text = clock_text(replace(plan.clock, percent_for_all=None))
    assert "Z4 24 at 112 % = 27" in " ".join(text.split())


def test_lines_fit_a_terminal_of_eighty_columns(plan: WeekPlan) -> None:
    assert plan.clock is not None
    long = Override(
        where="log.csv:2", typed="", date=dt.date(2026, 6, 8), zone="Z4",
        minutes=20.0, reason="leaves rolled at the far end by noon, " * 4,
    )  # fmt: skip
    text = changes_text(week(zone(), issued=BEFORE, log=Log((long,))))
    every = f"{text}\n{clock_text(plan.clock)}"
    assert max(map(len, every.splitlines())) <= 80
