"""Lines of a year: where they lie, and the year in words."""

from dataclasses import replace

from textual.color import Color

from tui.widgets.canvas import Ink
from tui.widgets.season_lines import SeasonLines, YearLines

INK = Ink.of_theme({}, Color(0, 0, 0))
YEAR = YearLines(
    main=(0.0, 5.0, 10.0, 15.0, 20.0, 0.0),
    other=(0.0, 1.0, 2.0, 3.0, 4.0, 0.0),
    limit=12.0,
    marks=(5,),
    labels=((0, "Jan"),),
    legend="water used",
    words=("at its driest on 5 January",),
)


def painted(year: YearLines | None, width: int = 60, height: int = 14) -> str:
    chart = SeasonLines()
    chart.year = year
    return chart.painted(width, height, INK).text()


def test_the_legend_stands_above() -> None:
    assert painted(YEAR).splitlines()[0].startswith("water used")


def test_a_watering_is_marked_on_the_foot() -> None:
    assert "┷" in painted(YEAR)


def test_without_waterings_nothing_is_marked() -> None:
    assert "┷" not in painted(replace(YEAR, marks=()))


def test_months_stand_below() -> None:
    assert "Jan" in painted(YEAR).splitlines()[-1]


def test_no_season_says_so() -> None:
    assert "no season" in painted(None)


def test_a_small_picture_is_told_in_words() -> None:
    assert "at its driest" in painted(YEAR, 28, 4)
