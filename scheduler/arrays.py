"""Array types shared by all rooms, and the one way to freeze an array."""

from typing import Any

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]
BoolArray = npt.NDArray[np.bool_]
IntArray = npt.NDArray[np.int64]
DateArray = npt.NDArray[np.datetime64]


def frozen(values: npt.ArrayLike, dtype: Any = np.float64) -> npt.NDArray[Any]:
    """Copy of an array that nobody can write to.

    Parameters
    ----------
    values : array of any shape
        The values to keep.
    dtype : numpy dtype
        Type of the kept copy.

    Returns
    -------
    array of the same shape
        Read-only copy.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> frozen([1.0, 2.0]).flags.writeable
    False
    """
    kept = np.array(values, dtype=dtype)
    kept.flags.writeable = False
    return kept
