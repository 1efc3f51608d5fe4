"""The header of a weather table in; what each column holds, and its unit, out."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.units import UNITS, spelled_unit, split_suffix

_HEADER = re.compile(
    r"^\s*(?P<name>.*?)[\s,]*(?:[(\[{]\s*(?P<unit>[^)\]}]+)[)\]}]|,\s*(?P<tail>\S+))?\s*$"
)
_BARE = re.compile(r"[\w\s]+$")
_NOT_WORD = re.compile(r"[^a-z0-9]+")


@dataclass(frozen=True, slots=True)
class Quantity:
    """One column that is understood.

    Attributes
    ----------
    field : str
        Field of the series it fills, with its unit.
    names : tuple of str
        Header names, as plain lower-case words.
    units : dict
        Factor and offset to the field's unit, by unit as compared.
    example : str
        How to write the header.
    """

    field: str
    names: tuple[str, ...]
    units: Mapping[str, tuple[float, float]]
    example: str


def _linear(to: str, *names: str) -> dict[str, tuple[float, float]]:
    """Factor and offset from units to another, by suffix."""
    base = UNITS[to]
    return {
        one: (
            UNITS[one].factor / base.factor,
            (UNITS[one].offset - base.offset) / base.factor,
        )
        for one in names
    }


_TEMPERATURE = _linear("degc", "degc", "degf")
_SHARE = {"%": (0.01, 0.0), "fraction": (1.0, 0.0)}
# 1 hPa = 1 mbar = 0.1 kPa: definition
_PRESSURE = {"kpa": (1.0, 0.0), "hpa": (0.1, 0.0), "mbar": (0.1, 0.0)}
# a daily table gives depths of one day, so "mm" and "mm/day" mean the same
_DEPTH = {
    **_linear("mm", "mm", "cm", "in"),
    "mm_per_day": (1.0, 0.0),
    "in_per_day": (25.4, 0.0),
}

QUANTITIES = (
    Quantity(
        "tmax_degc",
        ("tmax", "t max", "temp max", "max temp", "temperature max", "tx", "high",
         "max temperature", "maximum temperature", "air temp max", "max air temp",
         "max air temperature", "temp high", "high temp", "maximum air temperature",
         "temperature maximum", "air temperature max"),
        _TEMPERATURE,
        "tmax (°C)",
    ),
    Quantity(
        "tmin_degc",
        ("tmin", "t min", "temp min", "min temp", "temperature min", "tn", "low",
         "min temperature", "minimum temperature", "air temp min", "min air temp",
         "min air temperature", "temp low", "low temp", "minimum air temperature",
         "temperature minimum", "air temperature min"),
        _TEMPERATURE,
        "tmin (°C)",
    ),
    Quantity(
        "rh_max",
        ("rh max", "max rh", "rhmax", "relative humidity max", "humidity max",
         "max relative humidity", "maximum relative humidity", "max humidity"),
        _SHARE,
        "RH max (%)",
    ),
    Quantity(
        "rh_min",
        ("rh min", "min rh", "rhmin", "relative humidity min", "humidity min",
         "min relative humidity", "minimum relative humidity", "min humidity"),
        _SHARE,
        "RH min (%)",
    ),
    Quantity(
        "rh_mean",
        ("rh", "rh mean", "mean rh", "rhmean", "rh avg", "avg rh", "rh average",
         "relative humidity", "mean relative humidity", "relative humidity mean",
         "average relative humidity", "humidity", "mean humidity"),
        _SHARE,
        "RH mean (%)",
    ),
    Quantity(
        "dew_point_degc",
        ("dew point", "dewpoint", "tdew", "dew point temperature", "mean dew point",
         "dew point mean", "avg dew point", "t dew", "dew"),
        _TEMPERATURE,
        "dew point (°C)",
    ),
    Quantity(
        "vapour_pressure_kpa",
        ("vapour pressure", "vapor pressure", "actual vapour pressure", "ea", "vp",
         "actual vapor pressure", "avg vap pres", "mean vapour pressure",
         "mean vapor pressure"),
        _PRESSURE,
        "vapour pressure (kPa)",
    ),
    Quantity(
        "radiation_mj_per_m2_day",
        ("solar radiation", "radiation", "rs", "global radiation", "solar", "solar rad",
         "sol rad", "shortwave radiation", "ghi", "srad", "mean solar radiation"),
        _linear("mj_per_m2_day", "mj_per_m2_day", "w_per_m2", "langley_per_day"),
        "solar radiation (MJ/m2/day)",
    ),
    Quantity(
        "sunshine_h",
        ("sunshine", "sunshine hours", "sun hours", "bright sunshine", "sun",
         "sunshine duration", "hours of sunshine"),
        _linear("h", "h", "min"),
        "sunshine (h)",
    ),
    Quantity(
        "wind_m_per_s",
        ("wind", "wind speed", "u", "u2", "u10", "wind mean", "mean wind", "wind avg",
         "mean wind speed", "avg wind speed", "average wind speed", "wind speed mean",
         "windspeed", "avg wind", "wind run speed"),
        _linear("m_per_s", "m_per_s", "km_per_h", "mph", "kn"),
        "wind (m/s)",
    ),
    Quantity(
        "rain_mm",
        ("rain", "rainfall", "precipitation", "precip", "prcp", "p", "rain gauge",
         "total rain", "total precipitation", "rain total"),
        _DEPTH,
        "rain (mm)",
    ),
    Quantity(
        "eto_mm_per_day",
        ("eto", "et0", "et o", "grass reference et", "short reference et", "etos",
         "reference eto"),
        _DEPTH,
        "ETo (mm)",
    ),
    Quantity(
        "etr_mm_per_day",
        ("etr", "etrs", "et r", "alfalfa reference et", "tall reference et",
         "reference etr", "etr alfalfa"),
        _DEPTH,
        "ETr (mm)",
    ),
    Quantity(
        "et_mm_per_day",
        ("reference et", "reference evapotranspiration"),
        _DEPTH,
        "ETo (mm)",
    ),
)  # fmt: skip

DATE_NAMES = {"date", "day", "datum", "dates", "time", "timestamp", "date time"}
_BY_NAME = {name: one for one in QUANTITIES for name in one.names}

# Spellings beside those of scheduler.units, compared without spaces and dots.
_SPELLED = {
    "%": "%", "pct": "%", "percent": "%", "0-1": "fraction", "fraction": "fraction",
    "hpa": "hpa", "mbar": "mbar", "mb": "mbar", "mjm-2": "mj_per_m2_day",
    "mjm-2d-1": "mj_per_m2_day", "mjm-2day-1": "mj_per_m2_day",
    "mj/m^2": "mj_per_m2_day", "mj/m^2/day": "mj_per_m2_day",
    "mj/(m2d)": "mj_per_m2_day", "mj/m2day": "mj_per_m2_day", "wm-2": "w_per_m2",
    "w/m^2": "w_per_m2", "kmh-1": "km_per_h", "km/hr": "km_per_h", "kt": "kn",
    "kts": "kn", "miles/h": "mph", "mi/h": "mph", "deg c": "degc", "deg f": "degf",
    "celsius": "degc", "fahrenheit": "degf", "ºc": "degc", "ºf": "degf",
    "hours": "h", "hour": "h", "hrs": "h", "hr": "h",
    "cal/cm2": "langley_per_day", "cal/cm2/day": "langley_per_day",
    "mmd-1": "mm_per_day", "mmday-1": "mm_per_day", "inches/day": "in_per_day",
}  # fmt: skip
_RAISED = str.maketrans("⁻⁰¹²³−", "-0123-")


@dataclass(frozen=True, slots=True)
class Column:
    """A column that is read: its place in a row, header, field, factor and offset."""

    index: int
    header: str
    field: str
    factor: float
    offset: float


def header_parts(header: str) -> tuple[str, str]:
    """Name as plain words, and unit, of a header.

    Examples
    --------
    >>> header_parts("Max Temp [°F]")
    ('max temp', '°F')
    >>> header_parts("wind_m_per_s")
    ('wind', 'm_per_s')
    """
    text = header.strip()
    if (
        _BARE.match(text) and _words(text) in _BY_NAME
    ):  # "temp_min" is a lowest temperature, not minutes
        return _words(text), ""
    stem, suffix = split_suffix(text.casefold())
    if suffix:
        return _words(stem), suffix
    found = _HEADER.match(text)
    name, unit = text, ""
    if found:
        name, unit = found["name"], (found["unit"] or found["tail"] or "")
    if not unit:
        first, _, last = text.replace("_", " ").rpartition(" ")
        if first and _unit(last):
            name, unit = first, last
    return _words(name), unit


def _words(text: str) -> str:
    return _NOT_WORD.sub(" ", text.casefold()).strip()


def _unit(text: str) -> str | None:
    plain = re.sub(r"[\s.·*]", "", text.casefold().translate(_RAISED))
    return _SPELLED.get(plain) or spelled_unit(plain)


def is_date_header(header: str) -> bool:
    """Whether a header names the day of the row."""
    return header_parts(header)[0] in DATE_NAMES


def columns_of(
    headers: list[str], date_index: int, place: str
) -> tuple[tuple[Column, ...], tuple[Finding, ...]]:
    """Columns that are understood, and what is said about the others.

    Parameters
    ----------
    headers : list of str
        The header row.
    date_index : int
        The column of the date.
    place : str
        File and line of the header row.

    Returns
    -------
    columns : tuple of Column
        One for each quantity.
    findings : tuple of Finding
        A stop for a column whose unit is not known or that stands twice, one note
        for the columns that are not used.
    """
    columns: dict[str, Column] = {}
    findings: list[Finding] = []
    unused: list[str] = []
    for i, header in enumerate(headers):
        name, unit = header_parts(header)
        quantity = _BY_NAME.get(name)
        if i == date_index or not header:
            continue
        if quantity is None:
            unused.append(header)
        elif quantity.field in columns:
            what = f"stands twice, as {columns[quantity.field].header!r} as well"
            fix = "delete or rename one of the columns"
            findings.append(Finding("stop", f"{place}: {header}", what, fix))
        else:
            found = quantity.units.get(_unit(unit) or "") if unit else None
            if found is None:
                findings.append(_unit_finding(quantity, unit, f"{place}: {header}"))
            else:
                columns[quantity.field] = Column(i, header, quantity.field, *found)
    if unused:
        what = f"columns not used: {', '.join(unused)}"
        fix = "rename them if they hold weather, such as tmax (°C) or rain (in)"
        findings.append(Finding("note", place, what, fix))
    return tuple(columns.values()), tuple(findings)


def _unit_finding(quantity: Quantity, unit: str, place: str) -> Finding:
    labels = [UNITS[u].label if u in UNITS else u for u in quantity.units]
    known = ", ".join(dict.fromkeys(labels))
    what = f"is in {unit!r}, which is not one of {known}" if unit else "has no unit"
    fix = f"write the unit behind the name, such as {quantity.example}; known: {known}"
    return Finding("stop", place, f"{what}, so this column is not read", fix)
