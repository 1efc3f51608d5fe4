"""Numbers of a season's text are the season's numbers, formatted."""

from scheduler.reports.season import season_text, years_text, zone_season_text
from scheduler.units import shown
from scheduler.watering.season_run.saved import at_another_du
from tests.scheduler.test_season import season, zone


def test_depths_are_those_of_the_season() -> None:
    plan = season(zone())
    text = season_text(plan, "metric")
    depth = plan.zones[0].applied_mm
    assert shown(depth, "mm", "metric", with_unit=False, digits=0) in text


def test_an_upper_bound_is_marked() -> None:
    assert "≥0.72" in season_text(season(zone()), "us")


def test_a_zone_that_was_not_run_is_named() -> None:
    assert "Not run: Z5." in season_text(season(zone(), zone(id="Z5", soil=None)), "us")


def test_what_another_uniformity_saves_is_said() -> None:
    one = season(zone()).zones[0]
    assert one.input is not None
    other = at_another_du(one.input, 0.9)
    text = zone_season_text(one, other, "metric")
    assert f"{shown(other.saved_mm, 'mm', 'metric', digits=0)} less than now" in text


def test_years_have_a_column_each() -> None:
    plan = season(zone())
    assert years_text([plan, plan], "us").count("2025 in") == 2
