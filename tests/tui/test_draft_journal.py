"""What is typed is kept beside the tests; it comes back when its dashboard is gone."""

import os
import signal
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from tests.tui.test_draft import S3, typed
from tests.tui.test_draft_files import opened_run
from tui.draft import Draft
from tui.draft_files import saved_draft
from tui.draft_journal import (
    Journal,
    draft_text,
    journal_of,
    kept_drafts,
    read_draft,
    resumed,
    unsaved_words,
)
from tui.session import Session, open_session

TYPES = """
import sys, time
from pathlib import Path
from tests.tui.test_draft import typed
from tui.draft_journal import journal_of
draft = typed()
journal = journal_of(Path(sys.argv[1]), draft)
journal.keep(draft)
print("typed", flush=True)
time.sleep(60)
"""


def left(folder: Path, draft: Draft | None = None) -> Draft:
    """Keep a draft and end, as a killed process does."""
    draft = draft or typed()
    journal = journal_of(folder, draft)
    journal.keep(draft)
    journal.let_go()
    return draft


def test_a_draft_reads_back_from_its_text() -> None:
    draft = typed(S3).placed(0, 5).left_out("arc").turned()
    again = read_draft(draft_text(draft))
    assert again == replace(draft, past=(), future=())


def test_what_was_typed_is_offered_back(own_demo: Path) -> None:
    draft = typed()
    journal_of(own_demo, draft).keep(draft)
    (kept,) = kept_drafts(own_demo, "Z4")
    assert kept.draft.now == draft.now
    assert kept_drafts(own_demo, "Z5") == ()


def test_a_run_of_a_test_is_kept_beside_it(own_demo: Path) -> None:
    draft = opened_run(open_session(own_demo)).entered("42")
    journal = journal_of(own_demo, draft)
    journal.keep(draft)
    assert journal.path.parent == own_demo / "tests" / draft.test
    assert journal.path.name.startswith(".")


def test_the_reader_of_a_site_passes_the_journal_by(
    own_demo: Path, opened: Session
) -> None:
    for draft in (typed(), opened_run(open_session(own_demo)).entered("42")):
        journal_of(own_demo, draft).keep(draft)
    assert open_session(own_demo).findings == opened.findings


def test_a_closed_journal_is_gone_and_stays_so(own_demo: Path) -> None:
    draft = typed()
    journal = journal_of(own_demo, draft)
    journal.keep(draft)
    journal.close()
    journal.keep(draft.entered("1"))
    assert kept_drafts(own_demo) == ()


def test_two_windows_do_not_write_one_journal(own_demo: Path) -> None:
    draft = typed()
    one, other = journal_of(own_demo, draft), journal_of(own_demo, draft)
    one.keep(draft)
    with pytest.raises(SaveError, match="kept by another dashboard"):
        other.keep(draft.entered("1"))
    other.close()  # and what is not its own it does not remove
    assert kept_drafts(own_demo)[0].draft.now == draft.now


def test_what_a_crash_has_left_is_not_written_over(own_demo: Path) -> None:
    left(own_demo)
    with pytest.raises(SaveError, match="there already"):
        journal_of(own_demo, typed()).keep(typed().entered("1"))
    assert kept_drafts(own_demo)[0].draft.now == typed().now


def test_a_resumed_draft_is_kept_in_the_same_file(own_demo: Path) -> None:
    left(own_demo)
    draft, journal = resumed(kept_drafts(own_demo)[0])
    journal.keep(draft.entered("99"))
    (kept,) = kept_drafts(own_demo)
    assert kept.draft.text == "99"


def test_a_resumed_draft_still_refuses_what_changed_since(own_demo: Path) -> None:
    draft = opened_run(open_session(own_demo)).entered("42")
    left(own_demo, draft)
    path = own_demo / "tests" / draft.test / draft.file
    path.write_text("1,2\n3,4\n", encoding="utf-8")
    with pytest.raises(SaveError, match="changed by somebody else"):
        saved_draft(own_demo, resumed(kept_drafts(own_demo)[0])[0])


@pytest.mark.parametrize("text", ["", "{", "[]", '{"format": 2}', '{"format": 1}'])
def test_a_broken_journal_is_passed_by(own_demo: Path, text: str) -> None:
    Journal(own_demo / "tests" / ".new-Z4.typing.json").path.write_text(text, "utf-8")
    assert kept_drafts(own_demo) == ()


# --- typed in another dashboard --------------------------------------------------


@pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL")
def test_what_another_process_types_is_offered_once_that_is_killed(
    own_demo: Path,
) -> None:
    command = [sys.executable, "-c", TYPES, str(own_demo)]
    top = Path(__file__).parents[2]
    with subprocess.Popen(command, stdout=subprocess.PIPE, cwd=top) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"typed\n"
        (live,) = kept_drafts(own_demo)
        with pytest.raises(SaveError, match="kept by another dashboard"):
            resumed(live)
        os.kill(process.pid, signal.SIGKILL)
    (dead,) = kept_drafts(own_demo)
    assert (live.is_elsewhere, dead.is_elsewhere) == (True, False)
    assert resumed(dead)[0].now == typed().now


def test_one_that_types_the_same_run_keeps_it_in_a_file_of_its_own(
    own_demo: Path,
) -> None:
    one, draft = journal_of(own_demo, typed()), typed().entered("1")
    one.keep(typed())
    other = journal_of(own_demo, draft)
    other.keep(draft)
    kept = kept_drafts(own_demo)
    assert {each.path for each in kept} == {one.path, other.path}
    assert all(each.is_elsewhere and each.is_same_run(draft) for each in kept)


def test_a_draft_that_one_dashboard_goes_on_with_is_not_taken_by_another(
    own_demo: Path,
) -> None:
    left(own_demo)
    listed = kept_drafts(own_demo)[0]
    _, mine = resumed(listed)
    with pytest.raises(SaveError, match="kept by another dashboard"):
        resumed(listed)
    mine.close()
    with pytest.raises(SaveError, match="saved or dropped by another dashboard"):
        resumed(listed)
    assert not list((own_demo / "tests").glob(".*"))


def test_a_draft_comes_back_as_it_is_and_not_as_it_was_listed(own_demo: Path) -> None:
    left(own_demo)
    listed = kept_drafts(own_demo)[0]
    draft, journal = resumed(listed)
    journal.keep(draft.entered("99"))
    journal.let_go()
    assert resumed(listed)[0].text == "99"


def test_what_is_left_and_what_is_being_typed_are_named_apart(own_demo: Path) -> None:
    left(own_demo)
    draft = replace(typed(), zone="Z5")
    journal = journal_of(own_demo, draft)
    journal.keep(draft)
    assert unsaved_words(kept_drafts(own_demo)).splitlines() == [
        "Readings of Z4 were typed and never saved: press t there.",
        "Another dashboard is typing readings of Z5; they are its own to save.",
    ]
    assert unsaved_words(()) == ""
