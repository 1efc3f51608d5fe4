"""site.toml, zones.toml, packages.toml and options.toml in; the nouns out."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any, Generic, TypeVar
from zoneinfo import ZoneInfo

from pydantic import create_model

from scheduler.files.folder_reading import FolderReading, did_you_mean
from scheduler.files.former_ids import read_former_ids
from scheduler.files.site_hours import check_hours
from scheduler.files.toml_text import TomlText, broken_key
from scheduler.site import (
    BlockedHours,
    Controller,
    Noun,
    Option,
    Package,
    Place,
    Shortage,
    Site,
    Station,
    Supply,
    Tariff,
    WindFile,
    Window,
    Zone,
)
from scheduler.units import System

N = TypeVar("N", bound=Noun)
_TABLES: dict[str, type[Noun]] = {
    "supply": Supply,
    "tariff": Tariff,
    "shortage": Shortage,
}
_LISTS = ("station", "wind_log", "window", "blocked", "controller")
_ELSEWHERE = (
    "zones",
    "packages",
    "options",
    "stations",
    "wind_logs",
    "windows",
    "blocked_hours",
    "controller",
    "more_controllers",
    *_TABLES,
)
# The keys at the top of site.toml and its [place]: without them there is no site. The
# other tables stand for themselves, so that one slip in a tariff hides no zone.
Head: type[Noun] = create_model(
    "Head",
    __base__=Noun,
    **{
        name: (info.annotation, info)
        for name, info in Site.model_fields.items()
        if name not in _ELSEWHERE
    },  # type: ignore[call-overload]
)


@dataclass(frozen=True, slots=True)
class Listed(Generic[N]):
    """A list of tables with ids.

    Attributes
    ----------
    nouns : dict
        Those that could be read, by their place in the list.
    ids : tuple of str or None
        All ids typed, those of tables refused too; None when an id may be lost.
    toml : TomlText or None
        The file.
    """

    nouns: dict[int, N]
    ids: tuple[str, ...] | None
    toml: TomlText | None


@dataclass(frozen=True, slots=True)
class SiteToml:
    """site.toml: the parts that could be read.

    Attributes
    ----------
    head : dict or None
        Keys at the top and the place; None when any of them is wrong.
    tables : dict
        Supply, tariff and so on, as far as given.
    controllers : dict
        Clocks by their place in the list; one `[controller]` is the first.
    stations : dict
        Stations by their place in the list.
    wind_logs : dict
        Wind loggers by their place in the list.
    windows : tuple of Window
        Hours of watering.
    blocked : tuple of BlockedHours
        Hours without.
    toml : TomlText or None
        The file.
    """

    head: dict[str, Any] | None
    tables: dict[str, Noun]
    stations: dict[int, Station]
    wind_logs: dict[int, WindFile]
    windows: tuple[Window, ...]
    blocked: tuple[BlockedHours, ...]
    toml: TomlText | None
    controllers: dict[int, Controller] = field(default_factory=dict)

    @property
    def place(self) -> Place | None:
        """Where the site is, or None when there is no head."""
        return self.head["place"] if self.head else None

    @property
    def units(self) -> System:
        """Units of the site, US where there is no head."""
        units: System = self.head["units"] if self.head else "us"
        return units

    def site(
        self,
        zones: Sequence[Zone],
        packages: Sequence[Package],
        options: Sequence[Option] = (),
    ) -> Site | None:
        """The whole site, or None when there is no head."""
        if self.head is None:
            return None
        parts: dict[str, Any] = {**self.head, **self.tables}
        clocks = [one for _, one in sorted(self.controllers.items())]
        return Site(
            **parts,
            zones=tuple(zones),
            packages=tuple(packages),
            options=tuple(options),
            stations=tuple(self.stations.values()),
            wind_logs=tuple(self.wind_logs.values()),
            controller=clocks[0] if clocks else Controller(),
            more_controllers=tuple(clocks[1:]),
            windows=self.windows,
            blocked_hours=self.blocked,
        )


def read_site_toml(reading: FolderReading) -> SiteToml:
    """Read site.toml; a table that is wrong is left out, a wrong head leaves no site.

    Parameters
    ----------
    reading : FolderReading
        The site folder; it gathers what is wrong.

    Returns
    -------
    SiteToml
        What could be read.
    """
    toml = reading.toml("site.toml")
    if toml is None:
        return SiteToml(None, {}, {}, {}, (), (), None)
    noun = reading.noun(Head, toml, (), skip=("format", *_LISTS, *_TABLES))
    head = (
        {one: getattr(noun, one) for one in type(noun).model_fields} if noun else None
    )
    if head and not _is_time_zone(head["place"].time_zone):
        keys = ("place", "time_zone")
        what = f"is {toml.typed(keys)}, which is no time zone"
        fix = 'write one such as "America/New_York" or "Europe/Berlin"'
        reading.say("stop", toml.place(keys), what, fix)
        head = None
    windows = reading.nouns(Window, toml, "window")
    blocked = reading.nouns(BlockedHours, toml, "blocked")
    check_hours(reading, toml, "window", windows)
    check_hours(reading, toml, "blocked", blocked)
    given = {
        name: reading.noun(model, toml, (name,))
        for name, model in _TABLES.items()
        if name in toml.data
    }
    return SiteToml(
        head=head,
        tables={name: one for name, one in given.items() if one is not None},
        stations=reading.nouns(Station, toml, "station"),
        wind_logs=reading.nouns(WindFile, toml, "wind_log"),
        windows=tuple(windows.values()),
        blocked=tuple(blocked.values()),
        toml=toml,
        controllers=_controllers(reading, toml),
    )


def _controllers(reading: FolderReading, toml: TomlText) -> dict[int, Controller]:
    """Clocks: one `[controller]`, or several `[[controller]]` with ids of their own."""
    given = toml.data.get("controller")
    if given is None:
        return {}
    if not isinstance(given, list):
        one = reading.noun(Controller, toml, ("controller",))
        return {} if one is None else {0: one}
    found = reading.nouns(Controller, toml, "controller")
    twice = _twice(reading, toml, "controller", _typed_ids(toml, "controller"))
    for i, one in found.items():
        if not one.id and len(given) > 1:
            place = toml.table_place(("controller", i))
            fix = 'add id = "..." to each [[controller]]: zones name their clock by it'
            reading.say("stop", place, "has no id, and there are several clocks", fix)
            twice.add(i)
    return {i: one for i, one in found.items() if i not in twice}


def _is_time_zone(name: str) -> bool:
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        # a name that is a folder of the time zone data gives an OSError
        return False
    return True


def read_zones(reading: FolderReading) -> Listed[Zone]:
    """Read zones.toml; a zone that is wrong is left out.

    Parameters
    ----------
    reading : FolderReading
        The site folder; it gathers what is wrong.

    Returns
    -------
    Listed of Zone
        The zones.
    """
    zones = _listed(reading, "zones.toml", "zone", Zone)
    if zones.toml is not None:
        if not read_former_ids(reading, zones.toml):
            zones = replace(zones, ids=None)
        _check_valves(reading, zones)
    return zones


def read_packages(reading: FolderReading) -> Listed[Package]:
    """Read packages.toml, which a site need not have.

    Parameters
    ----------
    reading : FolderReading
        The site folder; it gathers what is wrong.

    Returns
    -------
    Listed of Package
        The packages.
    """
    if not reading.has("packages.toml"):
        return Listed({}, (), None)
    return _listed(reading, "packages.toml", "package", Package)


def read_options(
    reading: FolderReading, zones: Listed[Zone], packages: Listed[Package]
) -> Listed[Option]:
    """Read options.toml, which a site need not have.

    Parameters
    ----------
    reading : FolderReading
        The site folder; it gathers what is wrong.
    zones, packages : Listed
        What the options may name.

    Returns
    -------
    Listed of Option
        The options; one that names a zone or package that is not there is left out.
    """
    if not reading.has("options.toml"):
        return Listed({}, (), None)
    options = _listed(reading, "options.toml", "option", Option)
    if options.toml is None:
        return options
    lost = {
        i
        for i, one in options.nouns.items()
        if not _is_known(reading, options.toml, i, one, zones.ids, packages.ids)
    }
    kept = {i: one for i, one in options.nouns.items() if i not in lost}
    return Listed(kept, options.ids, options.toml)


def _is_known(  # a place, and what it is held against
    reading: FolderReading,
    toml: TomlText,
    i: int,
    option: Option,
    zones: Sequence[str] | None,
    packages: Sequence[str] | None,
) -> bool:
    """Whether an option's zones and package are there; says which are not."""
    named: list[tuple[str, str, Sequence[str], str]] = []
    if zones is not None:
        known = {one.casefold() for one in zones}
        named += [("zones", one, zones, "zones.toml") for one in option.zones
                  if one.casefold() not in known]  # fmt: skip
    if packages is not None and option.package not in (None, *packages):
        named.append(("package", str(option.package), packages, "packages.toml"))
    for key, one, there, file in named:
        what = f'names "{one}", which is not there'
        fix = did_you_mean(one, there, file)
        if key == "zones" and one.casefold() in reading.former:
            fix = f'write "{reading.former[one.casefold()]}", as it is called now'
        reading.say("stop", toml.place(("option", i, key)), what, fix)
    return not named


