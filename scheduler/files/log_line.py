"""The cells of one line of the log in; one fact, or what is wrong with it, out."""

import datetime as dt
import difflib
import re
from collections.abc import Mapping
from typing import Any

from scheduler.errors import Finding
from scheduler.files.log_details import parsed_details
from scheduler.files.log_kinds import KINDS, Kind
from scheduler.files.weather_dates import day_of, order_finding
from scheduler.log import Entry, LeachingPot

_TIME = re.compile(r"(\d{1,2}):(\d{2})(?::\d{2})?$")
_SAID = {
    "zone": ("has no zone", "enter the id of the zone"),
    "item": ("has no item", "name the pot, the place or the meter"),
    "note": ("has no note", "say in the note what or why"),
}


def fact_of(
    cells: Mapping[str, str], where: str, typed: str
) -> tuple[Entry | None, tuple[Finding, ...]]:
    """Read one line of the log.

    Parameters
    ----------
    cells : mapping of str
        Stripped cells by column; a column that is not there is empty.
    where : str
        Place of the line, such as `log.csv:12`.
    typed : str
        The line as it stands in the file.

    Returns
    -------
    fact : Entry or None
        None when anything in it cannot be read: half a fact would mislead.
    findings : tuple of Finding
        A stop for each thing that is wrong, all of them.

    Examples
    --------
    >>> cells = {"date": "2026-06-03", "what": "watering", "zone": "Z4",
    ...          "details": "ran 24 min"}
    >>> fact_of(cells, "log.csv:3", "")[0].minutes
    24.0
    """
    said: list[Finding] = []
    date = _date(cells.get("date", ""), where, said)
    time = _time(cells.get("time", ""), where, said)
    kind = _kind(cells.get("what", ""), where, said)
    if kind is None:
        return None, tuple(said)
    values, wrong = parsed_details(cells.get("details", ""), kind, where)
    said += _without(cells, kind, where)
    said += wrong
    # a part that was not understood may be the one that is missing
    said += () if wrong else _missing(cells, values, kind, where)
    said += () if wrong else _untrue_pot(values, kind, where)
    if said or date is None:
        return None, tuple(said)
    return _fact(
        cells,
        kind,
        {"where": where, "typed": typed, "date": date, "time": time, **values},
    ), ()


def _date(cell: str, where: str, said: list[Finding]) -> dt.date | None:
    day = day_of(cell, "year-month-day")
    if day is None:
        what, fix = order_finding(cell, "year-month-day")
        if "date_order" in fix:
            fix = "write it year first, like 2026-05-12"
        said.append(Finding("stop", f"{where}: date", what, fix))
    return day


def _time(cell: str, where: str, said: list[Finding]) -> dt.time | None:
    if not cell:
        return None
    found = _TIME.match(cell)
    try:
        if found:
            return dt.time(int(found[1]), int(found[2]))
    except ValueError:
        pass
    what = f"{cell!r} is no time of day"
    fix = "write it like 06:40, by the 24-hour clock, or leave it empty"
    said.append(Finding("stop", f"{where}: time", what, fix))
    return None


def _kind(cell: str, where: str, said: list[Finding]) -> Kind | None:
    plain = " ".join(cell.casefold().split())
    if plain in KINDS:
        return KINDS[plain]
    near = difflib.get_close_matches(plain, KINDS, n=1)
    fix = f"did you mean {near[0]}?" if near else f"write one of {', '.join(KINDS)}"
    what = f"{cell!r} is no kind of line" if cell else "the line does not say what"
    said.append(Finding("stop", f"{where}: what", what, fix))
    return None


