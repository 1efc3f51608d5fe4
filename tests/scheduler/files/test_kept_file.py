"""A file that keeps what is typed, and a lock beside it while somebody types."""

from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.kept_file import KeptFile, is_kept


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / ".a.typing.json"


def test_a_kept_file_is_held_until_it_is_let_go(path: Path) -> None:
    one = KeptFile(path)
    one.keep_text("typed")
    assert is_kept(path)
    one.let_go()
    assert not is_kept(path)
    assert path.read_text("utf-8") == "typed"


def test_without_anything_to_keep_nothing_is_left(path: Path) -> None:
    one = KeptFile(path)
    one.keep_text("typed")
    one.keep_text(None)
    assert list(path.parent.iterdir()) == []


def test_of_two_who_keep_one_file_the_second_is_refused(path: Path) -> None:
    one, other = KeptFile(path), KeptFile(path)
    one.keep_text("mine")
    with pytest.raises(SaveError, match="kept by another dashboard"):
        other.keep_text("theirs")
    with pytest.raises(SaveError, match="save or drop it there"):
        other.take()
    assert path.read_text("utf-8") == "mine"


def test_what_a_crash_has_left_is_not_held_by_who_may_not_write_it(path: Path) -> None:
    path.write_text("left", "utf-8")
    one = KeptFile(path)
    with pytest.raises(SaveError):
        one.keep_text("mine")
    assert not is_kept(path)
    assert path.read_text("utf-8") == "left"


def test_a_file_that_somebody_else_wrote_is_not_removed(path: Path) -> None:
    one = KeptFile(path)
    one.keep_text("mine")
    path.write_text("theirs", "utf-8")
    with pytest.raises(SaveError, match="changed by somebody else"):
        one.keep_text(None)
    assert path.read_text("utf-8") == "theirs"


def test_a_file_that_is_gone_needs_no_removing(path: Path) -> None:
    one = KeptFile(path)
    one.keep_text("mine")
    path.unlink()
    one.keep_text(None)
    assert not is_kept(path)