def check_packages(
    reading: FolderReading, zones: Listed[Zone], packages: Listed[Package]
) -> None:
    """Say so when a zone names a package that is not there."""
    if packages.ids is None or zones.toml is None:
        return
    for i, zone in zones.nouns.items():
        if zone.package is not None and zone.package not in packages.ids:
            what = f'is "{zone.package}", and there is no such package'
            fix = did_you_mean(zone.package, packages.ids, "packages.toml")
            place = zones.toml.place(("zone", i, "package"))
            reading.say("stop", place, what, fix)


def _listed(reading: FolderReading, file: str, name: str, model: type[N]) -> Listed[N]:
    toml = reading.toml(file)
    if toml is None:
        return Listed({}, None, None)
    nouns = reading.nouns(model, toml, name)
    strange = [key for key in toml.data if key not in ("format", name)]
    for key in strange:
        if broken_key(key) is None:
            fix = f"write [[{name}]], or delete it"
            value = toml.typed((key,))
            shown = f"{key} = {value} is" if value else "is"
            reading.say("stop", toml.place((key,)), f"{shown} not known in {file}", fix)
    if not toml.data.get(name) and not strange:
        reading.say("stop", file, f"holds no {name}", f"write [[{name}]] and its keys")
    typed = _typed_ids(toml, name)
    tables = toml.data.get(name, [])
    # with an id lost, nobody can say that a name is not there
    is_whole = isinstance(tables, list) and len(typed) == len(tables)
    is_whole = is_whole and not any(broken_key(key) is not None for key in strange)
    twice = _twice(reading, toml, name, typed)
    kept = {i: noun for i, noun in nouns.items() if i not in twice}
    ids = tuple(typed.values()) if is_whole else None
    return Listed(kept, ids, toml)


