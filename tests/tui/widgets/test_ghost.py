"""The former state in a picture: told from the tried one without colour."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from textual.color import Color

from tests.tui.widgets.test_need_charts import COURSE, WEEK, course, week
from tests.tui.widgets.test_night_chart import PICTURE, UNDER, painted, row_of
from tui.widgets.canvas import Canvas, Ink
from tui.widgets.charts import CycleBars, CycleLine, DayBars, DepletionBars
from tui.widgets.course_lines import NamedLine
from tui.widgets.du_wind import DuWind, Level, Series
from tui.widgets.ghost import BLOCK, END, LEVEL, blocks, differ
from tui.widgets.rule_bars import RuleBars, RuleColumn
from tui.widgets.season_lines import SeasonLines, YearLines

INK = Ink.of_theme({}, Color(0, 0, 0))
RULE = RuleColumn(
    "1", "average", True, ("×1.00", "25 min"), (0.8, 1.2), ("80%", "120%")
)
YEAR = YearLines((5.0,) * 90, (3.0,) * 90, 8.0, (), (), "mm used", ("At most 5.",))
WATERING = CycleLine(1, 20, 0, ("20 min in one run",), (("Mon", "8 Jun", "20 min"),))
DAYS = DayBars((4.0, 5.0), ("4", "5"), ("Mon", "Tue"), ("run", ""), 10.0, "10 allowed")


def rules(column: RuleColumn) -> str:
    chart = RuleBars()
    chart.columns, chart.rows = (column,), ("factor", "minutes", "driest", "wettest")
    return chart.painted(60, 12, INK).text()


def year(lines: YearLines) -> str:
    chart = SeasonLines()
    chart.year = lines
    return chart.painted(60, 14, INK).text()


def cycles(line: CycleLine) -> str:
    chart = CycleBars()
    chart.watering = line
    return chart.painted(60, 14, INK).text()


def days(bars: DayBars) -> str:
    chart = DepletionBars()
    chart.bars = bars
    return chart.painted(60, 14, INK).text()


def test_a_former_bar_ends_in_a_sign_with_a_legend() -> None:
    rows = (replace(WEEK.rows[0], was=28.0), *WEEK.rows[1:])
    drawn = week(replace(WEEK, rows=rows))
    assert drawn.count(END) == 2  # the legend and the bar
    assert "◇ before" in drawn
    assert END not in week(WEEK)


def test_former_lines_are_rows_of_signs_with_their_names() -> None:
    before = (NamedLine("served before", (2.0, 3.0, 2.0)),)
    drawn = course(replace(COURSE, before=before))
    assert "◦ served before" in drawn
    assert drawn.count(LEVEL) == 1 + 3
    assert LEVEL not in course(COURSE)


def block_by_block(
    canvas: Canvas, rows: range, spans: list[tuple[int, int]], colour: str
) -> None:
    """Former blocks one after the other, each looking for the cells that are free."""
    for first, many in spans:
        free = {
            y: [
                x
                for x in range(first, first + many)
                if canvas.sign(x, y) in ("", "╱", "·", BLOCK)
            ]
            for y in rows
        }
        y = max(rows, key=lambda row: len(free[row]))
        for x in free[y]:
            canvas.write(x, y, BLOCK, colour)


@given(
    st.lists(st.text("╱·█ Z", min_size=20, max_size=20), min_size=1, max_size=4),
    st.lists(st.tuples(st.integers(0, 19), st.integers(1, 9)), max_size=9),
)
def test_former_blocks_stand_where_each_would_alone(
    lines: list[str], spans: list[tuple[int, int]]
) -> None:
    both = Canvas(20, len(lines)), Canvas(20, len(lines))
    for canvas in both:
        for y, line in enumerate(lines):
            canvas.write(0, y, line, "#808080")
    blocks(both[0], range(len(lines)), spans, "#ff0000")
    block_by_block(both[1], range(len(lines)), spans, "#ff0000")
    assert both[0].text() == both[1].text()


def test_a_former_line_of_a_year_is_a_row_of_signs() -> None:
    drawn = year(replace(YEAR, before=(2.0,) * 90))
    assert "◦ before" in drawn
    assert drawn.count(LEVEL) > 10
    assert LEVEL not in year(YEAR)


def test_a_former_rule_keeps_its_bars_and_texts_beside_those_tried() -> None:
    old = replace(RULE, facts=("×1.40", "33 min"), bars=(1.1, 1.2))
    drawn = rules(replace(RULE, before=old, is_chosen=False, was_chosen=True))
    assert "×1.40→×1.00" in drawn
    assert "33→25 min" in drawn
    assert drawn.count(END) == 3  # the legend, the former rule, the bar that moved
    assert END not in rules(RULE)


def test_a_former_watering_stands_in_a_lane_of_its_own() -> None:
    drawn = cycles(replace(WATERING, before=replace(WATERING, cycle_minutes=40)))
    lane = next(one for one in drawn.splitlines() if BLOCK in one)
    bar = next(one for one in drawn.splitlines() if "█" in one)
    assert lane.count(BLOCK) == 2 * bar.count("█")
    assert BLOCK not in cycles(WATERING)


def test_former_days_are_signs_at_their_height() -> None:
    assert days(replace(DAYS, before=(8.0, 9.0))).count(END) == 2
    assert END not in days(DAYS)


def test_a_former_place_in_a_lane_is_hatched_where_nothing_stands() -> None:
    lane = replace(PICTURE.lanes[1], before=((10.0, 20.0),))
    drawn = painted(replace(PICTURE, lanes=(PICTURE.lanes[0], lane)))
    assert row_of(drawn, "Z2").count(BLOCK) > 5
    assert BLOCK not in row_of(drawn, "Z1")


def test_what_has_no_room_now_is_hatched_where_it_stood() -> None:
    lane = replace(PICTURE.lanes[2], before=((40.0, 50.0),))
    drawn = painted(replace(PICTURE, lanes=(lane,)))
    row = row_of(drawn, "Z3")
    assert "no room" in row
    assert BLOCK in row


def test_a_former_flow_and_pump_are_signs_over_the_columns() -> None:
    under = replace(UNDER, before=(80.0,) * 60, limit_before=150.0)
    drawn = painted(replace(PICTURE, under=under)).text()
    assert drawn.count(LEVEL) > 50
    assert LEVEL not in painted().text()


def test_a_tried_uniformity_lies_across_the_wind_with_the_tested_one() -> None:
    chart = DuWind()
    chart.series = (Series("p", ((1.0, 0.7), (3.0, 0.6))),)
    chart.levels = (Level(0.72, "Z4 before 0.72", True), Level(0.85, "Z4 tried 0.85"))
    drawn = chart.painted(60, 16, INK).text()
    assert "Z4 before 0.72" in drawn
    assert "Z4 tried 0.85" in drawn
    assert "Z4 tried 0.85" in chart.words()


def test_rows_of_another_length_or_number_differ() -> None:
    assert differ((1.0,), (1.0, 2.0))
    assert differ((1.0,), (1.1,))
    assert not differ((1.0,), (1.0,))
