"""`lowquarter week` and what it shows of the night."""

import json

from click.testing import CliRunner

from tui.cli import main

DEMO = "demo_sites/alder_flat"


def run(*args: str) -> str:
    return CliRunner().invoke(main, ["week", DEMO, *args]).stdout


def test_the_wind_of_the_planned_hours_is_shown_beside_that_of_the_tests() -> None:
    text = run()
    assert "Wind of the planned hours, counted in the minutes:" in text
    assert "A2  1.4 m/s (tests 0.7 m/s): DU 0.68 (tests 0.73)" in text


def test_the_json_has_both() -> None:
    zones = {one["zone"]: one for one in json.loads(run("--json"))["zones"]}
    moved, fixed = zones["A2"], zones["A5"]
    assert moved["du_at_planned_hours"] < moved["du_of_tests"]
    assert moved["minutes_exact"] > moved["minutes_exact_from_tests"]
    assert fixed["du_at_planned_hours"] is None


def test_without_an_issued_week_the_moves_say_why() -> None:
    assert "no earlier issued week tells its starts" in run("--moves")


def test_the_moves_are_one_object() -> None:
    found = json.loads(run("--moves", "--json"))
    assert (found["format"], found["points"], found["compared_by"]) == (1, [], "water")