def _typed_ids(toml: TomlText, name: str) -> dict[int, str]:
    tables = toml.data.get(name, [])
    if not isinstance(tables, list):
        return {}
    return {
        i: table["id"]
        for i, table in enumerate(tables)
        if isinstance(table, dict) and isinstance(table.get("id"), str)
    }


def _twice(
    reading: FolderReading, toml: TomlText, name: str, typed: dict[int, str]
) -> set[int]:
    """Places in a list whose id stands twice; which one is meant nobody can tell."""
    first: dict[str, int] = {}
    twice: set[int] = set()
    for i, one in typed.items():
        j = first.setdefault(one.casefold(), i)
        if j != i:
            line = toml.line((name, j, "id"))
            what = f'is "{one}", and so is the {name} on line {line}; neither is used'
            fix = f"give each {name} its own id"
            reading.say("stop", toml.place((name, i, "id")), what, fix)
            twice |= {i, j}
    return twice


def _check_valves(reading: FolderReading, zones: Listed[Zone]) -> None:
    first: dict[str, Zone] = {}
    for i, zone in zones.nouns.items():
        valve = zone.valve.strip().casefold()
        other = first.setdefault(valve, zone)
        if valve and other is not zone and zones.toml is not None:
            what = f"is {zone.valve}, the valve of zone {other.id} as well"
            fix = "correct one of them, or water the two as one zone"
            reading.say("warning", zones.toml.place(("zone", i, "valve")), what, fix)
