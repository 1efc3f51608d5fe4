"""What pydantic refused in; a finding in the user's own words and units out."""

import difflib
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from scheduler.errors import Finding, QuantityError
from scheduler.files.noun_examples import number_example, typed_example
from scheduler.files.noun_fields import WANTED, NounField, fields_of, wants
from scheduler.files.toml_scan import Path
from scheduler.files.toml_text import TomlText
from scheduler.files.typed_value import typed_entry
from scheduler.site import Noun
from scheduler.units import UNITS, alternatives, converted, number

Loc = tuple[str | int, ...]
_THOUSANDS = re.compile(r"[1-9]\d{0,2},\d{3}$")


@dataclass(frozen=True, slots=True)
class Typed:
    """A key as typed, where it stands, and the field and unit it means."""

    path: Path
    key: str
    field: NounField
    suffix: str


# What a number of that name can be, where the bare bound would not teach enough.
_TAUGHT = {
    "du_lq": "a uniformity is between 0 and 1",
    "assumed_du_lq": "a uniformity is between 0 and 1",
    "latitude_deg": "latitudes run from -66 to 66, south of the equator below 0",
    "longitude_deg": "longitudes run from -180 to 180, west of Greenwich below 0",
}
# What is above the highest that a number of that name can be, and why.
_TOO_HIGH = {
    "price": "no currency in use has a price so high",
    "money": "no currency in use has a sum so high",
    "interest": "it must be at most 0.5, a part of one a year beyond inflation",
    "life": "nothing laid or bolted is written off over more than 100 years",
    "flow_l_per_min": "no pump of one site gives more than 600,000 L/min (158,500 gpm)",
}
_BOUNDS: dict[str, tuple[str, str]] = {
    "greater_than": ("gt", "above"),
    "greater_than_equal": ("ge", "at least"),
    "less_than": ("lt", "below"),
    "less_than_equal": ("le", "at most"),
}


def error_finding(
    model: type[Noun],
    error: Mapping[str, Any],
    path: Path,
    toml: TomlText,
    typed: Mapping[Loc, Typed],
) -> Finding:
    """Finding for one thing that pydantic refused.

    Parameters
    ----------
    model : type of Noun
        What the table should be.
    error : mapping
        One item of `ValidationError.errors()`.
    path : tuple
        Where the table stands in the file.
    toml : TomlText
        The file.
    typed : mapping
        By place inside the noun: the key as typed.

    Returns
    -------
    Finding
        A stop.
    """
    loc: Loc = tuple(error["loc"])
    if error["type"] == "missing":
        return _missing(model, loc, path, toml, typed)
    # the nearest key that was typed, and what stands behind it (a list's index)
    depth = next((i for i in range(len(loc), 0, -1) if loc[:i] in typed), 0)
    if error["type"] == "value_error" or depth == 0:
        where = typed[loc[:depth]].path if depth else path
        return _rule(str(error["msg"]).removeprefix("Value error, "), where, toml)
    one = typed[loc[:depth]]
    inner = tuple(part for part in loc[depth:] if isinstance(part, int))
    what, fix = _refused(error, one, toml.typed((*one.path, *inner)))
    return Finding("stop", toml.place((*one.path, *inner)), what, fix)


def _missing(
    model: type[Noun],
    loc: Loc,
    path: Path,
    toml: TomlText,
    typed: Mapping[Loc, Typed],
) -> Finding:
    table, fields = path, fields_of(model)
    for i in range(1, len(loc)):
        table = typed[loc[:i]].path if loc[:i] in typed else table
        if isinstance(loc[i - 1], int):
            continue  # a table of a list: its fields are those of the list
        inner = fields[str(loc[i - 1])].noun
        fields = fields_of(inner) if inner else fields
    field = fields[str(loc[-1])]
    if field.noun is not None:
        what, fix = f"[{field.name}] is missing", f"write [{field.name}] with its keys"
    else:
        what = f"{field.keys_text} is missing"
        fix = f"add {field.keys[0]} = {_example(field)}"
        if len(field.keys) > 1:
            fix += f", or {field.keys[1]}"
    return Finding("stop", toml.table_place(table), what, fix)


def _example(field: NounField) -> str:
    if field.choices:
        return f'"{field.choices[0]}" (or {_list(field.choices[1:])})'
    kind = next((kind for kind in WANTED if kind in field.kinds), str)
    return WANTED[kind]


def _rule(message: str, where: Path, toml: TomlText) -> Finding:
    """A rule between keys that does not hold."""
    place = toml.place(where)
    if message.startswith("give ") and ", not " in message:
        return Finding("stop", place, "keys of this table do not go together", message)
    if message.startswith("give "):
        return Finding("stop", place, "this table is not complete", message)
    what, _, fix = message.partition("; ")
    if fix.startswith(("use one of ", "did you mean ")):  # a name that no table has
        return Finding("stop", place, what, fix)
    fix = "correct or delete one of these keys"
    return Finding("stop", place, message, fix)


def _refused(error: Mapping[str, Any], one: Typed, value: str) -> tuple[str, str]:
    kind = str(error["type"])
    shown = value or str(error.get("input"))
    if kind in _BOUNDS:
        return _out_of_bounds(error, one, shown)
    if kind == "literal_error":
        return _no_choice(one, error.get("input"), shown)
    if kind == "finite_number":
        return f"is {shown}, not a finite number", f"write {one.key} as measured"
    if kind in ("too_short", "string_too_short", "tuple_too_short"):
        least = error.get("ctx", {}).get("min_length", "")
        fix = f"fill in {one.key}, or delete the line"
        if kind != "string_too_short" and isinstance(least, int) and least > 1:
            fix = f"give {least} in {one.key}, or delete the line"
        return f"is {shown}, too short", fix
    if kind in ("too_long", "string_too_long", "tuple_too_long"):
        most = error.get("ctx", {}).get("max_length", "")
        return f"is {shown}, too long (at most {most})", f"shorten {one.key}"
    if kind == "tuple_type" and one.field.noun is None:
        return _no_list(one, error.get("input"), shown)
    return _wrong_kind(one, error.get("input"), shown)


