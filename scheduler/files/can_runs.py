"""The runs named in a test.toml in; readings with their exclusions out."""

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scheduler.errors import Finding, Level
from scheduler.files.can_test_nouns import Exclude, Run
from scheduler.files.catch_csv import Grid, read_catch
from scheduler.files.folder_reading import FolderReading
from scheduler.files.messy.read import TableReading
from scheduler.files.messy.sheets import is_workbook, workbook_sheets
from scheduler.files.nouns import read_noun
from scheduler.files.run_table import read_run_table
from scheduler.files.text_file import TextFile, digest_of, is_there
from scheduler.files.toml_scan import Path as Keys
from scheduler.files.toml_text import TomlText
from scheduler.record import CanRun, CanUnit, Exclusion

_TABLES = {".csv", ".tsv", ".xlsx", ".xlsm", ".xls", ".xlsb", ".ods"}


@dataclass(frozen=True, slots=True)
class OpenTest:
    """One test folder while it is read, and its test.toml."""

    reading: FolderReading
    toml: TomlText

    def say(self, level: Level, keys: Keys, what: str, fix: str) -> None:
        """Add a finding at a key of test.toml."""
        self.reading.say(level, self.toml.place(keys), what, fix)


def read_runs(inside: OpenTest, unit: CanUnit | None) -> tuple[CanRun, ...]:
    """Read the runs of a test; a run that is wrong is left out.

    Parameters
    ----------
    inside : OpenTest
        The test folder; it gathers what is wrong.
    unit : str or None
        Unit of the readings; None when it is not known, then no run can be used.

    Returns
    -------
    tuple of CanRun
        In the order of test.toml.
    """
    tables = inside.toml.data.get("run", [])
    if not isinstance(tables, list):
        inside.say("stop", ("run",), "is one table", "write [[run]] for each run")
        return ()
    runs: list[CanRun] = []
    files: dict[tuple[str, ...], int] = {}
    for i, table in enumerate(tables):
        keys: Keys = ("run", i)
        run = inside.reading.noun(Run, inside.toml, keys, skip=("exclude",))
        name = table.get("file") if isinstance(table, dict) else None
        part = _part(table) if isinstance(table, dict) else ()
        if isinstance(name, str) and files.setdefault((name, *part), i) != i:
            first = inside.toml.line(("run", files[name, *part], "file"))
            what = f"is {name}, which line {first} names already"
            inside.say("stop", (*keys, "file"), what, "name each file once")
            continue
        read = _table(inside, run, keys, unit)
        if run is not None and read is not None and read.unit is not None:
            excluded = tuple(_exclusions(inside, read.grid, table, keys))
            runs.append(_can_run(inside, run, read, excluded))
    _note_unnamed(inside, {name for name, *_ in files})
    return tuple(runs)


def _part(table: dict[str, Any]) -> tuple[str, ...]:
    """Sheet and column that a run reads from its file; one file may hold many runs."""
    return tuple(str(table.get(key, "")) for key in ("sheet", "column"))


def _table(
    inside: OpenTest, run: Run | None, keys: Keys, unit: CanUnit | None
) -> TableReading | None:
    if run is None:
        return None
    if not is_there(inside.reading.folder / run.file):
        what = f"is {run.file}, and there is no such file in the folder"
        fix = "correct the name, or put the file there"
        inside.say("stop", (*keys, "file"), what, fix)
        return None
    content = _content(inside.reading, run.file)
    if content is None:
        return None
    where = f"{inside.reading.name}{run.file}"

    def clean(text: str) -> tuple[Grid | None, tuple[Finding, ...]]:
        return read_catch(TextFile(where, text, ""))

    table, said = read_run_table(content, where, run.choices, unit, clean)
    inside.reading.findings += said
    if run.minutes is None:
        what = "minutes is not given: uniformity can be had, the rate cannot"
        fix = "write the minutes that the water ran, such as minutes = 30"
        inside.say("warning", keys, what, fix)
    return table


