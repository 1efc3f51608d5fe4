"""`report economics` and `report before-after` on the demo."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from scheduler.files.demo import demo_source
from tui.cli import main

DEMO = demo_source() / "tern_hollow"


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["report", str(DEMO), *arguments])


def test_economics_of_a_zone_hold_its_options_only() -> None:
    text = run("economics", "--zone", "z5").stdout
    assert "P5 new heads" in text
    assert "T4 tune up" not in text


def test_another_price_is_that_of_the_pages() -> None:
    made = json.loads(run("economics", "--zone", "Z5", "--price", "4/kgal",
                          "--json").stdout)  # fmt: skip
    assert made["water_price_money_per_m3"] == pytest.approx(4 / 3.785411784)


def test_a_zone_that_is_not_there_is_refused() -> None:
    result = run("economics", "--zone", "Z77")
    assert result.exit_code == 2
    assert "Z77" in result.stderr


def test_before_and_after_are_asked_for() -> None:
    assert run("before-after", "--before", "2025").exit_code == 2


@pytest.mark.parametrize("ending", [".html", ".pdf"])
def test_the_grant_sheet_is_written(tmp_path: Path, ending: str) -> None:
    file = tmp_path / f"grant{ending}"
    result = run("before-after", "--before", "2026-04-06..2026-05-18", "--after",
                 "2026-05-18..2026-06-08", "-o", str(file))  # fmt: skip
    assert result.exit_code == 0
    assert file.stat().st_size > 1000


def test_the_grant_sheet_says_what_is_in_doubt() -> None:
    text = run("before-after", "--before", "2025", "--after", "2026").stdout
    assert "nothing is claimed" in text
    assert "no meter tells the water of 2025" in " ".join(text.split())
