"""What somebody types into a field in; key and value, as TOML writes them, out."""

import datetime as dt
import re
from dataclasses import dataclass

from scheduler.errors import QuantityError
from scheduler.files.noun_examples import number_example
from scheduler.files.noun_fields import NounField, wants
from scheduler.files.toml_says import quoted
from scheduler.units import UNITS, alternatives, number, spelled_unit

_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2}(,\d{3})+(\.\d+)?(?![\d,.])")
_PLAIN = re.compile(r"[+-]?(?:0|[1-9]\d*)(?:\.\d+)?$")  # of TOML: no 05
_BETWEEN = re.compile(r"[\s,;]+")
_CLOCK = re.compile(r"(\d{1,2})[:.h](\d\d)$")
_RAISED = str.maketrans("²³", "23")
_YES = {"true", "yes", "on", "y"}
_NO = {"false", "no", "off", "n"}


@dataclass(frozen=True, slots=True)
class Entry:
    """A key and its value, as a line of a TOML file has them.

    Attributes
    ----------
    key : str
        The key with its unit.
    value : str
        The value, in quotes where it is a text.
    """

    key: str
    value: str


def unit_of(field: NounField, key: str) -> str:
    """Unit that a key of a field is in; empty for a bare number or a text.

    Examples
    --------
    >>> from scheduler.files.noun_fields import fields_of
    >>> from scheduler.site import Zone
    >>> unit_of(fields_of(Zone)["area_m2"], "area_ft2")
    'ft2'
    """
    return key.removeprefix(f"{field.stem}_") if field.suffix else ""


def typed_entry(field: NounField, key: str, text: str) -> Entry:
    """Key and value that were typed into a field.

    Parameters
    ----------
    field : NounField
        The field.
    key : str
        Its key now, or the one to write when it is given for the first time; another
        unit behind the number changes it.
    text : str
        What was typed, without the quotes of TOML: `1200 m2`, `mon wed fri`, `22:00`.

    Returns
    -------
    Entry
        What to write.

    Raises
    ------
    QuantityError
        If there is no number, or a unit that the field is not measured in. What a
        number may be is said by the reader of the file.

    Examples
    --------
    >>> from scheduler.files.noun_fields import fields_of
    >>> from scheduler.site import Zone
    >>> fields = fields_of(Zone)
    >>> typed_entry(fields["area_m2"], "area_ft2", "1200 m2")
    Entry(key='area_m2', value='1200')
    >>> typed_entry(fields["days"], "days", "mon wed").value
    '["mon", "wed"]'
    """
    text = text.strip()
    if _is_list(field):
        return Entry(key, _list(field, text))
    if wants(field, float, int):
        return _number_entry(field, key, text)
    return Entry(key, _word(field, text))


def plain_text(field: NounField, typed: str) -> str:
    """A value of a file as a field shows it: without quotes and brackets.

    Examples
    --------
    >>> from scheduler.files.noun_fields import fields_of
    >>> from scheduler.site import Zone
    >>> plain_text(fields_of(Zone)["days"], '["mon", "wed"]')
    'mon wed'
    """
    import tomllib

    try:
        value = tomllib.loads(f"v = {typed}")["v"]
    except tomllib.TOMLDecodeError:
        return typed
    if isinstance(value, list) and not any(isinstance(one, dict) for one in value):
        between = ", " if _is_free_list(field) else " "
        if value and not isinstance(value[0], str):  # numbers as they were typed
            return " ".join(_BETWEEN.sub(" ", typed.strip("[] \n")).split())
        return between.join(str(one) for one in value)
    return value if isinstance(value, str) else typed


def _is_list(field: NounField) -> bool:
    return field.noun is None and field.is_list


def _is_free_list(field: NounField) -> bool:
    return _is_list(field) and not field.choices and not wants(field, float, int)


def _list(field: NounField, text: str) -> str:
    inside = text.strip("[]")
    if _is_free_list(field):
        parts = [one.strip().strip("\"'") for one in re.split(r"[,;]", inside)]
    else:
        parts = [one.strip("\"'") for one in _BETWEEN.split(inside.strip())]
    parts = [one for one in parts if one]
    if wants(field, float, int) and not field.choices:
        return f"[{', '.join(_plain_number(one) for one in parts)}]"
    return f"[{', '.join(quoted(one) for one in parts)}]"


def _number_entry(field: NounField, key: str, text: str) -> Entry:
    try:
        size, rest = number(text)
    except QuantityError as wrong:
        example = number_example(field, unit_of(field, key))
        raise QuantityError(wrong.what, f"write it like {example}") from wrong
    if rest[:1] == "," and rest[1:2].isdigit():
        raise QuantityError(f"{text!r} has a comma", _without_comma(text))
    head = text[: len(text) - len(rest)].strip() if rest else text
    value = head if _PLAIN.match(head) else f"{size:.10g}"
    if rest == "%" and not field.suffix:
        part = size / 100 if wants(field, float) else size
        return Entry(key, f"{part:.10g}")
    if not rest:
        return Entry(key, value.removeprefix("+"))
    return Entry(_key_in(field, rest, text), value.removeprefix("+"))


def _without_comma(text: str) -> str:
    """Remedy for a comma, which may stand for a point or between thousands."""
    if not _THOUSANDS.match(text):
        return f"write {text.replace('.', '').replace(',', '.', 1)!r}"
    whole = text.replace(",", "")
    if "." in text:
        return f"write {whole!r}"
    return f"write {whole!r}, or {text.replace(',', '.')!r} if it stands for a point"


def _key_in(field: NounField, unit: str, text: str) -> str:
    """Key of the field in the unit that was typed."""
    if not field.suffix:
        fix = f"write {text[: -len(unit)].strip()}"
        raise QuantityError(f"{text!r}: {field.name} has no unit", fix)
    known = alternatives(field.suffix)
    suffix = unit if unit in known else spelled_unit(unit)
    if suffix is None:  # prices: what stands behind "per", such as "per kgal"
        said = unit.replace("/", "per ").translate(_RAISED)
        labels = {UNITS[one].label.translate(_RAISED): one for one in known}
        suffix = labels.get(" ".join(said.split()))
    if suffix not in known:
        units = ", ".join(UNITS[one].label for one in known)
        what = f"{text!r}: {unit!r} is no unit of {UNITS[field.suffix].dimension}"
        raise QuantityError(what, f"write one of {units}")
    return f"{field.stem}_{suffix}"


def _plain_number(text: str) -> str:
    size, rest = number(text)
    if rest:
        raise QuantityError(f"{text!r} is not a number", "write numbers like 0.85")
    return text if _PLAIN.match(text) else f"{size:.10g}"


def _word(field: NounField, text: str) -> str:
    if field.choices:
        return quoted(text.strip("\"'"))
    if wants(field, bool):
        word = text.casefold()
        if word in _YES or word in _NO:
            return "true" if word in _YES else "false"
        raise QuantityError(f"{text!r} is neither yes nor no", "write true or false")
    if wants(field, dt.time):
        clock = _CLOCK.match(text.strip("\"'"))
        return quoted(f"{int(clock[1]):02}:{clock[2]}" if clock else text)
    if wants(field, dt.date) and _is_date(text):
        return text
    return quoted(text)


def _is_date(text: str) -> bool:
    try:
        dt.date.fromisoformat(text)
    except ValueError:
        return False
    return len(text) == 10
