"""The folder of issued weeks in; the weeks as they were told to the clock, out."""

import datetime as dt
import json
from typing import Any

from scheduler.files.folder_reading import FolderReading
from scheduler.record import IssuedRun, IssuedWeek, IssuedZone
from scheduler.site import FORMAT

_FIX = "restore the file from a copy, or move it out of weeks/"


def read_issued(reading: FolderReading) -> tuple[IssuedWeek, ...]:
    """Read the issued weeks of a site folder.

    Parameters
    ----------
    reading : FolderReading
        The site folder; it gathers what is wrong.

    Returns
    -------
    tuple of IssuedWeek
        By start, then by name; a zone that was not watered is left out.
    """
    weeks: list[IssuedWeek] = []
    try:
        names = sorted(one.name for one in (reading.folder / "weeks").glob("*.json"))
    except OSError:
        names = []
    for name in names:
        file = reading.file(f"weeks/{name}") if name[0] not in "._" else None
        if file is None:
            continue
        try:
            weeks.append(_week(name.removesuffix(".json"), json.loads(file.text)))
        except (
            ValueError,
            KeyError,
            TypeError,
            AttributeError,
            OverflowError,
            RecursionError,
        ) as odd:
            what = f"cannot be read as an issued week ({_why(odd)})"
            reading.say("stop", file.where, what, _FIX)
    return tuple(sorted(weeks, key=lambda one: (one.start, one.name)))


def _week(name: str, data: dict[str, Any]) -> IssuedWeek:
    if data.get("format") != FORMAT:
        raise ValueError(f"its format is {data.get('format')}, not {FORMAT}")
    zones = tuple(
        IssuedZone(
            zone=str(one["zone"]),
            minutes_per_day=float(one["minutes_per_day"]),
            cycles=int(one.get("cycles") or 1),
            days=tuple(dt.date.fromisoformat(day) for day in one["days"]),
        )
        for one in data["zones"]
        if one.get("minutes_per_day") is not None
    )
    runs = tuple(
        IssuedRun(
            zone=str(one["zone"]),
            start=dt.datetime.fromisoformat(one["start"]).replace(tzinfo=None),
            end=dt.datetime.fromisoformat(one["end"]).replace(tzinfo=None),
        )
        for one in data.get("timetable", ())
    )
    return IssuedWeek(name, dt.date.fromisoformat(data["start"]), zones, runs)


def _why(odd: Exception) -> str:
    if isinstance(odd, json.JSONDecodeError):
        return f"line {odd.lineno}: {odd.msg}"
    if isinstance(odd, KeyError):
        return f"{odd.args[0]} is missing"
    return str(odd)
