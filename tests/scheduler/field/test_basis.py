"""Shapes that a grid of cans may show, and what each needs to be known."""

import numpy as np
import pytest

from scheduler.field.basis import (
    RunBearing,
    edge_places,
    head_places,
    locked,
    shapes_of,
)
from scheduler.record import CanLayout

ALL = np.ones((4, 6), dtype=bool)
WHOLE = CanLayout(1.5, 2.0, 90.0, (), True, (0,), ())
WIND = (RunBearing(270.0, 3.0),)


def kinds(layout: CanLayout, *winds: RunBearing) -> set[str]:
    return {one.kind for one in shapes_of(ALL, layout, winds)}


def test_without_a_layout_only_lines_slopes_and_corners_can_be_sought() -> None:
    assert kinds(CanLayout()) == {"strip", "gradient", "corner"}


@pytest.mark.parametrize(
    ("layout", "kind"),
    [
        (CanLayout(has_corner_heads=True), "ring"),
        (CanLayout(heads=((1.5, 2.5), (1.5, 8.5))), "one head"),
        (CanLayout(row_bearing_deg=90.0), "downwind"),
        (CanLayout(edge_columns=(5,)), "edge"),
    ],
)
def test_each_entry_of_the_layout_unlocks_its_cause(
    layout: CanLayout, kind: str
) -> None:
    assert kind in kinds(layout, *WIND)


def test_what_is_missing_is_named_by_its_key() -> None:
    said = " ".join(locked(CanLayout(), ()))
    assert all(key in said for key in ("heads", "row_bearing_deg", "edge_rows"))


def test_a_bearing_without_wind_asks_for_the_wind() -> None:
    assert "wind log" in " ".join(locked(CanLayout(row_bearing_deg=90.0), ()))


def test_a_whole_layout_locks_nothing() -> None:
    assert locked(WHOLE, WIND) == ()


def test_every_shape_has_mean_0_and_length_1() -> None:
    for one in shapes_of(ALL, WHOLE, WIND):
        np.testing.assert_allclose(one.columns.sum(axis=0), 0, atol=1e-9)
        size = one.columns.T @ one.columns
        np.testing.assert_allclose(size, np.eye(len(size)), atol=1e-9)


# Definition: a west wind blows to the east; a row read to the east rises along it.
@pytest.mark.parametrize(
    ("bearing", "direction", "high"),
    [
        (90.0, 270.0, (0, 5)),  # rows to the east, wind to the east: last column
        (90.0, 90.0, (0, 0)),  # wind to the west: first column
        (90.0, 0.0, (3, 0)),  # wind to the south: rows are read downwards, last row
        (0.0, 270.0, (3, 0)),  # rows to the north, wind to the east: last row
    ],
)
def test_the_downwind_end_is_where_the_wind_blows_to(
    bearing: float, direction: float, high: tuple[int, int]
) -> None:
    layout = CanLayout(row_bearing_deg=bearing)
    found = shapes_of(ALL, layout, (RunBearing(direction, 2.0),))
    (wind,) = (one for one in found if one.kind == "downwind")
    grid = wind.columns[:, 0].reshape(4, 6)
    assert grid[high] == pytest.approx(grid.max())


def test_a_place_without_a_can_is_no_part_of_a_shape() -> None:
    used = ALL.copy()
    used[1, 2] = False
    assert all(len(one.columns) == 23 for one in shapes_of(used, WHOLE, WIND))


def test_corner_heads_stand_half_a_can_outside() -> None:
    assert head_places(WHOLE, (4, 6)) == (
        (-0.5, -0.5), (-0.5, 5.5), (3.5, -0.5), (3.5, 5.5),
    )  # fmt: skip


def test_edges_are_whole_rows_and_columns() -> None:
    tagged = edge_places(CanLayout(edge_rows=(0,), edge_columns=(5,)), (4, 6))
    assert tagged.sum() == 6 + 4 - 1
