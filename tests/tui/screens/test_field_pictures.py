"""The can map on the ground: heads where they stood, north and wind as they were."""

import pytest

from tui.screens.field_pictures import arrow
from tui.widgets.canvas import Canvas, Ink
from tui.widgets.charts import CanCell, CanGrid, CanMap

INK = Ink("#ffffff", "#888888", "#0178d4", "#102030", "#ffa62b")


@pytest.mark.parametrize(
    ("compass_deg", "row_bearing_deg", "expected"),
    [
        (0, 90, "↑"),  # rows read from west to east: north is up, as on any map
        (0, 0, "→"),  # rows read northward
        (0, 270, "↓"),
        (0, 180, "←"),
        (225, 90, "↙"),
        (360, 90, "↑"),
    ],
)
def test_a_direction_is_turned_with_the_map(
    compass_deg: float, row_bearing_deg: float, expected: str
) -> None:
    assert arrow(compass_deg, row_bearing_deg) == expected


def drawn(*heads: tuple[float, float], width: int = 40) -> list[str]:
    chart = CanMap()
    cells = tuple(tuple(CanCell(5.0 + i, "5") for i in range(4)) for _ in range(3))
    chart.grid = CanGrid(
        tuple("ABCD"), ("1", "2", "3"), cells, ("legend", "two"), heads
    )
    canvas = Canvas(width, 16)
    chart.draw(canvas, INK)
    return canvas.text().split("\n")


@pytest.mark.parametrize("width", [30, 38, 60])
def test_heads_at_the_corners_frame_the_map(width: int) -> None:
    lines = drawn((-0.5, -0.5), (-0.5, 3.5), (2.5, -0.5), (2.5, 3.5), width=width)
    rows = [y for y, line in enumerate(lines) if "⊕" in line]
    assert [lines[y].count("⊕") for y in rows] == [2, 2]
    # three rows of cans, three cells each, below the heads of the columns
    assert rows == [1, 9]


def test_no_head_hides_a_number() -> None:
    lines = drawn((0.5, 1.5), (-0.5, -0.5))
    assert sum(line.count("5") for line in lines) == 12


def test_a_head_far_outside_is_not_drawn_at_the_edge() -> None:
    assert not any("⊕" in line for line in drawn((-6.0, 1.0)))
