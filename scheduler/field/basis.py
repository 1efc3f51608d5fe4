"""How the cans stood in; the shapes that a map of catches may have out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from scheduler.arrays import BoolArray, FloatArray, frozen
from scheduler.record import CanLayout

Kind = Literal["strip", "gradient", "ring", "corner", "one head", "downwind", "edge"]
KINDS: tuple[Kind, ...] = (
    "strip", "gradient", "ring", "corner", "one head", "downwind", "edge",
)  # fmt: skip
# From this many rows on, a strip may be two rows wide.
WIDE_FROM = 5
# A corner reaches this part of the grid's width and height (common practice, no
# source: a part-circle head waters a quarter of its cell most).
CORNER_REACH = 0.6
# A head within this many cans of a corner can is the head of that corner.
NEAR_CORNER = 1.01


@dataclass(frozen=True, slots=True, eq=False)
class Basis:
    """One shape: what it is, where, and its columns.

    Attributes
    ----------
    kind : str
        Kind of cause that makes such a shape.
    where : tuple of float
        Which one: axis and first and last line of a strip, axis of a gradient, row and
        column of a corner or head; empty where there is only one.
    columns : array of shape (n_cans, n_columns)
        The shape at each can, orthonormal and with mean 0.
    sign : {-1, 0, 1}
        Sign that the first column must have to count; 0 for either.
    """

    kind: Kind
    where: tuple[float, ...]
    columns: FloatArray
    sign: int = 0


@dataclass(frozen=True, slots=True)
class RunBearing:
    """Mean wind of one run.

    Attributes
    ----------
    direction_deg : float
        Where the wind comes from, clockwise from north. [deg]
    speed_m_per_s : float
        Mean speed. [m/s]
    """

    direction_deg: float
    speed_m_per_s: float


def head_places(
    layout: CanLayout, shape: tuple[int, int]
) -> tuple[tuple[float, float], ...]:
    """Heads in can places, the first can standing at (0, 0).

    Parameters
    ----------
    layout : CanLayout
        How the cans stood.
    shape : tuple of int
        Rows and columns of the grid.

    Returns
    -------
    tuple of (row, column)
        As entered, or half a can beyond the corner cans; empty where not known.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> head_places(CanLayout(has_corner_heads=True), (4, 6))[-1]
    (3.5, 5.5)
    """
    if not layout.has_corner_heads:
        return layout.heads
    last_row, last_column = shape[0] - 0.5, shape[1] - 0.5
    return tuple((row, col) for row in (-0.5, last_row) for col in (-0.5, last_column))


def shapes_of(
    used: BoolArray, layout: CanLayout, winds: Sequence[RunBearing] = ()
) -> tuple[Basis, ...]:
    """Every shape that can be looked for on a grid.

    Parameters
    ----------
    used : array of shape (n_rows, n_columns)
        Places with a catch.
    layout : CanLayout
        How the cans stood; shapes that need more than is known are left out.
    winds : sequence of RunBearing
        Wind of the runs; empty where a direction is not known.

    Returns
    -------
    tuple of Basis
        Candidates, several of a kind.

    Notes
    -----
    Without spacings, cans are taken to stand as far apart along a row as across.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> found = shapes_of(np.ones((4, 6), dtype=bool), CanLayout())
    >>> sorted({one.kind for one in found})
    ['corner', 'gradient', 'strip']
    """
    row, column = np.nonzero(used)
    at = np.column_stack([row, column]).astype(np.float64)
    made = [
        *_strips(at, used.shape),
        *_gradients(at, used.shape),
        *_corners(at, used.shape),
        *_heads(at, used.shape, layout),
        *_downwind(at, layout, winds),
        *_edge(at, layout),
    ]
    return tuple(one for one in made if one is not None)


def _basis(
    kind: Kind, where: tuple[float, ...], *columns: FloatArray, sign: int = 0
) -> Basis | None:
    """Shape with orthonormal columns, or None where it is the same at every can."""
    made: list[FloatArray] = []
    for one in columns:
        rest = one - one.mean()
        size = float(np.linalg.norm(rest))
        for before in made:
            rest = rest - before * (before @ rest)
        left = float(np.linalg.norm(rest))
        if left > 1e-6 * max(size, 1e-12):
            made.append(rest / left)
    if not made:
        return None
    return Basis(kind, where, frozen(np.column_stack(made)), sign)


def _strips(at: FloatArray, shape: tuple[int, ...]) -> Iterator[Basis | None]:
    for axis in (0, 1):
        count = shape[axis]
        if count < 3:
            continue
        for width in (1, 2) if count >= WIDE_FROM else (1,):
            for first in range(count - width + 1):
                inside = (at[:, axis] >= first) & (at[:, axis] < first + width)
                if inside.sum() >= 2:
                    where = (axis, first, first + width - 1)
                    yield _basis("strip", where, inside.astype(np.float64))


def _gradients(at: FloatArray, shape: tuple[int, ...]) -> Iterator[Basis | None]:
    for axis in (1, 0):  # along the rows, then down the columns
        if shape[axis] >= 3:
            yield _basis("gradient", (axis,), at[:, axis])


def _corners(at: FloatArray, shape: tuple[int, ...]) -> Iterator[Basis | None]:
    if min(shape) < 3:
        return
    for row in (0, shape[0] - 1):
        for column in (0, shape[1] - 1):
            away = (at - (row, column)) / shape
            bump = np.maximum(0.0, 1 - np.hypot(*away.T) / CORNER_REACH)
            yield _basis("corner", (row, column), bump)


def _on_ground(places: FloatArray, layout: CanLayout) -> FloatArray:
    """Places in metres, or in cans where nobody measured."""
    along = layout.can_spacing_m or layout.row_spacing_m or 1.0
    return np.asarray(places * (layout.row_spacing_m or along, along))


def _heads(
    at: FloatArray, shape: tuple[int, ...], layout: CanLayout
) -> Iterator[Basis | None]:
    places = head_places(layout, (shape[0], shape[1]))
    if not places:
        return
    cans = _on_ground(at, layout)
    heads = _on_ground(np.array(places), layout)
    away = np.hypot(*(cans[:, None, :] - heads[None, :, :]).transpose(2, 0, 1))
    nearest = away.min(axis=1)
    far = nearest / max(nearest.max(), 1e-12)
    yield _basis("ring", (), far, far**2)
    if len(places) < 2:
        return
    between = np.hypot(*(heads[:, None, :] - heads[None, :, :]).transpose(2, 0, 1))
    between[between == 0] = np.inf
    reach = float(np.median(between.min(axis=1))) / 2
    for i, place in enumerate(places):
        if not _is_corner(place, shape):
            yield _basis("one head", place, np.exp(-((away[:, i] / reach) ** 2)))


def _is_corner(place: tuple[float, float], shape: tuple[int, ...]) -> bool:
    return all(
        min(abs(one), abs(one - (count - 1))) <= NEAR_CORNER
        for one, count in zip(place, shape, strict=True)
    )


def _downwind(
    at: FloatArray, layout: CanLayout, winds: Sequence[RunBearing]
) -> Iterator[Basis | None]:
    if layout.row_bearing_deg is None or not winds:
        return
    ground = _on_ground(at, layout)
    total = np.zeros(len(at))
    for wind in winds:
        # rows are read from the first down, seen from above: the next row is to the
        # right of a walk along this one
        turn = np.deg2rad(wind.direction_deg + 180.0 - layout.row_bearing_deg)
        total += wind.speed_m_per_s * (
            ground[:, 1] * np.cos(turn) + ground[:, 0] * np.sin(turn)
        )
    yield _basis("downwind", (), total, sign=1)


def edge_places(layout: CanLayout, shape: tuple[int, int]) -> BoolArray:
    """Places that are tagged as standing along the edge of the block.

    Parameters
    ----------
    layout : CanLayout
        With its edge rows and columns.
    shape : tuple of int
        Rows and columns of the grid.

    Returns
    -------
    array of shape (n_rows, n_columns)
        True along the edge.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> int(edge_places(CanLayout(edge_rows=(0,)), (4, 6)).sum())
    6
    """
    tagged = np.zeros(shape, dtype=np.bool_)
    tagged[[i for i in layout.edge_rows if i < shape[0]], :] = True
    tagged[:, [i for i in layout.edge_columns if i < shape[1]]] = True
    return tagged


def _edge(at: FloatArray, layout: CanLayout) -> Iterator[Basis | None]:
    tagged = np.isin(at[:, 0], layout.edge_rows) | np.isin(
        at[:, 1], layout.edge_columns
    )
    if tagged.any():
        yield _basis("edge", (), tagged.astype(np.float64))


def locked(layout: CanLayout, winds: Sequence[RunBearing]) -> tuple[str, ...]:
    """What to enter so that more causes can be looked for.

    Parameters
    ----------
    layout : CanLayout
        How the cans stood.
    winds : sequence of RunBearing
        Wind of the runs.

    Returns
    -------
    tuple of str
        One line for each cause that cannot be offered.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> locked(CanLayout(has_corner_heads=True, edge_rows=(0,), row_bearing_deg=90.0),
    ...        [RunBearing(225.0, 2.0)])
    ()
    """
    said = []
    if not layout.heads and not layout.has_corner_heads:
        said.append('ring and one head: heads = "corners" or their places in [layout]')
    if layout.row_bearing_deg is None:
        said.append("downwind: row_bearing_deg in [layout]")
    elif not winds:
        said.append("downwind: a wind log with direction over every run")
    if not layout.edge_rows and not layout.edge_columns:
        said.append("edge: edge_rows or edge_columns in [layout]")
    return tuple(said)