def _out_of_bounds(error: Mapping[str, Any], one: Typed, shown: str) -> tuple[str, str]:
    name, words = _BOUNDS[str(error["type"])]
    bound = float(error["ctx"][name])
    if one.suffix and one.suffix != one.field.suffix:
        bound = converted(bound, one.field.suffix, to=one.suffix)
    limit = f"{words} {plain(bound)}"
    taught = _TAUGHT.get(one.field.name) or (_too_high(one) if name == "le" else "")
    is_part = bound == 1.0 or one.field.name == "interest"
    is_share = name in ("le", "lt") and is_part and not one.suffix
    value = error.get("input")
    size = float(value) if isinstance(value, (int, float)) else 0.0
    if is_share and 2.0 <= size <= 100.0 * bound:
        fix = f"write {plain(size / 100)} if {plain(size)} % is meant"
    else:
        fix = _other_conductivity(one, size) or f"write {one.key} {limit}"
    return f"is {shown}; " + (taught or f"it must be {limit}"), fix


def _too_high(one: Typed) -> str:
    """Why a number above its highest cannot be; empty where the bound says all."""
    name = one.field.name
    words = (name, *name.split("_"))
    return next((why for key, why in _TOO_HIGH.items() if key in words), "")


def _other_conductivity(one: Typed, size: float) -> str:
    """The key that was meant, where µS/cm and mS/cm were taken for each other."""
    if one.suffix not in alternatives("ds_per_m") or size <= 0:
        return ""
    typed = converted(size, one.field.suffix, to=one.suffix)
    other = "ms_per_cm" if one.suffix == "us_per_cm" else "us_per_cm"
    if (other == "us_per_cm") != (size > 1.0):
        return ""
    key = f"{one.field.stem}_{other}"
    return f"write {key} = {plain(typed)} if {UNITS[other].label} is meant"


def _no_choice(one: Typed, value: object, shown: str) -> tuple[str, str]:
    choices = one.field.choices
    close = difflib.get_close_matches(str(value).casefold(), choices, n=1)
    fix = f"did you mean {close[0]}? " if close else ""
    return f"is {shown}, which is not a choice", f"{fix}use one of {_list(choices)}"


def _wrong_kind(one: Typed, value: object, shown: str) -> tuple[str, str]:
    if one.field.noun is not None:
        return f"is {shown}, not a table", f"write [{one.key}] with its keys below"
    ask: Callable[[type], bool] = lambda kind: wants(one.field, kind)  # noqa: E731
    if isinstance(value, str) and (ask(float) or ask(int)):
        return _text_for_number(one, value)
    kind = next((k for k in WANTED if ask(k)), str)
    wanted = WANTED[kind]
    if one.field.choices:
        wanted = f"one or more of {_list(one.field.choices)}"
    fix = f"write {one.key} = {typed_example(one.field, one.suffix)}"
    return f"is {shown}, where {wanted} is wanted", fix


def _no_list(one: Typed, value: object, shown: str) -> tuple[str, str]:
    choices = one.field.choices
    wanted = f"a list of {_list(choices)}" if choices else "a list"
    fix = f"write {one.key} = {_list_meant(one, value)}"
    return f"is {shown}, where {wanted} is wanted", fix


def _list_meant(one: Typed, value: object) -> str:
    """What was typed as the list it was meant for, else an example."""
    example, choices = typed_example(one.field, one.suffix), one.field.choices
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    if not (isinstance(value, str) or (is_number and wants(one.field, float, int))):
        return example
    try:
        meant = typed_entry(one.field, one.key, str(value)).value
    except QuantityError:
        return example
    items = re.findall(r'"([^"]*)"', meant)
    is_known = not choices or all(item in choices for item in items)
    return meant if is_known and meant != "[]" else example


def _text_for_number(one: Typed, value: str) -> tuple[str, str]:
    what, example = f'is "{value}", a text', number_example(one.field, one.suffix)
    if ":" in value and one.key.endswith(("min", "minutes")):
        return f"{what}; minutes are wanted", f"write the minutes: {one.key} = 30"
    plain_number = value.strip().replace(",", ".")
    try:
        float(plain_number)
    except ValueError:
        fix = _number_meant(one, value) or f"write {one.key} = {example}"
        return f"{what} where a number is wanted", fix
    if _THOUSANDS.match(value.strip()):  # 2400 to some, 2.4 to others
        whole = value.strip().replace(",", "")
        fix = f"write {one.key} = {whole} or {one.key} = {plain_number}"
        return f"{what} where a number is wanted", fix
    return f"{what}", f"write it without quotes: {one.key} = {plain_number}"


def _number_meant(one: Typed, value: str) -> str:
    """The line to write for a number in quotes with a unit or a % behind it."""
    if one.field.is_list:
        return ""
    try:
        if one.field.suffix or "%" in value:
            entry = typed_entry(one.field, one.key, value)
            return f"write {entry.key} = {entry.value}"
        if "," in value:
            return ""
        return f"write {one.key} = {number(value)[0]:.10g}"  # "6 min": the key says it
    except QuantityError:
        return ""


def _list(words: tuple[str, ...]) -> str:
    return ", ".join(words)


def plain(value: float) -> str:
    """A number in few digits, without exponent."""
    return (
        f"{value:.4f}".rstrip("0").rstrip(".") if abs(value) < 100 else f"{value:.0f}"
    )
