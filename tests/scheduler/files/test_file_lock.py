"""A lock that lives as long as the process that holds it."""

import os
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from scheduler.files import file_lock
from scheduler.files.file_lock import held, is_held

HOLDS = """
import sys, time
from pathlib import Path
from scheduler.files.file_lock import held
one = held(Path(sys.argv[1]))
print(one is not None, flush=True)
time.sleep(60)
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / ".a.lock"


def test_a_lock_is_held_once(path: Path) -> None:
    one = held(path)
    assert one is not None
    assert held(path) is None
    assert is_held(path)


def test_a_lock_that_was_let_go_leaves_no_file(path: Path) -> None:
    one = held(path)
    assert one is not None
    one.release()
    assert not path.exists()
    assert not is_held(path)


def test_a_lock_that_is_forgotten_is_let_go(path: Path) -> None:
    assert held(path) is not None
    again = held(path)
    assert again is not None


def test_looking_makes_no_file(path: Path) -> None:
    assert not is_held(path)
    assert not path.exists()


def test_a_disk_without_locks_says_so_and_nothing_is_held(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def take(file: object) -> None:
        raise OSError(95, "not supported")

    monkeypatch.setattr(file_lock, "take", take)
    with pytest.raises(OSError, match="not supported"):
        held(path)
    assert not path.exists()
    path.touch()
    assert not is_held(path)


def test_a_file_that_was_replaced_meanwhile_is_locked_anew(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    really, calls = file_lock.take, []

    def take(file: object) -> None:
        calls.append(file)
        really(file)  # type: ignore[arg-type]
        if len(calls) == 1:
            path.unlink()

    monkeypatch.setattr(file_lock, "take", take)
    assert held(path) is not None
    assert len(calls) == 2


@pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL")
def test_a_killed_process_holds_nothing(path: Path) -> None:
    command = [sys.executable, "-c", HOLDS, str(path)]
    top = Path(__file__).parents[3]
    with subprocess.Popen(command, stdout=subprocess.PIPE, cwd=top) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"True\n"
        assert is_held(path)
        os.kill(process.pid, signal.SIGKILL)
    assert path.exists()
    assert not is_held(path)


def test_a_disk_whose_names_do_not_hold_still_knows_no_locks(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(file_lock, "is_there_still", lambda path, file: False)
    with pytest.raises(OSError, match="hold still"):
        held(path)


def test_a_lock_file_that_may_only_be_read_is_locked_all_the_same(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path.touch()
    opened: Any = Path.open

    def refused(self: Path, mode: str = "r", **how: Any) -> Any:
        if "a" in mode:
            raise PermissionError(13, "not yours")
        return opened(self, mode, **how)

    monkeypatch.setattr(Path, "open", refused)
    one = held(path)
    assert one is not None
    assert is_held(path)
