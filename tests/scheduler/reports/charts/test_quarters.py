"""Quarters: every share is written, and stands above or below the need."""

import re

from scheduler.reports.charts import RuleBars, what_each_quarter_gets
from tests.scheduler.reports.charts.read import boxes, cells, is_inside, words

RULES = (
    RuleBars("average", "x 1.00", (0.72, 0.94, 1.09, 1.25)),
    RuleBars("low quarter, leached", "x 1.40", (1.0, 1.32, 1.53, 1.75), is_chosen=True),
    RuleBars("dry", "x 0.00", (0.0, 0.0, 0.0, 0.0)),
)
PICTURE = what_each_quarter_gets("Quarters", RULES)


def test_every_share_stands_on_its_column_and_in_the_table() -> None:
    for share in (72, 94, 109, 125, 100, 132, 153, 175):
        assert str(share) in words(PICTURE)
        assert f"{share}%" in cells(PICTURE)


def test_the_chosen_rule_is_told_without_colour() -> None:
    assert "chosen" in words(PICTURE)
    assert "low quarter, leached (chosen)" in cells(PICTURE)


def test_a_long_name_takes_two_lines_and_is_not_cut() -> None:
    assert {"low quarter,", "leached"} <= set(words(PICTURE))


def test_columns_are_as_high_as_their_shares() -> None:
    plain = [one for one in boxes(PICTURE) if one["fill"] == "#b8b8b8"]
    wettest = [float(one["height"]) for one in plain[:2]]
    assert abs(wettest[1] / wettest[0] - 1.75 / 1.25) < 0.01


def test_a_quarter_without_water_still_prints() -> None:
    assert all(float(one["height"]) >= 1.5 for one in boxes(PICTURE))


def test_the_need_is_a_broken_line_at_the_height_of_a_hundred() -> None:
    (need,) = re.findall(
        r'x1="8" y1="([\d.]+)"[^>]*stroke-dasharray="5 3"', PICTURE.svg
    )
    full = [one for one in boxes(PICTURE) if one["fill"] == "none"][1]
    assert abs(float(full["y"]) - float(need)) < 0.02


def test_nothing_lies_outside() -> None:
    assert is_inside(PICTURE)
