"""Drafts in and out of a site folder: opened and saved."""

from pathlib import Path

import pytest

from scheduler.errors import SaveError
from tests.tui.test_draft import S3, setup, typed
from tui import draft as drafts
from tui import draft_files
from tui.draft import Draft, new_draft
from tui.draft_files import next_run, opened_draft, prefilled, saved_draft
from tui.session import Session, open_session


def opened_run(session: Session, zone: str = "Z4") -> Draft:
    test = draft_files.tests_of(session, zone)[0]
    return opened_draft(session, test, test.runs[0])


# --- saved -----------------------------------------------------------------------


def test_a_saved_draft_opens_as_it_was_typed(own_demo: Path) -> None:
    draft = typed(S3).placed(0, 5).left_out("blocked arc")
    done = saved_draft(own_demo, draft)
    again = opened_run(open_session(own_demo))
    assert (again.test, again.file) == (done.test, done.file)
    assert again.setup == draft.setup
    assert again.now.excluded == draft.now.excluded
    read, wanted = drafts.can_run(again), drafts.can_run(draft)
    assert read.reading.tolist().__repr__() == wanted.reading.tolist().__repr__()
    assert read.code == wanted.code


def test_a_saved_draft_has_nothing_to_save(own_demo: Path) -> None:
    assert not saved_draft(own_demo, typed()).is_changed


def test_opening_and_saving_again_changes_no_byte_of_test_toml(own_demo: Path) -> None:
    draft = opened_run(open_session(own_demo))
    path = own_demo / "tests" / draft.test / "test.toml"
    before = path.read_bytes()
    saved_draft(own_demo, draft.entered("42"))
    assert path.read_bytes() == before


def test_a_draft_can_be_saved_twice_in_a_row(own_demo: Path) -> None:
    once = saved_draft(own_demo, typed())
    twice = saved_draft(own_demo, once.placed(0, 0).entered("43"))
    assert twice.test == once.test
    assert opened_run(open_session(own_demo)).now.cells[0][0] == "43"


def test_another_run_stands_on_the_same_grid(own_demo: Path) -> None:
    session = open_session(own_demo)
    test = draft_files.tests_of(session, "Z4")[0]
    draft = next_run(session, test)
    assert draft.setup.labels == test.runs[0].label
    assert (draft.n_blank, draft.setup.mouth) == (24, (4.25, "in"))
    done = saved_draft(own_demo, draft.entered("41").stepped().entered("52"))
    assert (done.test, done.file) == (test.name, "run2.csv")
    assert len(draft_files.tests_of(open_session(own_demo), "Z4")[0].runs) == 2


def test_a_new_test_is_prefilled_from_the_last(opened: Session) -> None:
    known = prefilled(opened, "Z4")
    assert known is not None
    assert (known.mouth, known.minutes, known.shape) == ((4.25, "in"), 30.0, (3, 8))
    assert (known.date, known.start, known.wind) == (opened.today, None, None)


@pytest.mark.parametrize("text", ["-12", "1,250"])
def test_what_cannot_stand_is_not_saved(own_demo: Path, text: str) -> None:
    before = sorted((own_demo / "tests").iterdir())
    with pytest.raises(SaveError, match="can C2"):
        saved_draft(own_demo, typed().placed(1, 2).entered(text))
    assert sorted((own_demo / "tests").iterdir()) == before


def test_an_empty_grid_is_not_saved(own_demo: Path) -> None:
    with pytest.raises(SaveError, match="no can holds a reading"):
        saved_draft(own_demo, new_draft("Z4", setup()))


def test_a_file_changed_by_somebody_else_is_not_overwritten(own_demo: Path) -> None:
    draft = opened_run(open_session(own_demo))
    path = own_demo / "tests" / draft.test / draft.file
    path.write_text("1,2\n3,4\n", encoding="utf-8")
    with pytest.raises(SaveError, match="changed by somebody else"):
        saved_draft(own_demo, draft.entered("42"))
    assert path.read_text("utf-8") == "1,2\n3,4\n"
