"""A folder's texts in which a zone got another id in; every mention following it out.

What names the zone in the site's own files is written anew. Tests, log and issued weeks
are records and stay as they are: the zone keeps its old id as one it had before, by
which they are read.
"""

import tomllib
from collections.abc import Iterator
from typing import Any

from scheduler.files.folder_edits import FolderEdits
from scheduler.files.toml_edit import with_value, without_key
from scheduler.files.toml_says import checked, inside, quoted
from scheduler.files.toml_scan import Path, is_toml, known_spots

KEY = "formerly"
# lists of ids of zones: file, list of tables, key
MENTIONS = (
    ("site.toml", "blocked", "zones"),
    ("zones.toml", "zone", "not_with"),
    ("options.toml", "option", "zones"),
)


def with_id_followed(edits: FolderEdits, place: Path, was: str) -> FolderEdits:
    """The edits in which everything that named a zone by its old id goes with it.

    Parameters
    ----------
    edits : FolderEdits
        With the new id in zones.toml.
    place : tuple
        The zone there.
    was : str
        Its old id. Where another zone has it as well, nobody can tell which of the two
        was meant, and nothing follows.

    Returns
    -------
    FolderEdits
        With the new id wherever the old one stood, in site.toml, zones.toml and
        options.toml as far as they can be read, and the old one noted in the zone.

    Raises
    ------
    SaveError
        If the layout of a file does not let it be changed.
    """
    zones = _zones(edits.now["zones.toml"])
    now = str(zones[int(place[1])].get("id", ""))
    if not was or not now or was == now or _is_there(zones, was, int(place[1])):
        return edits
    for file, table, key in MENTIONS:
        text = edits.now.get(file, "")
        if not is_toml(text):
            continue  # its lines are corrected first
        for item in _items(text, table, key, was):
            text = _with_item(text, item, now)
        if text:
            edits = edits.with_text(file, text)
    return edits.with_text("zones.toml", _with_former(edits, place, was, now))


def former_ids(text: str) -> set[str]:
    r"""Ids that zones had before, in small letters.

    Examples
    --------
    >>> former_ids('[[zone]]\nid = "X4"\nformerly = ["Z4"]\n')
    {'z4'}
    """
    return {name.casefold() for one in _zones(text) for name in _former(one)}


def _is_there(zones: list[dict[str, Any]], zone_id: str, but: int) -> bool:
    ids = [str(one.get("id", "")).casefold() for one in zones]
    return zone_id.casefold() in ids[:but] + ids[but + 1 :]


def _items(text: str, table: str, key: str, zone_id: str) -> Iterator[Path]:
    """Places of an id in the lists of that key."""
    for path, spot in known_spots(text).items():
        if len(path) == 4 and (path[0], path[2]) == (table, key):
            value = tomllib.loads(f"v = {spot.typed}")["v"]
            if isinstance(value, str) and value.casefold() == zone_id.casefold():
                yield path


def _with_item(text: str, place: Path, zone_id: str) -> str:
    """The text with one item of a list set; the rest of it stays as it stands."""
    begin, end = known_spots(text)[place].span

    def change(data: Any) -> None:
        inside(data, place[:-1])[place[-1]] = zone_id

    return checked(text, text[:begin] + quoted(zone_id) + text[end:], change)


def _with_former(edits: FolderEdits, place: Path, was: str, now: str) -> str:
    """zones.toml with the old id noted, if anything on disk can go by it."""
    text, disk = edits.now["zones.toml"], edits.disk["zones.toml"].text
    zones = _zones(text)
    others = zones[: int(place[1])] + zones[int(place[1]) + 1 :]
    is_claimed = any(was.casefold() in map(str.casefold, _former(o)) for o in others)
    there = _former(zones[int(place[1])])
    # one that is there was noted or typed: records may go by it, whatever is on disk
    more = (was,) if _may_be_named(was, disk, is_claimed=is_claimed) else ()
    kept = [one for one in dict.fromkeys((*there, *more)) if one != now]
    at = (*place, KEY)
    if kept == there:
        return text
    if not kept:
        return without_key(text, at)
    return with_value(text, at, f"[{', '.join(map(quoted, kept))}]")


def _may_be_named(zone_id: str, disk: str, *, is_claimed: bool) -> bool:
    """Whether records of a zone can go by an id: it is or was one of the file on disk.

    Where another zone had it before, they are that zone's; of an id that was given to
    both on disk nobody can tell.
    """
    if not is_toml(disk):
        return not is_claimed
    name, former = zone_id.casefold(), former_ids(disk)
    ids = {str(one.get("id", "")).casefold() for one in _zones(disk)}
    if is_claimed:
        return name in ids & former
    return name in ids | former


def _zones(text: str) -> list[dict[str, Any]]:
    zones = tomllib.loads(text).get("zone", []) if text else []
    return [one if isinstance(one, dict) else {} for one in zones]


def _former(zone: dict[str, Any]) -> list[str]:
    names = zone.get(KEY, [])
    return [str(one) for one in names] if isinstance(names, list) else []
