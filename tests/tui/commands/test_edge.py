"""A zone that is asked for is there, has another id now, or says why it is not read."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.small_site import ZONES, small_site
from tui.cli import main

PAGES = (("explain", "Z1"), ("evaluate", "--zone", "Z1"), ("season", "--zone", "Z1"))


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "yard")


def run(site: Path, command: str, *rest: str) -> Result:
    return CliRunner().invoke(main, [command, str(site), *rest])


def rewritten(site: Path, old: str, new: str) -> Path:
    assert old in ZONES
    (site / "zones.toml").write_text(ZONES.replace(old, new), "utf-8")
    return site


@pytest.mark.parametrize("page", PAGES)
def test_a_zone_that_cannot_be_read_is_told_with_its_line(
    site: Path, page: tuple[str, ...]
) -> None:
    done = run(rewritten(site, "area_ft2 = 2400", 'area_ft2 = "big"'), *page)
    assert done.exit_code == 3
    assert 'zones.toml:8: area_ft2: is "big", a text where' in done.stderr
    assert "zone 'Z1' cannot be read; correct what is said above" in done.stderr


def test_a_zone_that_is_not_there_is_a_slip_of_the_command(site: Path) -> None:
    rewritten(site, "area_ft2 = 2400", 'area_ft2 = "big"')
    done = run(site, "evaluate", "--zone", "Z7")
    assert done.exit_code == 2
    assert "there is no zone 'Z7'; the zones are Z2" in done.stderr


def test_a_zone_by_its_old_id_is_told_the_new_one(site: Path) -> None:
    rewritten(site, 'id = "Z1"\n', 'id = "Z1"\nformerly = ["A1"]\n')
    done = run(site, "explain", "a1")
    assert done.exit_code == 2
    assert "there is no zone 'a1' any more; it is called Z1 now" in done.stderr


def test_an_old_id_that_two_zones_had_is_answered_by_both(site: Path) -> None:
    rewritten(site, 'id = "Z1"\n', 'id = "Z1"\nformerly = ["A1"]\n')
    path = site / "zones.toml"
    both = path.read_text("utf-8").replace(
        'id = "Z2"\n', 'id = "Z2"\nformerly = ["a1"]\n'
    )
    path.write_text(both, "utf-8")
    assert "it is called Z1 or Z2 now" in run(site, "explain", "A1").stderr


def test_what_was_done_is_recorded_of_a_zone_whose_table_has_a_slip(site: Path) -> None:
    rewritten(site, "area_ft2 = 2400", 'area_ft2 = "big"')
    line = ("watering", "Z1", "--ran", "6 min", "--on", "2026-06-06")
    done = run(site, "record", *line)
    assert done.exit_code == 0, done.output
    assert ",Z1," in (site / "log.csv").read_text("utf-8")
