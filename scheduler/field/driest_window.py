"""Depths on a grid in, driest contiguous window and scheduling coefficient out."""

import math
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import ReadingsError, SchedulerError

# Common sizes of the window, as shares of the area (from memory, no source).
SHARES = (0.01, 0.02, 0.05, 0.10)


@dataclass(frozen=True, slots=True)
class DriestWindow:
    """The driest contiguous window of one size on a grid of cans.

    `row` and `column` are those of its first can; `share` is its part of the cans that
    were read. `scheduling_coefficient` is mean over driest: infinite if the window is
    dry.
    """

    window_rows: int
    window_columns: int
    row: int
    column: int
    share: float
    driest_over_mean: float
    scheduling_coefficient: float


def _sums(grid: FloatArray, rows: int, columns: int) -> FloatArray:
    """Sum over every window, by running totals."""
    grown = np.pad(grid, ((1, 0), (1, 0)))
    total = grown.cumsum(axis=0).cumsum(axis=1)
    tall = total[rows:] - total[:-rows]
    return np.asarray(tall[:, columns:] - tall[:, :-columns])


def driest_window(
    depth_mm: FloatArray, *, window_rows: int, window_columns: int, wraps: bool = False
) -> DriestWindow | None:
    """Driest rectangle of whole cans of one size.

    Parameters
    ----------
    depth_mm : array of shape (n_rows, n_columns)
        Depth (or rate) where each can stood, NaN where none was read. [mm]
    window_rows, window_columns : int
        Size of the window in cans.
    wraps : bool
        Whether the grid repeats, so that windows run over its borders.

    Returns
    -------
    DriestWindow or None
        None where every window of that size has a can missing.

    Raises
    ------
    SchedulerError
        If the window does not fit the grid.
    ReadingsError
        If nothing was caught.

    References
    ----------
    .. [1] Landscape irrigation design notes, section 4, Scheduling coefficient (web
       page, publisher not identified): mean over the mean of the driest area.

    Examples
    --------
    >>> strips = np.array([[7.0, 17.0], [7.0, 17.0]])
    >>> found = driest_window(strips, window_rows=2, window_columns=1)
    >>> round(found.scheduling_coefficient, 2), found.share
    (1.71, 0.5)
    """
    grid = np.asarray(depth_mm, dtype=np.float64)
    n_rows, n_columns = grid.shape
    if not (1 <= window_rows <= n_rows and 1 <= window_columns <= n_columns):
        raise SchedulerError(
            f"a window of {window_rows} by {window_columns} cells",
            f"give 1 to {n_rows} by 1 to {n_columns}",
            "window",
        )
    is_read = np.isfinite(grid)
    if not is_read.any() or grid[is_read].mean() <= 0:
        raise ReadingsError("no water caught", "see whether the valve was open")
    mean = float(grid[is_read].mean())
    edge = (window_rows - 1, window_columns - 1) if wraps else (0, 0)
    around = ((0, edge[0]), (0, edge[1]))
    caught = np.pad(np.where(is_read, grid, 0.0), around, mode="wrap")
    counted = np.pad(is_read.astype(np.float64), around, mode="wrap")
    size = window_rows * window_columns
    is_whole = _sums(counted, window_rows, window_columns) > size - 0.5
    if not is_whole.any():
        return None
    sums = np.where(is_whole, _sums(caught, window_rows, window_columns), np.inf)
    row, column = np.unravel_index(int(np.argmin(sums)), sums.shape)
    # sums of running totals leave crumbs where nothing fell
    ratio = float(sums[row, column]) / size / mean
    ratio = ratio if ratio > 1e-9 else 0.0
    return DriestWindow(
        window_rows,
        window_columns,
        int(row),
        int(column),
        size / float(is_read.sum()),
        ratio,
        1 / ratio if ratio else math.inf,
    )


def _shapes(cans: int, n_rows: int, n_columns: int) -> list[tuple[int, int]]:
    """The nearest to square of the rectangles of so many cans, both ways round."""
    fitting = [
        (rows, cans // rows)
        for rows in range(1, n_rows + 1)
        if cans % rows == 0 and cans // rows <= n_columns
    ]
    near = min((abs(rows - columns) for rows, columns in fitting), default=0)
    return [one for one in fitting if abs(one[0] - one[1]) == near]


def _of_share(grid: FloatArray, share: float) -> DriestWindow | None:
    """Driest window of whole cans nearest to a share of the area, near to square."""
    wanted = share * float(np.isfinite(grid).sum())
    counts = sorted(range(1, grid.size + 1), key=lambda n: (abs(n - wanted), n))
    for cans in counts:
        shapes = _shapes(cans, *grid.shape)
        # a strip is no spot: 5 cans are rather taken as 2 by 2
        if not shapes or max(shapes[0]) > 2 * min(shapes[0]):
            continue
        found = [
            driest_window(grid, window_rows=rows, window_columns=columns)
            for rows, columns in shapes
        ]
        whole = [one for one in found if one is not None]
        if whole:
            return min(whole, key=lambda one: one.driest_over_mean)
    return None


def driest_windows(depth_mm: FloatArray) -> tuple[DriestWindow, ...]:
    """Driest windows of whole cans nearest to 1, 2, 5 and 10 % of the area.

    Parameters
    ----------
    depth_mm : array of shape (n_rows, n_columns)
        Depth where each can stood, NaN where none was read. [mm]

    Returns
    -------
    tuple of DriestWindow
        Each size once, smallest first: with few cans one can is the nearest to several
        shares.

    Raises
    ------
    ReadingsError
        If nothing was caught.

    Notes
    -----
    A window is at most twice as long as wide and holds no missing can. Cans are
    taken to stand at equal distances. A single row or column is a list: it does not
    tell who stood beside whom, so only single cans are looked at.

    References
    ----------
    As `driest_window`; common sizes are from memory.

    Examples
    --------
    >>> cans = np.full((4, 6), 10.0)
    >>> cans[0, :2] = 5.0
    >>> [(one.window_rows, one.window_columns) for one in driest_windows(cans)]
    [(1, 1), (1, 2)]
    """
    grid = np.asarray(depth_mm, dtype=np.float64)
    shares = SHARES if min(grid.shape) > 1 else (0.0,)
    found = [_of_share(grid, share) for share in shares]
    kept: dict[tuple[int, int], DriestWindow] = {}
    for one in found:
        if one is not None:
            kept.setdefault((one.window_rows, one.window_columns), one)
    return tuple(sorted(kept.values(), key=lambda one: one.share))