def _content(reading: FolderReading, name: str) -> bytes | str | None:
    """Bytes of a workbook, or the text of any other file, or None with a finding."""
    path = reading.folder / name
    try:
        data = path.read_bytes() if path.is_file() else b""
    except OSError:
        data = b""  # reading it as text will say what is wrong
    # a broken workbook that is named .csv is spoken of as a text
    if is_workbook(data) and (
        path.suffix != ".csv" or not workbook_sheets(data, name)[1]
    ):
        reading.digests[f"{reading.name}{name}"] = digest_of(data)
        return data
    file = reading.file(name)
    return None if file is None else file.text


def _can_run(
    inside: OpenTest, run: Run, table: TableReading, excluded: tuple[Exclusion, ...]
) -> CanRun:
    part = " ".join(one for one in (run.sheet, run.column) if one)
    assert table.unit is not None, "the caller has looked"
    return CanRun(
        name=f"{Path(run.file).stem} {part}".strip(),
        where=f"{inside.reading.name}{run.file}",
        reading=table.grid.reading,
        code=table.grid.code,
        label=table.grid.label,
        unit=table.unit,
        minutes=run.minutes,
        start=run.start,
        pressure_kpa=run.pressure_kpa,
        wind_m_per_s=run.wind_m_per_s,
        line=table.grid.line,
        excluded=excluded,
    )


def _exclusions(
    inside: OpenTest, grid: Grid, table: dict[str, Any], keys: Keys
) -> Iterator[Exclusion]:
    tables = table.get("exclude", [])
    if not isinstance(tables, list):
        fix = 'write [[run.exclude]] with can = "B3" and a reason'
        inside.say("stop", (*keys, "exclude"), "is not a list of cans", fix)
        return
    seen: set[tuple[int, int]] = set()
    for i, one in enumerate(tables):
        here: Keys = (*keys, "exclude", i)
        if isinstance(one, dict) and not str(one.get("reason", "")).strip():
            what = f"can {one.get('can', '?')} is left out without a reason; it is kept"
            fix = 'write why, such as reason = "knocked over by a cart"'
            inside.say("stop", here, what, fix)
            continue
        exclude, said = read_noun(Exclude, one, inside.toml, here)
        inside.reading.findings += said
        place = grid.place(exclude.can) if exclude else None
        if exclude is None:
            continue
        if place is None:
            what = f"is {exclude.can}, and there is no such can in the run"
            fix = f"the cans are {_can_names(grid)}"
            inside.say("stop", (*here, "can"), what, fix)
        elif place in seen:
            what = f"can {exclude.can} is left out twice"
            inside.say("warning", here, what, "delete one of the two")
        else:
            seen.add(place)
            yield Exclusion(*place, exclude.reason)


def _can_names(grid: Grid) -> str:
    names = [name for row in grid.label for name in row if name]
    return ", ".join(names) if len(names) <= 6 else f"{names[0]} to {names[-1]}"


def _note_unnamed(inside: OpenTest, named: set[str]) -> None:
    try:
        found = sorted(
            one.name
            for one in inside.reading.folder.iterdir()
            if one.suffix.casefold() in _TABLES
        )
    except OSError:
        return
    for name in found:
        if name not in named and name[0] not in "._~":
            what = "is not named by a [[run]] in test.toml, so it is not used"
            fix = f'add [[run]] with file = "{name}", or move the file away'
            inside.reading.say("note", f"{inside.reading.name}{name}", what, fix)


def note_odd_dates(inside: OpenTest, date: dt.date, runs: tuple[CanRun, ...]) -> None:
    """Say so when a run starts more than a day away from the test's date."""
    for i, run in enumerate(runs):
        if run.start is not None and abs((run.start.date() - date).days) > 1:
            what = f"{run.name} starts on {run.start.date()}, the test is of {date}"
            inside.say("warning", ("run", i, "start"), what, "correct one of the two")
