"""Measurements by date: whiskers, the band, the least, and the words."""

from dataclasses import replace

from textual.color import Color

from tui.widgets.canvas import Ink
from tui.widgets.dated_ranges import Dated, DatedRanges, RangesByDate

INK = Ink.of_theme({}, Color(0, 0, 0))
FIRST = Dated(0.0, "3 Jun", 38.0, 25.0, 50.0, 12.0, ("38 %", "12 % E2"))
SECOND = Dated(14.0, "17 Jun", 18.0, 10.0, 26.0, 9.0, ("18 %", "9 % A1"))
TWO = DatedRanges(
    points=(FIRST, SECOND),
    days=(-4.0, 22.0),
    band=(10.0, 20.0),
    line=15.0,
    legend="● by volume",
    words=("38 % leached",),
)


def chart_of(found: DatedRanges | None) -> RangesByDate:
    chart = RangesByDate()
    chart.found = found
    return chart


def painted(found: DatedRanges | None, width: int = 60, height: int = 16) -> str:
    text = chart_of(found).painted(width, height, INK).text()
    return text.replace("\u00a0", " ")


def rows_with(text: str, sign: str) -> list[int]:
    return [y for y, line in enumerate(text.splitlines()) if sign in line]


def test_every_day_stands_below() -> None:
    last = painted(TWO).splitlines()[-1]
    assert "3 Jun" in last
    assert "17 Jun" in last


def test_values_are_written_beside_their_marks() -> None:
    assert "● 38 %" in painted(TWO)


def test_the_driest_lies_below_the_value() -> None:
    text = painted(replace(TWO, points=(FIRST,)))
    (at,) = rows_with(text, "38 %")
    (least,) = rows_with(text, "12 % E2")
    assert least > at


def test_the_range_is_capped_at_both_ends() -> None:
    text = painted(replace(TWO, points=(FIRST,)))
    (top,) = rows_with(text, "┬")
    low = [y for y in rows_with(text, "┴") if y < 13]
    assert top < rows_with(text, "●")[-1] < low[0]


def test_what_does_not_count_is_hollow() -> None:
    text = painted(replace(TWO, points=(replace(FIRST, counts=False),)))
    assert "○ 38 %" in text


def test_the_band_is_shaded_where_it_lies() -> None:
    canvas = chart_of(replace(TWO, points=(FIRST,))).painted(60, 16, INK)
    shaded = [y for y in range(16) if canvas.back(40, y) == INK.veil]
    assert shaded
    assert min(shaded) > rows_with(canvas.text(), "●")[-1]


def test_nothing_measured_is_said() -> None:
    assert "nothing was measured" in painted(None)


def test_a_small_picture_is_told_in_words() -> None:
    assert "38 % leached" in painted(TWO, 28, 4)
