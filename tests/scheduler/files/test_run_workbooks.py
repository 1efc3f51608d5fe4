"""Runs of a site folder in workbooks: choices are keys of test.toml."""

import datetime as dt
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.can_test_saving import CanSheet, RunSheet, save_run
from scheduler.files.catch_csv import Grid
from scheduler.files.site_folder import read_site_folder
from scheduler.record import CanRun
from tests.scheduler.files.messy.made import KINDS, Rows, workbook

FOLDER = "tests/2026-05-12-Z2"
TEST = """\
format = 1
zone = "Z2"
date = 2026-05-12
condition = "as found"

[can]
mouth_in = 4.25
unit = "mL"

"""
GRID: Rows = [["", "A", "B"], [1, 41, 52], [2, 55, "k"], [3, 60, 48]]
RUNS: Rows = [["Can", "Run 1", "Run 2"], ["A1", 41, 44], ["A2", 52, 50], ["A3", 60, 66],
              ["A4", 48, 47]]  # fmt: skip


def read(
    site: Path, name: str, data: bytes, runs: str
) -> tuple[list[CanRun], list[str]]:
    folder = site / FOLDER
    (folder / "run1.csv").unlink()
    (folder / name).write_bytes(data)
    (folder / "test.toml").write_text(TEST + runs, encoding="utf-8")
    found = read_site_folder(site)
    said = [str(one) for one in found.findings if FOLDER in one.where]
    return [run for test in found.history.tests for run in test.runs], said


def run_table(name: str, *lines: str) -> str:
    more = "\n".join(lines)
    return f'[[run]]\nfile = "{name}"\nminutes = 30\n{more}\n'


@pytest.mark.parametrize("kind", KINDS)
def test_a_run_may_be_a_workbook(site: Path, kind: str) -> None:
    name = f"run1.{kind}"
    (run,), said = read(site, name, workbook(kind, {"S": GRID}), run_table(name))
    assert run.code == (("", ""), ("", "k"), ("", ""))
    assert run.label[2] == ("A3", "B3")
    assert f"{FOLDER}/{name}: sheet 'S': read header from row 1" in said[0]


def test_two_runs_of_one_workbook_are_told_apart_by_their_column(site: Path) -> None:
    data = workbook("xlsx", {"S": RUNS})
    tables = run_table("may.xlsx", 'column = "Run 1"')
    tables += run_table("may.xlsx", 'column = "Run 2"')
    runs, _ = read(site, "may.xlsx", data, tables)
    assert [run.name for run in runs] == ["may Run 1", "may Run 2"]
    assert runs[1].reading.ravel().tolist() == [44, 50, 66, 47]


def test_a_question_names_the_key_of_test_toml(site: Path) -> None:
    runs, said = read(site, "may.xlsx", workbook("xlsx", {"S": RUNS}),
                      run_table("may.xlsx"))  # fmt: skip
    assert runs == []
    assert 'say column = "Run 1" for one of them, column = "all"' in said[0]


@pytest.mark.parametrize(
    ("line", "message"),
    [('decimal = "dot"', "which is not a choice; use one of comma, point"),
     ('total = "last"', "use one of none, row, column, both"),
     ('sheet = "June"', "there is no sheet 'June'")],
)  # fmt: skip
def test_a_choice_that_is_none_is_refused(site: Path, line: str, message: str) -> None:
    data = workbook("xlsx", {"S": GRID})
    runs, said = read(site, "may.xlsx", data, run_table("may.xlsx", line))
    assert runs == []
    assert any(message in one for one in said)


def test_a_unit_that_test_toml_does_not_say_is_refused(site: Path) -> None:
    data = workbook("xlsx", {"S": [["mm"], [10], [11], [12], [13]]})
    runs, said = read(site, "may.xlsx", data, run_table("may.xlsx"))
    assert runs == []
    assert 'names mm, and mL was said; say unit = "mm" under [can]' in said[0]


def test_a_workbook_that_no_run_names_is_a_note(site: Path) -> None:
    (site / FOLDER / "run2.xlsx").write_bytes(workbook("xlsx", {"S": GRID}))
    found = read_site_folder(site)
    assert any(
        "run2.xlsx: is not named by a [[run]]" in str(one) for one in found.findings
    )


def test_small_ounces_of_a_run_are_turned_by_its_key(site: Path) -> None:
    text = "Catch (mL)\n52\n47\n61\n55\n1.9\n1.7\n2.1\n1.6\n"
    (run,), said = read(site, "two_readers.csv", text.encode(),
                        run_table("two_readers.csv", 'mixed = "us_fl_oz"'))  # fmt: skip
    assert run.unit == "ml"
    assert run.reading.ravel()[-1] == pytest.approx(1.6 * 29.5735, abs=1e-3)
    assert "4 small readings are US fl oz" in said[-1]


def test_a_workbook_is_never_typed_over(site: Path) -> None:
    data = workbook("xlsx", {"S": GRID})
    (run,), _ = read(site, "may.xlsx", data, run_table("may.xlsx"))
    digests = read_site_folder(site).digests
    sheet = CanSheet("Z2", dt.date(2026, 5, 12), "as found", "mL", (4.25, "in"), None)
    again = RunSheet(Grid(run.reading, run.code, run.label), file="may.xlsx")
    with pytest.raises(SaveError, match="is not written over"):
        save_run(site / "tests", "2026-05-12-Z2", sheet, again, digests)
    assert (site / FOLDER / "may.xlsx").read_bytes() == data
