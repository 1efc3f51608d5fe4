"""A run being typed in; a file beside the tests that keeps it against a crash, out.

The file's name begins with a dot; the reader of a site folder passes it by. While the
dashboard that types is open it holds a lock beside it; what is typed is offered back
only where nobody does, and named where somebody does.
"""

import contextlib
import datetime as dt
import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scheduler.errors import SaveError, SchedulerError
from scheduler.files.kept_file import KeptFile, is_kept
from tui.draft import Draft, Entries, Quantity, Setup

_FORMAT = 1
_UNREADABLE = (OSError, ValueError, KeyError, TypeError, IndexError, SchedulerError)


@dataclass(frozen=True, slots=True)
class Kept:
    """Unsaved entries found in a site folder.

    Attributes
    ----------
    path : Path
        The file that keeps them.
    draft : Draft
        The entries.
    is_elsewhere : bool
        Whether a dashboard that is open types them: they are its own to save.
    """

    path: Path
    draft: Draft
    is_elsewhere: bool = False

    def is_same_run(self, draft: Draft) -> bool:
        """Whether these are entries of the run of a draft."""
        mine = self.draft
        return (mine.zone, mine.test, mine.file) == (draft.zone, draft.test, draft.file)


@dataclass(slots=True)
class Journal(KeptFile):
    """The file that holds what is typed until it is saved; one thread at a time."""

    _last: Draft | None = None
    _is_closed: bool = False

    def keep(self, draft: Draft) -> None:
        """Write a draft, as a whole or not at all.

        Raises
        ------
        SaveError
            If somebody else writes that file, or the disk refuses.
        """
        with self._lock:
            if self._is_closed or draft is self._last:
                return
            self.path.parent.mkdir(exist_ok=True)
            self.keep_text(draft_text(draft))
            self._last = draft

    def close(self) -> None:
        """Remove the file: everything is saved, or is not wanted.

        One that is somebody else's by now, or that the disk holds on to, stays.
        """
        with self._lock:
            self._is_closed = True
            with contextlib.suppress(SaveError):
                self.keep_text(None)
            self.let_go()


def journal_of(folder: Path, draft: Draft) -> Journal:
    """Journal for a draft; another draft of the same run has the same.

    Where a dashboard that is open types the same run, the journal has a name of its
    own. One that a crash has left keeps its name: ask what becomes of it first.
    """
    tests = folder / "tests"
    if draft.test:
        folder, name = tests / draft.test, draft.file or "new-run"
    else:
        folder, name = tests, "new-" + re.sub(r"[^\w.-]+", "_", draft.zone)
    path, n = folder / f".{name}.typing.json", 2
    while is_kept(path):
        path, n = folder / f".{name}-{n}.typing.json", n + 1
    return Journal(path)


def kept_drafts(folder: Path, *zone_ids: str) -> tuple[Kept, ...]:
    """Unsaved entries of a zone by each of its ids, or of all zones.

    What cannot be read is passed by.
    """
    wanted = {one.casefold() for one in zone_ids}
    tests = folder / "tests"
    try:
        paths = [*tests.glob(".*.typing.json"), *tests.glob("*/.*.typing.json")]
    except OSError:
        return ()
    found = []
    for path in sorted(paths):
        try:
            draft = read_draft(path.read_text("utf-8"))
        except _UNREADABLE:
            continue
        if not wanted or draft.zone.casefold() in wanted:
            found.append(Kept(path, draft, is_kept(path)))
    return tuple(found)


def resumed(kept: Kept) -> tuple[Draft, Journal]:
    """Unsaved entries as they were left, and their journal to go on with.

    Fingerprints are those of when typing began, so that what changed on disk since
    then is still refused.

    Raises
    ------
    SaveError
        If another dashboard has them by now, or has saved or dropped them.
    """
    from scheduler.files.text_file import digest_of

    journal = Journal(kept.path)
    journal.take()
    try:
        data = kept.path.read_bytes()
        draft = read_draft(data.decode("utf-8"))
    except _UNREADABLE as problem:
        journal.let_go()
        what = "was saved or dropped by another dashboard"
        raise SaveError(what, "look at the tests again", str(kept.path)) from problem
    journal.digest = digest_of(data)
    return draft, journal


def unsaved_words(kept: Iterable[Kept]) -> str:
    """What to say on opening a folder with unsaved entries; empty without any."""
    kept = tuple(kept)
    left = sorted({one.draft.zone for one in kept if not one.is_elsewhere})
    open_ = sorted({one.draft.zone for one in kept if one.is_elsewhere})
    lines = []
    if left:
        zones = ", ".join(left)
        lines.append(f"Readings of {zones} were typed and never saved: press t there.")
    if open_:
        zones = ", ".join(open_)
        said = f"Another dashboard is typing readings of {zones}"
        lines.append(f"{said}; they are its own to save.")
    return "\n".join(lines)


# --- drafts as text ----------------------------------------------------------


def draft_text(draft: Draft) -> str:
    """Draft as JSON, without what undo would need."""
    return json.dumps(
        {
            "format": _FORMAT,
            "zone": draft.zone,
            "test": draft.test,
            "file": draft.file,
            "digests": dict(draft.digests),
            "at": draft.at,
            "is_snake": draft.is_snake,
            "now": _entries(draft.now),
            "saved": _entries(draft.saved) if draft.saved else None,
        },
        ensure_ascii=False,
        indent=1,
    )


def _entries(one: Entries) -> dict[str, Any]:
    setup = one.setup
    return {
        "date": str(setup.date),
        "condition": setup.condition,
        "unit": setup.unit,
        "labels": setup.labels,
        "mouth": setup.mouth,
        "minutes": setup.minutes,
        "start": setup.start.isoformat() if setup.start else None,
        "wind": setup.wind,
        "capacity": setup.capacity,
        "package": setup.package,
        "note": setup.note,
        "cells": one.cells,
        "excluded": one.excluded,
    }


def read_draft(text: str) -> Draft:
    """Draft from its JSON.

    Raises
    ------
    ValueError, KeyError, TypeError, IndexError
        If it is not one.
    """
    data = json.loads(text)
    if data["format"] != _FORMAT:
        raise ValueError(data["format"])
    now = _read_entries(data["now"])
    row, column = data["at"]
    draft = Draft(
        zone=data["zone"],
        now=now,
        is_snake=bool(data["is_snake"]),
        test=data["test"],
        file=data["file"],
        digests=tuple(sorted(data["digests"].items())),
        saved=_read_entries(data["saved"]) if data["saved"] else None,
    )
    return draft.placed(row, column)


def _read_entries(data: Mapping[str, Any]) -> Entries:
    start = data["start"]
    labels = tuple(map(tuple, data["labels"]))
    setup = Setup(
        date=dt.date.fromisoformat(data["date"]),
        condition=data["condition"],
        unit=data["unit"],
        labels=labels,
        mouth=_read_quantity(data["mouth"]),
        minutes=data["minutes"],
        start=dt.datetime.fromisoformat(start) if start else None,
        wind=_read_quantity(data["wind"]),
        capacity=_read_quantity(data["capacity"]),
        package=data["package"],
        note=data["note"],
    )
    cells = tuple(map(tuple, data["cells"]))
    if [len(one) for one in cells] != [len(one) for one in labels] or not cells[0]:
        raise ValueError("cells and cans differ")
    excluded = tuple((int(i), int(j), str(why)) for i, j, why in data["excluded"])
    return Entries(setup, cells, excluded)


def _read_quantity(data: Any) -> Quantity | None:
    return None if data is None else (float(data[0]), str(data[1]))
