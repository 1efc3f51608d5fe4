"""Readings as a table in; rows and columns that are sums or means of them out."""

import numpy as np

from scheduler.arrays import FloatArray

_LEAST = 3
_FAR = 5e-3


def total_rows(values: FloatArray) -> int:
    """How many rows at the end are sums or means of those above.

    Parameters
    ----------
    values : array of shape (n_rows, n_columns)
        Readings, NaN where there is none.

    Returns
    -------
    int
        0 to 3; a row counts only when all its numbers are such figures. A mean is
        one when no reading is written that finely, when it is exact, or when it
        holds in three columns or more: a can may catch the rounded mean. Where the
        rows above are all the same, a row like them is one more of them.

    Examples
    --------
    >>> total_rows(np.array([[10.0], [12.0], [14.0], [11.0], [47.0]]))
    1
    >>> total_rows(np.array([[10.0], [12.0], [14.0], [11.0], [12.0]]))
    0
    """
    n = len(values)
    for size in (3, 2, 1):
        row = n - size
        if row >= _LEAST and all(_is_figure(one, values[:row]) for one in values[row:]):
            return size
    return 0


def is_total_above(values: FloatArray) -> bool:
    """Whether the first row is the sum of the rows below.

    Examples
    --------
    >>> is_total_above(np.array([[47.0], [10.0], [12.0], [14.0], [11.0]]))
    True
    """
    return len(values) > _LEAST and _is_sum(values[0], values[1:])


def _is_figure(row: FloatArray, above: FloatArray) -> bool:
    return _is_sum(row, above) or _is_mean(row, above)


def _is_sum(row: FloatArray, above: FloatArray) -> bool:
    total = np.nansum(above, axis=0)
    if not np.isfinite(row).all() or not total.any():
        return False
    return bool(np.allclose(row, total, rtol=_FAR, atol=0.0))


def _is_mean(row: FloatArray, above: FloatArray) -> bool:
    if not np.isfinite(row).all() or not np.isfinite(above).any(axis=0).all():
        return False
    mean = np.nanmean(above, axis=0)
    spread = np.nanmax(above, axis=0) - np.nanmin(above, axis=0)
    if not mean.any() or not spread.any():
        return False  # cans that caught alike: one more of them is no figure
    if np.allclose(row, mean, rtol=1e-9, atol=0.0):
        return True
    written = max(_decimals(one) for one in row)
    rounded = np.abs(row - mean) <= 0.5 * 10.0**-written * (1 + 1e-9)
    is_finer = written > max(_decimals(one) for one in above[np.isfinite(above)])
    return bool(rounded.all()) and (is_finer or row.size >= _LEAST)


def _decimals(value: float) -> int:
    return len(f"{value:.12g}".partition(".")[2])
