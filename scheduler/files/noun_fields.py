"""A noun's class in; the keys people may write for it, units included, out."""

import datetime as dt
import difflib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Literal, get_args, get_origin

from scheduler.site import Noun
from scheduler.units import UNITS, alternatives, face_suffix, split_suffix


@dataclass(frozen=True, slots=True)
class NounField:
    """One field of a noun, as far as a file needs to know it.

    Attributes
    ----------
    name : str
        The field's own name.
    stem, suffix : str
        Its name without unit, and the unit; the suffix is empty for a bare number.
    kinds : tuple
        The plain types it takes.
    choices : tuple of str
        The words it takes, for a choice.
    noun : type of Noun or None
        What stands in it, for a table of its own.
    is_required : bool
        Whether it must be given.
    is_list : bool
        Whether it holds any number of them.
    at_most : float or None
        The number that it is not above, where one is set.
    at_least_n : int
        How many a list must hold.
    """

    name: str
    stem: str
    suffix: str
    kinds: tuple[type, ...]
    choices: tuple[str, ...]
    noun: type[Noun] | None
    is_required: bool
    is_list: bool = False
    at_most: float | None = None
    at_least_n: int = 0

    @property
    def keys(self) -> tuple[str, ...]:
        """What to write, the metric key and the US one."""
        if not self.suffix:
            return (self.name,)
        shown = dict.fromkeys((self.suffix, face_suffix(self.suffix, "us")))
        return tuple(f"{self.stem}_{one}" for one in shown)

    @property
    def keys_text(self) -> str:
        """What to write, as a text: `area_m2 or area_ft2`."""
        return " or ".join(self.keys)


@cache
def fields_of(model: type[Noun]) -> dict[str, NounField]:
    """Fields of a noun by their own names."""
    made = {}
    for name, info in model.model_fields.items():
        leaves = tuple(_leaves(info.annotation))
        choices = tuple(w for one in leaves if get_origin(one) is Literal
                        for w in get_args(one) if isinstance(w, str))  # fmt: skip
        kinds = tuple(one for one in leaves if isinstance(one, type))
        nouns = [one for one in kinds if issubclass(one, Noun)]
        is_number = float in kinds
        stem, suffix = split_suffix(name) if is_number else (name, "")
        rules = (*info.metadata, info.annotation)
        made[name] = NounField(
            name=name,
            stem=stem,
            suffix=suffix,
            kinds=kinds,
            choices=choices,
            noun=nouns[0] if nouns else None,
            is_required=info.is_required(),
            is_list=_is_list(info.annotation),
            at_most=_bound(rules, "le") or _bound(rules, "lt"),
            at_least_n=int(_bound(info.metadata, "min_length") or 0),
        )
    return made


def _bound(rules: Iterable[Any], name: str) -> Any:
    """A bound of a field, from its rules and those of the types inside."""
    for one in rules:
        if (found := getattr(one, name, None)) is not None:
            return found
        inner = getattr(one, "metadata", None) or get_args(one)
        if (found := _bound(inner, name) if inner else None) is not None:
            return found
    return None


def _is_list(annotation: Any) -> bool:
    inner = get_args(annotation)
    if get_origin(annotation) is Literal:
        return False
    return get_origin(annotation) is tuple or any(_is_list(one) for one in inner)


def _leaves(annotation: Any) -> Iterator[Any]:
    origin, inner = get_origin(annotation), get_args(annotation)
    if origin is Literal or not inner:
        yield annotation
    elif origin is Annotated:
        yield from _leaves(inner[0])
    else:
        for one in inner:
            if one is not Ellipsis and one is not type(None):
                yield from _leaves(one)


def field_for(model: type[Noun], key: str) -> tuple[NounField, str] | None:
    """Field that a typed key means, and the unit typed; None for an unknown key.

    Examples
    --------
    >>> from scheduler.site import Zone
    >>> field, unit = field_for(Zone, "area_ft2")
    >>> field.name, unit
    ('area_m2', 'ft2')
    """
    fields = fields_of(model)
    if key in fields:
        return fields[key], fields[key].suffix
    stem, suffix = split_suffix(key)
    for field in fields.values():
        if field.suffix and field.stem == stem and suffix in alternatives(field.suffix):
            return field, suffix
    return None


def unknown_key(
    model: type[Noun], key: str, also: Iterable[str] = ()
) -> tuple[str, str]:
    """Say what is wrong with a key that no field answers to, and what to write."""
    fields = fields_of(model)
    stem, suffix = split_suffix(key)
    for field in fields.values():
        if field.suffix and field.stem in (stem, key):
            if field.stem == key or not suffix:
                return "has no unit", f"write {field.keys_text}"
            measure = UNITS[field.suffix].dimension
            what = f"is in {UNITS[suffix].label}, which is no unit of {measure}"
            return what, f"write {field.keys_text}"
    known = [key for field in fields.values() for key in field.keys] + list(also)
    close = difflib.get_close_matches(key, known, n=1, cutoff=0.6)
    if close:
        return "is not a known key", f"did you mean {close[0]}?"
    return "is not a known key", f"delete the line, or use one of {', '.join(known)}"


def wants(field: NounField, *kinds: type) -> bool:
    """Whether a field takes one of these plain types."""
    return any(one in field.kinds for one in kinds)


# Shapes of a value that are asked for in words.
WANTED: dict[type, str] = {
    float: "a number",
    int: "a whole number",
    bool: "true or false",
    str: "a text in quotes",
    dt.time: 'a time of day such as "05:30"',
    dt.date: "a date such as 2026-05-12",
    dt.datetime: "a date with a time such as 2026-05-12T05:40:00",
}
