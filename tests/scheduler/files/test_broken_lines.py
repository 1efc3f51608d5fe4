"""A line that TOML refuses is corrected in its place, and saved like any other edit."""

from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.broken_lines import broken_lines, line_section, typed_line
from scheduler.files.edit_journal import journal_of, kept_edits
from scheduler.files.field_edits import added, removed
from scheduler.files.folder_edits import (
    FolderEdits,
    conflicts,
    kept_on_top,
    read_texts,
    saved_edits,
)
from scheduler.files.site_folder import read_site_folder
from scheduler.files.site_things import KINDS, things
from tests.small_site import ZONES, small_site

NAME = 'name = "Bench, fertigated"'


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """The small site, a quote and a comma gone from two lines of its zones."""
    site = small_site(tmp_path / "yard")
    broken = ZONES.replace(NAME, NAME[:-1]).replace("area_ft2 = 9000", "area_ft2 = 9,5")
    (site / "zones.toml").write_bytes(broken.replace("\n", "\r\n").encode())
    return site


def mended(edits: FolderEdits, line: int, text: str) -> FolderEdits:
    thing = next(one for one in broken_lines(edits.now) if one.line == line)
    done = typed_line(edits, thing, text)
    assert done.edits is not None, done.wrong
    return done.edits


def whole(edits: FolderEdits) -> FolderEdits:
    return mended(mended(edits, 6, NAME), 18, "area_ft2 = 9000")


def test_every_broken_line_is_a_thing_that_says_what_is_wrong(site: Path) -> None:
    edits = read_texts(site)
    first, second = broken_lines(edits.now)
    assert [first.name, second.name] == ["zones.toml:6", "zones.toml:18"]
    assert 'the quote is opened but not closed; put " behind' in first.about
    field = line_section(edits.now["zones.toml"], first).fields[0]
    assert field.text == 'name = "Bench, fertigated'


def test_a_file_that_reads_has_none(tmp_path: Path) -> None:
    assert broken_lines(read_texts(small_site(tmp_path / "yard")).now) == ()


@pytest.mark.parametrize("text", ["name = Bench", 'name = "Bench', "name"])
def test_a_line_that_is_refused_still_is_said_and_changes_nothing(
    site: Path, text: str
) -> None:
    edits = read_texts(site)
    done = typed_line(edits, broken_lines(edits.now)[0], text)
    assert done.edits is None
    assert done.wrong is not None
    assert done.wrong.where.startswith("zones.toml:6")


def test_a_line_that_reads_and_says_something_wrong_is_refused_as_well(
    site: Path,
) -> None:
    edits = mended(read_texts(site), 6, NAME)
    done = typed_line(edits, broken_lines(edits.now)[0], "area_ft2 = -9")
    assert done.edits is None
    assert "is -9; it must be above 0" in str(done.wrong)


def test_a_header_comes_back_before_what_its_table_lacks(tmp_path: Path) -> None:
    site = small_site(tmp_path / "yard")
    text = ZONES.replace("[[zone]]", "[[zone]", 1).replace("fixed_minutes = 6\n", "")
    (site / "zones.toml").write_text(text, "utf-8")
    edits = read_texts(site)
    (thing,) = broken_lines(edits.now)
    done = typed_line(edits, thing, "[[zone]]")
    assert done.edits is not None
    assert "needs fixed_minutes" in str(done.wrong)
    strange = typed_line(edits, thing, "[[zoen]]")
    assert strange.edits is None
    assert "not known in zones.toml" in str(strange.wrong)


def test_with_its_last_line_mended_the_file_has_its_things_again(site: Path) -> None:
    half = mended(read_texts(site), 6, NAME)
    assert [one.line for one in broken_lines(half.now)] == [18]
    done = mended(half, 18, "area_ft2 = 9000")
    assert broken_lines(done.now) == ()
    assert done.now["zones.toml"] == ZONES
    assert [one.name for one in things(done.now) if one.kind.name == "zone"] == [
        "Z1",
        "Z2",
    ]


@pytest.mark.parametrize(
    ("line", "typed"),
    [
        (NAME, f'name = """{NAME[8:]}'),
        ("[[zone]]", "[zone]"),
        ('  "Z3",', '  Z3",'),
        ('  "Z3",', '  "Z3"'),
        ('  "Z3",', '  "Z3",\x01'),
    ],
)
def test_the_line_at_fault_is_the_one_to_be_typed_into(
    tmp_path: Path, line: str, typed: str
) -> None:
    whole = ZONES.replace(NAME, f'{NAME}\nnot_with = [\n  "Z3",\n  # dry\n  "Z2",\n]')
    site = small_site(tmp_path / "yard")
    (site / "zones.toml").write_text(whole.replace(line, typed, 1), "utf-8")
    edits = read_texts(site)
    (thing,) = broken_lines(edits.now)
    assert line_section(edits.now["zones.toml"], thing).fields[0].text == typed
    assert mended(edits, thing.line, line).now["zones.toml"] == whole


def test_what_is_changed_is_named_by_its_lines(site: Path) -> None:
    found = whole(read_texts(site)).changes("zones.toml")
    assert [(one.key, one.now) for one in found] == [
        ("line 6", NAME),
        ("line 18", "area_ft2 = 9000"),
    ]


def test_lines_that_only_moved_are_no_change(site: Path) -> None:
    done = whole(read_texts(site))
    (first, _) = (one for one in things(done.now) if one.kind.name == "zone")
    without = removed(done, first).changes("zones.toml")
    assert [(one.key, one.now) for one in without if one.now] == [
        ("line 7", "area_ft2 = 9000"),
    ]
    assert 'id = "Z1"' in [one.was for one in without]
    assert 'id = "Z2"' not in [one.was for one in without]


def test_a_mended_file_is_saved_with_its_line_endings(site: Path) -> None:
    saved_edits(whole(read_texts(site)))
    assert (site / "zones.toml").read_bytes() == ZONES.replace("\n", "\r\n").encode()
    assert read_site_folder(site).findings == ()


def test_a_file_mended_in_part_is_kept_against_a_crash(site: Path) -> None:
    half = mended(read_texts(site), 6, NAME)
    journal = journal_of(site)
    journal.keep(half)
    journal.let_go()
    kept = kept_edits(site)
    assert kept is not None
    assert kept[0].now == half.now


def test_a_file_that_somebody_else_mended_is_a_difference_and_theirs_stays(
    site: Path,
) -> None:
    done = whole(read_texts(site))
    (site / "zones.toml").write_text(ZONES + "# theirs\n", "utf-8")
    assert [one.file for one in conflicts(done)] == ["zones.toml"]
    theirs, lost = kept_on_top(done, "zones.toml")
    assert theirs.now["zones.toml"] == ZONES + "# theirs\n"
    assert {why for _, why in lost} == {"the file was corrected by somebody else"}


def test_nothing_is_added_to_a_file_before_its_lines_are_mended(site: Path) -> None:
    zone = next(one for one in KINDS if one.name == "zone")
    with pytest.raises(SaveError, match="cannot be read as TOML"):
        added(read_texts(site), zone)
