"""The wind command on the demo site and on one without a log."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from scheduler.files.demo import demo_source
from tests.tui.test_compare import without_log
from tui.cli import main


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments))


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    return Path(shutil.copytree(demo_source() / "tern_hollow", tmp_path / "demo"))


def test_the_demo_shows_its_mast_and_the_carried_logger(demo: Path) -> None:
    result = run("wind", str(demo))
    text = " ".join(result.stdout.split())
    assert result.exit_code == 0
    assert "mast: usual wind in mph at 2 m" in text
    assert "7 breaks of more than 12 hours" in text


def test_json_has_both_logs_and_their_heights(demo: Path) -> None:
    logs = json.loads(run("wind", str(demo), "--json").stdout)["logs"]
    assert [(one["log"], one["sensor_height_m"], one["enough"]) for one in logs] == [
        ("yard logger", 2.0, False),
        ("mast", 10.0, True),
    ]


def test_json_does_not_depend_on_the_units_shown(demo: Path) -> None:
    us, metric = (
        run("wind", str(demo), "--units", one, "--json").stdout
        for one in ("us", "metric")
    )
    assert us == metric


def test_without_a_log_it_says_where_to_name_one(demo: Path) -> None:
    result = run("wind", str(without_log(demo)))
    assert "[[wind_log]]" in result.stdout
    assert result.exit_code == 0
