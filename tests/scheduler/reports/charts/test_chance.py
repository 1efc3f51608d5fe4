"""The chance that it pays: the curve, even chances, named prices."""

import re

from scheduler.reports.charts import ChanceCurve, chance_it_pays
from tests.scheduler.reports.charts.read import cells, is_inside, words

CURVE = ChanceCurve((0.0, 1.0, 2.0, 3.0), (0.0, 0.25, 0.75, 1.0), "price, $",
                    (("your price", 2.0),))  # fmt: skip
PICTURE = chance_it_pays("Chance", "of T4", CURVE)


def test_the_curve_rises_from_never_to_surely() -> None:
    (points,) = re.findall(r'<polyline points="([^"]+)"', PICTURE.svg)
    heights = [float(pair.split(",")[1]) for pair in points.split()]
    assert heights == sorted(heights, reverse=True)
    assert abs((heights[0] - heights[1]) - (heights[2] - heights[3])) < 0.02


def test_chances_are_told_in_the_table() -> None:
    assert {"0%", "25%", "75%", "100%"} <= set(cells(PICTURE))


def test_the_broken_line_says_what_it_is() -> None:
    assert "even chance, 50 %" in words(PICTURE)


def test_the_words_of_the_broken_line_keep_away_from_a_curve_that_begins_high() -> None:
    high = chance_it_pays("c", "", ChanceCurve((0.0, 1.0), (0.6, 0.9), "price"))
    assert 'text-anchor="end">even chance' in high.svg
    assert 'text-anchor="start">even chance' in PICTURE.svg


def test_a_named_price_is_marked() -> None:
    assert "your price" in words(PICTURE)


def test_the_last_point_of_a_long_curve_is_kept_in_the_table() -> None:
    long = ChanceCurve(tuple(map(float, range(50))), (0.5,) * 50, "price")
    rows = chance_it_pays("c", "", long).tables[0].rows
    assert rows[-1][0] == "49"
    assert len(rows) <= 11


def test_nothing_lies_outside() -> None:
    assert is_inside(PICTURE)
