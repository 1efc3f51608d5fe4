"""zones.toml in; the zone of today that was called so before, by each such id, out.

Tests, lines of the log and issued weeks say what a zone was called then, and are not
written anew when it gets another id: what they name is looked up here.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any, TypeVar

from scheduler.files.folder_reading import FolderReading
from scheduler.files.toml_text import TomlText, broken_key
from scheduler.issued import IssuedWeek
from scheduler.log import Entry, FrostNight, MeterReading

E = TypeVar("E", bound=Entry)


def read_former_ids(reading: FolderReading, toml: TomlText) -> bool:
    """Note the ids that zones had before; say which of them cannot be followed.

    Parameters
    ----------
    reading : FolderReading
        The site folder; it gathers what is wrong, and gets `former` and
        `disputed`.
    toml : TomlText
        Its zones.toml.

    Returns
    -------
    bool
        Whether all of them could be read; else nobody can say of a name in a record
        that there is no such zone.
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
    return all(_is_read(one) for one in _tables(toml))


def _is_read(table: dict[str, Any]) -> bool:
    """Whether the ids of before of a zone can be read, if it has any."""
    names = table.get("formerly", [])
    is_list = isinstance(names, list) and all(isinstance(one, str) for one in names)
    return is_list and not any(broken_key(key) == "formerly" for key in table)


def _zones(toml: TomlText) -> Iterator[tuple[int, str, list[str]]]:
    """Place in the list, id, and ids of before of each zone that has an id."""
    for i, table in enumerate(_tables(toml)):
        zone_id, names = table.get("id"), table.get("formerly", [])
        if isinstance(zone_id, str):
            names = names if isinstance(names, list) else []
            yield i, zone_id, [one for one in names if isinstance(one, str)]


def _tables(toml: TomlText) -> list[dict[str, Any]]:
    tables = toml.data.get("zone", [])
    found = tables if isinstance(tables, list) else []
    return [one if isinstance(one, dict) else {} for one in found]


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
