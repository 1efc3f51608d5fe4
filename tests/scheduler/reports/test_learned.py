"""The lines and keys of what was learned hold the plan's numbers."""

import datetime as dt
import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from scheduler.files.demo import demo_source
from scheduler.plan import ZonePlan
from scheduler.reports.learned import learned_json, learned_line, learned_text
from scheduler.trace import entered
from tests.scheduler.proof.test_zone_learning import EVEN, taught
from tests.scheduler.proof.yard import pots_of_check, yard
from tui.cli import main

DEMO = demo_source() / "tern_hollow"


def run(*words: str) -> str:
    return CliRunner().invoke(main, list(words)).output


def zone_of(folder: Path, zone_id: str = "Z4") -> dict[str, Any]:
    output = CliRunner().invoke(main, ["week", str(folder), "--json"]).stdout
    return next(one for one in json.loads(output)["zones"] if one["zone"] == zone_id)


def site(folder: Path, old: str = "", new: str = "") -> Path:
    """The demo site with its log changed, and the noted spacing in the zone file."""
    shutil.copytree(DEMO, folder)
    log = folder / "log.csv"
    text = log.read_text("utf-8")
    assert old in text
    log.write_text(text.replace(old, new), encoding="utf-8")
    return folder


@pytest.fixture
def confirmed(tmp_path: Path) -> Path:
    return site(tmp_path / "site", "spacing 16 in", "spacing 14 in")


def test_the_week_says_in_a_line_what_is_not_used() -> None:
    assert "Z4    0.82 not used  (0.62–1.09)  1 leaching check" in run(
        "week", str(DEMO)
    )


def test_a_zone_without_a_line_in_the_log_has_no_line() -> None:
    text = run("week", str(DEMO)).split("learned from the log:")[1].split("Clock:")[0]
    assert "Z5" not in text


def test_a_confirmed_spacing_lets_the_week_follow(confirmed: Path) -> None:
    was, now = zone_of(DEMO), zone_of(confirmed)
    assert was["learned"]["kc_correction"] == 1.0
    factor = now["learned"]["kc_correction"]
    assert now["etc_mm"] == pytest.approx(was["etc_mm"] * factor)
    assert now["minutes_per_day"] < was["minutes_per_day"]


def test_explain_holds_the_correction_in_its_chain(confirmed: Path) -> None:
    text = " ".join(run("explain", str(confirmed), "Z4", "kc_correction").split())
    assert "use ratio of 2026-06-02 leaching check, log.csv:23 = 0.591" in text


def test_explain_tells_the_check_by_itself() -> None:
    text = " ".join(run("explain", str(DEMO), "Z4").split())
    assert (
        "leaching check of 3 Jun, 6 pots: 38% by volume (27%–49%), driest 12% at E2, "
        "target 15%: 24 min → 22 (17.5 by the mean, 21.1 by the driest pot), or "
        "percent adjust 92 % instead, not both"
    ) in text


def test_explain_shows_the_chain_of_the_checks_minutes() -> None:
    assert "driest pot" in run("explain", str(DEMO), "Z4", "check_minutes_min")


def test_json_holds_the_check() -> None:
    check = zone_of(DEMO)["learned"]["check"]
    assert (check["new_minutes"], check["percent_of_clock"]) == (22, 92)
    assert check["floor_min"] == pytest.approx(21.1, abs=0.05)


def test_json_is_null_without_evidence() -> None:
    assert zone_of(DEMO, "Z1")["learned"] is None


def test_learn_false_in_the_site_file_takes_it_back(confirmed: Path) -> None:
    toml = confirmed / "site.toml"
    text = toml.read_text("utf-8")
    toml.write_text(text.replace("rounding =", "learn = false\nrounding ="), "utf-8")
    now, was = zone_of(confirmed), zone_of(DEMO)
    assert now["minutes_exact"] == was["minutes_exact"]
    assert now["learned"]["why_not"] == "learn = false in site.toml"


def test_a_log_without_evidence_plans_to_the_last_bit_as_no_log(tmp_path: Path) -> None:
    bare, noted = site(tmp_path / "bare"), site(tmp_path / "noted")
    lines = (noted / "log.csv").read_text("utf-8").splitlines()
    # an override is what the clock holds, so it stands in the week as well
    taught_by = (",leaching,", ",pot weight,", ",override,")
    kept = [one for one in lines if not any(what in one for what in taught_by)]
    (noted / "log.csv").write_text("\n".join(kept) + "\n", encoding="utf-8")
    (bare / "log.csv").unlink()
    assert [zone_of(noted, f"Z{i}") for i in (4, 5)] == [
        zone_of(bare, f"Z{i}") for i in (4, 5)
    ]


def plan(**parts: Any) -> ZonePlan:
    trace = entered("minutes_per_day", 24.0)
    return ZonePlan(yard(), "planned", (), trace, (dt.date(2026, 6, 8),), **parts)


def test_a_used_correction_stands_in_the_line() -> None:
    found = taught(*pots_of_check(EVEN))
    assert f"use x {found.factor:.2f}" in learned_line(plan(learned=found))


def test_nothing_learned_has_no_text() -> None:
    assert (learned_text(plan()), learned_line(plan()), learned_json(None)) == (
        "",
        "",
        None,
    )


def test_the_drift_is_told_week_by_week() -> None:
    found = taught(*pots_of_check(EVEN, dt.date(2026, 5, 20)), *pots_of_check(EVEN))
    assert "20" in learned_text(plan(learned=found))
    assert "week by week: 25 May" in learned_text(plan(learned=found))


def test_a_check_without_minutes_has_no_change_in_its_text() -> None:
    found = taught(*pots_of_check(minutes=None))
    assert "→" not in learned_text(plan(learned=found))
    made = learned_json(found)
    assert made is not None
    assert made["check"]["new_minutes"] is None
