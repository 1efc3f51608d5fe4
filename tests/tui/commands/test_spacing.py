"""The spacing command: a published pattern, the map, cautions, refusals, exit codes."""

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from scheduler.files.demo import demo_source
from tui.cli import main

DEMO = demo_source() / "tern_hollow" / "profiles" / "yard-30.csv"
DEMO_HOW = ("--mouth", "4.25 in", "--minutes", "60")
MAP = ("--from", "20 ft", "--to", "50 ft", "--step", "2 ft")
# peak 10 at the head, a straight fall to the throw
CONE = "distance (m),rate (mm/h)\n0,10\n10,0\n"


@pytest.fixture
def cone(tmp_path: Path) -> str:
    path = tmp_path / "cone.csv"
    path.write_text(CONE, encoding="utf-8")
    return str(path)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["spacing", *arguments])


def answered(*arguments: str) -> dict[str, Any]:
    value = json.loads(run(*arguments, "--json").stdout)
    assert isinstance(value, dict)
    return value


# von Bernuth and Mecham, Defining the run time multiplier (n.d.), pp. 1-2, figure 1:
# four heads, triangular profile, peak 10, 50 by 70 % of the wetted diameter. Their grid
# is coarse and holds the edges, hence the tolerances.
@pytest.mark.parametrize(
    ("measure", "published", "tolerance"),
    [
        ("net_rate_mm_per_h", 7.8, 0.35),
        ("cu", 0.805, 0.015),
        ("du_lh", 0.810, 0.016),
        ("du_lq", 0.772, 0.03),
        ("lowest_rate_mm_per_h", 5.4, 0.6),
    ],
)
def test_the_published_pattern_comes_out_of_the_command(
    cone: str, measure: str, published: float, tolerance: float
) -> None:
    at = answered(cone, "--at", "10 x 14 m", "--layout", "rectangular")["at"]
    assert at[measure] == pytest.approx(published, abs=tolerance)


def test_the_demo_profile_answers_with_every_measure() -> None:
    result = run(str(DEMO), "--at", "30 x 30 ft", *DEMO_HOW, *MAP)
    assert result.exit_code == 0
    for name in (
        "precipitation rate, net", "DU low quarter", "DU low half", "CU",
        "scheduling coefficient", "driest 5% of the ground", "per acre",
    ):  # fmt: skip
        assert name in result.stdout


def test_the_demo_profile_holds_about_the_water_of_its_nozzle() -> None:
    flow = answered(str(DEMO), "--at", "30 ft", *DEMO_HOW)["profile"]["flow_l_per_min"]
    # packages.toml gives yard-30 4.6 gpm; drift and evaporation take a few percent
    assert 0.90 < flow / 3.785411784 / 4.6 < 1.0


def test_the_map_covers_every_pair_of_spacings() -> None:
    swept = answered(str(DEMO), "--at", "30 x 30 ft", *DEMO_HOW, *MAP)["sweep"]
    assert len(swept["du_lq"]) == len(swept["spacings_m"]) == 16
    assert all(len(row) == 16 for row in swept["net_rate_mm_per_h"])


def test_the_map_marks_the_spacing_asked_about_in_both_grids() -> None:
    text = run(str(DEMO), "--at", "30 x 30 ft", *DEMO_HOW, *MAP).stdout
    grids = text.partition("Across:")[0]
    assert grids.count("[") == 2


def test_no_line_is_wider_than_the_terminal() -> None:
    text = run(str(DEMO), "--at", "30 x 30 ft", *DEMO_HOW, *MAP).stdout
    assert max(len(line) for line in text.splitlines()) <= 80


def test_several_files_are_averaged(tmp_path: Path, cone: str) -> None:
    other = tmp_path / "other.csv"
    other.write_text(CONE.replace("0,10\n", "0,20\n"), encoding="utf-8")
    both = answered(cone, str(other), "--at", "10 m")["at"]["net_rate_mm_per_h"]
    one = answered(cone, "--at", "10 m")["at"]["net_rate_mm_per_h"]
    assert both == pytest.approx(1.5 * one)


def test_rates_shown_do_not_depend_on_how_they_were_typed(
    tmp_path: Path, cone: str
) -> None:
    other = tmp_path / "depth.csv"
    other.write_text("distance (m),depth (in)\n0,1\n10,0\n", encoding="utf-8")
    depth = answered(str(other), "--at", "10 m", "--minutes", "152.4")["at"]
    rate = answered(cone, "--at", "10 m")["at"]
    assert depth["net_rate_mm_per_h"] == pytest.approx(rate["net_rate_mm_per_h"])


