"""The TOML texts of a site folder in; its things and their fields, as typed, out."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from scheduler.errors import SaveError
from scheduler.files.noun_fields import NounField, field_for, fields_of
from scheduler.files.site_tables import Head
from scheduler.files.toml_scan import Path, Spot, is_toml, known_spots, pairs_of
from scheduler.files.typed_value import plain_text, unit_of
from scheduler.logged import Station, WindFile
from scheduler.site import (
    BlockedHours,
    Controller,
    Noun,
    Option,
    Package,
    Shortage,
    Supply,
    Tariff,
    Window,
    Zone,
)
from scheduler.units import System, face_suffix

FILES = ("site.toml", "zones.toml", "packages.toml", "options.toml")


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of thing that a site folder holds.

    Attributes
    ----------
    name : str
        Its table: `zone`, `supply`; empty for the keys at the top of site.toml.
    file : str
        The file that holds it.
    model : type of Noun
        What it is read as.
    words : str
        What to call it.
    is_list : bool
        Whether it is always one of a list; a clock may be.
    """

    name: str
    file: str
    model: type[Noun]
    words: str
    is_list: bool = False


KINDS: tuple[Kind, ...] = (
    Kind("", "site.toml", Head, "site"),
    Kind("supply", "site.toml", Supply, "water and pump"),
    Kind("window", "site.toml", Window, "window", is_list=True),
    Kind("blocked", "site.toml", BlockedHours, "blocked hours", is_list=True),
    Kind("controller", "site.toml", Controller, "clock"),
    Kind("tariff", "site.toml", Tariff, "prices"),
    Kind("shortage", "site.toml", Shortage, "shortage"),
    Kind("station", "site.toml", Station, "weather file", is_list=True),
    Kind("wind_log", "site.toml", WindFile, "wind file", is_list=True),
    Kind("zone", "zones.toml", Zone, "zone", is_list=True),
    Kind("package", "packages.toml", Package, "package", is_list=True),
    Kind("option", "options.toml", Option, "option", is_list=True),
)
# keys of site.toml that are things of their own
_APART = ("format", *(one.name for one in KINDS if one.file == "site.toml"))


@dataclass(frozen=True, slots=True)
class Thing:
    """One thing of a site folder.

    Attributes
    ----------
    kind : Kind
        What it is.
    place : tuple
        Where it stands in its file; of a thing not given, where it would stand.
    name : str
        What tells it from its like: an id, a name, its hours.
    is_given : bool
        Whether the file has it.
    line : int
        Its line; 0 when it is not given.
    about : str
        What it is called besides its id; empty where there is no more to say.
    """

    kind: Kind
    place: Path
    name: str
    is_given: bool
    line: int = 0
    about: str = ""

    @property
    def is_of_list(self) -> bool:
        """Whether the file has it as one of a list."""
        return len(self.place) > 1


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a thing, as the file has it.

    Attributes
    ----------
    field : NounField
        What it is.
    table : tuple
        The table that it stands in, or would stand in.
    key : str
        Its key as typed, or the one to write.
    typed : str
        Its value as TOML has it; empty when not given.
    text : str
        The same without quotes and brackets.
    default : str
        What stands for it when not given; empty where nothing does.
    line : int
        Its line; 0 when not given.
    """

    field: NounField
    table: Path
    key: str
    typed: str
    text: str
    default: str
    line: int

    @property
    def place(self) -> Path:
        """The key in its file."""
        return (*self.table, self.key)

    @property
    def suffix(self) -> str:
        """Unit of the key; empty for a bare number or a text."""
        return unit_of(self.field, self.key)


@dataclass(frozen=True, slots=True)
class Section:
    """Fields of one table of a thing: its own, or those of a table inside it.

    Attributes
    ----------
    place : tuple
        The table.
    words : str
        What to call it; empty for the thing's own keys.
    header : str
        The line that opens it in a file.
    is_given : bool
        Whether the file has it.
    fields : tuple of Field
        Its fields, in the order of the noun.
    model : type of Noun
        What it is read as.
    """

    place: Path
    words: str
    header: str
    is_given: bool
    fields: tuple[Field, ...]
    model: type[Noun]


def things(texts: Mapping[str, str]) -> tuple[Thing, ...]:
    """Everything the TOML files of a site folder hold, and what they might.

    Parameters
    ----------
    texts : mapping
        By file; one that cannot be read as TOML is left out.

    Returns
    -------
    tuple of Thing
        In the order of `KINDS`, each list in the order of its file; of a table that is
        not given, one that says so; lists not given are left out.
    """
    found: list[Thing] = []
    laid = {name: known_spots(text) for name, text in texts.items() if is_toml(text)}
    for kind in KINDS:
        if kind.file in laid or kind.file == "options.toml":
            found += _of_kind(kind, laid.get(kind.file, {}))
    return tuple(found)


def _of_kind(kind: Kind, laid: Mapping[Path, Spot]) -> Iterator[Thing]:
    if (kind.name, 0) in laid:
        kind = replace(kind, is_list=True)  # `[[controller]]`, where there are several
    if not kind.is_list:
        place: Path = (kind.name,) if kind.name else ()
        is_given = not place or place in laid
        line = laid[place].line if place and is_given else 1 if is_given else 0
        yield Thing(kind, place, kind.words, is_given, line)
        return
    i = 0
    while (kind.name, i) in laid:
        spot = laid[kind.name, i]
        name, about = _name(kind, laid, i)
        yield Thing(kind, (kind.name, i), name, True, spot.line, about)
        i += 1


def _name(kind: Kind, laid: Mapping[Path, Spot], i: int) -> tuple[str, str]:
    def typed(key: str) -> str:
        spot = laid.get((kind.name, i, key))
        return spot.typed.strip("\"'") if spot else ""

    if typed("start"):
        return f"{typed('start')} – {typed('end')}", typed("reason")
    if typed("id"):
        return typed("id"), typed("name")
    return typed("name") or f"{kind.words} {i + 1}", ""


def sections(text: str, thing: Thing, units: System = "us") -> tuple[Section, ...]:
    """Tables and fields of a thing, as its file has them.

    Parameters
    ----------
    text : str
        Valid TOML of its file.
    thing : Thing
        The thing.
    units : {'us', 'metric'}
        Unit system of keys that are not given yet.

    Returns
    -------
    tuple of Section
        Its own keys first; then the tables that stand in it or might.
    """
    if not thing.is_given:
        header = f"[{thing.kind.name}]"
        fields = tuple(_fields("", thing.place, thing.kind.model, units, ()))
        return (Section(thing.place, "", header, False, fields, thing.kind.model),)
    skip = _APART if not thing.place else ()
    return tuple(_sections(text, thing.place, thing.kind.model, units, skip))


def _sections(
    text: str,
    table: Path,
    model: type[Noun],
    units: System,
    skip: Sequence[str] = (),
) -> Iterator[Section]:
    names = [part for part in table if isinstance(part, str)]
    is_item = bool(table) and isinstance(table[-1], int)
    title = ".".join(names)
    header = f"[[{title}]]" if is_item else f"[{title}]"
    fields = tuple(_fields(text, table, model, units, skip))
    is_given = not table or _is_given(text, table)
    yield Section(table, _words(table), header, is_given, fields, model)
    for one in fields_of(model).values():
        if one.noun is not None and one.name not in skip:
            yield from _inside(text, (*table, one.name), one, units)


def _is_given(text: str, table: Path) -> bool:
    # dotted keys, `plant.kc = 0.8`, make a table without a header
    return table in known_spots(text) or table in pairs_of(text)


def _words(table: Path) -> str:
    """What stands behind the thing's own table: `plant stages`, `items 2`."""
    top = 2 if len(table) > 1 and isinstance(table[1], int) else 0
    inner = table[top:] if top or (table and table[0] == "place") else table[1:]
    return " ".join(
        str(one + 1) if isinstance(one, int) else one.replace("_", " ") for one in inner
    )


