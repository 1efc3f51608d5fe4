"""Words of the season page."""

from scheduler.units import shown
from scheduler.watering.season_run.saved import AtAnotherDU
from tests.scheduler.test_season import season, zone
from tui.screens.season_words import bound, quarter_lines, sentence, year_lines


def test_every_quarter_has_a_line() -> None:
    lines = quarter_lines(season(zone()).zones[0], None, "metric")
    assert [line.split()[0] for line in lines] == [
        "quarter", "driest", "second", "third", "wettest"
    ]  # fmt: skip


def test_a_what_if_adds_what_was() -> None:
    one = season(zone()).zones[0]
    assert "was" in quarter_lines(one, one, "us")[0]


def test_more_water_is_called_more() -> None:
    other = AtAnotherDU(0.6, 0.5, 700.0, -100.0, 3.0)
    assert "100 mm more water" in sentence(other, "metric")


def test_a_single_run_is_said_to_be_a_bound() -> None:
    assert "more even" in bound(season(zone()).zones[0])


def test_the_allowed_line_is_that_of_the_zone() -> None:
    plan = season(zone())
    lines = year_lines(plan.zones[0], plan, "metric")
    assert lines is not None
    assert lines.limit == plan.zones[0].allowed_mm


def test_months_are_named_where_they_begin() -> None:
    plan = season(zone())
    lines = year_lines(plan.zones[0], plan, "metric")
    assert lines is not None
    assert lines.labels[:2] == ((0, "Jan"), (31, "Feb"))


def test_the_driest_day_is_told_in_the_precision_of_the_face() -> None:
    plan = season(zone())
    (one,) = plan.zones
    assert one.depletion_mm is not None
    lines = year_lines(one, plan, "us")
    assert lines is not None
    peak = shown(float(one.depletion_mm[:, 0].max()), "mm", "us")
    allowed = shown(one.allowed_mm, "mm", "us")
    assert f": {peak} of {allowed} allowed." in lines.words[0]
