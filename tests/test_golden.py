"""Each demo site end to end; a number that moves here needs its reason in the commit.

Written anew by: python -m tests.test_golden
"""

import json
import re
import shlex
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from scheduler.files.demo import demo_source
from tui.cli import main

TOP = Path(__file__).parent.parent
GOLDEN = Path(__file__).parent / "golden"
EXACT = [
    "zone",
    "status",
    "rule",
    "days",
    "minutes_per_day",
    "cycles",
    "cycle_minutes",
    "soak_minutes",
]
CLOSE = [
    "eto_mm",
    "kc",
    "need_mm",
    "factor",
    "gross_depth_mm",
    "minutes_exact",
    "realised_depth_mm",
]


def week_of(site: str) -> list[dict[str, Any]]:
    """The parts of a site's week that people act on."""
    result = CliRunner().invoke(main, ["week", str(demo_source() / site), "--json"])
    zones = json.loads(result.stdout)["zones"]
    return [{key: zone[key] for key in (*EXACT, *CLOSE)} for zone in zones]


@pytest.mark.parametrize("path", sorted(GOLDEN.glob("*.json")), ids=lambda p: p.stem)
def test_the_week_of_a_demo_site_is_as_it_was(path: Path) -> None:
    was = json.loads(path.read_text(encoding="utf-8"))
    now = week_of(path.stem)
    for old, new in zip(was, now, strict=True):
        assert {key: new[key] for key in EXACT} == {key: old[key] for key in EXACT}
        for key in CLOSE:
            expected = None if old[key] is None else pytest.approx(old[key], rel=1e-6)
            assert new[key] == expected, (new["zone"], key)


def test_every_demo_site_has_its_golden_week() -> None:
    sites = {path.parent.name for path in demo_source().glob("*/site.toml")}
    assert sites == {path.stem for path in GOLDEN.glob("*.json")}


def test_the_readme_shows_what_the_tailgate_really_answers() -> None:
    readme = (TOP / "README.md").read_text(encoding="utf-8")
    block = re.search(r"```text\n\$ lowquarter (cans.*?)\n```", readme, re.DOTALL)
    assert block is not None
    command, _, shown = block.group(1).replace("\\\n", " ").partition("\n")
    result = CliRunner().invoke(main, shlex.split(command))
    lines = [line.rstrip() for line in result.stdout.rstrip().splitlines()]
    assert shown.splitlines() == lines


if __name__ == "__main__":
    for folder in demo_source().glob("*/site.toml"):
        name = folder.parent.name
        text = json.dumps(week_of(name), indent=1) + "\n"
        (GOLDEN / f"{name}.json").write_text(text, encoding="utf-8")
