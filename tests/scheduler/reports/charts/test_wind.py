"""DU against wind: every run is a ring, the band goes round the line."""

from dataclasses import replace

from scheduler.reports.charts import WindPicture, du_against_wind
from tests.scheduler.reports.charts.read import SVG, cells, is_inside, tree, words

SEEN = WindPicture(
    ("r1", "r2", "r3"), (1.0, 4.0, 9.0), (0.80, 0.74, 0.60), (1.0, 5.0, 9.0),
    (0.81, 0.71, 0.61), (0.70, 0.66, 0.5), (0.9, 0.76, 0.7), 2.7, "mph", "three runs",
)  # fmt: skip
PICTURE = du_against_wind("DU", SEEN)


def test_every_run_is_a_ring_and_a_row() -> None:
    assert len(list(tree(PICTURE).iter(f"{SVG}circle"))) == 3
    assert {"r1", "1.0", "0.80", "9.0", "0.60"} <= set(cells(PICTURE))


def test_the_line_and_its_range_are_told_in_the_table() -> None:
    assert {"0.81", "0.70–0.90", "0.50–0.70"} <= set(cells(PICTURE))


def test_the_wind_one_waters_in_is_marked() -> None:
    assert "wind you water in" in words(PICTURE)
    without = du_against_wind("DU", replace(SEEN, usual=None))
    assert "wind you water in" not in words(without)


def test_without_a_range_there_is_no_band_and_the_table_says_so() -> None:
    picture = du_against_wind("DU", replace(SEEN, low=(), high=()))
    assert "polygon" not in picture.svg
    assert "not known" in cells(picture)


def test_without_a_line_only_the_runs_are_drawn() -> None:
    bare = replace(SEEN, line_wind=(), line_du=(), low=(), high=())
    picture = du_against_wind("DU", bare)
    assert "polyline" not in picture.svg
    assert len(picture.tables) == 1


def test_nothing_lies_outside() -> None:
    assert is_inside(PICTURE)
