"""Heads counted, against every head drawn on a grid and looked at one by one."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.money.geometry import HeadCount, Layout, Stand, head_count

LAYOUTS: tuple[Layout, ...] = ("square", "rectangular", "triangular")


def drawn_heads(count: HeadCount, length: float, width: float, layout: Layout,
                stand: Stand) -> list[tuple[float, float]]:  # fmt: skip
    """Every head as a point: walk along each row until the block ends."""
    heads = []
    begin = 0.0 if stand == "on the edge" else 0.5
    # a row that would lose its only head by it is not moved
    can_move = begin == 0.0 or count.spacing_m < length - 1e-6
    row = 0
    y = begin * count.row_spacing_m
    while y <= width + 1e-6:
        moved = 0.5 if layout == "triangular" and can_move and row % 2 else 0.0
        x = (begin + moved) * count.spacing_m
        last = length if stand == "on the edge" else length - 0.5 * count.spacing_m
        while x <= last + 1e-6:
            heads.append((x, y))
            x += count.spacing_m
        y += count.row_spacing_m
        row += 1
    return heads


def circle_part(head: tuple[float, float], length: float, width: float) -> float:
    """Part of the circle about a head that lies inside, in the limit of a small one."""
    x, y = head
    on_x = min(x, length - x) < 1e-6
    on_y = min(y, width - y) < 1e-6
    return (0.5 if on_x else 1.0) * (0.5 if on_y else 1.0)


sizes = st.floats(9.5, 120.0)
gaps = st.floats(4.0, 15.0)


@given(sizes, sizes, gaps, gaps, st.sampled_from(LAYOUTS),
       st.sampled_from(["on the edge", "half a spacing inside"]))  # fmt: skip
def test_counts_are_those_of_a_drawn_grid(
    length: float, width: float, gap: float, rows: float, layout: Layout, stand: Stand
) -> None:
    count = head_count(
        length, width, layout=layout, spacing_m=gap, row_spacing_m=rows, stand=stand
    )
    heads = drawn_heads(count, length, width, layout, stand)
    parts = [circle_part(one, length, width) for one in heads]
    assert count.heads == len(heads)
    assert count.part_circle == sum(one < 1.0 for one in parts)
    assert count.full_equivalents == pytest.approx(sum(parts))
    assert count.rows == len({round(y, 6) for _, y in heads})


@given(sizes, sizes, gaps, gaps, st.sampled_from(LAYOUTS))
def test_pipe_reaches_the_last_head_of_every_row(
    length: float, width: float, gap: float, rows: float, layout: Layout
) -> None:
    for stand in ("on the edge", "half a spacing inside"):
        count = head_count(
            length, width, layout=layout, spacing_m=gap, row_spacing_m=rows, stand=stand
        )
        heads = drawn_heads(count, length, width, layout, stand)
        ends = {round(y, 6): x for x, y in heads}  # the last of each row stays
        assert count.lateral_m == pytest.approx(sum(ends.values()))
        assert count.main_m == pytest.approx(max(ends) - min(ends), abs=1e-4)


@given(sizes, sizes, gaps, st.sampled_from(LAYOUTS))
def test_no_gap_is_wider_than_asked(
    length: float, width: float, gap: float, layout: Layout
) -> None:
    count = head_count(length, width, layout=layout, spacing_m=gap)
    most = gap * (math.sqrt(3) / 2 if layout == "triangular" else 1)
    assert count.spacing_m <= gap * (1 + 1e-5)
    assert count.row_spacing_m <= most * (1 + 1e-5)


def test_nine_heads_stand_where_four_stood() -> None:
    four = head_count(9.0, 9.0, layout="square", spacing_m=9.0)
    nine = head_count(9.0, 9.0, layout="square", spacing_m=4.5)
    assert (four.heads, nine.heads) == (4, 9)
    assert (four.lateral_m, nine.lateral_m) == (18.0, 27.0)


def test_flow_equivalents_are_the_block_over_the_ground_of_a_head() -> None:
    # a square of 36 x 27 m at 9 m: 4 x 3 cells
    count = head_count(36.0, 27.0, layout="square", spacing_m=9.0)
    assert count.full_equivalents == pytest.approx(12.0)


def test_a_triangle_takes_more_rows_and_fewer_heads_a_row() -> None:
    count = head_count(
        20.0, 3 * 10 * math.sqrt(3) / 2, layout="triangular", spacing_m=10.0
    )
    # rows of 3, 2, 3, 2 heads
    assert (count.rows, count.heads) == (4, 10)


def test_a_block_without_width_is_refused() -> None:
    with pytest.raises(SchedulerError, match="a block of 9 x 0 m"):
        head_count(9.0, 0.0, layout="square", spacing_m=9.0)
