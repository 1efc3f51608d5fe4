"""A folder with edits: checked as a whole, saved as a whole, never over others."""

import shutil
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.demo import demo_source
from scheduler.files.folder_edits import (
    FolderEdits,
    conflicts,
    kept_on_top,
    new_findings,
    read_texts,
    saved_edits,
    taken_theirs,
)
from scheduler.files.toml_edit import with_value
from tests.small_site import small_site

ZONES = "zones.toml"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "yard")


def edited(site: Path, place: tuple[str | int, ...], typed: str) -> FolderEdits:
    edits = read_texts(site)
    return edits.with_text(ZONES, with_value(edits.now[ZONES], place, typed))


@pytest.fixture
def smaller(site: Path) -> FolderEdits:
    return edited(site, ("zone", 0, "area_ft2"), "2000")


# --- saved -------------------------------------------------------------------


def test_a_save_writes_the_changed_line_and_nothing_else(
    site: Path, smaller: FolderEdits
) -> None:
    before = {one: one.read_bytes() for one in site.glob("*.toml")}
    saved_edits(smaller)
    after = {one: one.read_bytes() for one in site.glob("*.toml")}
    zones = site / ZONES
    assert after.pop(zones) == before.pop(zones).replace(b" = 2400 ", b" = 2000 ")
    assert after == before


def test_after_a_save_nothing_is_unsaved(smaller: FolderEdits) -> None:
    assert smaller.changed == (ZONES,)
    assert saved_edits(smaller).changed == ()


def test_what_was_saved_can_be_taken_back_and_saved(
    site: Path, smaller: FolderEdits
) -> None:
    before = (site / ZONES).read_bytes()
    back = saved_edits(smaller).with_texts({ZONES: smaller.disk[ZONES].text})
    saved_edits(back)
    assert (site / ZONES).read_bytes() == before


def test_line_endings_and_the_mark_of_a_file_stay(site: Path) -> None:
    zones = site / ZONES
    mixed = zones.read_bytes().replace(b"\n", b"\r\n").replace(b"\r\n", b"\n", 3)
    zones.write_bytes(b"\xef\xbb\xbf" + mixed)
    saved_edits(edited(site, ("zone", 0, "area_ft2"), "2000"))
    wanted = b"\xef\xbb\xbf" + mixed.replace(b" = 2400 ", b" = 2000 ")
    assert zones.read_bytes() == wanted


def test_a_line_that_changes_ends_as_the_others_of_its_file(site: Path) -> None:
    zones = site / ZONES
    old = zones.read_bytes().replace(b"\n", b"\r")  # of a very old editor
    zones.write_bytes(old)
    saved_edits(edited(site, ("zone", 0, "area_ft2"), "2000"))
    assert zones.read_bytes() == old.replace(b" = 2400 ", b" = 2000 ")


def test_a_file_that_was_missing_is_made(site: Path) -> None:
    text = 'format = 1\n\n[[package]]\nid = "P1"\n'
    saved_edits(read_texts(site).with_text("packages.toml", text))
    assert (site / "packages.toml").read_text("utf-8") == text


# --- refused -----------------------------------------------------------------


def test_edits_that_would_not_read_are_refused_and_the_disk_is_as_before(
    site: Path,
) -> None:
    before = (site / ZONES).read_bytes()
    wrong = edited(site, ("zone", 0, "package"), '"yard-31"')
    with pytest.raises(SaveError, match=r"zones.toml:13: package.*no such package"):
        saved_edits(wrong)
    assert (site / ZONES).read_bytes() == before


def test_what_was_wrong_before_does_not_stop_a_save(site: Path) -> None:
    zones = site / ZONES
    zones.write_text(zones.read_text("utf-8").replace("= 9000", "= -9"), "utf-8")
    saved_edits(edited(site, ("zone", 0, "area_ft2"), "2000"))
    assert "area_ft2 = 2000" in zones.read_text("utf-8")


def test_a_test_of_a_zone_that_is_renamed_is_found_before_the_save(
    tmp_path: Path,
) -> None:
    source = Path(str(demo_source())) / "tern_hollow"
    demo = shutil.copytree(source, tmp_path / "demo")
    renamed = edited(demo, ("zone", 3, "id"), '"Z44"')
    found = new_findings(renamed, whole=True)
    assert any(one.where.startswith("tests/") for one in found)


def test_a_file_that_is_no_text_cannot_be_edited(site: Path) -> None:
    (site / ZONES).write_bytes(b"area = \xff\n")
    assert ZONES not in read_texts(site).now


# --- changed by somebody else ------------------------------------------------


@pytest.fixture
def theirs(site: Path, smaller: FolderEdits) -> FolderEdits:
    zones = site / ZONES
    zones.write_text(zones.read_text("utf-8").replace("Old", "New"), "utf-8")
    return smaller


def test_a_file_changed_meanwhile_is_refused_and_stays(
    site: Path, theirs: FolderEdits
) -> None:
    before = (site / ZONES).read_bytes()
    with pytest.raises(SaveError, match="changed by somebody else"):
        saved_edits(theirs)
    assert (site / ZONES).read_bytes() == before


def test_a_conflict_shows_both_sides(theirs: FolderEdits) -> None:
    (one,) = conflicts(theirs)
    assert '+name = "New beds"' in one.their_lines
    assert "+area_ft2 = 2000         # paced" in one.my_lines


def test_no_conflict_where_nobody_wrote(smaller: FolderEdits) -> None:
    assert conflicts(smaller) == ()


def test_mine_on_top_keeps_both(site: Path, theirs: FolderEdits) -> None:
    both, lost = kept_on_top(theirs, ZONES)
    assert lost == ()
    saved_edits(both)
    text = (site / ZONES).read_text("utf-8")
    assert "New beds" in text
    assert "area_ft2 = 2000" in text


def test_theirs_drops_mine(theirs: FolderEdits) -> None:
    assert taken_theirs(theirs, ZONES).changed == ()


def test_a_save_cut_short_between_two_files_goes_on(
    site: Path, smaller: FolderEdits
) -> None:
    saved_edits(smaller)  # as if the process died right behind the first file
    text = with_value(smaller.now["site.toml"], ("name",), '"new"')
    done = saved_edits(smaller.with_text("site.toml", text))
    assert done.changed == ()
    assert 'name = "new"' in (site / "site.toml").read_text("utf-8")


def test_a_clock_that_is_not_there_is_said_while_it_is_typed(site: Path) -> None:
    edits = edited(site, ("zone", 0, "controller"), '"S"')
    assert any("there is no such controller" in one.what for one in new_findings(edits))
