"""Depletion of a season: four lines told apart without colour, dry is down."""

import datetime as dt
import re

from scheduler.reports.charts import Depletion, season_depletion
from tests.scheduler.reports.charts.read import cells, is_inside, words

DAYS = tuple(dt.date(2026, 4, 1) + dt.timedelta(i) for i in range(60))
LINES = tuple(tuple(float(i % 7) * (4 - k) for i in range(60)) for k in range(4))
SEASON = Depletion(DAYS, LINES, 20.0, "mm")
PICTURE = season_depletion("Season", "two months", SEASON, lambda one: f"{one:.1f}")


def test_four_lines_differ_by_their_breaks() -> None:
    lines = re.findall(r"<polyline[^>]*>", PICTURE.svg)
    assert len(lines) == 4
    dashes = [re.findall(r'dasharray="([^"]+)"', line) for line in lines]
    assert len({tuple(one) for one in dashes}) == 4


def test_every_line_is_named_at_its_end() -> None:
    assert {"driest", "second", "third", "wettest", "allowed"} <= set(words(PICTURE))


def test_names_at_the_end_do_not_lie_on_each_other() -> None:
    alike = Depletion(DAYS, (LINES[0],) * 4, 20.0, "mm")
    svg = season_depletion("Season", "", alike, str).svg
    at = [
        float(y)
        for y, name in re.findall(r'y="([\d.]+)" font-size="10"[^>]*>(\w+)<', svg)
        if name in ("driest", "second", "third", "wettest")
    ]
    assert min(b - a for a, b in zip(sorted(at), sorted(at)[1:], strict=False)) > 9


def test_dry_is_down() -> None:
    (points, *_) = re.findall(r'<polyline points="([^"]+)"', PICTURE.svg)
    heights = [float(pair.split(",")[1]) for pair in points.split()]
    assert heights[6] > heights[0]


def test_the_table_holds_first_and_last_day_and_what_is_allowed() -> None:
    assert {"1 Apr", "30 May", "20.0"} <= set(cells(PICTURE))
    assert len(PICTURE.tables[0].rows) <= 16


def test_without_a_limit_none_is_drawn() -> None:
    free = Depletion(DAYS, LINES, None, "mm")
    picture = season_depletion("Season", "", free, str)
    assert "allowed" not in words(picture)


def test_nothing_lies_outside() -> None:
    assert is_inside(PICTURE)
