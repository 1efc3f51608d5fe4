"""The charts of the need page: where things lie, and the same in words."""

import math
from dataclasses import replace

from textual.color import Color

from tui.widgets.canvas import Ink
from tui.widgets.course_lines import CourseDays, CourseLines, NamedLine
from tui.widgets.day_columns import DayBands, DayColumns
from tui.widgets.range_bars import RangeBars, RangeRow, RangeRows

INK = Ink.of_theme({}, Color(0, 0, 0))
DAYS = DayColumns(
    upper=(4.0, 5.0, 6.0, 5.0),
    lower=(0.0, 12.0, 0.0, math.nan),
    signs=("m", "m", "o", "o"),
    days=("6", "7", "8", "9"),
    today=2,
    heads=("ETo, mm a day: m measured, o own", "rain, mm"),
    words=("ETo behind 9.0 mm.",),
)
COURSE = CourseDays(
    main=NamedLine("served", (4.0, 8.0, 4.0)),
    others=(
        NamedLine("driest", (4.0, 9.0, 6.0)),
        NamedLine("wettest", (4.0, 7.0, 4.0)),
    ),
    limit=10.0,
    today=1,
    marks=(1,),
    labels=((0, "7"), (1, "8"), (2, "9")),
    head="mm used at the roots",
    words=("At most 8.0 mm.",),
)
WEEK = RangeRows(
    (
        RangeRow("cool", 20.0, "20 mm"),
        RangeRow("planned", 24.0, "24 mm", is_main=True),
        RangeRow("hot", 30.0, "30 mm"),
    ),
    ("One week in ten is as cool.",),
)


def bands(columns: DayColumns | None, width: int = 60, height: int = 18) -> str:
    chart = DayBands()
    chart.columns = columns
    return chart.painted(width, height, INK).text()


def course(days: CourseDays | None, width: int = 60, height: int = 14) -> str:
    chart = CourseLines()
    chart.course = days
    return chart.painted(width, height, INK).text()


def week(rows: RangeRows | None, width: int = 60, height: int = 10) -> str:
    chart = RangeBars()
    chart.range = rows
    return chart.painted(width, height, INK).text()


def test_labels_of_a_low_band_are_written_whole() -> None:
    text = bands(replace(DAYS, lower=(0.0, 4.6, 0.0, math.nan)), height=16)
    assert "2.5┤" in text
    assert "5.0┤" in text


# --- days --------------------------------------------------------------------


def test_each_day_says_on_what_it_rests() -> None:
    signs = [line for line in bands(DAYS).splitlines() if "m    m    o    o" in line]
    assert len(signs) == 1


def test_days_stand_below_both_bands() -> None:
    assert bands(DAYS).splitlines()[-1].split() == ["6", "7", "8", "9"]


def test_both_bands_are_headed() -> None:
    text = bands(DAYS)
    assert text.index("ETo, mm a day") < text.index("rain, mm")


def test_a_taller_value_has_a_taller_bar() -> None:
    columns = list(zip(*bands(DAYS).splitlines()[1:10], strict=True))
    filled = [sum(glyph in "▁▂▃▄▅▆▇█" for glyph in one) for one in columns]
    lows = next(n for n in filled if n)
    assert max(filled) > lows


def test_a_dry_fortnight_draws_no_rain() -> None:
    dry = replace(DAYS, lower=(0.0, 0.0, 0.0, 0.0))
    below = bands(dry).partition("rain, mm")[2]
    assert not any(one in below for one in "▁▂▃▄▅▆▇█")


def test_without_weather_it_says_so() -> None:
    assert "no weather" in bands(None)


def test_without_room_days_are_told_in_words() -> None:
    assert bands(DAYS, 28, 4).startswith("ETo behind")


# --- depletion ---------------------------------------------------------------


def test_every_line_is_named_once() -> None:
    text = course(COURSE)
    assert [text.count(one) for one in ("served", "driest", "wettest", "allowed")] == [
        1,
        1,
        1,
        1,
    ]


def test_names_of_lines_that_end_alike_do_not_touch() -> None:
    rows = [
        i
        for i, line in enumerate(course(COURSE).splitlines())
        for one in ("served", "driest", "wettest", "allowed")
        if line.rstrip().endswith(one)
    ]
    assert len(set(rows)) == 4


def test_the_limit_stands_above_a_line_that_stays_below_it() -> None:
    text = course(COURSE)
    assert text.index("allowed") < text.index("driest") < text.index("served")


def test_a_night_that_waters_is_marked() -> None:
    assert course(COURSE).count("┷") == 1


def test_without_balance_it_says_so() -> None:
    assert "no balance" in course(None)


# --- the week ----------------------------------------------------------------


def test_bars_stand_in_order_with_their_texts() -> None:
    lines = week(WEEK).splitlines()
    assert [line.split()[0] for line in lines[:3]] == ["cool", "planned", "hot"]
    assert lines[1].rstrip().endswith("24 mm")


def test_more_need_is_a_longer_bar() -> None:
    lengths = [line.count("█") for line in week(WEEK).splitlines()[:3]]
    assert lengths == sorted(lengths)
    assert lengths[0] < lengths[2]


def test_a_week_without_need_draws_no_bar() -> None:
    none = RangeRows((RangeRow("planned", 0.0, "0 mm", is_main=True),), ())
    assert "█" not in week(none)


def test_facts_stand_below() -> None:
    assert "One week in ten" in week(WEEK)


def test_without_room_the_week_is_told_in_words() -> None:
    assert week(WEEK, 28, 5).splitlines()[0].strip() == "cool: 20 mm"


def test_without_a_plan_it_says_so() -> None:
    assert "no week is planned" in week(None)
