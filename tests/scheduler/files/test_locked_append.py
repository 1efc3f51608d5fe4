"""Appending under a lock: real programs at once, and real kills in the middle."""

import errno
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files import file_lock, locked_append
from scheduler.files.locked_append import append_lines, take_back_lines


def no_heading(before: bytes) -> tuple[str, ...]:
    return ()


def heading(before: bytes) -> tuple[str, ...]:
    return () if before else ("date,what",)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "log.csv"


def test_a_file_that_is_not_there_is_begun_with_its_heading(path: Path) -> None:
    append_lines(path, ["a", "b"], heading)
    assert path.read_bytes() == b"date,what\na\nb\n"


def test_what_was_there_stays_byte_by_byte(path: Path) -> None:
    path.write_bytes(b"\xef\xbb\xbfdate,what\r\n# caf\xe9\r\n")
    append_lines(path, ["é"], heading)
    assert path.read_bytes() == b"\xef\xbb\xbfdate,what\r\n# caf\xe9\r\n\xc3\xa9\r\n"


def test_a_last_line_without_an_end_gets_one_first(path: Path) -> None:
    path.write_bytes(b"date,what\na")
    append_lines(path, ["b"], heading)
    assert path.read_bytes() == b"date,what\na\nb\n"


@pytest.mark.parametrize(
    "before", [b"a\nb\nc\n", b"a\nb\nc", b"a\r\nb\r\nc\r\n", b"a\nb\n\nc\n \n"]
)
def test_the_last_lines_can_be_taken_back(path: Path, before: bytes) -> None:
    path.write_bytes(before)
    take_back_lines(path, ["b", "c"])
    assert path.read_bytes().strip() == b"a"


def test_a_file_goes_on_after_lines_were_taken_back(path: Path) -> None:
    path.write_bytes(b"a\nb\n")
    take_back_lines(path, ["b"])
    append_lines(path, ["c"], heading)
    assert path.read_bytes() == b"a\nc\n"


def test_lines_that_are_no_longer_the_last_are_not_taken_back(path: Path) -> None:
    path.write_bytes(b"a\nb\nc\n")
    with pytest.raises(SaveError, match="changed by somebody else"):
        take_back_lines(path, ["b"])
    assert path.read_bytes() == b"a\nb\nc\n"


def test_nothing_is_taken_back_from_a_file_that_is_gone(path: Path) -> None:
    with pytest.raises(SaveError, match="is not there"):
        take_back_lines(path, ["b"])
    assert not path.exists()


@pytest.mark.parametrize("data", [b"\xff\xfed\x00", b"PK\x03\x04"])
def test_a_file_that_is_no_plain_text_is_not_appended_to(
    path: Path, data: bytes
) -> None:
    path.write_bytes(data)
    with pytest.raises(SaveError, match="no plain text"):
        append_lines(path, ["a"], heading)
    assert path.read_bytes() == data


def test_a_folder_in_its_place_is_refused(path: Path) -> None:
    path.mkdir()
    with pytest.raises(SaveError, match="not a plain file"):
        append_lines(path, ["a"], heading)


def test_a_missing_site_folder_is_refused(path: Path) -> None:
    with pytest.raises(SaveError, match="folder is still there"):
        append_lines(path / "log.csv", ["a"], heading)


