"""Edits that were never saved survive a kill, and are offered once."""

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.edit_journal import (
    NAME,
    is_edited_elsewhere,
    journal_of,
    kept_edits,
)
from scheduler.files.folder_edits import FolderEdits, conflicts, read_texts, saved_edits
from scheduler.files.site_folder import read_site_folder
from tests.small_site import small_site

KILLED = """
import sys, time
from pathlib import Path
from scheduler.files.edit_journal import journal_of
from scheduler.files.folder_edits import read_texts
edits = read_texts(Path(sys.argv[1]))
journal = journal_of(edits.folder)
for n in range(100000):
    text = edits.disk["zones.toml"].text.replace("2400 ", f"{20000 + n} ")
    journal.keep(edits.with_text("zones.toml", text))
    print(n, flush=True)
"""

NO_TOML = """
{"format": 1, "files": {"zones.toml": {"digest": "", "read": "", "now": "x = = 3"}}}
"""


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "yard")


def smaller(site: Path) -> FolderEdits:
    edits = read_texts(site)
    text = edits.now["zones.toml"].replace("2400 ", "2000 ")
    return edits.with_text("zones.toml", text)


def test_edits_come_back_as_they_were(site: Path) -> None:
    journal_of(site).keep(smaller(site))
    kept = kept_edits(site)
    assert kept is not None
    assert kept[0].now == smaller(site).now


def test_a_site_without_edits_has_none_kept(site: Path) -> None:
    assert kept_edits(site) is None


def test_a_journal_without_edits_is_removed(site: Path) -> None:
    journal = journal_of(site)
    journal.keep(smaller(site))
    journal.keep(saved_edits(smaller(site)))
    assert not (site / NAME).exists()


def test_the_reader_of_a_site_passes_the_journal_by(site: Path) -> None:
    before = read_site_folder(site).findings
    journal_of(site).keep(smaller(site))
    assert read_site_folder(site).findings == before


def test_two_who_edit_one_folder_keep_each_their_own(site: Path) -> None:
    journals = []
    for _ in range(2):
        journals.append(journal_of(site))
        journals[-1].keep(smaller(site))
    assert len({one.path for one in journals}) == 2
    assert all(one.path.exists() for one in journals)


def test_edits_of_an_open_dashboard_are_not_lost_ones(site: Path) -> None:
    journal = journal_of(site)
    journal.keep(smaller(site))
    assert kept_edits(site) is None
    assert is_edited_elsewhere(site)
    journal.let_go()
    assert not is_edited_elsewhere(site)
    assert kept_edits(site) is not None


def test_a_journal_whose_name_is_held_by_another_is_not_written(site: Path) -> None:
    one, other = journal_of(site), journal_of(site)
    one.keep(smaller(site))
    one.path.unlink()
    with pytest.raises(SaveError, match="kept by another dashboard"):
        other.keep(smaller(site))


@pytest.mark.parametrize("edits", [smaller, read_texts])
def test_a_journal_that_somebody_else_wrote_is_not_touched(
    site: Path, edits: Callable[[Path], FolderEdits]
) -> None:
    journal = journal_of(site)
    journal.keep(smaller(site))
    journal.path.write_text("theirs", "utf-8")
    with pytest.raises(SaveError, match="changed by somebody else"):
        journal.keep(edits(site))
    assert journal.path.read_text("utf-8") == "theirs"


def test_what_was_saved_before_the_kill_is_not_offered(site: Path) -> None:
    journal_of(site).keep(smaller(site))
    saved_edits(smaller(site))
    kept = kept_edits(site)
    assert kept is not None
    assert kept[0].changed == ()


def test_a_file_changed_since_the_kill_is_a_conflict(site: Path) -> None:
    journal_of(site).keep(smaller(site))
    zones = site / "zones.toml"
    zones.write_text(zones.read_text("utf-8") + "# theirs\n", "utf-8")
    kept = kept_edits(site)
    assert kept is not None
    assert [one.file for one in conflicts(kept[0])] == ["zones.toml"]


@pytest.mark.parametrize("theirs", ["x = = 3\n", None])
def test_edits_of_a_file_that_cannot_be_read_any_more_are_a_conflict(
    site: Path, theirs: str | None
) -> None:
    journal_of(site).keep(smaller(site))
    zones = site / "zones.toml"
    zones.unlink() if theirs is None else zones.write_text(theirs, "utf-8")
    kept = kept_edits(site)
    assert kept is not None
    assert kept[0].now["zones.toml"] == smaller_text(kept[0])
    assert [one.theirs for one in conflicts(kept[0])] == [theirs or ""]


def smaller_text(edits: FolderEdits) -> str:
    return edits.disk["zones.toml"].text.replace("2400 ", "2000 ")


def test_a_journal_that_names_a_file_elsewhere_edits_nothing(site: Path) -> None:
    journal_of(site).keep(smaller(site))
    text = (site / NAME).read_text("utf-8")
    (site / NAME).write_text(text.replace("zones.toml", "../other.toml"), "utf-8")
    kept = kept_edits(site)
    assert kept is not None
    assert kept[0].changed == ()


@pytest.mark.parametrize(
    "text", ["", "{}", '{"format": 2, "files": {}}', "[1]", "\0", NO_TOML]
)
def test_a_journal_that_cannot_be_read_is_passed_by(site: Path, text: str) -> None:
    (site / NAME).write_text(text, "utf-8")
    assert kept_edits(site) is None
    journal_of(site).keep(smaller(site))
    kept = kept_edits(site)
    assert kept is not None
    assert kept[0].now == smaller(site).now
    assert (site / NAME).read_text("utf-8") == text


@pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL")
def test_a_killed_process_leaves_its_last_edit_and_an_unchanged_site(
    site: Path,
) -> None:
    before = (site / "zones.toml").read_bytes()
    command = [sys.executable, "-c", KILLED, str(site)]
    top = Path(__file__).parents[3]
    with subprocess.Popen(command, stdout=subprocess.PIPE, cwd=top) as process:
        assert process.stdout is not None
        said = [process.stdout.readline() for _ in range(20)]
        os.kill(process.pid, signal.SIGKILL)
        said += process.stdout.readlines()
    kept = kept_edits(site)
    assert kept is not None
    last = int([one for one in said if one.endswith(b"\n")][-1])
    # the edit said last, or the one that was being written
    found = [n for n in (last, last + 1)
             if f"= {20000 + n} " in kept[0].now["zones.toml"]]  # fmt: skip
    assert found != []
    assert (site / "zones.toml").read_bytes() == before
