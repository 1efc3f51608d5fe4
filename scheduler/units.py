"""Unit suffixes, exact conversion factors, and numbers as people read them.

Inside the engine every number is SI-style and carries its unit as suffix of its name.
This is the only place that knows the suffixes. Fractions (0 to 1) have no suffix.
"""

import math
import re
from typing import Literal

from scheduler.errors import QuantityError
from scheduler.said import MINUS, true_minus
from scheduler.unit_table import (
    KPA_PER_PSI,
    L_PER_US_GALLON,
    ML_PER_US_FL_OZ,
    MM_PER_INCH,
    SPELLINGS,
    UNITS,
    US_FACE,
)

__all__ = [
    "KPA_PER_PSI",
    "L_PER_US_GALLON",
    "ML_PER_US_FL_OZ",
    "MM_PER_INCH",
    "UNITS",
    "System",
    "alternatives",
    "converted",
    "face_suffix",
    "number",
    "parsed_quantity",
    "shown",
    "spelled_unit",
    "split_suffix",
    "typed",
    "unit_label",
]

System = Literal["us", "metric"]

_VULGAR = {"¼": 0.25, "½": 0.5, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625,
           "⅞": 0.875, "⅓": 1 / 3, "⅔": 2 / 3}  # fmt: skip
_NUMBER = re.compile(
    r"""^\s*(?P<sign>[-+])?(?:
        (?P<whole>\d+)?\s*(?P<vulgar>[¼½¾⅛⅜⅝⅞⅓⅔])
      | (?:(?P<mixed>\d+)\s+)?(?P<num>\d+)\s*/\s*(?P<den>[1-9]\d*)
      | (?P<plain>\d+(?:\.\d*)?|\.\d+)
    )""",
    re.VERBOSE,
)


def split_suffix(name: str) -> tuple[str, str]:
    """Stem and unit suffix of a name; the suffix is empty for a bare number.

    Parameters
    ----------
    name : str
        A name such as `net_rate_mm_per_h`.

    Returns
    -------
    tuple of str
        Stem and suffix; the longest known suffix wins.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> split_suffix("net_rate_mm_per_h")
    ('net_rate', 'mm_per_h')
    >>> split_suffix("kc")
    ('kc', '')
    """
    parts = name.split("_")
    for i in range(1, len(parts)):
        suffix = "_".join(parts[i:])
        if suffix in UNITS:
            return "_".join(parts[:i]), suffix
    return name, ""


def converted(value: float, source: str, *, to: str) -> float:
    """Convert a value from one unit suffix to another of the same dimension.

    Parameters
    ----------
    value : float
        The value in the unit of `source`.
    source, to : str
        Unit suffixes.

    Returns
    -------
    float
        The value in the unit of `to`.

    Raises
    ------
    QuantityError
        If a suffix is unknown or the dimensions differ.

    References
    ----------
    Source: definition (international inch, pound and US gallon).

    Examples
    --------
    >>> converted(1.0, "in", to="mm")
    25.4
    >>> round(converted(60.0, "degf", to="degc"), 3)
    15.556
    """
    if source == to:
        return value
    a, b = UNITS.get(source), UNITS.get(to)
    if a is None or b is None or a.dimension != b.dimension:
        wanted = alternatives(to)
        raise QuantityError(
            f"{source} cannot be turned into {to}", f"use one of {', '.join(wanted)}"
        )
    return (value * a.factor + a.offset - b.offset) / b.factor


def alternatives(suffix: str) -> list[str]:
    """Unit suffixes of the same dimension as the given one.

    Parameters
    ----------
    suffix : str
        A unit suffix.

    Returns
    -------
    list of str
        All suffixes that convert to it, itself included; empty when unknown.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> alternatives("psi")
    ['kpa', 'bar', 'psi']
    """
    unit = UNITS.get(suffix)
    if unit is None:
        return []
    return [name for name, one in UNITS.items() if one.dimension == unit.dimension]


def spelled_unit(text: str) -> str | None:
    """Unit suffix for a spelling such as `fl oz`, `in/h` or `sq ft`; None if unknown.

    Parameters
    ----------
    text : str
        What somebody typed.

    Returns
    -------
    str or None
        The suffix.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> spelled_unit("fl. oz")
    'fl_oz'
    """
    plain = re.sub(r"[\s.]", "", text.strip().lower())
    return SPELLINGS.get(plain) or (plain if plain in UNITS else None)


