"""The tailgate answer from tables: options, exit codes, and what stands in JSON."""

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from tests.scheduler.files.messy.made import workbook
from tests.scheduler.files.test_given_table import TWO_READERS, labelled_sheet
from tui.cli import main


def cans(*arguments: str, stdin: str | bytes | None = None) -> Result:
    return CliRunner().invoke(main, ["cans", *arguments], input=stdin)


@pytest.fixture
def metric(tmp_path: Path) -> str:
    path = tmp_path / "feld.xlsx"
    sheets = {"Feld": labelled_sheet(True), "old": [[1, 2], [3, 4]]}
    path.write_bytes(workbook("xlsx", sheets, ["old"]))
    return str(path)


def test_a_workbook_gives_the_result_and_says_what_was_read(metric: str) -> None:
    done = cans("--from", metric, "--minutes", "45", "--units", "metric", "--json")
    value: Any = json.loads(done.stdout)
    assert done.exit_code == 0
    assert value["run"]["n_cans"] == 20
    assert value["run"]["net_rate_mm_per_h"] == pytest.approx(15.8, abs=0.05)
    (read,) = [
        one for one in value["findings"] if "ignored total row 23" in one["what"]
    ]
    assert read["level"] == "note"


def test_a_question_ends_with_1_and_names_the_option(tmp_path: Path) -> None:
    path = tmp_path / "mixed.xlsx"
    rows = [["Catch (mL)"], *([x] for x in TWO_READERS)]
    path.write_bytes(workbook("xlsx", {"S": rows}))
    done = cans("--from", str(path), "--minutes", "30")
    assert done.exit_code == 1
    assert "--mixed us_fl_oz or --mixed imp_fl_oz" in " ".join(done.stdout.split())
    assert "0.06" not in done.stdout
    done = cans("--from", str(path), "--minutes", "30", "--mixed", "us_fl_oz", "--json")
    assert json.loads(done.stdout)["run"]["du_lq"] == pytest.approx(0.855, abs=5e-4)


def test_a_table_may_be_pasted_on_standard_input() -> None:
    text = "Can\tCatch (mm)\nA1\t10,5\nA2\t12,0\nA3\t9,8\nA4\t14,2\n"
    done = cans("--from", "-", "--minutes", "45", "--json", stdin=text)
    assert json.loads(done.stdout)["run"]["mean_depth_mm"] == pytest.approx(11.625)


def test_a_workbook_may_come_on_standard_input(metric: str) -> None:
    done = cans("--from", "-", "--json", stdin=Path(metric).read_bytes())
    assert json.loads(done.stdout)["run"]["n_cans"] == 20


def test_a_broken_workbook_ends_with_3(tmp_path: Path) -> None:
    path = tmp_path / "broken.xlsx"
    path.write_bytes(b"PK\x03\x04rest")
    done = cans("--from", str(path))
    assert done.exit_code == 3
    assert "cannot be read as a workbook" in done.stderr


def test_options_for_tables_need_a_table() -> None:
    done = cans("41 52 60 48", "--sheet", "Feld")
    assert done.exit_code == 2
    assert "--from FILE" in done.stderr
