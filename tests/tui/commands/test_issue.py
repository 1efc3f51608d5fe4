"""`lowquarter week --issue` and `lowquarter history` on the demo."""

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from scheduler.files.demo import demo_source
from tui.cli import main


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """The demo without the test that blocks a zone."""
    folder = shutil.copytree(demo_source() / "tern_hollow", tmp_path / "site")
    shutil.rmtree(folder / "tests" / "2026-05-27-Z9")
    return folder


@pytest.fixture
def blocked(tmp_path: Path) -> Path:
    return shutil.copytree(demo_source() / "tern_hollow", tmp_path / "site")


def run(*args: object, keys: str | None = None) -> Result:
    return CliRunner().invoke(main, [str(one) for one in args], input=keys)


def told(*args: object) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(run(*args, "--json").stdout)
    return found


def test_enter_alone_issues_a_week_that_has_nothing_odd(site: Path) -> None:
    done = run("week", site, "--issue", keys="\n")
    assert done.exit_code == 0
    assert "issued: weeks/2026-W24.json" in done.stderr
    assert (site / "weeks" / "2026-W24.json").exists()


def test_no_writes_nothing(site: Path) -> None:
    assert "not issued" in run("week", site, "--issue", keys="n\n").stderr
    assert not (site / "weeks").exists()


def test_nobody_there_to_answer_is_a_usage_error(site: Path) -> None:
    done = run("week", site, "--issue", keys="")
    assert done.exit_code == 2
    assert "--yes" in done.stderr
    assert not (site / "weeks").exists()


def test_a_week_that_is_issued_already_is_not_issued_twice(site: Path) -> None:
    run("week", site, "--issue", "--yes")
    again = run("week", site, "--issue", "--yes")
    assert again.exit_code == 0
    assert "issued already, and nothing changed" in again.stderr
    assert len(list((site / "weeks").iterdir())) == 1


def test_a_change_makes_a_revision(site: Path) -> None:
    run("week", site, "--issue", "--yes")
    text = (site / "zones.toml").read_text("utf-8")
    changed = text.replace("fixed_minutes = 6", "fixed_minutes = 7")
    (site / "zones.toml").write_text(changed, "utf-8")
    issued = told("week", site, "--issue", "--yes")["issued"]
    assert (issued["name"], issued["revision"]) == ("2026-W24.r2", 2)


def test_a_stop_finding_refuses_and_says_what_to_do(blocked: Path) -> None:
    done = run("week", blocked, "--issue", "--yes")
    assert done.exit_code == 1
    assert '--force "why"' in done.stderr
    assert not (blocked / "weeks").exists()


def test_a_reason_lets_a_stop_finding_pass_after_a_plain_yes(blocked: Path) -> None:
    forced = ("week", blocked, "--issue", "--force", "Z9 stays")
    assert "not issued" in run(*forced, keys="\n").stderr
    assert "issued: weeks/2026-W24.json" in run(*forced, keys="y\n").stderr


@pytest.mark.parametrize("option", [("--yes",), ("--force", "why")])
def test_options_of_issuing_need_it(site: Path, option: tuple[str, ...]) -> None:
    done = run("week", site, *option)
    assert done.exit_code == 2
    assert "add --issue" in done.stderr


def test_the_json_of_a_week_holds_what_was_issued(site: Path) -> None:
    assert told("week", site)["issued"] is None
    run("week", site, "--issue", "--yes")
    assert told("week", site)["issued"]["name"] == "2026-W24"


def test_the_json_holds_was_change_and_reason(site: Path) -> None:
    zone = told("week", site)["zones"][0]
    assert (zone["was_minutes"], zone["reason"]) == (25.0, "first plan; was as found")
    assert zone["change"] == pytest.approx(26 / 25 - 1)


def test_an_override_of_the_log_is_what_the_clock_holds(site: Path) -> None:
    zone = next(one for one in told("week", site)["zones"] if one["zone"] == "Z5")
    assert zone["was_minutes"] == 50.0
    assert zone["overrides"][0]["reason"] == "leaves rolled at the far end by noon"


def test_the_programs_of_the_json_are_those_to_key_in(site: Path) -> None:
    clock = told("week", site)["clock"]
    assert clock["percent_adjust"] == 100
    assert {"days", "starts", "stations", "name"} == set(clock["programs"][0])


def test_the_clock_is_shown_when_asked_for(site: Path) -> None:
    assert "percent adjust must read 100" in run("week", site, "--clock").stdout
    assert "percent adjust must read" not in run("week", site).stdout


def test_the_history_tells_weeks_reasons_and_overrides(site: Path) -> None:
    run("week", site, "--issue", "--yes")
    run("week", site, "--issue", "--yes", "--start", "2026-06-15")
    found = told("history", site)
    assert [one["name"] for one in found["weeks"]] == ["2026-W24", "2026-W25"]
    zones = {one["zone"]: one for one in found["weeks"][1]["zones"]}
    assert zones["Z1"]["was_minutes"] == 26
    assert zones["Z1"]["reason"].startswith("weather down")
    first = {one["zone"]: one for one in found["weeks"][0]["zones"]}
    assert first["Z5"]["overrides"][0]["minutes"] == 50.0


def test_the_history_of_one_zone(site: Path) -> None:
    run("week", site, "--issue", "--yes")
    done = run("history", site, "--zone", "Z4")
    assert done.exit_code == 0
    assert "Z5" not in done.stdout


def test_a_damaged_week_ends_with_three_and_hides_no_other(site: Path) -> None:
    run("week", site, "--issue", "--yes")
    run("week", site, "--issue", "--yes", "--start", "2026-06-15")
    (site / "weeks" / "2026-W24.json").write_text("{", "utf-8")
    done = run("history", site)
    assert done.exit_code == 3
    assert "2026-W25" in done.stdout
    assert "weeks/2026-W24.json" in done.stdout


def test_an_unknown_zone_is_a_usage_error(site: Path) -> None:
    assert run("history", site, "--zone", "Z99").exit_code == 2


def test_a_zone_that_is_gone_has_its_history_still(site: Path) -> None:
    run("week", site, "--issue", "--yes")
    zones = site / "zones.toml"
    text = zones.read_text(encoding="utf-8")
    zones.write_text(text.replace('id = "Z4"', 'id = "Z40"'), encoding="utf-8")
    assert "Z4     24   33" in run("history", site, "--zone", "Z4").stdout
