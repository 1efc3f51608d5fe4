"""A new site reads without a stop, and is there as a whole or not at all."""

import errno
import os
import re
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.new_site import new_site
from scheduler.files.site_folder import read_site_folder
from scheduler.units import System

SYSTEMS: tuple[System, ...] = ("us", "metric")


@pytest.mark.parametrize("units", SYSTEMS)
def test_a_new_site_reads_without_any_finding(tmp_path: Path, units: System) -> None:
    new_site(tmp_path / "yard", units)
    found = read_site_folder(tmp_path / "yard")
    assert found.findings == ()
    assert found.site is not None
    assert found.site.units == units


@pytest.mark.parametrize("units", SYSTEMS)
def test_a_new_site_shows_a_zone_in_soil_and_one_in_pots(
    tmp_path: Path, units: System
) -> None:
    new_site(tmp_path / "yard", units)
    site = read_site_folder(tmp_path / "yard").site
    assert site is not None
    assert [zone.grown_in for zone in site.zones] == ["soil", "pots"]
    assert all(site.package_of(zone) for zone in site.zones)


@pytest.mark.parametrize("units", SYSTEMS)
def test_what_is_switched_off_reads_too_once_switched_on(
    tmp_path: Path, units: System
) -> None:
    folder = tmp_path / "yard"
    new_site(folder, units)
    path = folder / "site.toml"
    text = path.read_text("utf-8")
    path.write_text(re.sub(r"^# (\[|\w+ = )", r"\1", text, flags=re.M), "utf-8")
    table = "date,tmax (°C),tmin (°C)\n2026-05-01,25,12\n"
    for name in ("station.csv", "forecast.csv"):
        (folder / "weather" / name).write_text(table, encoding="utf-8")
    wind = "time,wind speed (m/s)\n2026-05-01 05:45,1.2\n"
    (folder / "wind" / "logger.csv").write_text(wind, encoding="utf-8")
    found = read_site_folder(folder)
    assert found.findings == ()
    assert found.site is not None
    assert found.site.tariff is not None
    assert found.site.stations


@pytest.mark.parametrize("units", SYSTEMS)
def test_the_test_that_is_explained_reads_once_entered(
    tmp_path: Path, units: System
) -> None:
    folder = tmp_path / "yard"
    new_site(folder, units)
    text = (folder / "tests" / "how_to_enter_a_test.txt").read_text("utf-8")
    blocks = re.findall(r"(?:^(?: {4}.*)?\n)+", text, flags=re.M)
    shown = [re.sub(r"^ {4}", "", b, flags=re.M) for b in blocks if b.strip()]
    place = folder / "tests" / "2026-05-12-Z2"
    place.mkdir()
    (place / "test.toml").write_text(shown[0] + shown[2] + shown[3], encoding="utf-8")
    (place / "run1.csv").write_text(shown[1], encoding="utf-8")
    found = read_site_folder(folder)
    assert found.findings == ()
    assert len(found.history.tests[0].runs[0].excluded) == 1
    assert found.history.tests[0].layout.has_corner_heads


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    (tmp_path / "yard").mkdir()
    new_site(tmp_path / "yard")
    assert (tmp_path / "yard" / "site.toml").is_file()


def test_folders_above_are_made(tmp_path: Path) -> None:
    new_site(tmp_path / "a" / "b" / "yard")
    assert (tmp_path / "a" / "b" / "yard" / "site.toml").is_file()


def test_a_folder_that_holds_something_is_refused(tmp_path: Path) -> None:
    (tmp_path / "note.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(SaveError, match="something is there already"):
        new_site(tmp_path)
    assert [one.name for one in tmp_path.iterdir()] == ["note.txt"]


def test_a_file_in_the_way_is_refused(tmp_path: Path) -> None:
    (tmp_path / "yard").write_text("mine", encoding="utf-8")
    with pytest.raises(SaveError, match="something is there already"):
        new_site(tmp_path / "yard")


def test_a_full_disk_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(SaveError, match="free some space"):
        new_site(tmp_path / "yard")
    assert list(tmp_path.iterdir()) == []


def test_the_folder_we_are_in_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SaveError, match="the folder you are in"):
        new_site(Path())
    assert not list(tmp_path.iterdir())