def number(text: str) -> tuple[float, str]:
    """Read the number at the start of a text, and what stands behind it.

    Parameters
    ----------
    text : str
        `4.25 in`, `4 1/4 in`, `4¼`, `-12`.

    Returns
    -------
    tuple of float and str
        The number and the stripped rest.

    Raises
    ------
    QuantityError
        If the text does not start with a number.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> number("4 1/4 in")
    (4.25, 'in')
    >>> number("3½")
    (3.5, '')
    """
    found = _NUMBER.match(text.replace(MINUS, "-"))
    if found is None:
        raise QuantityError(f"{text.strip()!r} is not a number", "write it like 4.25")
    part = found.groupdict()
    if part["vulgar"]:
        size = float(part["whole"] or 0) + _VULGAR[part["vulgar"]]
    elif part["num"]:
        size = float(part["mixed"] or 0) + int(part["num"]) / int(part["den"])
    else:
        size = float(part["plain"])
    return (-size if part["sign"] == "-" else size), text[found.end() :].strip()


def parsed_quantity(text: str, *, to: str) -> float:
    """Read a number with its unit, in another unit.

    Parameters
    ----------
    text : str
        A number and a unit, such as `4.25 in` or `12 gpm`.
    to : str
        Unit suffix of the result.

    Returns
    -------
    float
        The value in the unit of `to`.

    Raises
    ------
    QuantityError
        If there is no number, no unit, or a unit of another dimension.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(parsed_quantity("4.25 in", to="mm"), 2)
    107.95
    """
    size, rest = number(text)
    unit = spelled_unit(rest) if rest else None
    units = ", ".join(UNITS[name].label for name in alternatives(to))
    if unit is None:
        if rest[:1] == "," and rest[1:2].isdigit():
            plain = text.strip().replace(",", ".", 1)
            raise QuantityError(f"{text.strip()!r} has a comma", f"write {plain!r}")
        wrong = f"unit {rest!r} is not known" if rest else "has no unit"
        raise QuantityError(f"{text.strip()!r}: {wrong}", f"write one of {units}")
    return converted(size, unit, to=to)


def face_suffix(suffix: str, system: System) -> str:
    """Suffix of the unit that a face of that system shows.

    Parameters
    ----------
    suffix : str
        Suffix of the inside unit.
    system : {'us', 'metric'}
        The face.

    Returns
    -------
    str
        Suffix of the shown unit.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> face_suffix("mm_per_h", "us")
    'in_per_h'
    """
    return US_FACE.get(suffix, suffix) if system == "us" else suffix


def unit_label(suffix: str, system: System) -> str:
    """Label of the unit shown for an inside suffix; empty for a bare number.

    Parameters
    ----------
    suffix : str
        Suffix of the inside unit.
    system : {'us', 'metric'}
        The face.

    Returns
    -------
    str
        Such as `in/h`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> unit_label("mm_per_h", "us")
    'in/h'
    """
    unit = UNITS.get(face_suffix(suffix, system))
    return unit.label if unit else ""


def shown(
    value: float | None,
    suffix: str,
    system: System,
    *,
    with_unit: bool = True,
    digits: int | None = None,
) -> str:
    """Write a number as a face shows it, in the precision a measurement has.

    Parameters
    ----------
    value : float or None
        Value in the inside unit.
    suffix : str
        Suffix of the inside unit; empty for a fraction or count, shown with 2 digits.
    system : {'us', 'metric'}
        The face.
    with_unit : bool
        Whether the unit's label follows.
    digits : int, optional
        Digits behind the point, if not the unit's own.

    Returns
    -------
    str
        With a true minus; an en dash for a value that is not known.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> shown(12.17, "mm_per_h", "us")
    '0.48 in/h'
    >>> shown(None, "mm", "us")
    '–'
    """
    if value is None or not math.isfinite(value):
        return "–"
    unit = UNITS.get(face_suffix(suffix, system))
    if unit is None:
        return true_minus(f"{value:.{2 if digits is None else digits}f}")
    size = converted(value, suffix, to=face_suffix(suffix, system))
    text = true_minus(f"{size:,.{unit.digits if digits is None else digits}f}")
    return f"{text} {unit.label}" if with_unit else text


def typed(value: float, suffix: str, system: System) -> str:
    """Write a number as people type it: no more digits than it has.

    Parameters
    ----------
    value : float
        Value in the inside unit.
    suffix : str
        Suffix of the inside unit.
    system : {'us', 'metric'}
        The face.

    Returns
    -------
    str
        The text, to at most 5 digits.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> typed(13.716, "m", "us")
    '45 ft'
    >>> typed(8.5, "m", "metric")
    '8.5 m'
    """
    to = face_suffix(suffix, system)
    return f"{converted(value, suffix, to=to):.5g} {UNITS[to].label}"
