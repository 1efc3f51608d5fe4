"""The manager's half page: the plan's numbers, worst findings first."""

import dataclasses
import datetime as dt
import json

import pytest

from scheduler.errors import Finding
from scheduler.log import Log, Override
from scheduler.reports.handed.summary import (
    MOST_EYES,
    summary_facts,
    summary_json,
    summary_paper,
)
from scheduler.reports.handed.told import Known
from scheduler.reports.page import paper_page
from scheduler.reports.paper_text import paper_text
from scheduler.units import shown
from scheduler.watering.week_water import WeekWater, week_water
from scheduler.week_plan import WeekPlan
from tests.scheduler.reports.handed.made import MONDAY, folder, hostile_week, week, zone

Told = dict[str, tuple[tuple[str, str], ...]]


def water_of(plan: WeekPlan) -> WeekWater:
    return week_water(plan.site, plan.zones)


def told(plan: WeekPlan, log: Log | None = None, known: Known | None = None) -> Told:
    log = folder().history.log if log is None else log
    return summary_facts(plan, water_of(plan), log, plan.site.units, known)


def override(day: int, minutes: float = 50.0) -> Override:
    return Override(
        where=f"log.csv:{day}", typed="", date=dt.date(2026, 6, day), zone="Z5",
        minutes=minutes, reason="leaves rolled",
    )  # fmt: skip


@pytest.mark.parametrize("name", ["tern_hollow", "alder_flat"])
def test_water_and_weather_are_the_plans(name: str) -> None:
    plan = week(name)
    facts = dict(told(plan)["Water"])
    water, units = water_of(plan), plan.site.units
    assert plan.weather is not None
    eto, rain = plan.weather.trace.value, plan.weather.rain_trace.value
    assert isinstance(eto, float)
    assert isinstance(rain, float)
    assert facts["Reference ET"].startswith(shown(eto, "mm", units))
    assert facts["Rain counted"].startswith(shown(rain, "mm", units))
    assert facts["Water planned"] == shown(water.total_m3, "m3", units)
    assert facts["Against before"].startswith(shown(water.was_m3, "m3", units))


def test_the_change_has_its_sign() -> None:
    change = water_of(week()).change
    assert change is not None
    assert (
        f"{change:+.0%}".replace("%", " %")
        in dict(told(week())["Water"])["Against before"]
    )


def test_zones_that_are_not_counted_are_named_with_the_reason() -> None:
    assert dict(told(week())["Water"])["Not counted"] == (
        "Z8 (flow not known), Z9 (blocked)"
    )


def test_before_that_is_not_known_of_some_zones_is_said() -> None:
    plan = week()
    z1 = zone(plan, "Z1")
    bare = z1.zone.model_copy(update={"as_found": None})
    zones = (dataclasses.replace(z1, zone=bare), *plan.zones[1:])
    water = week_water(plan.site, zones)
    facts = dict(summary_facts(plan, water, Log(), "us")["Water"])
    assert "before is not known of Z1" in facts["Against before"]


def test_every_changed_zone_stands_with_was_now_and_why() -> None:
    facts = dict(told(week())["Zones changed"])
    z1 = zone(week(), "Z1")
    assert facts["Z1"].startswith(f"{z1.was_minutes:.0f} → {z1.minutes_per_day} min: ")
    assert "Z8" not in facts
    assert facts["Z9"].startswith("leave as it is: the cans caught 196 %")


def test_a_week_without_changes_says_so() -> None:
    plan = week()
    same = dataclasses.replace(plan, zones=(zone(plan, "Z8"),))
    assert told(same)["Zones changed"] == (("None", "every zone stays as it is"),)


def test_the_worst_finding_comes_first() -> None:
    levels = [level for level, _ in told(week())["Zones needing eyes"]]
    assert levels[0] == "stop"
    assert "note" not in levels


def test_more_findings_than_half_a_page_holds_are_counted() -> None:
    plan = week()
    many = tuple(
        Finding("warning", f"zone X{i}", f"is odd {i}", "look") for i in range(20)
    )
    facts = told(dataclasses.replace(plan, findings=many, zones=()))
    assert len(facts["Zones needing eyes"]) == MOST_EYES + 1
    assert facts["Zones needing eyes"][-1][0] == f"and {20 - MOST_EYES} more"


def test_a_week_without_warnings_says_so() -> None:
    plan = dataclasses.replace(week(), findings=(), zones=())
    assert told(plan)["Zones needing eyes"][0][0] == "None"


def test_overrides_of_the_last_seven_days_are_told() -> None:
    log = Log(
        (override(6), dataclasses.replace(override(1), date=dt.date(2026, 5, 31)))
    )
    assert told(week(), log)["Overrides"] == (
        ("Z5, Sat 6 Jun", "50 min: leaves rolled"),
    )


def test_many_overrides_are_counted() -> None:
    log = Log(tuple(override(day) for day in range(1, 8)))
    facts = told(week(), log)["Overrides"]
    assert facts[0][0] == "and 3 before"
    assert len(facts) == 5


def test_no_override_is_said() -> None:
    assert told(week(), Log())["Overrides"] == (("None", "since Mon 1 Jun"),)


def test_the_next_sheet_follows_the_last_night() -> None:
    assert told(week())["Next due"][0][1].startswith("Mon 15 Jun")


def test_a_zone_without_a_test_is_due_first() -> None:
    assert told(week())["Next due"][1] == (
        "Z3",
        "has no usable test: run a catch-can test",
    )


def test_reasons_are_taken_where_they_are_known() -> None:
    facts = dict(told(week(), known=Known(reasons={"Z1": "hot"}))["Zones changed"])
    assert facts["Z1"].endswith(": hot")


def test_it_is_one_leaf_and_prints_in_both_forms() -> None:
    paper = summary_paper(week(), told(week()))
    assert len(paper.leaves) == 1
    for printed in (paper_text(paper), paper_page(paper)):
        assert "Water planned" in printed
    assert max(map(len, paper_text(paper).splitlines())) <= 80


def test_what_a_user_typed_is_never_a_tag() -> None:
    plan = hostile_week()
    log = Log((dataclasses.replace(override(6), reason="<script>x</script>"),))
    html = paper_page(summary_paper(plan, told(plan, log)))
    assert "<script" not in html


def test_the_json_holds_numbers_and_words() -> None:
    plan = week()
    said = json.loads(json.dumps(summary_json(plan, water_of(plan), told(plan))))
    assert said["water_m3"] == pytest.approx(water_of(plan).total_m3)
    assert said["start"] == MONDAY.isoformat()
    assert list(said["sections"]) == list(told(plan))
