"""Profiles that packages.toml names: read with the site, refused with their place."""

from pathlib import Path

import pytest

from scheduler.files.demo import demo_source
from scheduler.files.site_folder import SiteFolder, read_site_folder


def packages(own: Path, old: str, new: str) -> SiteFolder:
    """The demo site with one text of packages.toml changed."""
    toml = own / "packages.toml"
    text = toml.read_text(encoding="utf-8")
    assert old in text
    toml.write_text(text.replace(old, new, 1), encoding="utf-8")
    return read_site_folder(own)


@pytest.fixture
def own(tmp_path: Path) -> Path:
    import shutil

    return shutil.copytree(demo_source() / "tern_hollow", tmp_path / "tern_hollow")


def said(found: SiteFolder, text: str) -> str:
    """Place of the one finding that says something."""
    (one,) = [one for one in found.findings if text in f"{one.what}; {one.fix}"]
    return one.where


def test_the_profile_of_the_demo_reaches_to_its_first_dry_can(own: Path) -> None:
    # the table's can at 36 ft stayed dry
    profile = read_site_folder(own).profiles["yard-30"].profile
    assert profile.throw_m == pytest.approx(36 * 0.3048)


def test_notes_stand_with_the_profile_and_not_among_the_week(own: Path) -> None:
    found = read_site_folder(own)
    assert found.profiles["yard-30"].notes
    assert not any("profiles/" in one.where for one in found.findings)


def test_a_file_that_is_not_there_is_said_at_its_line(own: Path) -> None:
    found = packages(own, "profiles/yard-30.csv", "profiles/lost.csv")
    assert found.profiles == {}
    assert "packages.toml" in said(found, "there is no such file")


@pytest.mark.parametrize("key", ["mouth_in = 4.25\n", "minutes = 60\n"])
def test_volumes_without_mouth_or_minutes_are_said_in_keys(own: Path, key: str) -> None:
    found = packages(own, key, "")
    assert found.profiles == {}
    assert "packages.toml" in said(found, f"write {key.split()[0]} below")


def test_a_profile_of_a_broken_table_is_left_out_and_the_rest_is_read(
    own: Path,
) -> None:
    (own / "profiles" / "yard-30.csv").write_text("distance,volume\n1,2\n")
    found = read_site_folder(own)
    assert found.profiles == {}
    assert found.site is not None
    assert any("profiles/yard-30.csv" in one.where for one in found.findings)
