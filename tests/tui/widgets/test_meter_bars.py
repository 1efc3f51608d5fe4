"""Pairs of bars: their heights, what stands apart, and the words."""

from dataclasses import replace

from textual.color import Color

from tui.widgets.canvas import Canvas, Ink
from tui.widgets.meter_bars import BarPair, BarPairs, PairedBars

INK = Ink.of_theme({}, Color(0, 0, 0))
PLAIN = BarPair(100.0, (0.0, 0.0), 100.0, "+0 %", "8 Jun")
FROST = BarPair(100.0, (50.0, 0.0), 150.0, "+0 %", "15 Jun", "frost")
ONE = BarPairs((PLAIN,), ("plan", "meter", "frost", "by hand"), ("all as planned",))


def canvas_of(found: BarPairs | None, width: int = 60, height: int = 20) -> Canvas:
    chart = PairedBars()
    chart.found = found
    return chart.painted(width, height, INK)


def painted(found: BarPairs | None, width: int = 60, height: int = 20) -> str:
    return canvas_of(found, width, height).text()


def heights(found: BarPairs) -> list[int]:
    """Full cells of every column that has any, below the legend."""
    lines = painted(found).splitlines()[2:]
    counts = [sum(line[x] == "█" for line in lines) for x in range(60)]
    return [one for one in counts if one]


def test_equal_water_makes_bars_of_one_height() -> None:
    assert len(set(heights(ONE))) == 1


def test_twice_the_water_is_twice_as_tall() -> None:
    tall = heights(BarPairs((replace(PLAIN, measured=200.0),), ONE.legend, ()))
    assert abs(max(tall) - 2 * min(tall)) <= 1


def test_frost_water_stands_on_the_planned() -> None:
    text = painted(BarPairs((FROST,), ONE.legend, ()))
    lines = text.splitlines()[2:]
    x = next(line.index("▒") for line in lines if "▒" in line)
    column = [line[x] for line in lines]
    assert column.index("▒") < column.index("█")


def test_too_much_is_marked_by_what_stands_above() -> None:
    off = replace(PLAIN, measured=130.0, top="▲+30 %", is_off=True)
    assert "▲+30 %" in painted(BarPairs((off,), ONE.legend, ()))


def test_an_unknown_volume_is_a_question_mark() -> None:
    unknown = replace(PLAIN, measured=None, top="–")
    assert "?" in painted(BarPairs((unknown,), ONE.legend, ()))


def test_the_newest_intervals_are_kept_where_room_is_short() -> None:
    many = tuple(replace(PLAIN, foot=f"{i} Jun") for i in range(1, 21))
    text = painted(BarPairs(many, ONE.legend, ()))
    assert "20 Jun" in text
    assert " 1 Jun" not in text


def test_dates_and_notes_stand_below() -> None:
    lines = painted(BarPairs((FROST,), ONE.legend, ())).splitlines()
    assert "15 Jun" in lines[-2]
    assert "frost" in lines[-1]


def test_no_readings_say_so() -> None:
    assert "no two readings" in painted(None)


def test_a_small_picture_is_told_in_words() -> None:
    assert "all as planned" in painted(ONE, 28, 4)
