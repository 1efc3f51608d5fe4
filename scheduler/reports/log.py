"""Facts of the log in; JSON out."""

import dataclasses
import datetime as dt
from collections.abc import Iterable
from typing import Any

from scheduler.log import Entry

Json = dict[str, Any]
FORMAT = 1


def entry_json(entry: Entry) -> Json:
    """One fact by its fields, with its kind; times as text.

    Examples
    --------
    >>> from scheduler.log import DrySpot
    >>> spot = DrySpot(where="log.csv:3", typed="", date=dt.date(2026, 6, 3),
    ...                zone="Z4", place="N corner")
    >>> entry_json(spot)["date"], entry_json(spot)["place"]
    ('2026-06-03', 'N corner')
    """
    values = {
        one.name: getattr(entry, one.name)
        for one in dataclasses.fields(entry)
        if one.name not in ("where", "typed")
    }
    return {
        "fact": type(entry).__name__,
        **{
            name: value.isoformat() if isinstance(value, dt.date | dt.time) else value
            for name, value in values.items()
        },
    }


def recorded_json(entries: Iterable[Entry], lines: Iterable[str]) -> Json:
    """What was written to the log."""
    facts = [entry_json(one) for one in entries]
    return {"format": FORMAT, "file": "log.csv", "written": facts, "lines": list(lines)}


def taken_back_json(lines: Iterable[str]) -> Json:
    """What was taken out of the log."""
    return {"format": FORMAT, "file": "log.csv", "taken_back": list(lines)}
