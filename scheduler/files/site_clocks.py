"""Clocks and zones as typed in; what does not fit between them, line by line, out."""

from collections.abc import Mapping
from dataclasses import dataclass

from scheduler.files.folder_reading import FolderReading, did_you_mean
from scheduler.files.site_tables import Listed, SiteToml
from scheduler.files.toml_scan import Path
from scheduler.files.toml_text import TomlText
from scheduler.site import Controller, Zone


@dataclass(frozen=True, slots=True)
class _Typed:
    """Both files, and the clock of each zone by their places in the lists."""

    reading: FolderReading
    site: TomlText
    zones: TomlText
    clock_of: Mapping[int, int]


def check_clocks(reading: FolderReading, top: SiteToml, zones: Listed[Zone]) -> None:
    """Say what does not fit between the clocks of site.toml and the zones.

    A clock that is not there, zones that name none of several, a station given twice
    or beyond those of its clock, and more zones than stations.

    Parameters
    ----------
    reading : FolderReading
        It gathers what is wrong.
    top : SiteToml
        With the clocks that could be read.
    zones : Listed of Zone
        The zones that could be read.
    """
    if top.toml is None or zones.toml is None:
        return
    tables = top.toml.data.get("controller")
    is_lost = len(top.controllers) < (len(tables) if isinstance(tables, list) else 0)
    clock_of = {}
    for i, zone in zones.nouns.items():
        place = _place_of(zone, top.controllers)
        if place is not None:
            clock_of[i] = place
        elif zone.controller is not None and not is_lost:
            _say_unknown(reading, zones.toml, (i, zone), top.controllers)
        elif zone.controller is None and len(top.controllers) > 1:
            _say_none(reading, zones.toml, (i, zone), top.controllers)
    typed = _Typed(reading, top.toml, zones.toml, clock_of)
    for place, clock in top.controllers.items():
        own = {i: one for i, one in zones.nouns.items() if clock_of.get(i) == place}
        _check_twice(typed, own)
        _check_stations(typed, place, clock, own)


def _place_of(zone: Zone, clocks: Mapping[int, Controller]) -> int | None:
    if zone.controller is None:
        return next(iter(clocks)) if len(clocks) == 1 else None
    wanted = zone.controller.casefold()
    return next((i for i, one in clocks.items() if one.id.casefold() == wanted), None)


def _say_unknown(
    reading: FolderReading,
    toml: TomlText,
    one: tuple[int, Zone],
    clocks: Mapping[int, Controller],
) -> None:
    i, zone = one
    ids = [clock.id for clock in clocks.values() if clock.id]
    what = f'is "{zone.controller}", and there is no such controller'
    fix = did_you_mean(str(zone.controller), ids, "site.toml as [[controller]]")
    reading.say("stop", toml.place(("zone", i, "controller")), what, fix)


def _say_none(
    reading: FolderReading,
    toml: TomlText,
    one: tuple[int, Zone],
    clocks: Mapping[int, Controller],
) -> None:
    i, zone = one
    ids = [clock.id for clock in clocks.values()]
    what = (
        f"zone {zone.id} names no controller, and there are {len(ids)}: it is taken to "
        f"hang on {ids[0]}"
    )
    fix = f'add controller = "{ids[0]}", or one of {", ".join(ids[1:])}'
    reading.say("warning", toml.table_place(("zone", i)), what, fix)


def _check_twice(typed: _Typed, own: Mapping[int, Zone]) -> None:
    """A station of one clock opens one valve."""
    first: dict[int, int] = {}
    for i, zone in own.items():
        if zone.station is None:
            continue
        j = first.setdefault(zone.station, i)
        if j != i:
            path: Path = ("zone", i, "station")
            line = typed.zones.line(("zone", j, "station"))
            what = (
                f"is {zone.station}, and so is that of zone {own[j].id} on line {line} "
                "of the same clock"
            )
            fix = "look at the terminals: a station opens one zone"
            typed.reading.say("stop", typed.zones.place(path), what, fix)


def _check_stations(
    typed: _Typed, place: int, clock: Controller, own: Mapping[int, Zone]
) -> None:
    """No station beyond those of the clock, and a station for each zone."""
    most = clock.stations
    if most is None:
        return
    for i, zone in own.items():
        if zone.station is not None and zone.station > most:
            what = f"is {zone.station}, and the clock has {most} stations"
            fix = "correct it, or correct stations in site.toml"
            path: Path = ("zone", i, "station")
            typed.reading.say("stop", typed.zones.place(path), what, fix)
    many = sum(one.watered != "off" for one in own.values())
    if many > most:
        is_list = isinstance(typed.site.data.get("controller"), list)
        where: Path = ("controller", place) if is_list else ("controller",)
        what = f"is {most}, and {many} zones are to be watered by this clock"
        fix = "put the others on another [[controller]], or correct stations"
        spot = typed.site.place((*where, "stations"))
        typed.reading.say("warning", spot, what, fix)
