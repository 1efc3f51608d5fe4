"""An issued week in, the text of its file out; and back again."""

import dataclasses
import datetime as dt
import hashlib
import json
import math
from typing import Any

from scheduler.issued import (
    IssuedRun,
    IssuedWeek,
    IssuedZone,
    KeptOverride,
    KeyNumbers,
)
from scheduler.site import FORMAT

Json = dict[str, Any]
SEAL = "seal"


def sealed_text(data: Json) -> str:
    """Text of a file, with a fingerprint of everything else in it at the end.

    Parameters
    ----------
    data : dict
        What the file holds.

    Returns
    -------
    str
        JSON, one key a line at the top.
    """
    whole = _finite({**data, SEAL: ""})
    whole[SEAL] = seal_of(whole)
    return json.dumps(whole, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def seal_of(data: Json) -> str:
    """Fingerprint of what a file says, whatever its spaces and the order of its keys.

    Parameters
    ----------
    data : dict
        As read.

    Returns
    -------
    str
        SHA-256 of all keys but the seal.
    """
    rest = {key: value for key, value in data.items() if key != SEAL}
    text = json.dumps(rest, ensure_ascii=True, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def issued_week_of(name: str, data: Json) -> IssuedWeek:
    """An issued week from what its file says.

    Parameters
    ----------
    name : str
        Of the file, without its ending.
    data : dict
        As read from JSON.

    Returns
    -------
    IssuedWeek
        Zones without minutes are in `left`.

    Raises
    ------
    ValueError, KeyError, TypeError, AttributeError, OverflowError
        If something is missing or no such value.
    """
    if data.get("format") != FORMAT:
        raise ValueError(f"its format is {data.get('format')}, not {FORMAT}")
    told = [one for one in data["zones"] if one.get("minutes_per_day") is not None]
    left = [one for one in data["zones"] if one.get("minutes_per_day") is None]
    return IssuedWeek(
        name=name,
        start=dt.date.fromisoformat(data["start"]),
        zones=tuple(map(_zone, told)),
        runs=tuple(map(_run, data.get("timetable", ()))),
        revision=revision_of(name),
        issued_at=str(data.get("issued_at", "")),
        forced=str(data.get("forced", "")),
        left=tuple((str(one["zone"]), str(one.get("status", ""))) for one in left),
        inputs=tuple((str(k), str(v)) for k, v in data.get("inputs", {}).items()),
    )


def revision_of(name: str) -> int:
    """Revision that a name says: `2026-W24` is the first, `2026-W24.r2` the second.

    Parameters
    ----------
    name : str
        Of the file, without its ending.

    Returns
    -------
    int
        1 where the name says none.
    """
    _, dot, digits = name.rpartition(".r")
    return int(digits) if dot and digits.isdecimal() else 1


def file_stem(week: str, revision: int) -> str:
    """Name of a week's file, without its ending.

    Parameters
    ----------
    week : str
        Such as `2026-W24`.
    revision : int
        From 1 on.

    Returns
    -------
    str
        The first revision carries no number.
    """
    return week if revision == 1 else f"{week}.r{revision}"


def _zone(one: Json) -> IssuedZone:
    numbers = one.get("numbers")
    cycle, soak = one.get("cycle_minutes"), one.get("soak_minutes")
    was, change = one.get("was_minutes"), one.get("change")
    station = one.get("station")
    minutes = float(one["minutes_per_day"])
    if not 0 <= minutes < math.inf:
        raise ValueError(f"minutes_per_day is {one['minutes_per_day']}")
    return IssuedZone(
        zone=str(one["zone"]),
        minutes_per_day=minutes,
        cycles=int(one.get("cycles") or 1),
        days=tuple(dt.date.fromisoformat(day) for day in one["days"]),
        cycle_minutes=None if cycle is None else int(cycle),
        soak_minutes=None if soak is None else int(soak),
        was_minutes=None if was is None else float(was),
        was_from=str(one.get("was_from", "")),
        change=None if change is None else float(change),
        reason=str(one.get("reason", "")),
        numbers=None if numbers is None else _numbers(numbers),
        overrides=tuple(map(_override, one.get("overrides", ()))),
        controller=str(one.get("controller", "")),
        station=None if station is None else int(station),
    )


def _numbers(data: Json) -> KeyNumbers | None:
    texts, whole = ("rule", "test"), ("nights", "minutes")
    values: Json = {}
    for field in dataclasses.fields(KeyNumbers):
        if field.name == "learned" and field.name not in data:
            continue  # of weeks before anything was learned
        value = data[field.name]
        if field.name == "factors":
            values["factors"] = tuple((str(k), float(v)) for k, v in value.items())
        elif field.name in texts:
            values[field.name] = str(value)
        elif value is None:
            return None  # a number that nobody knew
        else:
            kind = int if field.name in whole else float
            values[field.name] = kind(value)
    return KeyNumbers(**values)


def _override(one: Json) -> KeptOverride:
    date = dt.date.fromisoformat(one["date"])
    return KeptOverride(date, float(one["minutes"]), str(one["reason"]))


def _run(one: Json) -> IssuedRun:
    return IssuedRun(
        zone=str(one["zone"]),
        start=dt.datetime.fromisoformat(one["start"]).replace(tzinfo=None),
        end=dt.datetime.fromisoformat(one["end"]).replace(tzinfo=None),
    )


def _finite(value: Any) -> Any:
    """The same with None for numbers that JSON cannot hold."""
    if isinstance(value, dict):
        return {key: _finite(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_finite(one) for one in value]
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value
