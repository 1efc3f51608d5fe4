"""The lines and keys of leaching hold the plan's numbers."""

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from scheduler.files.demo import demo_source
from tests.salty import salty_site
from tui.cli import main


@pytest.fixture
def salty(tmp_path: Path) -> Path:
    return salty_site(tmp_path / "site")


def run(*words: str) -> str:
    result = CliRunner().invoke(main, list(words))
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result.output


def zone(folder: Path, zone_id: str) -> dict[str, Any]:
    output = CliRunner().invoke(main, ["week", str(folder), "--json"]).stdout
    return next(one for one in json.loads(output)["zones"] if one["zone"] == zone_id)


def test_the_week_of_a_salty_site_holds_target_and_quarters(salty: Path) -> None:
    made = zone(salty, "Z4")["leaching"]
    assert made["target"] == pytest.approx(0.18)
    assert made["requirement"] is None
    assert len(made["quarters"]) == 4
    assert made["leaching_factor"] == pytest.approx(1 / 0.82)


def test_a_soil_zone_under_salt_lists_the_leached_rule(salty: Path) -> None:
    # 0.9 / (5 x 1.0 - 0.9), FAO-29
    soil = [one for one in json.loads(
        CliRunner().invoke(main, ["week", str(salty), "--json"]).stdout
    )["zones"] if one["leaching"] and one["leaching"]["requirement"]]  # fmt: skip
    assert soil
    for one in soil:
        assert one["leaching"]["requirement"] == pytest.approx(0.9 / 4.1)
        assert one["rules"][-1]["rule"] == "low quarter, leached"


def test_explain_says_what_each_quarter_leaches_and_who_rules(salty: Path) -> None:
    text = " ".join(run("explain", str(salty), "Z4").split())
    assert "leaches, by quarter: driest" in text
    assert "leaching target 18%" in text
    assert text.count("never both") == 1


def test_explain_reaches_from_what_leaches_to_the_salt_of_the_water(
    salty: Path,
) -> None:
    text = run("explain", str(salty), "Z4", "driest_quarter_leaching")
    assert "water ec = 0.90 dS/m" in text


def test_zones_without_salt_keep_their_quarters_and_ask_for_nothing() -> None:
    made = zone(demo_source() / "tern_hollow", "Z4")["leaching"]
    assert (made["requirement"], made["target"]) == (None, None)
    assert len(made["quarters"]) == 4
