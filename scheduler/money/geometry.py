"""A block and a layout in; heads, part circles and pipe counted out."""

import math
from dataclasses import dataclass
from typing import Literal

from scheduler.errors import SchedulerError

Layout = Literal["square", "rectangular", "triangular"]
Stand = Literal["on the edge", "half a spacing inside"]
# a block that is a whole number of spacings long must not get a head more by rounding
ROUND_OFF = 1e-6
# rows of heads on a triangle, over the spacing along the row
TRIANGLE = math.sqrt(3.0) / 2.0


@dataclass(frozen=True, slots=True)
class HeadCount:
    """What stands on a block.

    Attributes
    ----------
    heads, part_circle, rows : int
        Heads, those of them that turn less than a full circle, and rows of heads.
    full_equivalents : float
        Heads, part circles counted by their share of a full circle. [-]
    spacing_m, row_spacing_m : float
        As they really stand: the spacing shrinks until it fits the block. [m]
    lateral_m, main_m : float
        Pipe: one lateral a row from the short side that the main runs along, and the
        main from the first row to the last. [m]
    """

    heads: int
    part_circle: int
    rows: int
    full_equivalents: float
    spacing_m: float
    row_spacing_m: float
    lateral_m: float
    main_m: float

    @property
    def full_circle(self) -> int:
        """Heads that turn a full circle."""
        return self.heads - self.part_circle


def head_count(
    length_m: float,
    width_m: float,
    *,
    layout: Layout,
    spacing_m: float,
    row_spacing_m: float | None = None,
    stand: Stand = "on the edge",
) -> HeadCount:
    """Heads on a block, counted.

    Parameters
    ----------
    length_m, width_m : float
        Of the block; rows run along the length. [m]
    layout : {'square', 'rectangular', 'triangular'}
        How heads stand to each other; in a triangle every second row is moved by half
        a spacing.
    spacing_m : float
        Most from head to head along a row. [m]
    row_spacing_m : float, optional
        Most from row to row; the spacing, or in a triangle its sqrt(3)/2. [m]
    stand : {'on the edge', 'half a spacing inside'}
        Where the outer heads stand: part circles on the edge, or full circles inside
        that throw over it.

    Returns
    -------
    HeadCount
        The counts.

    Raises
    ------
    SchedulerError
        If a length is not above 0.

    Notes
    -----
    No gap is wider than asked for. Moved rows of a triangle have one head less, each
    half a spacing from the ends, and those at the ends turn a full circle.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> head_count(9.0, 9.0, layout="square", spacing_m=9.0).heads
    4
    >>> nine = head_count(9.0, 9.0, layout="square", spacing_m=4.5)
    >>> nine.heads, nine.part_circle, nine.lateral_m
    (9, 8, 27.0)
    """
    rows_m = row_spacing_m or spacing_m * (TRIANGLE if layout == "triangular" else 1.0)
    if not min(length_m, width_m, spacing_m, rows_m) > 0:
        raise SchedulerError(
            f"a block of {length_m:g} x {width_m:g} m with heads {spacing_m:g} x "
            f"{rows_m:g} m apart",
            "give lengths above 0",
        )
    along = max(math.ceil(length_m / spacing_m - ROUND_OFF), 1)
    across = max(math.ceil(width_m / rows_m - ROUND_OFF), 1)
    step, row_step = length_m / along, width_m / across
    if stand == "half a spacing inside":
        return _inside(along, across, (step, row_step), layout)
    return _on_the_edge(along, across, (step, row_step), layout)


def _inside(
    along: int, across: int, steps: tuple[float, float], layout: Layout
) -> HeadCount:
    """Full circles only; a moved row fits one head less between the same ends."""
    step, row_step = steps
    moved = across // 2 if layout == "triangular" else 0
    moved = moved if along > 1 else 0
    heads = along * across - moved
    # to the last head of each row; a moved row ends half a spacing before the others
    pipe = across * (along - 0.5) * step - moved * 0.5 * step
    return HeadCount(
        heads, 0, across, float(heads), step, row_step, pipe, (across - 1) * row_step
    )


def _on_the_edge(
    along: int, across: int, steps: tuple[float, float], layout: Layout
) -> HeadCount:
    step, row_step = steps
    rows = across + 1
    moved = rows // 2 if layout == "triangular" else 0
    straight = rows - moved
    heads = straight * (along + 1) + moved * along
    # the last row is moved when the number of rows is even
    is_last_moved = layout == "triangular" and rows % 2 == 0
    outer_straight = 1 if is_last_moved else 2
    inner_straight = straight - outer_straight
    part = outer_straight * (along + 1) + 2 * inner_straight
    quarters, halves = 2 * outer_straight, outer_straight * (along - 1)
    halves += 2 * inner_straight
    if is_last_moved:
        part += along
        halves += along
    full = heads - part + halves / 2 + quarters / 4
    pipe = straight * along * step + moved * (along - 0.5) * step
    return HeadCount(heads, part, rows, full, step, row_step, pipe, across * row_step)
