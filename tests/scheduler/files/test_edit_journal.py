"""Edits that were never saved survive a kill, and are offered once."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.edit_journal import NAME, journal_of, kept_edits
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


def test_a_journal_of_somebody_else_is_not_overwritten(site: Path) -> None:
    journal_of(site).keep(smaller(site))
    with pytest.raises(SaveError, match="is there already"):
        journal_of(site).keep(smaller(site))


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


@pytest.mark.parametrize("text", ["", "{}", '{"format": 2, "files": {}}', "[1]", "\0"])
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
