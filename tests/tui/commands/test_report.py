"""The report command: kinds, endings, files that are kept, exit codes."""

import json
import shutil
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from scheduler.files.demo import demo_source
from tui.cli import main
from tui.commands.report import KINDS

DEMO = demo_source() / "tern_hollow"
# a calendar and tables are no paper
PAPERS = [kind for kind in KINDS if kind not in ("calendar", "table", "extract")]


def run(*arguments: str, site: Path = DEMO) -> Result:
    return CliRunner().invoke(main, ["report", str(site), *arguments])


def field_sheet(*arguments: str) -> Result:
    return run("field-sheet", *arguments)


@pytest.fixture
def site(tmp_path: Path) -> Path:
    folder = tmp_path / "site"
    shutil.copytree(DEMO, folder)
    return folder


# --- kinds -------------------------------------------------------------------


def test_help_lists_the_kinds() -> None:
    assert all(name in run("--help").stdout for name in KINDS)


def test_without_a_kind_the_kinds_are_named() -> None:
    result = run()
    assert result.exit_code == 2
    assert "the reports are: field-sheet, evaluation" in result.stderr


def test_a_misspelt_kind_is_answered_with_the_nearest() -> None:
    result = run("feild-sheet")
    assert result.exit_code == 2
    assert "did you mean field-sheet?" in result.stderr


def test_a_kind_has_its_own_help() -> None:
    text = run("field-sheet", "--help").stdout
    assert all(option in text for option in ("--grid", "--runs", "--force", "-o"))


@pytest.mark.parametrize("kind", PAPERS)
def test_every_paper_prints_text_a_page_and_a_pdf(kind: str) -> None:
    assert KINDS[kind].formats.keys() >= {".txt", ".html", ".pdf"}


# --- the field sheet ---------------------------------------------------------


def test_without_a_file_the_text_goes_to_standard_output() -> None:
    result = field_sheet("--zone", "Z4")
    assert result.exit_code == 0
    assert result.stdout.startswith("Z4  Can yard east, hollies\n")
    assert result.stderr == ""


def test_all_zones_are_printed_unless_some_are_named() -> None:
    text = field_sheet("--runs", "1").stdout
    assert text.count("(side 1 of 5)") == 9
    two = field_sheet("--zone", "z6", "--zone", "Z1").stdout
    assert two.count("side 1 of 6") == 2
    assert two.index("Z1  Liner") < two.index("Z6  Field")


def test_what_was_assumed_is_said_on_standard_error() -> None:
    result = field_sheet("--zone", "Z3")
    assert result.exit_code == 0
    assert "has no can map yet" in result.stderr


def test_a_grid_may_be_asked_for() -> None:
    (sheet,) = json.loads(
        field_sheet("--zone", "Z4", "--grid", "5 x 8", "--json").stdout
    )["sheets"]
    assert sheet["can_map"]["n_cans"] == 40
    assert sheet["can_map"]["from"] == "as asked"


def test_json_is_one_object_with_its_format() -> None:
    value = json.loads(field_sheet("--json").stdout)
    assert value["format"] == 1
    assert [one["zone"] for one in value["sheets"]] == [f"Z{i}" for i in range(1, 10)]


def test_units_follow_the_option() -> None:
    text = field_sheet("--zone", "Z4", "--units", "metric").stdout
    assert "kPa" in text
    assert "psi" not in text


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--zone", "Z44"), "there is no zone 'Z44'"),
        (("--grid", "24"), "write rows x columns"),
        (("--grid", "0x6"), "give 1 to 40"),
        (("--grid", "1x3"), "4 cans at least"),
        (("--runs", "0"), "0 is not in the range"),
        (("--date", "soon"), "'soon' does not match"),
    ],
)
def test_what_cannot_be_printed_is_refused_in_words(
    arguments: tuple[str, ...], said: str
) -> None:
    result = field_sheet(*arguments)
    assert result.exit_code == 2
    assert said in result.stderr
    assert result.stdout == ""


def test_a_site_without_zones_says_what_to_add(site: Path) -> None:
    (site / "zones.toml").write_text("format = 1\n", encoding="utf-8")
    shutil.rmtree(site / "tests")
    result = run("field-sheet", site=site)
    assert result.exit_code == 2
    assert "add a [[zone]]" in result.stderr


def test_a_folder_that_is_no_site_ends_with_3(tmp_path: Path) -> None:
    assert run("field-sheet", site=tmp_path / "nowhere").exit_code == 3


# --- the evaluation report ---------------------------------------------------


