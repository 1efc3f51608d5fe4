"""Boxes of runs: the five numbers, the mean and the driest quarter on one scale."""

from scheduler.reports.charts import RunBox, run_boxes
from tests.scheduler.reports.charts.read import (
    SVG,
    boxes,
    cells,
    is_inside,
    tree,
    words,
)

RUNS = (
    RunBox("run 1", 3.0, 5.0, 6.0, 7.0, 9.0, 6.1, 4.2),
    RunBox("run 2", 4.0, 4.0, 4.0, 4.0, 4.0, 4.0, 4.0),
)
PICTURE = run_boxes("Catches", RUNS, "mm", lambda one: f"{one:.1f}")


def test_every_number_stands_in_the_table() -> None:
    for text in ("3.0", "5.0", "6.0", "7.0", "9.0", "6.1", "4.2", "4.0"):
        assert text in cells(PICTURE)


def test_every_run_is_named() -> None:
    assert {"run 1", "run 2"} <= set(words(PICTURE))


def test_an_even_run_keeps_a_box_that_prints() -> None:
    assert all(float(one["width"]) > 1 for one in boxes(PICTURE))


def test_the_middle_lies_in_the_box_in_proportion() -> None:
    first = boxes(PICTURE)[0]
    x, wide = float(first["x"]), float(first["width"])
    strong = [
        float(one.get("x1", "0"))
        for one in tree(PICTURE).iter(f"{SVG}line")
        if one.get("stroke-width") == "2.2"
    ]
    assert abs(strong[0] - (x + wide / 2)) < 0.02


def test_nothing_lies_outside() -> None:
    assert is_inside(PICTURE)


def test_text_need_not_know_of_the_drawing() -> None:
    assert "box" not in PICTURE.says.lower()
    assert "box" in PICTURE.how
