"""Unsaved edits are kept beside the site; they come back when their keeper is gone."""

from pathlib import Path

import pytest

from scheduler.files.edit_journal import NAME
from scheduler.files.folder_edits import FolderEdits, read_texts
from tests.small_site import small_site
from tui.keeper import Keeper


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "yard")


def larger(site: Path) -> FolderEdits:
    edits = read_texts(site)
    text = edits.now["zones.toml"].replace("2400 ", "2500 ")
    return edits.with_text("zones.toml", text)


def test_what_is_kept_is_found_and_dropped(site: Path) -> None:
    edits = larger(site)
    killed = Keeper(site)
    assert killed.keep(edits) == ""
    killed.let_go()  # as the system does when a process ends
    keeper = Keeper(site)
    keeper.look()
    assert keeper.before is not None
    assert keeper.before.now == edits.now
    keeper.drop()
    another = Keeper(site)
    another.look()
    assert another.before is None


def test_a_keeper_says_when_it_cannot_keep(site: Path) -> None:
    edits, keeper = larger(site), Keeper(site)
    keeper.keep(edits)
    (site / NAME).write_text("theirs", "utf-8")
    assert "changed by somebody else" in keeper.keep(edits)


def test_a_keeper_takes_another_name_once_its_own_is_taken(site: Path) -> None:
    edits, one, other = larger(site), Keeper(site), Keeper(site)
    one.keep(edits)
    one.keep(read_texts(site))
    assert [other.keep(edits), one.keep(edits)] == ["", ""]


def test_edits_of_a_dashboard_that_is_open_are_named_and_not_offered(
    site: Path,
) -> None:
    one, other = Keeper(site), Keeper(site)
    one.look()
    one.keep(larger(site))
    other.look()
    assert (other.before, other.is_edited_elsewhere) == (None, True)
    assert one.is_edited_elsewhere is False


def test_edits_that_one_dashboard_is_asked_about_are_not_offered_to_another(
    site: Path,
) -> None:
    killed, one, other = Keeper(site), Keeper(site), Keeper(site)
    killed.keep(larger(site))
    killed.let_go()
    one.look()
    other.look()
    assert one.before is not None
    assert (other.before, other.is_edited_elsewhere) == (None, True)


def test_of_two_journals_the_one_without_a_dashboard_is_offered(site: Path) -> None:
    live, killed, new = Keeper(site), Keeper(site), Keeper(site)
    live.keep(larger(site))
    killed.keep(larger(site))
    killed.let_go()
    new.look()
    assert new.before is not None
    assert new.is_edited_elsewhere is True


def test_saved_edits_leave_no_file_of_the_keeper(site: Path) -> None:
    keeper = Keeper(site)
    before = sorted(site.iterdir())
    keeper.keep(larger(site))
    keeper.keep(read_texts(site))
    assert sorted(site.iterdir()) == before


def test_a_dashboard_that_looks_twice_does_not_take_itself_for_another(
    site: Path,
) -> None:
    killed, one = Keeper(site), Keeper(site)
    killed.keep(larger(site))
    killed.let_go()
    one.look()
    one.look()
    assert one.before is not None
    assert one.is_edited_elsewhere is False
