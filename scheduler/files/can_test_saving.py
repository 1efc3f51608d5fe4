"""A catch-can test as somebody typed it in; its folder under `tests/` out.

Numbers are written with the unit they were typed in. A new test appears as a whole or
not at all; a file that changed on disk since it was read is never overwritten.
"""

import datetime as dt
import os
import re
import shutil
import tempfile
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from scheduler.errors import SaveError
from scheduler.files.catch_csv import Grid, read_catch
from scheduler.files.catch_writing import catch_text
from scheduler.files.messy.choices import CHOICE_KEYS
from scheduler.files.save import (
    refuse_changed,
    rewrite_toml,
    save_text,
    sync_folder,
    trouble,
)
from scheduler.files.text_file import digest_of, read_text_file
from scheduler.units import UNITS, spelled_unit, split_suffix

Quantity = tuple[float, str]
_STEMS = ("mouth", "mouth_area", "capacity", "wind", "pressure")


@dataclass(frozen=True, slots=True)
class CanSheet:
    """The head of a test: what test.toml says besides its runs.

    `mouth` (a width or an area) and `capacity` are a number and its unit suffix.
    """

    zone: str
    date: dt.date
    condition: str
    unit: str
    mouth: Quantity | None = None
    capacity: Quantity | None = None
    package: str | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class RunSheet:
    """One run: the grid as the cans stood, and what was noted beside it.

    `file` is empty for a run that has no file yet; `wind` and `pressure` are a number
    and its unit suffix; `excluded` holds places of the grid with their reason.
    """

    grid: Grid
    file: str = ""
    minutes: float | None = None
    start: dt.datetime | None = None
    wind: Quantity | None = None
    excluded: tuple[tuple[int, int, str], ...] = ()


@dataclass(frozen=True, slots=True)
class SavedRun:
    """Where a run was written, and the fingerprints of the files that hold it."""

    test: str
    file: str
    digests: Mapping[str, str]


# --- what is there -----------------------------------------------------------


def quantities(table: Mapping[str, Any]) -> dict[str, Quantity]:
    """Numbers with a unit in a table of test.toml, by the stem of their key.

    Examples
    --------
    >>> quantities({"mouth_in": 4.25, "unit": "mL"})
    {'mouth': (4.25, 'in')}
    """
    found = {}
    for key, value in table.items():
        stem, suffix = split_suffix(key)
        if stem in _STEMS and suffix and isinstance(value, int | float):
            found[stem] = (float(value), suffix)
    return found


