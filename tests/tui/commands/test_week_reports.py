"""What is handed over each week, by the command line."""

import json
import shutil
from pathlib import Path

import icalendar
import pytest
from click.testing import CliRunner, Result
from python_calamine import CalamineWorkbook

from scheduler.files.demo import demo_source
from tui.cli import main
from tui.commands.report import KINDS

ALDER = demo_source() / "alder_flat"
WEEKLY = ("change-sheet", "night-sheet", "summary", "calendar", "table")


def run(*arguments: str, site: Path = ALDER) -> Result:
    return CliRunner().invoke(main, ["report", str(site), *arguments])


@pytest.mark.parametrize("kind", WEEKLY)
def test_the_text_goes_to_standard_output(kind: str) -> None:
    result = run(kind)
    assert result.exit_code == 0
    assert "A1" in result.stdout


@pytest.mark.parametrize("kind", WEEKLY)
def test_json_is_one_object_of_its_kind(kind: str) -> None:
    value = json.loads(run(kind, "--json").stdout)
    assert (value["format"], value["report"]) == (1, kind)


@pytest.mark.parametrize("kind", WEEKLY)
def test_warnings_go_to_standard_error_and_notes_do_not(kind: str) -> None:
    stderr = run(kind).stderr
    assert "zone A6: its rate is assumed" in stderr
    assert "zone A2: intake" not in stderr


def test_a_sheet_printed_after_the_issue_tells_the_same_changes(
    tmp_path: Path,
) -> None:
    site = Path(shutil.copytree(ALDER, tmp_path / "site"))
    before = run("change-sheet", site=site).stdout.splitlines()
    issue = CliRunner().invoke(main, ["week", str(site), "--issue", "--yes"])
    assert issue.exit_code == 0, issue.stderr
    after = run("change-sheet", site=site).stdout.splitlines()
    assert any("->  NOW" in line for line in after)
    assert after[0] == f"{before[0]}  2015-W24"
    assert after[1:] == before[1:]


def test_a_zone_that_is_blocked_ends_with_1() -> None:
    result = run("change-sheet", site=demo_source() / "tern_hollow")
    assert result.exit_code == 1
    assert "LEAVE AS IT IS" in result.stdout


@pytest.mark.parametrize(
    ("kind", "ending"),
    [(kind, ending) for kind in WEEKLY for ending in KINDS[kind].formats],
)
def test_every_ending_is_written(tmp_path: Path, kind: str, ending: str) -> None:
    if ending == ".pdf":
        pytest.importorskip("typst")
    path = tmp_path / f"week{ending}"
    assert run(kind, "-o", str(path)).exit_code == 0
    assert path.stat().st_size > 500


def test_a_calendar_file_is_read_by_another_reader(tmp_path: Path) -> None:
    path = tmp_path / "week.ics"
    run("calendar", "-o", str(path))
    file = icalendar.Calendar.from_ical(path.read_bytes())
    assert len(file.walk("VEVENT")) == 2 + 7 + 3 + 7 + 4  # nights of A1, 2, 3, 5, 6


def test_a_workbook_is_read_by_another_reader(tmp_path: Path) -> None:
    path = tmp_path / "week.xlsx"
    run("table", "-o", str(path))
    assert CalamineWorkbook.from_path(path).sheet_names == ["zones", "events"]


def test_a_csv_holds_the_rows_that_were_asked_for(tmp_path: Path) -> None:
    for rows, head in (("zones", "zone,name"), ("events", "night,zone")):
        path = tmp_path / f"{rows}.csv"
        run("table", "--rows", rows, "-o", str(path))
        assert path.read_text(encoding="utf-8-sig").startswith(head)


def test_another_week_may_be_asked_for() -> None:
    assert (
        "Mon 15 Jun to Sun 21 Jun"
        in run("change-sheet", "--start", "2015-06-15").stdout
    )


def test_units_follow_the_option() -> None:
    assert "need 1.18 in" in run("change-sheet", "--units", "us").stdout


def test_the_language_of_the_site_is_that_of_its_sheets(tmp_path: Path) -> None:
    site = Path(shutil.copytree(ALDER, tmp_path / "site"))
    toml = site / "site.toml"
    text = toml.read_text("utf-8").replace('units = "', 'language = "es"\nunits = "', 1)
    toml.write_text(text, "utf-8")
    assert run("change-sheet", site=site).stdout.startswith("HOJA DE CAMBIOS")
    asked = run("change-sheet", "--language", "en", site=site).stdout
    assert asked.startswith("CHANGE SHEET")
