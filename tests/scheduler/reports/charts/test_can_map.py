"""Can maps: every value appears; heads, north and wind stand where they belong."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.reports.charts import Can, CanMapLook, can_map
from scheduler.reports.charts.can_map import Look
from scheduler.reports.charts.svg import LIGHT
from scheduler.reports.paper import Leaf, Paper, Section
from scheduler.reports.paper_text import paper_text
from tests.scheduler.reports.charts.read import SVG, cells, is_inside, tree, words

LOOKS: tuple[Look, ...] = ("driest", "", "wettest", "out", "none")


def look(rows: int = 3, columns: int = 5, **more: object) -> CanMapLook:
    cans = tuple(
        tuple(Can(f"{10 * i + j}", LOOKS[(i + j) % 5]) for j in range(columns))
        for i in range(rows)
    )
    names = tuple(f"C{j}" for j in range(columns))
    ids = tuple(str(i + 1) for i in range(rows))
    return CanMapLook(cans, ids, names, "mL", **more)  # type: ignore[arg-type]


@given(st.integers(1, 9), st.integers(1, 45))
def test_every_can_stands_in_the_drawing_and_in_the_table(
    rows: int, columns: int
) -> None:
    shown = look(rows, columns)
    picture = can_map("cans", shown)
    drawn = [one.strip("()") for one in words(picture)]
    typed = [one.strip("()*+ ") for one in cells(picture)]
    for row in shown.cans:
        for can in row:
            assert can.value in drawn
            assert can.value in typed


@given(st.integers(1, 9), st.integers(1, 45), st.booleans())
def test_nothing_lies_outside_the_drawing(
    rows: int, columns: int, has_heads: bool
) -> None:
    corners = ((-0.5, -0.5), (rows - 0.5, columns - 0.5)) if has_heads else ()
    shown = look(rows, columns, heads=corners, up_deg=30.0, wind_from_deg=200.0)
    assert is_inside(can_map("cans", shown))


@pytest.mark.parametrize("columns", [5, 30])
def test_cells_of_one_band_do_not_overlap(columns: int) -> None:
    rects = list(tree(can_map("cans", look(2, columns))).iter(f"{SVG}rect"))
    plain = [
        r for r in rects if r.get("stroke-width") == "1" and r.get("fill") != "none"
    ]
    places = {(r.get("x"), r.get("y")) for r in plain}
    assert len(places) == len(plain)


def test_dry_and_wet_are_told_without_colour() -> None:
    picture = can_map("cans", look())
    assert {"0*", "2+", "(3)"} <= {one.strip() for one in cells(picture)}
    assert "driest quarter *" in picture.says
    assert f'fill="{LIGHT}"' in picture.svg
    assert 'font-weight="bold">0<' in picture.svg


def test_text_shows_the_map_within_eighty_columns() -> None:
    section = Section("Map", (can_map("cans", look(4, 40)),))
    text = paper_text(Paper("a", "b", (Leaf("a", "b", "c", (section,)),)))
    assert max(map(len, text.splitlines())) <= 80
    assert "C39" in text


def arrow(picture_svg: str, at: int) -> tuple[float, float]:
    """Direction of the nth arrow on paper: right and down."""
    heads = re.findall(r'<polygon points="([^"]+)" fill="black"', picture_svg)
    tip, left, right = (
        tuple(map(float, pair.split(","))) for pair in heads[at].split()
    )
    foot = ((left[0] + right[0]) / 2, (left[1] + right[1]) / 2)
    return round((tip[0] - foot[0]) / 10, 1), round((tip[1] - foot[1]) / 10, 1)


@pytest.mark.parametrize(
    ("up_deg", "north"),
    [(0.0, (0, -1)), (90.0, (-1, 0)), (180.0, (0, 1)), (270.0, (1, 0))],
)
def test_north_points_where_it_lies(up_deg: float, north: tuple[int, int]) -> None:
    assert arrow(can_map("cans", look(up_deg=up_deg)).svg, 0) == north


@pytest.mark.parametrize(
    ("from_deg", "blows"), [(0.0, (0, 1)), (90.0, (-1, 0)), (270.0, (1, 0))]
)
def test_the_wind_arrow_points_where_it_blows(
    from_deg: float, blows: tuple[int, int]
) -> None:
    shown = look(up_deg=0.0, wind_from_deg=from_deg)
    assert arrow(can_map("cans", shown).svg, 1) == blows


def test_no_arrow_is_drawn_where_nobody_wrote_north_down() -> None:
    picture = can_map("cans", look(wind_from_deg=90.0, wind="wind 2 mph"))
    assert 'fill="black"/>' not in picture.svg.replace("<line", "")
    assert "north was not written down" in picture.says
    assert "wind 2 mph" in picture.says


def test_a_head_in_the_corner_stands_at_the_corner_of_the_first_can() -> None:
    picture = can_map("cans", look(heads=((-0.5, -0.5),)))
    head = next(tree(picture).iter(f"{SVG}circle"))
    cell = next(tree(picture).iter(f"{SVG}rect"))
    assert (head.get("cx"), head.get("cy")) == (cell.get("x"), cell.get("y"))
