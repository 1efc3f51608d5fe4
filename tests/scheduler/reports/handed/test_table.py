"""Tables: the plan's numbers with the digits of every face, units in the heads."""

import json

import pytest

from scheduler.reports.handed.table import (
    Rows,
    is_like_a_formula,
    number,
    tables_json,
    week_tables,
)
from scheduler.units import shown
from tests.scheduler.reports.handed.made import week, zone

SITES = ("tern_hollow", "alder_flat")


def cell(table: Rows, row: int, head: str) -> object:
    (column,) = [i for i, one in enumerate(table.heads) if one.startswith(head)]
    return table.rows[row][column]


@pytest.mark.parametrize("name", SITES)
def test_zones_are_the_plans_in_its_order(name: str) -> None:
    plan = week(name)
    zones, _ = week_tables(plan, plan.site.units)
    assert [row[0] for row in zones.rows] == [one.zone.id for one in plan.zones]
    for i, one in enumerate(plan.zones):
        assert cell(zones, i, "now") == one.minutes_per_day
        assert cell(zones, i, "cycles") == one.cycles


@pytest.mark.parametrize("name", SITES)
@pytest.mark.parametrize(("head", "field"), [("need", "need_mm"), ("ETo", "eto_mm")])
def test_numbers_have_the_digits_of_every_face(
    name: str, head: str, field: str
) -> None:
    plan = week(name)
    zones, _ = week_tables(plan, plan.site.units)
    for i, one in enumerate(plan.zones):
        value = getattr(one, field)
        found = cell(zones, i, head)
        if value is None:
            assert found is None
        else:
            text = shown(value, "mm", plan.site.units, with_unit=False)
            assert found == float(text)


def test_units_stand_in_the_heads() -> None:
    us, metric = (week_tables(week(), units)[0].heads for units in ("us", "metric"))
    assert {"need (in)", "net rate (in/h)"} <= set(us)
    assert {"need (mm)", "net rate (mm/h)"} <= set(metric)


def test_a_flow_over_a_thousand_is_one_number() -> None:
    _, events = week_tables(week("alder_flat"), "metric")
    flows = [row[-1] for row in events.rows]
    assert 1152.0 in flows


def test_every_run_is_a_row_with_its_dates() -> None:
    plan = week()
    assert plan.night is not None
    _, events = week_tables(plan, "us")
    assert len(events.rows) == len(plan.night.runs)
    for row, run in zip(events.rows, plan.night.runs, strict=True):
        assert row[:2] == (run.night.isoformat(), run.zone)
        assert row[5:7] == (f"{run.start:%Y-%m-%d %H:%M}", f"{run.end:%Y-%m-%d %H:%M}")


def test_a_blocked_zone_has_no_numbers_and_says_why() -> None:
    zones, _ = week_tables(week(), "us")
    assert cell(zones, 8, "now") is None
    assert cell(zones, 8, "nights") is None
    assert cell(zones, 8, "why") == "blocked, see the findings"
    assert zone(week(), "Z9").status == cell(zones, 8, "status")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@a", "\t=1", "  =1", "\r=1"])
def test_what_begins_like_a_formula_is_seen(text: str) -> None:
    assert is_like_a_formula(text)


@pytest.mark.parametrize("text", ["", "a=1", "1-2", "Z1", "–"])
def test_other_texts_are_no_formula(text: str) -> None:
    assert not is_like_a_formula(text)


def test_the_json_has_a_row_an_object() -> None:
    said = json.loads(json.dumps(tables_json(week(), week_tables(week(), "us"))))
    assert said["zones"][0]["need (in)"] == 1.01
    plan = week()
    assert plan.night is not None
    assert said["events"][0]["zone"] == plan.night.runs[0].zone


def test_a_number_below_nothing_is_a_number_of_the_table() -> None:
    assert number(-5.25, "mm", "metric") == pytest.approx(-5.2, abs=0.06)
