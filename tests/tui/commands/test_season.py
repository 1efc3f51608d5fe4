"""`lowquarter season` on the demo."""

import json
from typing import Any

import pytest
from click.testing import CliRunner, Result

from tui.cli import main

DEMO = "demo_sites/tern_hollow"


def run(*args: str) -> Result:
    return CliRunner().invoke(main, ["season", DEMO, *args])


@pytest.fixture(scope="module")
def as_json() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(run("--json").stdout)
    return found


def test_every_zone_is_there(as_json: dict[str, Any]) -> None:
    assert [one["zone"] for one in as_json["zones"]] == [f"Z{i}" for i in range(1, 10)]


def test_every_zone_that_was_run_closes(as_json: dict[str, Any]) -> None:
    errors = [z["closure_error_mm"] for z in as_json["zones"] if z["was_run"]]
    assert len(errors) == 7
    assert max(errors) < 1e-9


def test_lines_fit_a_terminal_of_eighty_columns() -> None:
    assert max(map(len, run("--zone", "Z4").stdout.splitlines())) <= 80


def test_one_zone_is_told_by_quarters() -> None:
    assert "driest" in run("--zone", "Z4").stdout


def test_a_better_uniformity_is_priced_in_water() -> None:
    assert "At DU 0.90" in run("--zone", "Z4", "--at-du", "0.9").stdout


def test_several_years_stand_side_by_side() -> None:
    # only the second demo has measured years
    asked = ["--zone", "A1", "--year", "2013", "--year", "2014"]
    both = CliRunner().invoke(main, ["season", "demo_sites/alder_flat", *asked])
    assert "2013 mm" in both.stdout
    assert "2014 mm" in both.stdout


def test_a_year_that_nobody_measured_is_refused() -> None:
    refused = run("--zone", "Z4", "--year", "2024")
    assert "there is no daily weather for 2024" in refused.output


def test_a_zone_that_is_not_there_is_named() -> None:
    wrong = run("--zone", "Z99")
    assert wrong.exit_code == 2
    assert "there is no zone 'Z99'" in wrong.output


def test_metric_and_us_name_their_unit() -> None:
    assert "put on mm" in run("--zone", "Z4", "--units", "metric").stdout
    assert "put on in" in run("--zone", "Z4").stdout
