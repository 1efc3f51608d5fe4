"""`lowquarter report SITE extract`."""

import json
from pathlib import Path

from click.testing import CliRunner

from tui.cli import main

DEMO = "demo_sites/tern_hollow"


def run(*args: str) -> str:
    return CliRunner().invoke(main, ["report", DEMO, "extract", *args]).stdout


def test_the_text_holds_every_table() -> None:
    text = run()
    assert all(name in text for name in ("units", "water", "tests", "leaching", "salt"))


def test_a_csv_holds_the_table_that_is_asked_for(tmp_path: Path) -> None:
    out = tmp_path / "water.csv"
    run("--rows", "water", "-o", str(out))
    assert out.read_text("utf-8-sig").startswith("meter,from,to,management units,")


def test_the_json_is_one_object() -> None:
    found = json.loads(run("--json"))
    assert (found["report"], len(found["units"])) == ("extract", 9)
