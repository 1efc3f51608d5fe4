"""The TOML texts of a site folder in; its things and their fields, as typed, out."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from scheduler.errors import SaveError
from scheduler.files.noun_fields import NounField, field_for, fields_of
from scheduler.files.site_tables import Head
from scheduler.files.toml_scan import Path, Spot, spots
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
        Whether there may be several.
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
    """

    kind: Kind
    place: Path
    name: str
    is_given: bool
    line: int = 0


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
        Its fields, in the order of the noun; of a table not given, none.
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
        Valid TOML by file; a file that cannot be read is left out.

    Returns
    -------
    tuple of Thing
        In the order of `KINDS`, each list in the order of its file; of a table that is
        not given, one that says so; lists not given are left out.
    """
    found: list[Thing] = []
    laid = {file: spots(text) for file, text in texts.items()}
    for kind in KINDS:
        if kind.file in laid or kind.file == "options.toml":
            found += _of_kind(kind, laid.get(kind.file, {}))
    return tuple(found)


def _of_kind(kind: Kind, laid: Mapping[Path, Spot]) -> Iterator[Thing]:
    if not kind.is_list:
        place: Path = (kind.name,) if kind.name else ()
        is_given = not place or place in laid
        line = laid[place].line if place and is_given else 1 if is_given else 0
        yield Thing(kind, place, kind.words, is_given, line)
        return
    i = 0
    while (kind.name, i) in laid:
        spot = laid[kind.name, i]
        yield Thing(kind, (kind.name, i), _name(kind, laid, i), True, spot.line)
        i += 1


def _name(kind: Kind, laid: Mapping[Path, Spot], i: int) -> str:
    def typed(key: str) -> str:
        spot = laid.get((kind.name, i, key))
        return spot.typed.strip("\"'") if spot else ""

    if typed("start"):
        return f"{typed('start')} – {typed('end')}"
    return typed("id") or typed("name") or f"{kind.words} {i + 1}"


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
    laid = spots(text)
    if not thing.is_given:
        header = f"[{thing.kind.name}]"
        return (Section(thing.place, "", header, False, (), thing.kind.model),)
    skip = _APART if not thing.place else ()
    return tuple(_sections(laid, thing.place, thing.kind.model, units, skip))


def _sections(
    laid: Mapping[Path, Spot],
    table: Path,
    model: type[Noun],
    units: System,
    skip: Sequence[str] = (),
) -> Iterator[Section]:
    names = [part for part in table if isinstance(part, str)]
    is_item = bool(table) and isinstance(table[-1], int)
    title = ".".join(names)
    header = f"[[{title}]]" if is_item else f"[{title}]"
    fields = tuple(_fields(laid, table, model, units, skip))
    is_given = not table or table in laid
    yield Section(table, _words(table), header, is_given, fields, model)
    for one in fields_of(model).values():
        if one.noun is not None and one.name not in skip:
            yield from _inside(laid, (*table, one.name), one, units)


def _words(table: Path) -> str:
    """What stands behind the thing's own table: `plant stages`, `items 2`."""
    top = 2 if len(table) > 1 and isinstance(table[1], int) else 0
    inner = table[top:] if top or (table and table[0] == "place") else table[1:]
    return " ".join(
        str(one + 1) if isinstance(one, int) else one.replace("_", " ") for one in inner
    )


def _inside(
    laid: Mapping[Path, Spot], place: Path, one: NounField, units: System
) -> Iterator[Section]:
    assert one.noun is not None, "asked only of tables"
    if not one.is_list:
        if place in laid:
            yield from _sections(laid, place, one.noun, units)
        else:
            yield _not_given(place, one, "[{}]")
        return
    i = 0
    while (*place, i) in laid:
        yield from _sections(laid, (*place, i), one.noun, units)
        i += 1
    yield _not_given((*place, i), one, "[[{}]]")


def _not_given(place: Path, one: NounField, header: str) -> Section:
    assert one.noun is not None, "asked only of tables"
    names = ".".join(part for part in place if isinstance(part, str))
    return Section(place, _words(place), header.format(names), False, (), one.noun)


def _fields(
    laid: Mapping[Path, Spot],
    table: Path,
    model: type[Noun],
    units: System,
    skip: Sequence[str],
) -> Iterator[Field]:
    depth = len(table) + 1
    given: dict[str, str] = {}
    for path in laid:
        if len(path) == depth and path[:-1] == table and isinstance(path[-1], str):
            found = field_for(model, path[-1])
            if found is not None:
                given.setdefault(found[0].name, path[-1])
    for one in fields_of(model).values():
        if one.name in skip or one.noun is not None:
            continue
        key = given.get(one.name, "")
        if key:
            spot = laid[*table, key]
            text = plain_text(one, spot.typed)
            default = default_text(model, one)
            yield Field(one, table, key, spot.typed, text, default, spot.line)
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
    laid = spots(text)
    i = 0
    while (kind, i) in laid:
        spot = laid.get((kind, i, "id")) or laid.get((kind, i, "name"))
        if spot and spot.typed.strip("\"'").casefold() == wanted.casefold():
            return (kind, i)
        i += 1
    raise SaveError(f"there is no {kind} {wanted}", "read the folder again")
