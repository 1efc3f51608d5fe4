"""zones.toml in; the zone of today that was called so before, by each such id, out.

Tests, lines of the log and issued weeks say what a zone was called then, and are not
written anew when it gets another id: what they name is looked up here.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import TypeVar

from scheduler.files.folder_reading import FolderReading
from scheduler.files.toml_text import TomlText
from scheduler.issued import IssuedWeek
from scheduler.log import Entry, FrostNight, MeterReading

E = TypeVar("E", bound=Entry)


def read_former_ids(reading: FolderReading, toml: TomlText) -> None:
    """Note the ids that zones had before; say which of them cannot be followed.

    Parameters
    ----------
    reading : FolderReading
        The site folder; it gathers what is wrong, and gets `former` and
        `disputed`.
    toml : TomlText
        Its zones.toml.
    """
    own = {zone_id.casefold(): zone_id for _, zone_id, _ in _zones(toml)}
    found: dict[str, str] = {}
    lost: set[str] = set()
    for i, zone_id, names in _zones(toml):
        place = toml.place(("zone", i, "formerly"))
        for name in names:
            key = name.casefold()
            if key in own and key != zone_id.casefold():
                what = f'names "{name}", which is the id of another zone now'
                fix = (
                    f'take "{name}" out, or give that zone another id: tests, log and '
                    f'issued weeks of "{name}" count as those of {own[key]}'
                )
                reading.say("warning", place, what, fix)
            elif found.setdefault(key, zone_id) != zone_id:
                lost.add(key)
                what = f'names "{name}", as zone {found[key]} does; neither is followed'
                reading.say("warning", place, what, "leave it with one of the two")
    reading.former = {key: one for key, one in found.items() if key not in lost}
    reading.disputed = frozenset(lost)


def _zones(toml: TomlText) -> Iterator[tuple[int, str, list[str]]]:
    """Place in the list, id, and ids of before of each zone that has an id."""
    tables = toml.data.get("zone", [])
    for i, table in enumerate(tables if isinstance(tables, list) else ()):
        zone_id = table.get("id") if isinstance(table, dict) else None
        if isinstance(zone_id, str):
            names = table.get("formerly", [])
            names = names if isinstance(names, list) else []
            yield i, zone_id, [one for one in names if isinstance(one, str)]


def id_of_today(name: str, former: Mapping[str, str]) -> str:
    """Id of today of a zone that is named in a record; the name if it has that still.

    Examples
    --------
    >>> id_of_today("z4", {"z4": "X4"}), id_of_today("Z5", {"z4": "X4"})
    ('X4', 'Z5')
    """
    return former.get(name.casefold(), name)


def if_renamed(name: str, disputed: Collection[str] = ()) -> str:
    """End of a remedy for a zone that is not there: it may have another id now.

    Examples
    --------
    >>> if_renamed("Z4")
    '; of a zone that got another id, write formerly = ["Z4"] in its [[zone]]'
    >>> if_renamed("Z4", {"z4"})
    '; formerly names it in two zones of zones.toml: leave it with one of them'
    """
    if name.casefold() in disputed:
        return (
            "; formerly names it in two zones of zones.toml: leave it with one of them"
        )
    return (
        f'; of a zone that got another id, write formerly = ["{name}"] in its [[zone]]'
    )


def facts_of_today(facts: Iterable[Entry], former: Mapping[str, str]) -> list[Entry]:
    """Facts of the log, each of the zone as it is called today."""
    return [_fact(one, former) if former else one for one in facts]


def _fact(one: E, former: Mapping[str, str]) -> E:
    if isinstance(one, MeterReading | FrostNight):
        one = replace(one, zones=tuple(id_of_today(name, former) for name in one.zones))
    return replace(one, zone=id_of_today(one.zone, former))


def week_of_today(week: IssuedWeek, former: Mapping[str, str]) -> IssuedWeek:
    """An issued week, each zone as it is called today."""
    if not former:
        return week
    return replace(
        week,
        zones=tuple(
            replace(one, zone=id_of_today(one.zone, former)) for one in week.zones
        ),
        runs=tuple(
            replace(one, zone=id_of_today(one.zone, former)) for one in week.runs
        ),
        left=tuple((id_of_today(name, former), status) for name, status in week.left),
    )