def test_the_report_of_a_zone_begins_with_what_was_found() -> None:
    result = run("evaluation", "--zone", "Z4")
    assert result.exit_code == 0
    assert result.stdout.startswith("Z4  Can yard east, hollies\nEvaluation report: f")
    assert "1  FINDING\nZ4 Can yard east, hollies, test of 12 May 2026" in result.stdout


def test_a_test_that_cannot_be_true_is_reported_and_ends_with_1() -> None:
    result = run("evaluation", "--zone", "Z9")
    assert result.exit_code == 1
    assert "cannot be used for run times" in result.stdout


def test_a_zone_without_a_test_has_no_report() -> None:
    result = run("evaluation", "--zone", "Z3")
    assert result.exit_code == 2
    assert "no zone that was asked for has a test yet" in result.stderr
    assert result.stdout == ""


def test_a_zone_that_is_not_there_is_refused() -> None:
    assert "there is no zone 'Z44'" in run("evaluation", "--zone", "Z44").stderr


def test_the_evaluation_as_json_names_its_report() -> None:
    value = json.loads(run("evaluation", "--zone", "Z4", "--json").stdout)
    assert (value["format"], value["report"]) == (1, "evaluation")
    assert [one["zone"] for one in value["reports"]] == ["Z4"]


# --- files -------------------------------------------------------------------


@pytest.mark.parametrize("name", ["sheet.txt", "sheet.html", "SHEET.HTML"])
def test_the_ending_chooses_the_form(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    result = field_sheet("--zone", "Z4", "-o", str(path))
    assert result.exit_code == 0
    assert result.stdout == ""
    is_page = path.read_text(encoding="utf-8").startswith("<!doctype html>")
    assert is_page == (path.suffix.lower() == ".html")


def test_the_file_holds_what_the_terminal_shows(tmp_path: Path) -> None:
    path = tmp_path / "sheet.txt"
    field_sheet("--zone", "Z4", "-o", str(path))
    shown = field_sheet("--zone", "Z4").stdout
    assert path.read_text(encoding="utf-8") == shown


@pytest.mark.parametrize("kind", PAPERS)
def test_every_kind_becomes_a_pdf(kind: str, tmp_path: Path) -> None:
    pytest.importorskip("typst")
    path = tmp_path / "paper.pdf"
    asks = {
        **dict.fromkeys(("field-sheet", "evaluation", "economics"), ("--zone", "Z4")),
        "before-after": ("--before", "2025", "--after", "2026"),
    }
    result = run(kind, *asks.get(kind, ()), "-o", str(path))
    assert result.exit_code == (0 if kind in asks else 1)  # zone Z9 is blocked
    assert f"written: {path}" in result.stderr
    assert path.read_bytes().startswith(b"%PDF-")


def test_without_the_extra_the_message_names_it_and_the_other_way(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)
    result = field_sheet("--zone", "Z4", "-o", str(tmp_path / "sheet.pdf"))
    assert result.exit_code == 1
    assert "pip install 'lowquarter[pdf]'" in result.stderr
    assert ".html" in result.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["sheet.docx", "sheet"])
def test_an_unknown_ending_names_the_allowed_ones(tmp_path: Path, name: str) -> None:
    result = field_sheet("-o", str(tmp_path / name))
    assert result.exit_code == 2
    assert ".txt, .html or .pdf" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_there_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "sheet.txt"
    path.write_text("mine", encoding="utf-8")
    result = field_sheet("-o", str(path))
    assert result.exit_code == 1
    assert "--force" in result.stderr
    assert path.read_text(encoding="utf-8") == "mine"


def test_force_replaces_the_file_and_leaves_nothing_beside_it(tmp_path: Path) -> None:
    path = tmp_path / "sheet.txt"
    path.write_text("mine", encoding="utf-8")
    assert field_sheet("--zone", "Z4", "-o", str(path), "--force").exit_code == 0
    assert path.read_text(encoding="utf-8").startswith("Z4")
    assert [one.name for one in tmp_path.iterdir()] == ["sheet.txt"]


def test_force_does_not_replace_a_folder(tmp_path: Path) -> None:
    (tmp_path / "sheet.txt").mkdir()
    result = field_sheet("-o", str(tmp_path / "sheet.txt"), "--force")
    assert result.exit_code == 1
    assert "is there already" in result.stderr


def test_a_folder_that_is_missing_is_said(tmp_path: Path) -> None:
    result = field_sheet("-o", str(tmp_path / "none" / "sheet.html"))
    assert result.exit_code == 1
    assert "cannot be saved" in result.stderr
