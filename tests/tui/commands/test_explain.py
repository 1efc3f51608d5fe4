"""`lowquarter explain SITE ZONE --season` on the demo."""

import json

from click.testing import CliRunner, Result

from tui.cli import main

DEMO = "demo_sites/tern_hollow"


def run(*args: str) -> Result:
    return CliRunner().invoke(main, ["explain", DEMO, *args])


def test_the_chain_of_a_season_ends_with_the_water_put_on() -> None:
    text = run("Z4", "--season").stdout
    assert text.index("cans") < text.index("net rate") < text.index("applied")


def test_a_number_of_one_quarter_can_be_asked_for() -> None:
    chain = json.loads(run("Z4", "stress_days[driest]", "--season", "--json").stdout)
    assert chain["chain"][-1]["name"] == "stress_days[driest]"


def test_it_is_the_number_of_the_season() -> None:
    told = json.loads(run("Z4", "volume_m3", "--season", "--json").stdout)
    args = ["season", DEMO, "--zone", "Z4", "--json"]
    season = json.loads(CliRunner().invoke(main, args).stdout)
    assert told["chain"][-1]["value"] == season["zones"][0]["volume_m3"]


def test_an_unknown_number_is_refused_with_the_known_ones() -> None:
    done = run("Z4", "nothing", "--season")
    assert done.exit_code == 2
    assert "deep_percolation_mm" in done.stderr


def test_a_zone_without_season_says_why() -> None:
    done = run("Z8", "--season")
    assert done.exit_code == 2
    assert "fixed minutes and no plant" in done.stderr


def test_a_start_belongs_to_a_week() -> None:
    done = run("Z4", "--season", "--start", "2026-06-08")
    assert done.exit_code == 2
    assert "--start is of a week" in done.stderr


def test_a_year_belongs_to_a_season() -> None:
    done = run("Z4", "--year", "2025")
    assert done.exit_code == 2
    assert "--year needs --season" in done.stderr


def test_no_line_is_wider_than_eighty_columns() -> None:
    assert max(map(len, run("Z4", "--season").stdout.splitlines())) <= 80
