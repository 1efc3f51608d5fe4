"""Drafts of runs in and out of a site folder: opened, kept against a crash, saved.

What is typed is kept beside the tests in a small file whose name begins with a dot
until it is saved; the reader of a site folder passes it by.
"""

import datetime as dt
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any

from scheduler.errors import SaveError, SchedulerError
from tui.draft import Draft, Entries, Quantity, Setup, new_draft, refusals
from tui.session import Session

if TYPE_CHECKING:
    from scheduler.record import CanRun, CanTest

_FORMAT = 1


# --- what a site folder holds ------------------------------------------------


def tests_of(session: Session, zone_id: str) -> "tuple[CanTest, ...]":
    """Tests of one zone, newest first."""
    history = session.history
    mine = [
        one
        for one in (history.tests if history is not None else ())
        if one.zone.casefold() == zone_id.casefold()
    ]
    mine.sort(key=lambda one: one.name, reverse=True)
    return tuple(sorted(mine, key=lambda one: one.date, reverse=True))


def opened_draft(session: Session, test: "CanTest", run: "CanRun") -> Draft:
    """Draft of a run that is on disk."""
    import numpy as np

    setup = _setup(session.folder, test, run)
    cells = tuple(
        tuple(
            np.format_float_positional(size, trim="-") if np.isfinite(size) else code
            for size, code in zip(sizes, codes, strict=True)
        )
        for sizes, codes in zip(run.reading, run.code, strict=True)
    )
    excluded = tuple((one.row, one.column, one.reason) for one in run.excluded)
    now = Entries(setup, cells, excluded)
    file = run.where.rpartition("/")[2]
    digests = _digests(session, test.name, file)
    return Draft(test.zone, now, test=test.name, file=file, digests=digests, saved=now)


def next_run(session: Session, test: "CanTest") -> Draft:
    """Draft of another run of a test, on the grid of its last run."""
    last = test.runs[-1]
    setup = replace(_setup(session.folder, test, last), start=None, wind=None)
    draft = new_draft(test.zone, setup, test=test.name)
    return replace(draft, digests=_digests(session, test.name, ""))


def prefilled(session: Session, zone_id: str) -> Setup | None:
    """Setup of a new test as the zone's last one had it; None for its first."""
    for test in tests_of(session, zone_id):
        if test.runs:
            setup = _setup(session.folder, test, test.runs[0])
            date = session.today or test.date
            again: dict[str, Any] = {
                "start": None,
                "wind": None,
                "package": None,
                "note": "",
            }
            return replace(setup, date=date, **again)
    return None


def _digests(session: Session, test: str, file: str) -> tuple[tuple[str, str], ...]:
    read = session.site_folder.digests if session.site_folder is not None else {}
    names = [f"tests/{test}/{one}" for one in ("test.toml", file) if one]
    return tuple((one, read[one]) for one in names if one in read)


def _setup(folder: Path, test: "CanTest", run: "CanRun") -> Setup:
    """Setup with its numbers in the units that test.toml has them in."""
    from scheduler.files.can_test_saving import quantities, written_tables

    tables = written_tables(folder / "tests" / test.name)
    can = quantities(tables.get("can", {}))
    file = run.where.rpartition("/")[2]
    tabled: dict[str, Any] = next(
        (t for t in tables.get("run", []) if t.get("file") == file), {}
    )
    return Setup(
        date=test.date,
        condition=test.condition,
        unit=run.unit,
        labels=run.label,
        mouth=can.get("mouth") or can.get("mouth_area"),
        minutes=run.minutes,
        start=run.start,
        wind=quantities(tabled).get("wind"),
        capacity=can.get("capacity"),
        package=test.package,
        note=test.note,
    )


# --- saved -------------------------------------------------------------------