def _inside(text: str, place: Path, one: NounField, units: System) -> Iterator[Section]:
    assert one.noun is not None, "asked only of tables"
    if not one.is_list:
        if _is_given(text, place):
            yield from _sections(text, place, one.noun, units)
        else:
            yield _not_given(place, one, "[{}]", units)
        return
    i = 0
    while (*place, i) in known_spots(text):
        yield from _sections(text, (*place, i), one.noun, units)
        i += 1
    yield _not_given((*place, i), one, "[[{}]]", units)


def _not_given(place: Path, one: NounField, header: str, units: System) -> Section:
    assert one.noun is not None, "asked only of tables"
    names = ".".join(part for part in place if isinstance(part, str))
    fields = tuple(_fields("", place, one.noun, units, ()))
    return Section(place, _words(place), header.format(names), False, fields, one.noun)


def _fields(
    text: str,
    table: Path,
    model: type[Noun],
    units: System,
    skip: Sequence[str],
) -> Iterator[Field]:
    pairs = pairs_of(text).get(table, {})
    given: dict[str, str] = {}
    for key in pairs:
        found = field_for(model, key)
        if found is not None:
            given.setdefault(found[0].name, key)
    for one in fields_of(model).values():
        if one.name in skip or one.noun is not None:
            continue
        key = given.get(one.name, "")
        if key:
            spot, default = pairs[key], default_text(model, one)
            shown = plain_text(one, spot.typed)
            yield Field(one, table, key, spot.typed, shown, default, spot.line)
        else:
            key = _like_its_neighbours(one, given, model) or key_for(one, units)
            yield Field(one, table, key, "", "", default_text(model, one), 0)


def _like_its_neighbours(
    one: NounField, given: Mapping[str, str], model: type[Noun]
) -> str:
    """Key in the unit that a like field of the table was typed in."""
    for name, key in given.items():
        like = fields_of(model)[name]
        if one.suffix and like.suffix == one.suffix:
            return f"{one.stem}_{unit_of(like, key)}"
    return ""


def key_for(one: NounField, units: System) -> str:
    """Key to write for a field in a unit system."""
    if not one.suffix:
        return one.name
    return (
        f"{one.stem}_{face_suffix(one.suffix, units) if units == 'us' else one.suffix}"
    )


def default_text(model: type[Noun], one: NounField) -> str:
    """What stands for a field that is not given, as the noun has it; may be empty."""
    info = model.model_fields[one.name]
    value: Any = None if info.is_required() else info.default
    if value is None or value == "" or value == ():
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, tuple):
        return " ".join(str(one) for one in value)
    return f"{value:g}" if isinstance(value, float) else str(value)


def place_of(text: str, kind: str, wanted: str) -> Path:
    r"""Place of the thing of a list that has an id, in any case.

    Parameters
    ----------
    text : str
        Valid TOML.
    kind : str
        The list, such as `zone`.
    wanted : str
        The id.

    Returns
    -------
    tuple
        Its place.

    Raises
    ------
    SaveError
        If there is none.

    Examples
    --------
    >>> place_of('[[zone]]\nid = "Z1"\n[[zone]]\nid = "Z4"\n', "zone", "z4")
    ('zone', 1)
    """
    laid = known_spots(text)
    i = 0
    while (kind, i) in laid:
        spot = laid.get((kind, i, "id")) or laid.get((kind, i, "name"))
        if spot and spot.typed.strip("\"'").casefold() == wanted.casefold():
            return (kind, i)
        i += 1
    raise SaveError(f"there is no {kind} {wanted}", "read the folder again")
