"""The folder of issued weeks in; the weeks as they were told to the clock, out."""

import json

from scheduler.files.folder_reading import FolderReading
from scheduler.files.former_ids import week_of_today
from scheduler.files.issued_json import SEAL, issued_week_of, seal_of
from scheduler.files.text_file import TextFile
from scheduler.issued import IssuedWeek

FOLDER = "weeks"
_FIX = "restore the file from a copy, or move it out of weeks/"


def read_issued(reading: FolderReading) -> tuple[IssuedWeek, ...]:
    """Read the issued weeks of a site folder, all in one pass.

    Parameters
    ----------
    reading : FolderReading
        The site folder; it gathers what is wrong.

    Returns
    -------
    tuple of IssuedWeek
        By week, then by revision; a zone that was not watered is left out.
    """
    weeks: list[IssuedWeek] = []
    for name in week_files(reading):
        file = reading.file(f"{FOLDER}/{name}")
        if file is None:
            continue
        try:
            week = _week(reading, file, name.removesuffix(".json"))
            weeks.append(week_of_today(week, reading.former))
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
    return tuple(sorted(weeks, key=lambda one: one.order))


def week_files(reading: FolderReading) -> tuple[str, ...]:
    """Names of the files of issued weeks, also of those that cannot be read.

    Parameters
    ----------
    reading : FolderReading
        The site folder.

    Returns
    -------
    tuple of str
        In the order of their names.
    """
    try:
        found = sorted(one.name for one in (reading.folder / FOLDER).glob("*.json"))
    except OSError:
        return ()
    return tuple(name for name in found if name[0] not in "._")


def _week(reading: FolderReading, file: TextFile, name: str) -> IssuedWeek:
    data = json.loads(file.text)
    week = issued_week_of(name, data)
    if SEAL in data and data[SEAL] != seal_of(data):
        what = "was changed after it was issued: its seal does not fit what it says"
        fix = (
            "restore it from a copy; a correction is a new revision: "
            "lowquarter week SITE --issue"
        )
        reading.say("warning", file.where, what, fix)
    return week


def _why(odd: Exception) -> str:
    if isinstance(odd, json.JSONDecodeError):
        return f"line {odd.lineno}: {odd.msg}"
    if isinstance(odd, KeyError):
        return f"{odd.args[0]} is missing"
    return str(odd)