def written_tables(test: Path) -> dict[str, Any]:
    """The tables of a test.toml as they were typed; empty where it cannot be read."""
    try:
        return tomllib.loads((test / "test.toml").read_text("utf-8-sig"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError):
        return {}


# --- a new test --------------------------------------------------------------


def save_new_test(tests: Path, sheet: CanSheet, run: RunSheet) -> SavedRun:
    """Write a test with its first run as a folder of its own.

    Parameters
    ----------
    tests : Path
        The folder of tests; it is made if it is not there.
    sheet, run : CanSheet, RunSheet
        What was typed.

    Returns
    -------
    SavedRun
        The folder `<date>-<zone>`, or with a number behind where that is taken.

    Raises
    ------
    SaveError
        If it cannot be written; nothing is there then.
    """
    import tomlkit

    document = tomlkit.document()
    document.add("format", 1)
    _set_head(document, sheet)
    can = tomlkit.table()
    _set_can(can, sheet)
    document.add("can", can)
    listed = tomlkit.aot()
    listed.append(_set_run(tomlkit.table(), run, "run1.csv"))
    document.add("run", listed)
    texts = {
        "run1.csv": catch_text(run.grid),
        "test.toml": tomlkit.dumps(document),
    }
    name = _new_folder(tests, f"{sheet.date}-{_plain_name(sheet.zone)}", texts)
    digests = {
        f"tests/{name}/{file}": digest_of(text.encode()) for file, text in texts.items()
    }
    return SavedRun(name, "run1.csv", digests)


def _plain_name(zone: str) -> str:
    return re.sub(r"[^\w.-]+", "_", zone)


def _new_folder(tests: Path, stem: str, texts: Mapping[str, str]) -> str:
    part: Path | None = None
    try:
        tests.mkdir(exist_ok=True)
        part = Path(
            tempfile.mkdtemp(prefix=f".{stem}.", suffix=".part", dir=tests.resolve())
        )
        for file, text in texts.items():
            save_text(part / file, text, read_digest=None)
        mask = os.umask(0)
        os.umask(mask)
        part.chmod(0o777 & ~mask)
        name, number = stem, 1
        while (tests / name).exists():
            number += 1
            name = f"{stem}-{number}"
        part.rename(tests / name)
        part = None
        sync_folder(tests)
    except OSError as problem:
        raise SaveError(*trouble(problem), f"tests/{stem}") from problem
    finally:
        if part is not None:
            shutil.rmtree(part, ignore_errors=True)
    return name


# --- a test that is there ----------------------------------------------------


def save_run(
    tests: Path,
    name: str,
    sheet: CanSheet,
    run: RunSheet,
    digests: Mapping[str, str],
) -> SavedRun:
    """Write one run into a test that is there, and keep the remarks of test.toml.

    Parameters
    ----------
    tests : Path
        The folder of tests.
    name : str
        The test.
    sheet, run : CanSheet, RunSheet
        What was typed; a run without a file gets the next free name.
    digests : mapping
        Fingerprints of what was read, by place in the site folder.

    Returns
    -------
    SavedRun
        Where it is now.

    Raises
    ------
    SaveError
        If a file changed since it was read, is a workbook or an untidy table, or
        cannot be written. The run itself is
        written before test.toml, so that a run is never named without being there.
    """
    folder = tests / name
    file = run.file or _free_name(folder)
    toml, csv = (f"tests/{name}/{one}" for one in ("test.toml", file))
    refuse_changed(folder / "test.toml", digests.get(toml, ""))
    refuse_changed(folder / file, digests.get(csv, "") if run.file else None)
    if run.file:
        _refuse_untidy(folder, file)
    text = _remarks(folder / file) + catch_text(run.grid)
    done = {csv: _written(folder / file, text, digests.get(csv) if run.file else None)}

    def change(document: Any) -> None:
        _set_head(document, sheet)
        _set_can(document["can"], sheet)
        _place_run(document, run, file)

    done[toml] = rewrite_toml(folder / "test.toml", change, digests.get(toml, ""))
    return SavedRun(name, file, done)


def _refuse_untidy(folder: Path, name: str) -> None:
    """Leave a table alone that was not read as clean text: somebody else's form."""
    file, _ = read_text_file(folder / name, name)
    is_clean = file is not None and read_catch(file)[0] is not None
    text, _ = read_text_file(folder / "test.toml", "test.toml")
    data = tomllib.loads(text.text) if text is not None else {}
    mine = [one for one in data.get("run", []) if one.get("file") == name]
    if not is_clean or any(key in one for one in mine for key in CHOICE_KEYS):
        what = "is a workbook or an untidy table, and is not written over"
        fix = "correct it where it was made, or type the readings as a new run"
        raise SaveError(what, fix, name)


def _written(path: Path, text: str, read_digest: str | None) -> str:
    now = digest_of(text.encode())
    return now if now == read_digest else save_text(path, text, read_digest=read_digest)


def _free_name(folder: Path) -> str:
    number = 1
    while (folder / f"run{number}.csv").exists():
        number += 1
    return f"run{number}.csv"


def _remarks(path: Path) -> str:
    """Remark lines of a table that is there; they go to its top."""
    file, _ = read_text_file(path, path.name)
    lines = file.text.split("\n") if file is not None else []
    return "".join(f"{one}\n" for one in lines if one.lstrip().startswith("#"))


# --- tables of test.toml -----------------------------------------------------


def _put(table: Any, key: str, value: Any) -> None:
    """Set a key where its value differs, so that its spelling and remark stay."""
    if value is None or value == "":
        if key in table:
            table.remove(key)
    elif key not in table or table[key] != value:
        table[key] = value


def _put_quantity(table: Any, stem: str, size: Quantity | None) -> None:
    key = f"{stem}_{size[1]}" if size is not None else ""
    for other in list(table):
        if split_suffix(other)[0] == stem and other != key:
            table.remove(other)
    if size is not None:
        _put(table, key, plain_number(size[0]))


def plain_number(size: float) -> int | float:
    """A number as it is written: whole ones without a point."""
    return int(size) if float(size).is_integer() else float(size)


def _set_head(document: Any, sheet: CanSheet) -> None:
    _put(document, "zone", sheet.zone)
    _put(document, "date", sheet.date)
    _put(document, "condition", sheet.condition)
    _put(document, "package", sheet.package)
    _put(document, "note", sheet.note)


def _set_can(table: Any, sheet: CanSheet) -> None:
    is_area = sheet.mouth is not None and UNITS[sheet.mouth[1]].dimension == "area"
    _put_quantity(table, "mouth", None if is_area else sheet.mouth)
    _put_quantity(table, "mouth_area", sheet.mouth if is_area else None)
    if spelled_unit(str(table.get("unit", ""))) != spelled_unit(sheet.unit):
        _put(table, "unit", sheet.unit)
    _put_quantity(table, "capacity", sheet.capacity)


def _set_run(table: Any, run: RunSheet, file: str) -> Any:
    import tomlkit

    _put(table, "file", file)
    _put(table, "start", run.start)
    _put(table, "minutes", None if run.minutes is None else plain_number(run.minutes))
    _put_quantity(table, "wind", run.wind)
    wanted = [(run.grid.label[i][j], reason) for i, j, reason in run.excluded]
    there = [
        (str(one.get("can", "")), str(one.get("reason", "")))
        for one in table.get("exclude", [])
    ]
    if wanted == there:
        return table
    if "exclude" in table:
        table.remove("exclude")
    if wanted:
        listed = tomlkit.aot()
        for can, reason in wanted:
            one = tomlkit.table()
            one.add("can", can)
            one.add("reason", reason)
            listed.append(one)
        table["exclude"] = listed
    return table


def _place_run(document: Any, run: RunSheet, file: str) -> None:
    import tomlkit

    for table in document.get("run", []):
        if table.get("file") == file:
            _set_run(table, run, file)
            return
    if "run" not in document:
        document["run"] = tomlkit.aot()
    document["run"].append(_set_run(tomlkit.table(), run, file))
