"""An option that was done, on a copy of the demo: forecast and re-tested apart."""

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from scheduler.files.demo import demo_source
from tui.cli import main

RETEST = """\
format = 1
zone = "Z4"
date = 2026-06-02
condition = "after respacing"
package = "yard-20x30"
[can]
mouth_in = 4.25
unit = "mL"
[[run]]
file = "run1.csv"
minutes = 30
"""
# every can half as far from the mean of 56.2 mL as before: DU from 0.72 to 0.86
EVENER = """\
49,54,58,52,61,64,57,48
56,60,65,63,52,46,58,62
53,50,59,57,45,55,61,63
"""


@pytest.fixture(scope="module")
def done(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Z4 re-spaced on 20 May."""
    folder = tmp_path_factory.mktemp("site") / "demo"
    shutil.copytree(demo_source() / "tern_hollow", folder)
    path = folder / "options.toml"
    text = path.read_text("utf-8")
    path.write_text(
        text.replace("tested_days = 4\n", "tested_days = 4\ndone_on = 2026-05-20\n", 1),
        encoding="utf-8",
    )
    zones = folder / "zones.toml"
    before, after = zones.read_text("utf-8").split('id = "Z4"', 1)
    after = after.replace('package = "yard-30"', 'package = "yard-20x30"', 1)
    zones.write_text(f'{before}id = "Z4"{after}', encoding="utf-8")
    return folder


def retested(done: Path) -> Path:
    test = done / "tests" / "2026-06-02-Z4"
    test.mkdir(exist_ok=True)
    (test / "test.toml").write_text(RETEST, encoding="utf-8")
    (test / "run1.csv").write_text(EVENER, encoding="utf-8")
    return done


def option(folder: Path) -> dict[str, Any]:
    result = CliRunner().invoke(main, ["cost", str(folder), "--zone", "Z4", "--json"])
    found: list[dict[str, Any]] = json.loads(result.stdout)["options"]
    return next(one for one in found if one["id"] == "R4")


@pytest.fixture(scope="module")
def before(done: Path) -> dict[str, Any]:
    return option(done)


@pytest.fixture(scope="module")
def after(done: Path, before: dict[str, Any]) -> dict[str, Any]:
    assert before, "asked before there is a test"
    return option(retested(done))


def test_until_it_is_tested_again_nothing_is_realised(before: dict[str, Any]) -> None:
    actual = before["actual"][0]
    assert (actual["saved_m3"], actual["why"]) == (None, "not re-tested yet")


def test_the_test_after_it_tells_what_was_realised_beside_the_forecast(
    after: dict[str, Any],
) -> None:
    actual = after["actual"][0]
    assert actual["du_lq_before"] == pytest.approx(0.716, abs=1e-3)
    assert actual["du_lq_after"] > 0.84
    assert actual["saved_m3"] > 0
    assert after["potential_saved_m3"] > 0
    assert actual["saved_m3"] != pytest.approx(after["potential_saved_m3"])


def test_now_stays_as_it_was_before_and_then_as_it_was_forecast(
    after: dict[str, Any],
) -> None:
    du = after["du"][0]
    assert du["now"]["du_lq"] == pytest.approx(0.716, abs=1e-3)
    assert du["then"]["source"].startswith("invented: a trial cell")
