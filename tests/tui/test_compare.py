"""Wind and packages at the command line."""

import json
import re
import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from scheduler.files.demo import demo_source
from tui.cli import main


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments))


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    return Path(shutil.copytree(demo_source() / "tern_hollow", tmp_path / "demo"))


def without_log(demo: Path) -> Path:
    toml = demo / "site.toml"
    text = toml.read_text("utf-8")
    cut = re.sub(r"\[\[wind_log\]\].*?(?=\[\[window\]\])", "", text, flags=re.DOTALL)
    toml.write_text(cut, "utf-8")
    return demo


def first_run(demo: Path, zone: str) -> dict[str, Any]:
    result = run("evaluate", str(demo), "--zone", zone, "--json")
    one = json.loads(result.stdout)["tests"][0]["runs"][0]
    assert isinstance(one, dict)
    return one


def test_logged_wind_stands_in_the_evaluation(demo: Path) -> None:
    one = first_run(demo, "Z2")
    assert one["wind_logged"] == 1.0
    assert one["wind_m_per_s"] / 0.44704 == pytest.approx(2.8, abs=0.5)
    assert one["wind_gust_m_per_s"] > one["wind_m_per_s"]
    assert 180 < one["wind_direction_deg"] < 270


def test_the_band_stands_in_the_text(demo: Path) -> None:
    assert ": calm (yard logger, 100% logged)" in " ".join(
        run("evaluate", str(demo)).stdout.split()
    )


def test_typed_wind_stands_where_there_is_no_log(demo: Path) -> None:
    one = first_run(without_log(demo), "Z4")
    assert one["wind_m_per_s"] == pytest.approx(2.5 * 0.44704)
    assert (one["wind_logged"], one["wind_gust_m_per_s"]) == (None, None)


def test_without_log_and_typed_wind_it_is_unknown(demo: Path) -> None:
    assert first_run(without_log(demo), "Z2")["wind_m_per_s"] is None


def test_the_comparison_has_every_key_of_the_format(demo: Path) -> None:
    value = json.loads(run("compare", str(demo), "--wind", "4 mph", "--json").stdout)
    keys = (
        "a b wind_m_per_s difference difference_low difference_high "
        "tie_wind_m_per_s verdict runs_needed why days_needed extrapolated confounded"
    )
    assert value["packages"]
    assert value["pairs"]
    for one in value["pairs"]:
        assert set(keys.split()) <= set(one)
        assert one["verdict"] == "not proven"
        assert one["wind_m_per_s"] == pytest.approx(4 * 0.44704)


def test_not_proven_is_said_in_plain_words(demo: Path) -> None:
    text = " ".join(run("compare", str(demo), "--wind", "4 mph").stdout.split())
    assert "not proven. The tests do not tell" in text
    assert "not comparable yet" in text
    assert "two different winds" in text


def test_the_demo_compares_at_the_wind_of_its_night(demo: Path) -> None:
    result = run("compare", str(demo))
    assert result.exit_code == 0
    text = " ".join(result.stdout.split())
    assert "irrigation hours in 12 months of the log mast" in text
    assert "expected DU at the usual wind" in text


def test_a_condition_can_be_chosen(demo: Path) -> None:
    value = json.loads(
        run("compare", str(demo), "--condition", "after tune-up", "--json").stdout
    )
    first = value["packages"][0]
    assert (first["condition"], first["n_runs"]) == ("after tune-up", 1)


def test_a_condition_that_nobody_found_ends_with_2(demo: Path) -> None:
    result = run("compare", str(demo), "--condition", "worn")
    assert result.exit_code == 2
    assert "as found, after tune-up" in result.stderr


def test_without_a_wind_to_compare_at_it_is_asked_for(demo: Path) -> None:
    result = run("compare", str(without_log(demo)))
    assert result.exit_code == 2
    assert '--wind "4 mph"' in result.stderr


@pytest.mark.parametrize("wind", ["4", "4 in", "calm", "-4 mph", "400 mph"])
def test_a_wind_that_is_none_ends_with_2(demo: Path, wind: str) -> None:
    assert run("compare", str(demo), "--wind", wind).exit_code == 2


def test_numbers_do_not_depend_on_the_units_shown(demo: Path) -> None:
    us, metric = (
        run("compare", str(demo), "--wind", "4 mph", "--units", one, "--json").stdout
        for one in ("us", "metric")
    )
    assert us == metric
