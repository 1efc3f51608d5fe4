"""Lanes of blocks: where they lie, and that none is lost."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.color import Color

from tui.widgets.canvas import Canvas, Ink
from tui.widgets.night_chart import (
    Block,
    Lane,
    NightChart,
    NightPicture,
    Under,
    fitted,
    stacked,
)

INK = Ink.of_theme({}, Color(0, 0, 0))
UNDER = Under(
    (50.0,) * 30 + (0.0,) * 30, 100.0, "100", (1.0,) * 60, (("mph", ((0.0, "4.0"),)),)
)
PICTURE = NightPicture(
    (
        Lane("Z1", ((Block(0, 30, "Z1"),),), ((30.0, 60.0, True),), is_current=True),
        Lane("Z2", ((Block(30, 31, "Z2"),),)),
        Lane("Z3", (), note="no room"),
    ),
    60.0,
    ((0.0, "22:00"), (30.0, "22:30")),
    ((30.0, 60.0),),
    UNDER,
    "the night",
    lambda: ("Z1 runs first",),
)


def painted(
    picture: NightPicture | None = PICTURE, width: int = 64, height: int = 14
) -> Canvas:
    chart = NightChart()
    chart.picture = picture
    return chart.painted(width, height, INK)


def row_of(canvas: Canvas, name: str) -> str:
    return next(
        line
        for line in canvas.text().splitlines()
        if line.lstrip("► ").startswith(name)
    )


def test_a_block_is_as_long_as_its_minutes() -> None:
    row = row_of(painted(), "Z1")
    width = 64 - 5
    assert row.count("█") + len("Z1") == pytest.approx(width / 2, abs=1)


def test_a_minute_still_shows() -> None:
    row = row_of(painted(replace(PICTURE, minutes=6000.0)), "Z2")
    assert any(glyph in row for glyph in "▏▎▍▌▋▊▉█")


def test_a_short_block_bears_its_label_beside() -> None:
    assert row_of(painted(), "Z2").count("Z2") == 2


def test_blocked_minutes_are_hatched() -> None:
    assert "╱╱╱" in row_of(painted(), "Z1")


def test_what_has_no_room_is_written_in_its_lane() -> None:
    assert "no room" in row_of(painted(), "Z3")


def test_the_lane_with_the_cursor_is_marked() -> None:
    assert row_of(painted(), "Z1").startswith("►")


def test_a_bad_place_is_not_told_by_colour_alone() -> None:
    bad = Lane("Z1", ((Block(0, 30, "Z1", is_bad=True),),))
    assert "✖Z1" in painted(replace(PICTURE, lanes=(bad,))).text()


def test_the_pump_is_drawn_across_and_named() -> None:
    row = next(line for line in painted().text().splitlines() if "╌" in line)
    assert row.startswith("100")


def test_hours_and_wind_stand_below() -> None:
    *_, hours, wind = painted().text().splitlines()
    assert "22:30" in hours
    assert wind.startswith("mph")


def test_no_night_says_why() -> None:
    assert "no night plan" in painted(None).text()


def test_a_small_picture_is_told_in_words() -> None:
    assert "Z1 runs first" in painted(PICTURE, 28, 6).text()


def test_lanes_of_several_rows_stand_apart_where_there_is_room() -> None:
    both = Lane("Mon", ((Block(0, 20, "a"),), (Block(10, 30, "b"),)))
    lines = painted(replace(PICTURE, lanes=(both, both)), height=20).text().splitlines()
    assert lines[3].strip() == ""


@given(
    st.lists(
        st.tuples(st.integers(0, 380), st.integers(1, 100)), min_size=1, max_size=12
    )
)
def test_stacked_blocks_do_not_overlap_and_none_is_lost(
    some: list[tuple[int, int]],
) -> None:
    blocks = [Block(a, a + n, f"{i}") for i, (a, n) in enumerate(some)]
    rows = stacked(blocks)
    assert sorted(one.label for row in rows for one in row) == sorted(
        one.label for one in blocks
    )
    for row in rows:
        for a, b in pairwise(row):
            assert a.end <= b.start


@given(st.lists(st.integers(1, 4), min_size=1, max_size=9), st.integers(9, 30))
def test_lanes_are_made_to_fit_without_losing_a_block(
    depths: list[int], room: int
) -> None:
    lanes = [
        Lane(f"{i}", tuple((Block(0, 10, f"{i}.{k}"),) for k in range(deep)))
        for i, deep in enumerate(depths)
    ]
    done = fitted(lanes, room)
    assert sum(len(one.rows) for one in done) <= room
    assert sum(len(row) for one in done for row in one.rows) == sum(depths)


def laid_over_step_by_step(lanes: list[Lane], room: int) -> list[list[str]]:
    """The two last rows of the deepest lane laid over each other, again and again."""
    some = [list(one.rows) for one in lanes]
    notes = sum(bool(one.note) for one in lanes)
    while sum(map(len, some)) + notes > room:
        deep = max(some, key=len)
        if len(deep) <= 1:
            break
        last = deep.pop()
        deep[-1] = (*deep[-1], *last)
    return [[b.label for row in rows for b in row] for rows in some]


@given(
    st.lists(st.tuples(st.integers(1, 9), st.booleans()), min_size=1, max_size=7),
    st.integers(7, 30),
)
def test_rows_are_laid_over_each_other_as_step_by_step(
    depths: list[tuple[int, bool]], room: int
) -> None:
    lanes = [
        Lane(
            f"{i}",
            tuple((Block(k, 10, f"{i}.{k}"),) for k in range(deep)),
            note="no room" if is_noted else "",
        )
        for i, (deep, is_noted) in enumerate(depths)
    ]
    done = fitted(lanes, room)
    found = [[b.label for row in one.rows for b in row] for one in done]
    assert found == laid_over_step_by_step(lanes, room)


def test_lanes_left_out_are_counted() -> None:
    lanes = [Lane(f"Z{i}", ((),), is_current=i == 40) for i in range(50)]
    done = fitted(lanes, 8)
    assert len(done) == 8
    assert "Z40" in {one.name for one in done}
    assert done[-1].name == "+43 more"


@given(st.floats(0, 59), st.floats(0.001, 30))
def test_a_span_always_shows(start: float, length: float) -> None:
    canvas = Canvas(64, 1)
    canvas.span(0, (start, start + length), "#ff0000", surface="#000000")
    shown = any(canvas.back(x, 0) == "#ff0000" for x in range(64))
    assert shown or any(glyph in canvas.line(0) for glyph in "▏▎▍▌▋▊▉█")


def test_a_span_begins_within_a_cell() -> None:
    canvas = Canvas(8, 1)
    canvas.span(0, (1.5, 3.25), "#ff0000", surface="#000000")
    assert canvas.line(0) == " ▌█▎    "
    assert canvas.back(1, 0) == "#ff0000"


def test_in_plain_ascii_a_span_is_whole_cells() -> None:
    canvas = Canvas(8, 1, is_ascii=True)
    canvas.span(0, (1.0, 1.1), "#ff0000")
    assert canvas.line(0) == " #      "