def test_a_file_that_stays_locked_is_refused_and_left_alone(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path.write_bytes(b"a\n")
    monkeypatch.setattr(locked_append, "PATIENCE_S", 0.05)
    code = (
        "import sys, pathlib\n"
        "from scheduler.files.locked_append import _locked\n"
        "with _locked(pathlib.Path(sys.argv[1])):\n"
        "    print('locked', flush=True)\n"
        "    sys.stdin.read()\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", code, str(path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    ) as holder:
        assert holder.stdout is not None
        holder.stdout.readline()
        with pytest.raises(SaveError, match="written by another program"):
            append_lines(path, ["b"], no_heading)
        holder.communicate(b"")
    assert path.read_bytes() == b"a\n"


def test_an_editor_that_replaces_the_file_meanwhile_loses_nothing(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path.write_bytes(b"a\n")
    really_take = file_lock.take
    waits = [b"a\nedited\n"]

    def take(file: object) -> None:
        really_take(file)  # type: ignore[arg-type]
        if waits:
            new = path.with_name("new")
            new.write_bytes(waits.pop())
            new.replace(path)

    monkeypatch.setattr(locked_append, "_take", take)
    append_lines(path, ["b"], no_heading)
    assert path.read_bytes() == b"a\nedited\nb\n"


def test_a_file_that_is_deleted_meanwhile_is_begun_again(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path.write_bytes(b"a\n")
    really_take = file_lock.take
    waits = [path]

    def take(file: object) -> None:
        really_take(file)  # type: ignore[arg-type]
        if waits:
            waits.pop().unlink()

    monkeypatch.setattr(locked_append, "_take", take)
    append_lines(path, ["b"], heading)
    assert path.read_bytes() == b"date,what\nb\n"


def test_a_disk_that_knows_no_locks_is_refused(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def take(file: object) -> None:
        raise OSError(errno.ENOLCK, "No locks available")

    path.write_bytes(b"a\n")
    monkeypatch.setattr(locked_append, "_take", take)
    with pytest.raises(SaveError, match="No locks available"):
        append_lines(path, ["b"], heading)
    assert path.read_bytes() == b"a\n"


def test_lines_are_on_the_disk_before_the_lock_is_let_go(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    done: list[str] = []
    really_sync, really_let_go = os.fsync, file_lock.let_go

    def sync(handle: int) -> None:
        done.append("sync")
        really_sync(handle)

    def let_go(file: object) -> None:
        done.append("let go")
        really_let_go(file)  # type: ignore[arg-type]

    monkeypatch.setattr(os, "fsync", sync)
    monkeypatch.setattr(locked_append, "_let_go", let_go)
    append_lines(path, ["a"], no_heading)
    take_back_lines(path, ["a"])
    # the second is the folder, which may hold a new name
    assert done == ["sync", "let go", "sync", "sync", "let go"]


def test_a_disk_that_cannot_sync_leaves_the_file_as_it_was(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def sync(handle: int) -> None:
        raise OSError(errno.EIO, "Input/output error")

    path.write_bytes(b"a\n")
    monkeypatch.setattr(os, "fsync", sync)
    with pytest.raises(SaveError, match="Input/output error"):
        append_lines(path, ["b"], no_heading)
    assert path.read_bytes() == b"a\n"
    with pytest.raises(SaveError, match="Input/output error"):
        take_back_lines(path, ["a"])
    assert path.read_bytes() == b"a\n"


# --- several programs at once ------------------------------------------------

MANY = """\
import pathlib, sys
from scheduler.files.locked_append import append_lines
path, name = pathlib.Path(sys.argv[1]), sys.argv[2]
print("ready", flush=True)
sys.stdin.readline()
for i in range(40):
    lines = [f"{name},{i},{part},{'x' * 3000}" for part in "ab"]
    append_lines(path, lines, lambda before: () if before else ("heading",))
"""


def test_four_programs_at_once_lose_no_line_and_mix_none(path: Path) -> None:
    running = [
        subprocess.Popen(
            [sys.executable, "-c", MANY, str(path), name],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        for name in "pqrs"
    ]
    for one in running:
        assert one.stdout is not None
        one.stdout.readline()
    for one in running:
        assert one.stdin is not None
        one.stdin.write("go\n")
        one.stdin.flush()
    for one in running:
        one.communicate(timeout=120)
        assert one.returncode == 0
    first, *lines = path.read_text("utf-8").splitlines()
    assert first == "heading"
    for name in "pqrs":
        # each program's lines in its own order, and its pairs side by side
        mine = [i for i, line in enumerate(lines) if line.startswith(f"{name},")]
        said = [line.split(",")[1:3] for line in lines if line[0] == name]
        assert said == [[str(i), part] for i in range(40) for part in "ab"]
        assert all(b == a + 1 for a, b in zip(mine[::2], mine[1::2], strict=True))
    assert all(line.endswith("x" * 3000) for line in lines)


# --- kills -------------------------------------------------------------------

TORN = """\
import os, pathlib, signal, sys
from scheduler.files import locked_append
really_write, cut = os.write, int(sys.argv[2])
def write(handle, data):
    really_write(handle, bytes(data)[:cut])
    os.kill(os.getpid(), signal.SIGKILL)
os.write = write
locked_append.append_lines(pathlib.Path(sys.argv[1]), ["bbbb", "cccc"], lambda _: ())
"""


@pytest.mark.skipif(sys.platform == "win32", reason="kills as POSIX does")
@pytest.mark.parametrize(
    ("cut", "left"),
    [
        (0, b"a\n"),
        (2, b"a\nbb"),
        (4, b"a\nbbbb"),
        (5, b"a\nbbbb\n"),
        (7, b"a\nbbbb\ncc"),
    ],
)
def test_a_program_killed_in_the_middle_of_a_write_leaves_the_lines_before(
    path: Path, cut: int, left: bytes
) -> None:
    path.write_bytes(b"a\n")
    done = subprocess.run(
        [sys.executable, "-c", TORN, str(path), str(cut)], check=False
    )
    assert done.returncode == -signal.SIGKILL
    assert path.read_bytes() == left


def test_the_next_append_after_a_kill_begins_on_a_fresh_line(path: Path) -> None:
    path.write_bytes(b"a\nbb")
    append_lines(path, ["next"], no_heading)
    assert path.read_bytes() == b"a\nbb\nnext\n"


FOREVER = """\
import pathlib, sys
from scheduler.files.locked_append import append_lines
print("ready", flush=True)
i = 0
while True:
    append_lines(pathlib.Path(sys.argv[1]), [f"{i}," + "x" * 50_000] * 4, lambda _: ())
    i += 1
"""


@pytest.mark.skipif(sys.platform == "win32", reason="kills as POSIX does")
@pytest.mark.parametrize("wait_s", [0.0, 0.004, 0.013, 0.031, 0.057])
def test_a_program_killed_at_any_moment_leaves_whole_lines_and_lets_the_lock_go(
    path: Path, wait_s: float
) -> None:
    with subprocess.Popen(
        [sys.executable, "-c", FOREVER, str(path)], stdout=subprocess.PIPE
    ) as running:
        assert running.stdout is not None
        running.stdout.readline()
        time.sleep(wait_s)
        running.send_signal(signal.SIGKILL)
    append_lines(path, ["next"], no_heading)
    *lines, last = path.read_text("utf-8").splitlines()
    torn = [line for line in lines if not line.endswith("x" * 50_000)]
    assert last == "next"
    assert torn in ([], lines[-1:])


@pytest.mark.skipif(not hasattr(os, "fork"), reason="a limit of POSIX")
def test_a_full_disk_leaves_the_file_as_it_was(path: Path) -> None:
    path.write_bytes(b"a\n")
    code = (
        "import pathlib, resource, signal, sys\n"
        "from scheduler.files.locked_append import append_lines\n"
        "from scheduler.errors import SaveError\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))\n"
        "try:\n"
        "    append_lines(pathlib.Path(sys.argv[1]), ['x' * 99999], lambda _: ())\n"
        "except SaveError as error:\n"
        "    print(error)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(path)],
        check=True,
        capture_output=True,
        text=True,
    )
    assert "cannot be saved" in done.stdout
    assert path.read_bytes() == b"a\n"
