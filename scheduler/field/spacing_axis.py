"""A radius of throw in; round spacings to try, and the nearest of them, out."""

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import QuantityError
from scheduler.units import System, converted, face_suffix

# Between these parts of the throw lies every spacing that is built (common practice,
# no source: heads reach their neighbours at once the throw).
NEAREST, FARTHEST = 0.4, 1.7
MOST = 50
STEPS = (0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0)


def spacing_axis_m(throw_m: float, *, system: System) -> FloatArray:
    """Round spacings from well inside the throw to well beyond it.

    Parameters
    ----------
    throw_m : float
        Radius of throw, above 0. [m]
    system : {'us', 'metric'}
        Spacings are round in its unit of length.

    Returns
    -------
    array of shape (n,)
        At most 50 spacings in equal round steps, 0.4 to 1.7 of the throw. [m]

    Raises
    ------
    QuantityError
        If the throw is not above 0.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> feet = spacing_axis_m(36 * 0.3048, system="us") / 0.3048
    >>> feet[:3].round(3).tolist(), round(float(feet[-1]), 3)
    ([14.0, 15.0, 16.0], 61.0)
    """
    if not throw_m > 0:
        raise QuantityError(f"a throw of {throw_m:g} m", "give a throw above 0")
    unit = face_suffix("m", system)
    throw = converted(throw_m, "m", to=unit)
    low, high = NEAREST * throw, FARTHEST * throw
    step = next((one for one in STEPS if (high - low) / one < MOST - 2), STEPS[-1])
    first = int(np.floor(low / step))
    places = step * np.arange(max(first, 1), int(np.floor(high / step)) + 1)
    return frozen(places * converted(1.0, unit, to="m"))


def nearest_place(axis_m: FloatArray, length_m: float) -> int:
    """Place of the spacing nearest to a length.

    Parameters
    ----------
    axis_m : array of shape (n,)
        Spacings. [m]
    length_m : float
        A length. [m]

    Returns
    -------
    int
        Index into the axis.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> nearest_place(np.array([8.0, 9.0, 10.0]), 9.2)
    1
    """
    return int(np.abs(axis_m - length_m).argmin())
