"""The command line: results on stdout, messages on stderr, exit codes as documented."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import click
import pytest
from click.testing import CliRunner, Result

from scheduler.files.demo import demo_source
from tui.cli import COMMANDS, main

FIRST_VISIT = (
    "41 52 60 48 66 71 58 39 | 55 63 74 69 47 36 59 68 | 50 44 62 57 33 53 65 70"
)
HEAD = ("--flow", "4.6 gpm", "--area", "900 ft2")
TAILGATE = ("--unit", "mL", "--mouth", "4.25 in", "--minutes", "30")


def run(*arguments: str, stdin: str | None = None) -> Result:
    return CliRunner().invoke(main, list(arguments), input=stdin)


def answered(*arguments: str, stdin: str | None = None) -> dict[str, Any]:
    value = json.loads(run(*arguments, "--json", stdin=stdin).stdout)
    assert isinstance(value, dict)
    return value


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    folder = tmp_path / "demo"
    shutil.copytree(demo_source() / "tern_hollow", folder)
    return folder


def digest(folder: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


# --- the tailgate ------------------------------------------------------------


def test_the_tailgate_answer_needs_no_folder() -> None:
    one = answered("cans", FIRST_VISIT, *TAILGATE, *HEAD)["run"]
    assert one["n_cans"] == 24
    assert one["mean_ml"] == pytest.approx(55.8, abs=0.05)
    assert one["du_lq"] == pytest.approx(0.72, abs=0.005)
    assert one["net_rate_mm_per_h"] / 25.4 == pytest.approx(0.48, abs=0.005)
    assert one["net_over_gross"] == pytest.approx(0.98, abs=0.005)


def test_the_tailgate_range_stands_lower_than_the_worked_one() -> None:
    # worked by plain 5-to-95 percentiles as about 0.67 to 0.79; they are biased upwards
    one = answered("cans", FIRST_VISIT, *TAILGATE)["run"]
    assert 0.60 < one["du_lq_low"] < 0.67
    assert 0.72 < one["du_lq_high"] < 0.79
    assert 0.85 < one["range_level"] < 0.95


def test_a_wrong_mouth_stops_with_exit_1_and_leaves_the_uniformity() -> None:
    result = run(
        "cans", FIRST_VISIT, "--mouth", "3.0 in", "--minutes", "30", *HEAD, "--json"
    )
    assert result.exit_code == 1
    value = json.loads(result.stdout)
    assert value["run"]["du_lq"] == pytest.approx(0.72, abs=0.005)
    assert any("196" in one["what"] for one in value["findings"])


def test_without_mouth_or_minutes_uniformity_stands_and_rate_is_refused() -> None:
    one = answered("cans", FIRST_VISIT)["run"]
    assert one["net_rate_mm_per_h"] is None
    assert one["du_lq"] == pytest.approx(0.72, abs=0.005)


def test_readings_come_from_standard_input_too() -> None:
    one = answered("cans", "--from", "-", *TAILGATE, stdin=FIRST_VISIT)["run"]
    assert one["n_cans"] == 24


def test_readings_come_from_a_file_too(tmp_path: Path) -> None:
    path = tmp_path / "run.txt"
    path.write_text(FIRST_VISIT.replace(" | ", "\n"), encoding="utf-8")
    assert answered("cans", "--from", str(path), *TAILGATE)["run"]["n_cans"] == 24


def test_readings_that_begin_with_a_dash_go_after_two_dashes() -> None:
    result = run("cans", *TAILGATE, "--json", "--", "- 41 52 66 60 48")
    assert json.loads(result.stdout)["run"]["n_cans"] == 5


def test_a_negative_reading_is_refused_by_name() -> None:
    result = run("cans", *TAILGATE, "--", "-12 41 52 66 60 48")
    assert result.exit_code == 1
    assert "-12" in result.stdout


def test_all_zero_asks_for_the_valve_not_for_a_uniformity() -> None:
    result = run("cans", "0 0 0 0 0 0 0 0", *TAILGATE)
    assert result.exit_code == 1
    assert "valve" in result.stdout


def test_a_mouth_without_unit_is_a_usage_error_that_names_the_units() -> None:
    result = run("cans", FIRST_VISIT, "--mouth", "4.25", "--minutes", "30")
    assert result.exit_code == 2
    assert "has no unit" in result.stderr


def test_a_missing_readings_file_ends_with_3() -> None:
    result = run("cans", "--from", "/no/such/file", *TAILGATE)
    assert result.exit_code == 3
    assert "/no/such/file" in result.stderr


# --- sites ---------------------------------------------------------------------


def test_a_new_site_lacks_nothing_but_weather(tmp_path: Path) -> None:
    folder = tmp_path / "nursery"
    assert run("new", str(folder)).exit_code == 0
    found = answered("inspect", str(folder))["findings"]
    stops = [f for f in found if f["level"] == "stop"]
    assert len(stops) == 1
    assert "weather" in f"{stops[0]['where']} {stops[0]['what']}"


def test_new_never_writes_over_a_folder(tmp_path: Path) -> None:
    (tmp_path / "kept.txt").write_text("mine", encoding="utf-8")
    assert run("new", str(tmp_path)).exit_code != 0
    assert [path.name for path in tmp_path.iterdir()] == ["kept.txt"]


def test_a_missing_folder_ends_with_3_and_says_how_to_make_one() -> None:
    result = run("inspect", "/no/such/site")
    assert result.exit_code == 3
    assert "lowquarter new" in result.stderr


def test_the_demo_prints_its_week_without_a_terminal(tmp_path: Path) -> None:
    result = run("demo", str(tmp_path / "here"))
    assert result.exit_code == 0
    assert "Tern Hollow" in result.stdout
    assert "Z4" in result.stdout


def test_the_demo_keeps_what_was_copied_before(tmp_path: Path) -> None:
    folder = tmp_path / "here"
    run("demo", str(folder))
    (folder / "rain.csv").write_text("date,rain (in)\n", encoding="utf-8")
    assert run("demo", str(folder)).exit_code == 0
    assert (folder / "rain.csv").read_text("utf-8") == "date,rain (in)\n"


def test_the_demo_never_writes_into_a_folder_of_something_else(tmp_path: Path) -> None:
    (tmp_path / "kept.txt").write_text("mine", encoding="utf-8")
    result = run("demo", str(tmp_path))
    assert result.exit_code == 1
    assert [path.name for path in tmp_path.iterdir()] == ["kept.txt"]


def test_the_week_of_the_demo_has_every_key_of_the_format(demo: Path) -> None:
    value = answered("week", str(demo))
    assert value["format"] == 1
    keys = (
        "zone status eto_mm kc etc_mm effective_rain_mm need_mm rule factor rules "
        "gross_depth_mm minutes_exact minutes_week days minutes_per_day cycles "
        "cycle_minutes soak_minutes was_minutes realised_depth_mm quarters findings"
    )
    for one in value["zones"]:
        assert set(keys.split()) <= set(one)
    summary = (
        "fits minutes_short gap_to_bound peak_flow_l_per_min pump_l_per_min windows"
    )
    assert set(summary.split()) <= set(value["summary"])


def test_planning_changes_nothing_on_disk(demo: Path) -> None:
    before = digest(demo)
    for command in ("inspect", "evaluate", "week"):
        run(command, str(demo))
    run("explain", str(demo), "Z4")
    assert digest(demo) == before


def test_the_evaluation_of_the_demo_has_every_key_of_the_format(demo: Path) -> None:
    tests = answered("evaluate", str(demo))["tests"]
    keys = (
        "n_cans mean_ml mean_depth_mm net_rate_mm_per_h gross_rate_mm_per_h "
        "net_over_gross du_lq du_lq_low du_lq_high range_level du_lh cu cv "
        "wind_m_per_s wind_gust_m_per_s wind_direction_deg wind_logged"
    )
    assert tests
    for test in tests:
        assert {"zone", "test", "condition", "runs", "pooled", "findings"} <= set(test)
        for one in test["runs"]:
            assert set(keys.split()) <= set(one)


def test_one_zone_can_be_evaluated_alone(demo: Path) -> None:
    tests = answered("evaluate", str(demo), "--zone", "Z4")["tests"]
    assert {test["zone"] for test in tests} == {"Z4"}


def test_a_zone_that_is_not_there_is_a_usage_error_with_the_known_ones(
    demo: Path,
) -> None:
    result = run("explain", str(demo), "Z99")
    assert result.exit_code == 2
    assert "Z4" in result.stderr


def test_explain_prints_the_chain_from_the_cans_to_the_minutes(demo: Path) -> None:
    text = run("explain", str(demo), "Z4").stdout
    assert text.index("net rate") < text.index("minutes per day")


def test_explain_can_start_from_one_quantity(demo: Path) -> None:
    value = answered("explain", str(demo), "Z4", "net_rate_mm_per_h")
    assert value["chain"][-1]["name"] == "net_rate_mm_per_h"


def test_explain_explains_the_week_that_was_asked_for(demo: Path) -> None:
    asked = ("explain", str(demo), "Z4", "eto_mm")
    one, two = answered(*asked), answered(*asked, "--start", "2026-07-06")
    assert one["chain"][-1]["value"] != two["chain"][-1]["value"]


def test_a_stated_result_is_shown_with_its_source(demo: Path) -> None:
    folder = demo / "tests" / "2026-06-01-Z3"
    folder.mkdir()
    text = (
        'format = 1\nzone = "Z3"\ndate = 2026-06-01\ncondition = "as found"\n'
        '[stated]\ndu_lq = 0.71\nnet_rate_in_per_h = 0.45\nsource = "a report"\n'
    )
    (folder / "test.toml").write_text(text, encoding="utf-8")
    (test,) = answered("evaluate", str(demo), "--zone", "Z3")["tests"]
    assert (test["stated"]["du_lq"], test["stated"]["source"]) == (0.71, "a report")
    assert "a report" in run("evaluate", str(demo), "--zone", "Z3").stdout


def test_a_bad_test_file_ends_with_3_and_the_other_zones_are_planned(
    demo: Path,
) -> None:
    broken = next((demo / "tests").glob("*Z4*/test.toml"))
    broken.write_bytes(b"\xff\xfe\x00not text")
    result = run("week", str(demo), "--json")
    assert result.exit_code == 3
    value = json.loads(result.stdout)
    assert sum(one["status"] == "planned" for one in value["zones"]) >= 4


def test_numbers_in_json_do_not_depend_on_the_units_shown(demo: Path) -> None:
    us = run("week", str(demo), "--units", "us", "--json").stdout
    metric = run("week", str(demo), "--units", "metric", "--json").stdout
    assert us == metric


def test_text_follows_the_units_asked_for(demo: Path) -> None:
    assert " mm" in run("week", str(demo), "--units", "metric").stdout
    assert " in" in run("week", str(demo), "--units", "us").stdout


# --- the process as a whole ----------------------------------------------------


def process(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", "from tui.cli import main; main()", *arguments],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=60,
        env=os.environ | {"PYTHONWARNINGS": "error"},
        check=False,
    )


def test_the_dashboard_without_a_terminal_says_so_and_ends_with_2(demo: Path) -> None:
    done = process("open", str(demo))
    assert done.returncode == 2
    assert "needs a terminal" in done.stderr


def test_an_unknown_command_ends_with_2() -> None:
    assert process("sprinkle").returncode == 2


def test_the_version_is_said() -> None:
    assert "0.1.0" in process("--version").stdout


def test_completion_is_printed_for_bash() -> None:
    assert "_LOWQUARTER_COMPLETE" in run("completion", "bash").stdout


@pytest.mark.parametrize(
    ("option", "value", "said"),
    [
        ("--mouth", "0 in", "--mouth is '0 in'; it must be above 0"),
        ("--mouth", "-4.25 in", "it must be above 0"),
        ("--area", "0 ft2", "--area is '0 ft2'; it must be above 0"),
        ("--flow", "-4 gpm", "it must be above 0"),
        ("--minutes", "0:30", "such as --minutes 30 for half an hour"),
    ],
)
def test_a_size_that_cannot_be_is_a_usage_error(
    option: str, value: str, said: str
) -> None:
    done = run("cans", FIRST_VISIT, *TAILGATE, *HEAD, option, value)
    assert (done.exit_code, done.stdout) == (2, "")
    assert said in done.stderr


def test_a_flow_without_its_ground_is_not_passed_over() -> None:
    done = run("cans", FIRST_VISIT, *TAILGATE, "--flow", "4.6 gpm")
    assert done.exit_code == 2
    assert "--area" in done.stderr


def test_the_tailgate_speaks_of_its_options_not_of_keys() -> None:
    done = run("cans", FIRST_VISIT)
    assert "--mouth" in done.stdout
    assert "mouth_in" not in done.stdout


def test_readings_that_begin_with_a_dash_are_told_where_to_go() -> None:
    done = run("cans", "- 41 52 60 48", *TAILGATE)
    assert done.exit_code == 2
    assert "go last, after `--`" in done.stderr


def test_a_byte_order_mark_on_standard_input_is_no_reading() -> None:
    stdin = "\ufeff41 52 60 48"
    assert answered("cans", "--from", "-", *TAILGATE, stdin=stdin)["run"]["n_cans"] == 4


def test_a_week_beyond_the_calendar_is_refused(demo: Path) -> None:
    done = run("week", str(demo), "--start", "9999-12-31")
    assert done.exit_code == 2
    assert "cannot be planned" in done.stderr


def test_explaining_a_zone_that_the_weather_blocks_says_so(demo: Path) -> None:
    for path in (demo / "weather").iterdir():
        path.unlink()
    done = run("explain", str(demo), "Z1")
    assert done.exit_code == 1
    assert "nothing says what ETo to expect" in done.stdout


def test_a_demo_on_a_full_disk_says_it_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        one = ("a.toml", "b.toml", "[Errno 28] No space left on device: 'a.toml'")
        raise shutil.Error([one] * 30)

    monkeypatch.setattr(shutil, "copytree", full)
    done = run("demo", str(tmp_path / "yard"))
    assert done.exit_code == 1
    assert "(No space left on device)" in done.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_every_command_of_the_table_is_there_under_its_name(name: str) -> None:
    command = main.get_command(click.Context(main), name)
    assert command is not None
    assert command.name == name


def test_a_slip_in_a_name_is_answered_with_the_near_one() -> None:
    slip = CliRunner().invoke(main, ["wek", "somewhere"])
    assert slip.exit_code == 2
    assert "Did you mean 'week'?" in slip.output
