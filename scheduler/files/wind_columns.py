"""The header of a wind log in; what each column holds, and its unit, out."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.files.weather_columns import Column, header_parts
from scheduler.units import UNITS, spelled_unit

_BRACKETS = re.compile(r"[(\[{]\s*([^)\]}]*)[)\]}]")
_NOT_WORD = re.compile(r"[^a-z0-9]+")
_RAISED = str.maketrans("⁻⁰¹²³−", "-0123-")

_NAMES = {
    "speed_m_per_s": (
        "wind", "wind speed", "windspeed", "speed", "ws", "mean wind", "wind mean",
        "wind avg", "avg wind", "average wind", "avg wind speed", "mean wind speed",
        "average wind speed", "wind speed avg", "wind speed mean", "wind speed average",
        "wind velocity", "u", "ws avg", "ws mean",
    ),
    "gust_m_per_s": (
        "gust", "gusts", "wind gust", "wind gusts", "gust speed", "wind gust speed",
        "max wind", "wind max", "max wind speed", "wind speed max", "peak wind",
        "wind peak", "maximum wind speed", "ws max", "gust max", "max gust",
    ),
    "direction_deg": (
        "direction", "wind direction", "wind dir", "dir", "wd", "winddir", "bearing",
        "winddirection", "mean wind direction", "wind direction avg", "wd avg",
        "avg wind direction", "wind direction mean", "wind from",
    ),
}  # fmt: skip
_BY_NAME = {name: field for field, names in _NAMES.items() for name in names}
_EXAMPLE = {
    "speed_m_per_s": "wind speed (m/s)",
    "gust_m_per_s": "gust (m/s)",
    "direction_deg": "wind direction (deg)",
}
# Spellings beside those of scheduler.units, compared without spaces, dots and marks.
_SPELLED = {
    "km/hr": "km_per_h", "kmh-1": "km_per_h", "kmhr": "km_per_h", "miles/h": "mph",
    "mi/h": "mph", "mi/hr": "mph", "milesperhour": "mph", "kts": "kn", "knot": "kn",
    "m/sec": "m_per_s", "mps": "m_per_s", "°": "deg", "degree": "deg",
    "degrees": "deg", "degtrue": "deg", "°true": "deg",
}  # fmt: skip
_COMPASS = ("N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW",
            "W", "WNW", "NW", "NNW")  # fmt: skip
COMPASS_DEG = {name: 22.5 * i for i, name in enumerate(_COMPASS)}


@dataclass(frozen=True, slots=True)
class WindColumns:
    """Columns of a wind log that are read; compass names need no unit."""

    columns: tuple[Column, ...]
    compass_index: int | None
    has_unit_row: bool
    speed_unit: str
    findings: tuple[Finding, ...]


def words_of(header: str) -> str:
    """Name in a header as plain lower-case words, without bracketed parts.

    Examples
    --------
    >>> words_of("Wind_Speed (10 m) [mph]")
    'wind speed'
    """
    bare = _BRACKETS.sub(" ", header)
    plain = _NOT_WORD.sub(" ", bare.casefold()).strip()
    if plain in _BY_NAME or bare != header:
        return plain
    return header_parts(header)[0]


def _unit(text: str) -> str | None:
    plain = re.sub(r"[\s.·*]", "", text.casefold().translate(_RAISED))
    return _SPELLED.get(plain) or spelled_unit(plain)


def _typed_unit(header: str) -> str:
    """Unit in a header as typed; of several brackets the first that is a unit."""
    brackets = [one.strip() for one in _BRACKETS.findall(header)]
    known = [one for one in brackets if _unit(one) in UNITS]
    fits = [one for one in known if UNITS[_unit(one) or ""].dimension != "length"]
    if brackets:
        return str((fits or brackets)[0])
    plain = _NOT_WORD.sub(" ", header.casefold()).strip()
    return "" if plain in _BY_NAME else header_parts(header)[1]


def wind_columns(
    headers: Sequence[str], below: Sequence[Sequence[str]], place: str
) -> WindColumns:
    """Columns that are understood, and what is said about their units.

    Parameters
    ----------
    headers : sequence of str
        The header row; cells that hold a date or time are empty.
    below : sequence of sequence of str
        The first rows under it, one of which may hold the units.
    place : str
        File and line of the header row.

    Returns
    -------
    WindColumns
        One column for each quantity; a stop for a unit that is missing or not known
        and for a quantity that stands twice, a note for columns that are not used.
    """
    unit_row = _unit_row(headers, below)
    columns: dict[str, Column] = {}
    findings: list[Finding] = []
    unused: list[str] = []
    compass: int | None = None
    for i, header in enumerate(headers):
        field = _BY_NAME.get(words_of(header))
        if field is None:
            unused += [header] if header else []
        elif field in columns or (field == "direction_deg" and compass is not None):
            fix = "delete or rename one of the columns"
            said = "stands twice: another column holds the same"
            findings.append(Finding("stop", f"{place}: {header}", said, fix))
        elif field == "direction_deg" and _is_compass(i, below):
            compass = i
        else:
            typed = _typed_unit(header) or (unit_row[i] if unit_row else "")
            column = _column(i, header, field, typed)
            if column is None:
                findings.append(_unit_finding(field, typed, f"{place}: {header}"))
            else:
                columns[field] = column
    if unused:
        what = f"columns not used: {', '.join(unused)}"
        fix = f"rename them if they hold wind, such as {_EXAMPLE['speed_m_per_s']}"
        findings.append(Finding("note", place, what, fix))
    return WindColumns(
        columns=tuple(columns.values()),
        compass_index=compass,
        has_unit_row=unit_row is not None,
        speed_unit=_speed_unit(columns),
        findings=tuple(findings),
    )


def _speed_unit(columns: Mapping[str, Column]) -> str:
    """Unit of the speed column; each speed unit has a factor of its own."""
    factor = columns["speed_m_per_s"].factor if "speed_m_per_s" in columns else 1.0
    speeds = (k for k, u in UNITS.items() if u.dimension == "speed")
    return next((k for k in speeds if UNITS[k].factor == factor), "m_per_s")


def _column(index: int, header: str, field: str, typed: str) -> Column | None:
    suffix = "deg" if field == "direction_deg" else "m_per_s"
    unit = UNITS.get(_unit(typed) or "") if typed else None
    if unit is None or unit.dimension != UNITS[suffix].dimension:
        return None
    return Column(index, header, field, unit.factor / UNITS[suffix].factor, 0.0)


def _unit_row(
    headers: Sequence[str], below: Sequence[Sequence[str]]
) -> Sequence[str] | None:
    """Row under the header if it holds the units of its wind columns."""
    if not below:
        return None
    row = [*below[0], *[""] * len(headers)]
    wind = [i for i, one in enumerate(headers) if words_of(one) in _BY_NAME]
    filled = [row[i] for i in wind if row[i]]
    is_units = bool(filled) and all(_unit(one) is not None for one in filled)
    return row if is_units else None


def _is_compass(index: int, below: Sequence[Sequence[str]]) -> bool:
    cells = [row[index].upper() for row in below if index < len(row) and row[index]]
    return any(one in COMPASS_DEG for one in cells)


def _unit_finding(field: str, typed: str, place: str) -> Finding:
    suffix = "deg" if field == "direction_deg" else "m_per_s"
    dimension = UNITS[suffix].dimension
    known = ", ".join(u.label for u in UNITS.values() if u.dimension == dimension)
    what = f"is in {typed!r}, which is not one of {known}" if typed else "has no unit"
    fix = f"write the unit behind the name, such as {_EXAMPLE[field]}; known: {known}"
    return Finding("stop", place, f"{what}, so this column is not read", fix)
