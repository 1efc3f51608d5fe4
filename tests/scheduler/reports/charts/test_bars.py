"""Bars: in proportion, never vanishing, an unknown amount says so."""

from scheduler.reports.charts import Bar, bars
from tests.scheduler.reports.charts.read import boxes, cells, is_inside, words

AMOUNTS = (
    Bar("water", 1200.0, "$1,200"),
    Bar("energy", 600.0, "$600"),
    Bar("little", 0.001, "$0.00"),
    Bar("none", None, "not entered"),
    Bar("saved", -400.0, "-$400", is_marked=True),
)
PICTURE = bars("Cost", "a year", AMOUNTS)


def test_bars_are_in_proportion() -> None:
    first, second, *_ = boxes(PICTURE)
    assert abs(float(first["width"]) / float(second["width"]) - 2.0) < 0.01


def test_every_amount_is_written_in_the_drawing_and_in_the_table() -> None:
    for one in AMOUNTS:
        assert one.shown in words(PICTURE)
        assert one.shown in cells(PICTURE)


def test_the_smallest_amount_still_has_a_bar() -> None:
    assert float(boxes(PICTURE)[2]["width"]) >= 1.5


def test_an_unknown_amount_has_no_bar() -> None:
    filled = [one for one in boxes(PICTURE) if one["fill"] != "none"]
    assert len(filled) == 4


def test_nothing_lies_outside() -> None:
    assert is_inside(PICTURE)
    assert is_inside(bars("none", "", ()))