def _without(cells: Mapping[str, str], kind: Kind, where: str) -> list[Finding]:
    """Cells that are empty and must not be, or the other way round."""
    found = [
        Finding("stop", f"{where}: {name}", *_SAID[name])
        for name in kind.needs
        if name in _SAID and not cells.get(name, "")
    ]
    zone, item = cells.get("zone", ""), cells.get("item", "")
    if not kind.has_zones and len(zones_in(zone)) > 1:
        what = f"{zone!r} names several zones"
        found.append(Finding("stop", f"{where}: zone", what, "write a line for each"))
    if kind.item == "" and item:
        what = f"{item!r} has no meaning here"
        fix = "leave the item empty; words belong in the note"
        found.append(Finding("stop", f"{where}: item", what, fix))
    return found


def _missing(
    cells: Mapping[str, str], values: Mapping[str, Any], kind: Kind, where: str
) -> list[Finding]:
    """Parts that are not there, and choices of which none is there."""
    found = []
    for name in kind.needs:
        part = kind.part(name)
        if part is not None and part.field not in values:
            what, fix = f"does not say {name!r}", f"write {name} {part.example}"
            found.append(Finding("stop", f"{where}: details", what, fix))
    wanted = kind.one_of
    if wanted and not any(_is_given(one, cells, values, kind) for one in wanted):
        names = " or ".join(
            f"{one} {part.example}" if (part := kind.part(one)) else f"a {one}"
            for one in wanted
        )
        place = f"{where}: {wanted[0] if wanted[0] in _SAID else 'details'}"
        what = f"says neither {' nor '.join(wanted)}"
        found.append(Finding("stop", place, what, f"write {names}"))
    return found


def _is_given(
    name: str, cells: Mapping[str, str], values: Mapping[str, Any], kind: Kind
) -> bool:
    part = kind.part(name)
    return bool(cells.get(name, "")) if part is None else part.field in values


def _untrue_pot(values: dict[str, Any], kind: Kind, where: str) -> list[Finding]:
    return _pot_findings(values, where) if kind.fact is LeachingPot else []


def _pot_findings(values: dict[str, Any], where: str) -> list[Finding]:
    """Volumes, weights with what drained, or the part alone: one of the three."""
    place = f"{where}: details"
    given = {one for one in values if one != "minutes"}
    ways = ({"in_ml", "out_ml"}, {"before_g", "after_g", "out_ml"}, {"stated_fraction"})
    if given not in ways:
        what = "is not one whole way to tell what a pot leached"
        fix = (
            "write in and out; or before, after and out; or leached, such as "
            "in 420 mL; out 160 mL"
        )
        return [Finding("stop", place, what, fix)]
    if "before_g" in given:
        # 1 g of water is 1 mL; what drained came in as well
        kept = values["after_g"] - values["before_g"]
        values["in_ml"] = kept + values["out_ml"]
        if kept < 0 or values["in_ml"] <= 0:
            what = f"the pot lost {-kept:g} g while it was watered"
            fix = "check before and after: were they swapped?"
            return [Finding("stop", place, what, fix)]
    if given != {"stated_fraction"} and values["out_ml"] > values["in_ml"]:
        what = f"{values['out_ml']:g} mL drained of {values['in_ml']:g} mL"
        fix = "check in and out: were they swapped, or is one in another unit?"
        return [Finding("stop", place, what, fix)]
    return []


def zones_in(cell: str) -> tuple[str, ...]:
    """Ids in a cell of zones, between semicolons or commas; an id may hold spaces.

    Examples
    --------
    >>> zones_in("Z1; North field")
    ('Z1', 'North field')
    """
    parts = (one.strip() for one in re.split("[;,]", cell))
    return tuple(one for one in parts if one)


def _fact(cells: Mapping[str, str], kind: Kind, values: dict[str, Any]) -> Entry:
    zone, note = cells.get("zone", ""), cells.get("note", "")
    values["note"] = note
    if kind.has_zones:
        values["zones"] = zones_in(zone)
        zone = values["zones"][0] if len(values["zones"]) == 1 else ""
    values["zone"] = zone
    if kind.item:
        values[kind.item] = cells.get("item", "")
    if kind.note:
        values[kind.note] = note
    return kind.fact(**values, **kind.fixed)
