"""Spacings as people type them in, metres along and between the rows out."""

import re

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import QuantityError
from scheduler.units import UNITS, alternatives, converted, number, spelled_unit

MOST_STEPS = 60  # on one side of a map; more would be a slip, and slow
_TIMES = re.compile(r"\s*(?:[x×*]|\bby\b)\s*", re.IGNORECASE)


def parsed_length_m(text: str, *, option: str) -> float:
    """Read a length with its unit, above 0.

    Parameters
    ----------
    text : str
        Such as `30 ft`.
    option : str
        Name of the option it was given to.

    Returns
    -------
    float
        The length. [m]

    Raises
    ------
    QuantityError
        If it is no length above 0, or has no unit.

    Examples
    --------
    >>> round(parsed_length_m("30 ft", option="--from"), 3)
    9.144
    """
    return _length_m(text, "", option)


def parsed_spacing_m(text: str, *, option: str) -> tuple[float, float | None]:
    """Read a spacing along the row and, where there are two numbers, between rows.

    Parameters
    ----------
    text : str
        `30 x 40 ft`, `30 ft x 12 m`, or `30 ft` alone; a unit at the end holds for
        both numbers.
    option : str
        Name of the option it was given to.

    Returns
    -------
    tuple of float and (float or None)
        Along the row, and between rows if it was given. [m]

    Raises
    ------
    QuantityError
        If a part is no length above 0, a unit is missing, or there are more than two.

    Examples
    --------
    >>> along, between = parsed_spacing_m("30 x 40 ft", option="--at")
    >>> round(along, 3), round(between, 3)
    (9.144, 12.192)
    """
    parts = _TIMES.split(text.strip())
    if len(parts) > 2:
        raise QuantityError(
            f"{text!r} holds {len(parts)} numbers", "write it like 30 x 40 ft", option
        )
    unit = _rest(parts[-1], option)
    lengths = [_length_m(one, unit, option) for one in parts]
    return lengths[0], (lengths[1] if len(lengths) == 2 else None)


def _rest(text: str, option: str) -> str:
    try:
        return number(text)[1]
    except QuantityError as wrong:
        raise QuantityError(wrong.what, "write it like 30 x 40 ft", option) from wrong


def _length_m(text: str, unit: str, option: str) -> float:
    typed = _rest(text, option) or unit
    suffix = spelled_unit(typed) if typed else None
    known = alternatives("m")
    if suffix not in known:
        wrong = f"unit {typed!r} is no length" if typed else "has no unit"
        labels = ", ".join(UNITS[one].label for one in known)
        raise QuantityError(f"{text!r}: {wrong}", f"write one of {labels}", option)
    length = converted(number(text)[0], suffix or "", to="m")
    if not length > 0:
        raise QuantityError(f"{text!r} is not above 0", "give a distance", option)
    return length


def swept_m(
    first_m: float, last_m: float, step_m: float, *, with_m: float
) -> FloatArray:
    """Spacings from the first to the last, with the one that was asked about.

    Parameters
    ----------
    first_m, last_m, step_m : float
        Ends and step; the last is included where the steps meet it. [m]
    with_m : float
        Spacing asked about, put in where no step meets it. [m]

    Returns
    -------
    array of shape (n,)
        Ascending spacings. [m]

    Raises
    ------
    QuantityError
        If the ends are the wrong way round, or there are more than 60 steps.

    Examples
    --------
    >>> swept_m(8.0, 12.0, 2.0, with_m=9.0).tolist()
    [8.0, 9.0, 10.0, 12.0]
    """
    if last_m < first_m:
        raise QuantityError(
            "the last spacing is smaller than the first", "turn them round", "--to"
        )
    n = int((last_m - first_m) / step_m + 1e-9) + 1
    if n > MOST_STEPS:
        raise QuantityError(
            f"{n} spacings are too many", f"take {MOST_STEPS} or fewer", "--step"
        )
    steps = first_m + step_m * np.arange(n)
    near = np.isclose(steps, with_m, rtol=1e-6)
    # the asked one itself, so that its place is found by equality
    return np.unique(np.append(steps[~near], with_m))
