"""The header of a table of legs in; what each column holds, and its unit, out."""

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.files.csv_text import PLAIN
from scheduler.files.weather_columns import header_parts
from scheduler.units import UNITS, spelled_unit

DISTANCE = "m"
# Inside units of what a can can hold, by dimension.
READINGS = {"volume": "ml", "length": "mm", "depth rate": "mm_per_h"}
_DISTANCE_WORDS = {"distance", "dist", "radius", "r"}
_READING_WORDS = {
    "depth", "depths", "volume", "volumes", "rate", "rates", "catch", "catches",
    "caught", "reading", "readings", "leg", "can", "cans", "water",
}  # fmt: skip
_UNITS = {
    "distance": ("ft", "m", "in", "cm", "mm"),
    "reading": ("mL", "fl oz", "in", "mm", "cm", "in/h", "mm/h"),
}
_CELLS = {
    "distance": "write the distance from the head as a number",
    "reading": "write a number, or one of - k l o",
}
_EXAMPLE = {"distance": "distance (ft)", "reading": "volume (mL) or depth (in)"}


@dataclass(frozen=True, slots=True)
class LegColumn:
    """A column that is read: its place in a row, header, unit suffix as typed.

    `fix` says what its cells may hold.
    """

    index: int
    header: str
    suffix: str
    fix: str


@dataclass(frozen=True, slots=True)
class LegColumns:
    """Where the distances and the legs stand; None when that is not understood."""

    distance: LegColumn
    legs: tuple[LegColumn, ...]


def leg_columns(
    headers: Sequence[str], place: str
) -> tuple[LegColumns | None, tuple[Finding, ...]]:
    """Columns of a table of legs, each with the unit that its header names.

    Parameters
    ----------
    headers : sequence of str
        The header row.
    place : str
        File and line of the header row.

    Returns
    -------
    columns : LegColumns or None
        None when there is no header, a column is missing, or a unit is.
    findings : tuple of Finding
        A stop for what is missing or not known, a note for columns not used.
    """
    if all(PLAIN.match(cell) for cell in headers if cell):
        what = "the first line holds numbers, not names with units"
        fix = "write a first line such as distance (ft),volume (mL)"
        return None, (Finding("stop", place, what, fix),)
    found: dict[str, list[LegColumn]] = {"distance": [], "reading": []}
    said: list[Finding] = []
    unused = []
    for i, header in enumerate(headers):
        name, unit = header_parts(header)
        kind = _kind(name)
        if kind is None:
            unused += [header] if header else []
            continue
        suffix = _suffix(unit, kind)
        if suffix is None:
            said.append(_unit_finding(kind, unit, f"{place}: {header}"))
        else:
            found[kind].append(LegColumn(i, header, suffix, _CELLS[kind]))
    said += _missing(found, said, place)
    if unused:
        what = f"columns not used: {', '.join(unused)}"
        fix = "if they are legs, name them leg 2 (mL), leg 3 (mL)"
        said.append(Finding("note", place, what, fix))
    if any(one.level == "stop" for one in said):
        return None, tuple(said)
    return LegColumns(found["distance"][0], tuple(found["reading"])), tuple(said)


def _kind(name: str) -> str | None:
    words = name.split()
    if any(one in _DISTANCE_WORDS for one in words):
        return "distance"
    return "reading" if any(one in _READING_WORDS for one in words) else None


def _suffix(unit: str, kind: str) -> str | None:
    known = {spelled_unit(one) for one in _UNITS[kind]}
    suffix = spelled_unit(unit) if unit else None
    return suffix if suffix in known else None


def _unit_finding(kind: str, unit: str, place: str) -> Finding:
    known = ", ".join(_UNITS[kind])
    what = f"is in {unit!r}, which is not one of {known}" if unit else "has no unit"
    fix = f"write the unit behind the name, such as {_EXAMPLE[kind]}; known: {known}"
    return Finding("stop", place, what, fix)


def _missing(
    found: dict[str, list[LegColumn]], said: list[Finding], place: str
) -> list[Finding]:
    """Stops for a table without distances or legs, or with two sets of distances."""
    missing = []
    if len(found["distance"]) > 1:
        what = "holds two columns of distances"
        fix = "put a leg with its own places into its own file"
        missing.append(Finding("stop", place, what, fix))
    if said:  # a unit that is missing says it already
        return missing
    for kind, columns in found.items():
        if not columns:
            what = f"no column holds the {kind}"
            fix = f"add one, such as {_EXAMPLE[kind]}"
            missing.append(Finding("stop", place, what, fix))
    return missing


def dimension_of(suffix: str) -> str:
    """What a reading is: `volume`, `length` or `depth rate`.

    Examples
    --------
    >>> dimension_of("in_per_h")
    'depth rate'
    """
    return UNITS[suffix].dimension
