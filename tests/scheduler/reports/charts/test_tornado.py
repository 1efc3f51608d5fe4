"""Tornado: the widest swing is on top, both ends are written."""

from scheduler.reports.charts import Swing, tornado
from tests.scheduler.reports.charts.read import cells, is_inside, words

SWINGS = (
    Swing("life", "8 y", "15 y", 300.0, 680.0),
    Swing("price", "$0.40", "$5", -600.0, 1302.0),
    Swing("both above", "a", "b", 600.0, 700.0),
)
PICTURE = tornado("What moves it", "net", 544.0, SWINGS,
                  ("net a year, $", lambda one: f"${one:,.0f}"))  # fmt: skip


def test_the_widest_swing_stands_on_top() -> None:
    names = [row[0] for row in PICTURE.tables[0].rows]
    assert names == ["price", "life", "both above"]


def test_inputs_are_written_at_the_ends_and_results_in_the_table() -> None:
    assert {"$0.40", "$5", "8 y", "15 y", "$544"} <= set(words(PICTURE))
    assert {"$-600", "$1,302", "$300", "$680"} <= set(cells(PICTURE))


def test_nothing_lies_outside() -> None:
    assert is_inside(PICTURE)