def test_staggered_rows_are_equilateral_if_one_spacing_is_given(cone: str) -> None:
    at = answered(cone, "--at", "10 m", "--layout", "triangular")["at"]
    assert at["row_spacing_m"] == pytest.approx(8.660254)


def test_still_air_and_part_circles_are_said_beside_every_answer(cone: str) -> None:
    said = [one["what"] for one in answered(cone, "--at", "10 m")["findings"]]
    assert any("still air" in one for one in said)
    assert any("part-circle" in one for one in said)


def test_every_finding_has_a_remedy(cone: str) -> None:
    assert all(one["fix"] for one in answered(cone, "--at", "10 m")["findings"])


def test_a_layout_that_was_not_given_is_said(cone: str) -> None:
    said = answered(cone, "--at", "10 x 14 m")["findings"]
    assert any("taken as rectangular" in one["what"] for one in said)


def test_without_a_map_asked_for_the_answer_says_how_to_get_one(cone: str) -> None:
    value = answered(cone, "--at", "10 m")
    assert value["sweep"] is None
    assert any("--from" in one["fix"] for one in value["findings"])


def test_the_numbers_do_not_depend_on_the_units_shown(cone: str) -> None:
    us = answered(cone, "--at", "10 m", "--units", "us")
    metric = answered(cone, "--at", "10 m", "--units", "metric")
    assert us["at"] == metric["at"]


def test_a_leg_that_ends_wet_can_be_closed_with_the_throw(tmp_path: Path) -> None:
    path = tmp_path / "wet.csv"
    path.write_text("distance (m),rate (mm/h)\n0,10\n8,2\n", encoding="utf-8")
    open_end = answered(str(path), "--at", "9 m")
    closed = answered(str(path), "--at", "9 m", "--throw", "10 m")
    assert any("stops inside" in one["what"] for one in open_end["findings"])
    assert closed["profile"]["throw_m"] == 10.0
    assert not any(one["level"] == "warning" for one in closed["findings"])


# --- refusals ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("more", "message"),
    [
        (
            ("--at", "10 x 14 m", "--layout", "square"),
            "a square layout has one spacing",
        ),
        (("--at", "10 m", "--layout", "rectangular"), "--at: a rectangular layout"),
        (("--at", "300 ft"), "--at: 300 ft does not suit a throw of 32.808 ft"),
        (("--at", "10"), "has no unit"),
        (("--at", "10 m", "--from", "8 m"), "a map needs --to and --step as well"),
        (
            ("--at", "10 m", "--from", "8 m", "--to", "80 m", "--step", "4 m"),
            "--to: 262",
        ),
    ],
)
def test_what_cannot_be_is_a_usage_error(
    cone: str, more: tuple[str, ...], message: str
) -> None:
    result = run(cone, *more)
    assert result.exit_code == 2
    assert message in result.stderr


def test_volumes_without_a_mouth_are_a_usage_error_that_names_the_column() -> None:
    result = run(str(DEMO), "--at", "30 ft", "--minutes", "60")
    assert result.exit_code == 2
    assert "leg east (mL)" in result.stderr
    assert "--mouth" in result.stderr


def test_a_header_without_units_ends_with_3_and_names_file_and_line(
    tmp_path: Path,
) -> None:
    path = tmp_path / "bare.csv"
    path.write_text("distance,depth\n0,1\n9,0\n", encoding="utf-8")
    result = run(str(path), "--at", "9 m", "--minutes", "60")
    assert result.exit_code == 3
    assert f"{path}:1: distance" in "".join(result.stdout.split("\n    "))


def test_a_missing_file_ends_with_3() -> None:
    result = run("/no/such/file.csv", "--at", "9 m")
    assert result.exit_code == 3
    assert "is not there" in result.stdout


def test_a_file_named_twice_ends_with_3(cone: str) -> None:
    assert run(cone, cone, "--at", "10 m").exit_code == 3


def test_a_dry_leg_is_refused_with_1(tmp_path: Path) -> None:
    path = tmp_path / "dry.csv"
    path.write_text("distance (m),rate (mm/h)\n0,0\n9,0\n", encoding="utf-8")
    result = run(str(path), "--at", "9 m", "--json")
    assert result.exit_code == 1
    assert json.loads(result.stdout)["at"] is None
