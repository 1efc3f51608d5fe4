"""Unit suffixes, exact conversion factors, and numbers as people read them.

Inside the engine every number is SI-style and carries its unit as suffix of its name.
This is the only place that knows the suffixes. Fractions (0 to 1) have no suffix.
"""

import math
import re
from dataclasses import dataclass
from typing import Literal

from scheduler.errors import QuantityError

System = Literal["us", "metric"]


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: value_in_base = value * factor + offset."""

    label: str
    dimension: str
    factor: float
    digits: int
    offset: float = 0.0


# Exact by definition: inch 25.4 mm, pound 0.45359237 kg, US gallon 231 in3,
# US fluid ounce 1/128 gallon, international mile 1609.344 m, standard gravity.
MM_PER_INCH = 25.4
M_PER_FOOT = 0.3048
ML_PER_CUBIC_INCH = 16.387064
L_PER_US_GALLON = 3.785411784
ML_PER_US_FL_OZ = 29.5735295625
M_PER_S_PER_MPH = 0.44704
KPA_PER_PSI = 6.894757293168361
M2_PER_FT2 = 0.09290304
M2_PER_ACRE = 4046.8564224
CM2_PER_IN2 = 6.4516

UNITS: dict[str, Unit] = {
    # length and water depth share a dimension; base is the millimetre
    "mm": Unit("mm", "length", 1.0, 1),
    "cm": Unit("cm", "length", 10.0, 1),
    "m": Unit("m", "length", 1000.0, 1),
    "in": Unit("in", "length", MM_PER_INCH, 2),
    "ft": Unit("ft", "length", 1000.0 * M_PER_FOOT, 1),
    "km": Unit("km", "length", 1e6, 1),
    "mi": Unit("mi", "length", 1609344.0, 1),
    # area; base is the square metre
    "cm2": Unit("cm²", "area", 1e-4, 1),
    "in2": Unit("in²", "area", CM2_PER_IN2 * 1e-4, 2),
    "m2": Unit("m²", "area", 1.0, 0),
    "ft2": Unit("ft²", "area", M2_PER_FT2, 0),
    "acre": Unit("acre", "area", M2_PER_ACRE, 2),
    "ha": Unit("ha", "area", 1e4, 2),
    # volume; base is the litre
    "ml": Unit("mL", "volume", 1e-3, 0),
    "l": Unit("L", "volume", 1.0, 0),
    "m3": Unit("m³", "volume", 1e3, 1),
    "fl_oz": Unit("fl oz", "volume", ML_PER_US_FL_OZ * 1e-3, 1),
    "gal": Unit("gal", "volume", L_PER_US_GALLON, 0),
    "kgal": Unit("kgal", "volume", 1e3 * L_PER_US_GALLON, 1),
    "ft3": Unit("ft³", "volume", 28.316846592, 0),
    # rates of depth; base is mm per hour
    "mm_per_h": Unit("mm/h", "depth rate", 1.0, 1),
    "in_per_h": Unit("in/h", "depth rate", MM_PER_INCH, 2),
    "mm_per_day": Unit("mm/day", "depth rate", 1 / 24, 1),
    "in_per_day": Unit("in/day", "depth rate", MM_PER_INCH / 24, 2),
    # flow; base is litres per minute
    "l_per_min": Unit("L/min", "flow", 1.0, 1),
    "l_per_s": Unit("L/s", "flow", 60.0, 2),
    "m3_per_h": Unit("m³/h", "flow", 1000 / 60, 2),
    "gpm": Unit("gpm", "flow", L_PER_US_GALLON, 1),
    # pressure; base is the kilopascal
    "kpa": Unit("kPa", "pressure", 1.0, 0),
    "bar": Unit("bar", "pressure", 100.0, 2),
    "psi": Unit("psi", "pressure", KPA_PER_PSI, 0),
    # speed; base is metres per second
    "m_per_s": Unit("m/s", "speed", 1.0, 1),
    "km_per_h": Unit("km/h", "speed", 1 / 3.6, 1),
    "mph": Unit("mph", "speed", M_PER_S_PER_MPH, 1),
    "kn": Unit("kn", "speed", 1852 / 3600, 1),
    # temperature; base is the degree Celsius
    "degc": Unit("°C", "temperature", 1.0, 1),
    "degf": Unit("°F", "temperature", 5 / 9, 0, -160 / 9),
    # time; base is the minute
    "min": Unit("min", "time", 1.0, 0),
    "h": Unit("h", "time", 60.0, 1),
    # radiation over a day
    "mj_per_m2_day": Unit("MJ/m²/day", "radiation", 1.0, 1),
    "w_per_m2": Unit("W/m²", "radiation", 0.0864, 0),
    "langley_per_day": Unit("ly/day", "radiation", 0.04184, 0),
    # angle
    "deg": Unit("°", "angle", 1.0, 0),
    # prices of water and energy, in the site's currency
    "money_per_m3": Unit("per m³", "water price", 1.0, 2),
    "money_per_kgal": Unit("per kgal", "water price", 1 / 3.785411784, 2),
    "money_per_kwh": Unit("per kWh", "energy price", 1.0, 3),
    "per_m2": Unit("per m²", "density", 1.0, 1),
    "per_ft2": Unit("per ft²", "density", 1 / M2_PER_FT2, 2),
}

# What each face shows for an inside unit. mL stays mL in both systems.
US_FACE = {
    "mm": "in", "cm": "in", "m": "ft", "km": "mi", "cm2": "in2", "m2": "ft2",
    "m3": "gal", "l": "gal", "mm_per_h": "in_per_h", "mm_per_day": "in_per_day",
    "l_per_min": "gpm", "kpa": "psi", "m_per_s": "mph", "degc": "degf",
    "money_per_m3": "money_per_kgal", "per_m2": "per_ft2",
}  # fmt: skip

# Spellings that people type; compared in lower case without spaces and dots.
SPELLINGS = {
    "ml": "ml", "milliliters": "ml", "millilitres": "ml", "cc": "ml",
    "floz": "fl_oz", "oz": "fl_oz", "usfloz": "fl_oz", "fl_oz": "fl_oz",
    "mm": "mm", "cm": "cm", "m": "m", "in": "in", '"': "in", "inch": "in",
    "inches": "in", "ft": "ft", "'": "ft", "feet": "ft", "foot": "ft",
    "km": "km", "mi": "mi", "miles": "mi",
    "cm2": "cm2", "cm²": "cm2", "in2": "in2", "in²": "in2", "sqin": "in2",
    "m2": "m2", "m²": "m2", "ft2": "ft2", "ft²": "ft2", "sqft": "ft2",
    "acre": "acre", "acres": "acre", "ac": "acre", "ha": "ha",
    "l": "l", "m3": "m3", "m³": "m3", "gal": "gal", "gallons": "gal",
    "kgal": "kgal", "ft3": "ft3",
    "mm/h": "mm_per_h", "mm/hr": "mm_per_h", "in/h": "in_per_h",
    "in/hr": "in_per_h", "mm/day": "mm_per_day", "mm/d": "mm_per_day",
    "in/day": "in_per_day", "in/d": "in_per_day",
    "l/min": "l_per_min", "lpm": "l_per_min", "l/s": "l_per_s",
    "m3/h": "m3_per_h", "m³/h": "m3_per_h", "gpm": "gpm", "gal/min": "gpm",
    "kpa": "kpa", "bar": "bar", "psi": "psi",
    "m/s": "m_per_s", "ms-1": "m_per_s", "km/h": "km_per_h", "kmh": "km_per_h",
    "kph": "km_per_h", "mph": "mph", "kn": "kn", "kt": "kn", "knots": "kn",
    "c": "degc", "°c": "degc", "degc": "degc", "f": "degf", "°f": "degf",
    "degf": "degf", "min": "min", "minutes": "min", "h": "h", "hours": "h",
    "mj/m2/day": "mj_per_m2_day", "mj/m2/d": "mj_per_m2_day",
    "mj/m²/day": "mj_per_m2_day", "mj/m2": "mj_per_m2_day", "w/m2": "w_per_m2",
    "w/m²": "w_per_m2", "ly": "langley_per_day", "ly/day": "langley_per_day",
    "langley": "langley_per_day",
}  # fmt: skip

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
    found = _NUMBER.match(text)
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
        The text; an en dash for a value that is not known.

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
        return f"{value:.{2 if digits is None else digits}f}"
    size = converted(value, suffix, to=face_suffix(suffix, system))
    text = f"{size:,.{unit.digits if digits is None else digits}f}"
    return f"{text} {unit.label}" if with_unit else text
