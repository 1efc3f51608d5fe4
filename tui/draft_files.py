"""Drafts of runs in and out of a site folder: opened and saved."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from scheduler.errors import SaveError
from tui.draft import Draft, Entries, Setup, new_draft, refusals
from tui.session import Session

if TYPE_CHECKING:
    from scheduler.record import CanRun, CanTest

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
