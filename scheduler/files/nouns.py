"""A table of a TOML file in; a noun in SI-style units, and what is wrong, out."""

import datetime as dt
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from pydantic import ValidationError

from scheduler.errors import Finding
from scheduler.files.noun_fields import (
    NounField,
    field_for,
    fields_of,
    unknown_key,
    wants,
)
from scheduler.files.noun_findings import Loc, Typed, error_finding
from scheduler.files.toml_scan import Path
from scheduler.files.toml_text import TomlText, broken_key
from scheduler.site import Noun
from scheduler.units import converted

N = TypeVar("N", bound=Noun)
_CLOCK = re.compile(r"(\d{1,2}):(\d\d)(?::00)?$")
_DATE = re.compile(r"\d{4}-\d\d-\d\d$")
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday",
             "sunday")  # fmt: skip


@dataclass(slots=True)
class _Reading:
    """What came up while one table was turned into a noun."""

    toml: TomlText
    typed: dict[Loc, Typed] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    reported: set[Loc] = field(default_factory=set)
    is_broken: bool = False
    lost_table: bool = False

    def stop(self, path: Path, what: str, fix: str) -> None:
        self.findings.append(Finding("stop", self.toml.place(path), what, fix))


def read_noun(
    model: type[N],
    table: object,
    toml: TomlText,
    path: Path,
    *,
    skip: Collection[str] = (),
) -> tuple[N | None, tuple[Finding, ...]]:
    """Turn one table into a noun.

    Parameters
    ----------
    model : type of Noun
        What the table should be.
    table : object
        The table, as TOML gave it.
    toml : TomlText
        The file it stands in.
    path : tuple
        Where it stands in the file.
    skip : collection of str
        Keys that somebody else reads.

    Returns
    -------
    noun : Noun or None
        None when anything about it is wrong.
    findings : tuple of Finding
        One stop for each thing that is wrong.
    """
    if not isinstance(table, Mapping):
        what = (
            f"is {toml.typed(path)}, not a table" if toml.typed(path) else "is a list"
        )
        names = [one for one in path if isinstance(one, str)]
        fix = f"write [{names[-1] if names else 'table'}] on a line and its keys below"
        return None, (Finding("stop", toml.place(path), what, fix),)
    reading = _Reading(toml)
    values = _values(model, table, path, (), reading, skip)
    noun = None
    try:
        noun = model.model_validate(values)
    except ValidationError as error:
        _report(model, error, path, reading)
    if reading.findings or reading.is_broken:
        noun = None
    return noun, tuple(reading.findings)


def _values(
    model: type[Noun],
    table: Mapping[str, Any],
    path: Path,
    loc: Loc,
    reading: _Reading,
    skip: Collection[str] = (),
) -> dict[str, Any]:
    values: dict[str, Any] = {}
    for key, value in table.items():
        lost = broken_key(key)
        if lost is not None:
            _note_lost(model, lost, loc, reading)
        elif key not in skip:
            found = field_for(model, key)
            if found is None:
                _note_unknown(model, key, (path, loc), reading, skip)
            elif found[0].name in values:
                _note_both(key, found[0], (path, loc), reading)
            else:
                one, suffix = found
                place = Typed((*path, key), key, one, suffix)
                reading.typed[*loc, one.name] = place
                inner = (*loc, one.name)
                values[one.name] = _value(place, value, inner, reading)
    return values


def _note_lost(model: type[Noun], lost: str, loc: Loc, reading: _Reading) -> None:
    """Remember a key whose line was set aside; its finding is out already."""
    reading.is_broken = True
    found = field_for(model, lost) if lost else None
    if found:
        reading.reported.add((*loc, found[0].name))
    else:
        reading.lost_table = True


def _note_unknown(
    model: type[Noun],
    key: str,
    at: tuple[Path, Loc],
    reading: _Reading,
    also: Collection[str],
) -> None:
    path, loc = at
    what, fix = unknown_key(model, key, also)
    typed = reading.toml.typed((*path, key))
    shown = f"{key} = {typed} {what}" if typed else f"{key} {what}"
    reading.stop((*path, key), shown, fix)
    if fix.startswith("delete"):
        return
    # the key that was meant is not missing as well
    for one in fields_of(model).values():
        if any(key_meant in fix for key_meant in one.keys) and one.is_required:
            reading.reported.add((*loc, one.name))


def _note_both(
    key: str, one: NounField, at: tuple[Path, Loc], reading: _Reading
) -> None:
    path, loc = at
    first = reading.typed[*loc, one.name].key
    line = reading.toml.line((*path, first))
    what = f"is given twice, as {first} on line {line} and as {key}"
    reading.stop((*path, key), what, "keep one of the two")


def _value(place: Typed, value: Any, loc: Loc, reading: _Reading) -> Any:
    """The value in the field's own unit and type, where it can be read as one."""
    one = place.field
    if one.noun is not None and isinstance(value, Mapping):
        return _values(one.noun, value, place.path, loc, reading)
    if one.noun is not None and isinstance(value, list):
        return [_item(place, i, each, loc, reading) for i, each in enumerate(value)]
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return _number(value, place)
    if isinstance(value, str):
        return _meant(value, one)
    if isinstance(value, list) and one.choices:
        return [_meant(v, one) if isinstance(v, str) else v for v in value]
    return value


def _item(place: Typed, i: int, value: Any, loc: Loc, reading: _Reading) -> Any:
    """One table of a list of tables."""
    noun, path = place.field.noun, (*place.path, i)
    reading.typed[*loc, i] = Typed(path, place.key, place.field, "")
    if noun is None or not isinstance(value, Mapping):
        return value
    return _values(noun, value, path, (*loc, i), reading)


def _number(value: float, place: Typed) -> float:
    one = place.field
    if not wants(one, float):
        return value
    try:
        # a TOML integer may be larger than any float
        size = float(value)
    except OverflowError:
        return float("inf")
    return converted(size, place.suffix, to=one.suffix) if one.suffix else size


def _meant(text: str, one: NounField) -> Any:
    """Value that a text stands for; the text itself if it stands for nothing else."""
    if one.choices:
        word = text.strip().casefold()
        short = word[:3] if word in _WEEKDAYS else word
        return next((c for c in one.choices if c in (word, short)), text)
    clock = _CLOCK.match(text.strip()) if wants(one, dt.time) else None
    if clock and int(clock[1]) < 24 and int(clock[2]) < 60:
        return dt.time(int(clock[1]), int(clock[2]))
    if wants(one, dt.date) and _DATE.match(text.strip()):
        try:
            return dt.date.fromisoformat(text.strip())
        except ValueError:
            return text
    return text


def _report(
    model: type[Noun], error: ValidationError, path: Path, reading: _Reading
) -> None:
    errors = error.errors()
    for one in errors:
        loc = tuple(one["loc"])
        if "too_short" in one["type"] and any(
            len(other["loc"]) > len(loc) and other["loc"][: len(loc)] == loc
            for other in errors
        ):
            continue  # only without the items that are wrong themselves
        known = any(loc[: i + 1] in reading.reported for i in range(len(loc)))
        # with keys missing or misread, rules between keys would mislead
        is_rule = one["type"] == "value_error" or one["type"] == "missing"
        if known or (is_rule and reading.lost_table):
            continue
        if one["type"] == "value_error" and (reading.findings or reading.is_broken):
            continue
        said = error_finding(model, one, path, reading.toml, reading.typed)
        if said not in reading.findings:
            reading.findings.append(said)