def saved_draft(folder: Path, draft: Draft) -> Draft:
    """Write a draft into its test, or as a test of its own.

    Raises
    ------
    SaveError
        If something typed cannot stand, a file changed on disk meanwhile, or the
        disk refuses. Nothing is overwritten then, and nothing typed is lost.
    """
    from scheduler.files.can_test_saving import save_new_test, save_run

    refused = refusals(draft)
    if refused:
        first = refused[0]
        raise SaveError(first.what, first.fix, first.where)
    if all(not text for row in draft.now.cells for text in row):
        raise SaveError("no can holds a reading yet", "type the readings first")
    sheet, run = _sheets(draft)
    tests = folder / "tests"
    if draft.test:
        done = save_run(tests, draft.test, sheet, run, dict(draft.digests))
    else:
        done = save_new_test(tests, sheet, run)
    return draft.kept(done.test, done.file, dict(done.digests))


def _sheets(draft: Draft) -> Any:
    from scheduler.files.can_test_saving import CanSheet, RunSheet
    from scheduler.files.catch_csv import Grid
    from scheduler.units import UNITS
    from tui.draft import can_run

    setup, run = draft.setup, can_run(draft)
    sheet = CanSheet(
        zone=draft.zone,
        date=setup.date,
        condition=setup.condition,
        unit=UNITS[setup.unit].label,
        mouth=setup.mouth,
        capacity=setup.capacity,
        package=setup.package,
        note=setup.note,
    )
    return sheet, RunSheet(
        grid=Grid(run.reading, run.code, run.label),
        file=draft.file,
        minutes=setup.minutes,
        start=setup.start,
        wind=setup.wind,
        excluded=draft.now.excluded,
    )


# --- kept against a crash ----------------------------------------------------


@dataclass(frozen=True, slots=True)
class Kept:
    """Unsaved entries found in a site folder."""

    path: Path
    draft: Draft


class Journal:
    """The file that holds what is typed until it is saved; one thread at a time."""

    def __init__(self, path: Path, *, digest: str | None = None) -> None:
        self.path = path
        self._digest = digest
        self._lock = Lock()
        self._last: Draft | None = None
        self._is_closed = False

    def keep(self, draft: Draft) -> None:
        """Write a draft, as a whole or not at all.

        Raises
        ------
        SaveError
            If somebody else writes that file, or the disk refuses.
        """
        from scheduler.files.save import save_text

        with self._lock:
            if self._is_closed or draft is self._last:
                return
            self.path.parent.mkdir(exist_ok=True)
            text = draft_text(draft)
            self._digest = save_text(self.path, text, read_digest=self._digest)
            self._last = draft

    def close(self) -> None:
        """Remove the file: everything is saved, or is not wanted."""
        with self._lock:
            self._is_closed = True
            if self._digest is not None:
                self.path.unlink(missing_ok=True)

    @property
    def is_kept(self) -> bool:
        """Whether the file is there and is ours."""
        return self._digest is not None and not self._is_closed


def journal_of(folder: Path, draft: Draft) -> Journal:
    """Journal for a draft; another draft of the same run has the same."""
    tests = folder / "tests"
    if draft.test:
        return Journal(tests / draft.test / f".{draft.file or 'new-run'}.typing.json")
    zone = re.sub(r"[^\w.-]+", "_", draft.zone)
    return Journal(tests / f".new-{zone}.typing.json")


def kept_drafts(folder: Path, zone_id: str | None = None) -> tuple[Kept, ...]:
    """Unsaved entries of one zone, or of all; what cannot be read is passed by."""
    tests = folder / "tests"
    try:
        paths = [*tests.glob(".*.typing.json"), *tests.glob("*/.*.typing.json")]
    except OSError:
        return ()
    found = []
    for path in sorted(paths):
        try:
            draft = read_draft(path.read_text("utf-8"))
        except (OSError, ValueError, KeyError, TypeError, IndexError, SchedulerError):
            continue
        if zone_id is None or draft.zone.casefold() == zone_id.casefold():
            found.append(Kept(path, draft))
    return tuple(found)


def resumed(kept: Kept) -> tuple[Draft, Journal]:
    """Unsaved entries as they were left, and their journal to go on with.

    Fingerprints are those of when typing began, so that what changed on disk since
    then is still refused.
    """
    from scheduler.files.text_file import digest_of

    return kept.draft, Journal(kept.path, digest=digest_of(kept.path.read_bytes()))


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
