"""A save is whole or has not happened, and never overwrites what it has not read."""

import errno
import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, NoReturn

import pytest

from scheduler.errors import SaveError
from scheduler.files.save import rewrite_toml, save_bytes, save_new_text, save_text
from scheduler.files.text_file import digest_of

OLD = """\
# my zones, by hand
format = 1   # keep

[[zone]]
id   =   "Z1"      # the yard
minutes = 24       # was 30
days = [
  "mon",  # not on Sundays
]

[[zone]]
id = 'Z2'
minutes = 10
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "zones.toml"
    made.write_text(OLD, encoding="utf-8")
    return made


def digest(path: Path) -> str:
    return digest_of(path.read_bytes())


def seen(folder: Path) -> dict[str, bytes]:
    return {one.name: one.read_bytes() for one in folder.iterdir()}


# --- what is saved -----------------------------------------------------------


def test_a_new_file_holds_the_text(tmp_path: Path) -> None:
    save_text(tmp_path / "new.csv", "date,rain (mm)\n", read_digest=None)
    assert (tmp_path / "new.csv").read_bytes() == b"date,rain (mm)\n"


def test_bytes_are_saved_as_they_are(tmp_path: Path) -> None:
    data = b"%PDF-1.7\r\n\x00\xff"
    assert save_bytes(tmp_path / "a.pdf", data, read_digest=None) == digest_of(data)
    assert seen(tmp_path) == {"a.pdf": data}


def test_a_file_that_was_read_is_replaced(path: Path) -> None:
    save_text(path, "format = 1\n", read_digest=digest(path))
    assert path.read_text("utf-8") == "format = 1\n"


def test_the_new_fingerprint_is_given_back(path: Path) -> None:
    new = save_text(path, "format = 1\n", read_digest=digest(path))
    assert new == digest(path)


def test_no_other_file_is_left_behind(path: Path) -> None:
    save_text(path, "format = 1\n", read_digest=digest(path))
    assert [one.name for one in path.parent.iterdir()] == ["zones.toml"]


@pytest.mark.parametrize("mode", [0o640, 0o600, 0o664])
def test_rights_are_kept(path: Path, mode: int) -> None:
    path.chmod(mode)
    save_text(path, "format = 1\n", read_digest=digest(path))
    assert path.stat().st_mode & 0o777 == mode


def test_a_new_file_gets_the_usual_rights(tmp_path: Path) -> None:
    save_text(tmp_path / "new.csv", "x\n", read_digest=None)
    plain = tmp_path / "plain.csv"
    plain.write_text("x\n", encoding="utf-8")
    assert (tmp_path / "new.csv").stat().st_mode == plain.stat().st_mode


def test_a_link_stays_a_link(path: Path) -> None:
    link = path.with_name("link.toml")
    link.symlink_to(path)
    save_text(link, "format = 1\n", read_digest=digest(path))
    assert link.is_symlink()
    assert path.read_text("utf-8") == "format = 1\n"


# --- what is refused ---------------------------------------------------------


def test_an_existing_file_is_not_overwritten_as_new(path: Path) -> None:
    with pytest.raises(SaveError, match="is there already; choose another name"):
        save_text(path, "x", read_digest=None)
    assert path.read_text("utf-8") == OLD


def test_a_file_changed_meanwhile_is_not_overwritten(path: Path) -> None:
    read = digest(path)
    path.write_text(OLD + "# by hand\n", encoding="utf-8")
    with pytest.raises(SaveError, match="changed by somebody else"):
        save_text(path, "x", read_digest=read)
    assert path.read_text("utf-8") == OLD + "# by hand\n"


def test_a_file_deleted_meanwhile_is_not_made_again(path: Path) -> None:
    read = digest(path)
    path.unlink()
    with pytest.raises(SaveError, match="deleted or renamed"):
        save_text(path, "x", read_digest=read)
    assert not path.exists()


def test_a_change_during_the_save_is_not_overwritten(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    read = digest(path)
    sync = os.fsync

    def slow_disk(handle: int) -> None:
        path.write_text("by hand\n", encoding="utf-8")
        sync(handle)

    monkeypatch.setattr(os, "fsync", slow_disk)
    with pytest.raises(SaveError, match="changed by somebody else"):
        save_text(path, "x", read_digest=read)
    assert seen(path.parent) == {"zones.toml": b"by hand\n"}


def test_a_missing_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SaveError, match="check that the folder is still there"):
        save_text(tmp_path / "gone" / "a.csv", "x", read_digest=None)


# --- disks that fail ---------------------------------------------------------


def failing(code: int) -> Any:
    def fails(*args: Any, **kwargs: Any) -> NoReturn:
        raise OSError(code, os.strerror(code))

    return fails


@pytest.mark.parametrize(
    ("where", "name", "code", "remedy"),
    [
        (os, "write", errno.ENOSPC, "free some space"),
        (os, "fsync", errno.ENOSPC, "free some space"),
        (os, "fsync", errno.EDQUOT, "free some space"),
        (os, "fsync", errno.EIO, "check the disk"),
        (os, "replace", errno.EACCES, "the right to write"),
        (tempfile, "mkstemp", errno.EACCES, "the right to write"),
        (tempfile, "mkstemp", errno.EROFS, "a disk that can be written"),
    ],
)
def test_a_disk_that_fails_leaves_the_folder_as_it_was(
    path: Path,
    monkeypatch: pytest.MonkeyPatch,
    where: Any,
    name: str,
    code: int,
    remedy: str,
) -> None:
    before, read = seen(path.parent), digest(path)
    monkeypatch.setattr(where, name, failing(code))
    with pytest.raises(SaveError, match=f"as before; .*{remedy}"):
        save_text(path, "format = 1\n", read_digest=read)
    monkeypatch.undo()
    assert seen(path.parent) == before


def test_a_disk_that_takes_little_at_a_time_gets_it_all(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write = os.write
    monkeypatch.setattr(os, "write", lambda handle, data: write(handle, data[:3]))
    save_text(path, "format = 1\n", read_digest=digest(path))
    assert path.read_text("utf-8") == "format = 1\n"


def test_a_real_limit_of_file_size_leaves_the_folder_as_it_was(path: Path) -> None:
    resource = pytest.importorskip("resource")
    assert resource
    code = (
        "import resource, signal, sys, pathlib\n"
        "from scheduler.files.save import save_new_text, save_text\n"
        "from scheduler.errors import SaveError\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))\n"
        "try:\n"
        "    save_text(pathlib.Path(sys.argv[1]), 'x' * 99999,"
        " read_digest=sys.argv[2])\n"
        "except SaveError as error:\n"
        "    print(error)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(path), digest(path)],
        check=True,
        capture_output=True,
        text=True,
    )
    assert "cannot be saved" in done.stdout
    assert seen(path.parent) == {"zones.toml": OLD.encode()}


KILLED = """\
import pathlib, sys
from scheduler.files.save import save_text
from scheduler.files.text_file import digest_of
path = pathlib.Path(sys.argv[1])
read = digest_of(path.read_bytes())
print("ready", flush=True)
while True:
    for letter in "ab":
        read = save_text(path, letter * 200_000, read_digest=read)
"""


@pytest.mark.parametrize("wait_s", [0.0, 0.003, 0.011, 0.029, 0.053])
def test_a_program_killed_while_saving_leaves_a_whole_file(
    path: Path, wait_s: float
) -> None:
    path.write_text("a" * 200_000, encoding="utf-8")
    with subprocess.Popen(
        [sys.executable, "-c", KILLED, str(path)], stdout=subprocess.PIPE
    ) as running:
        assert running.stdout is not None
        running.stdout.readline()
        time.sleep(wait_s)
        running.send_signal(signal.SIGKILL)
    text = path.read_text("utf-8")
    assert text in ("a" * 200_000, "b" * 200_000)


# --- edits that keep remarks -------------------------------------------------


def _minutes_of_the_second(minutes: int) -> Callable[[Any], None]:
    def change(document: Any) -> None:
        document["zone"][1]["minutes"] = minutes

    return change


def test_only_the_edited_value_changes(path: Path) -> None:
    rewrite_toml(path, _minutes_of_the_second(27), digest(path))
    assert path.read_text("utf-8") == OLD.replace("minutes = 10", "minutes = 27")


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_windows_newlines_and_marks_are_kept(path: Path, mark: bytes) -> None:
    windows = mark + OLD.encode().replace(b"\n", b"\r\n")
    path.write_bytes(windows)
    rewrite_toml(path, _minutes_of_the_second(11), digest(path))
    assert path.read_bytes() == windows.replace(b"= 10", b"= 11")


def test_an_edit_of_a_changed_file_is_refused(path: Path) -> None:
    with pytest.raises(SaveError, match="changed by somebody else"):
        rewrite_toml(path, _minutes_of_the_second(11), "another")
    assert path.read_text("utf-8") == OLD


def test_an_edit_of_a_missing_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SaveError, match="check that the folder is still there"):
        rewrite_toml(tmp_path / "gone.toml", _minutes_of_the_second(11), "any")


def test_an_edit_of_what_is_no_toml_is_refused(path: Path) -> None:
    path.write_text("just words\n", encoding="utf-8")
    with pytest.raises(SaveError, match="cannot be read as TOML"):
        rewrite_toml(path, _minutes_of_the_second(11), digest(path))
    assert path.read_text("utf-8") == "just words\n"


# --- files that must be new ----------------------------------------------------


def test_a_new_file_is_written_whole(tmp_path: Path) -> None:
    path = tmp_path / "new.json"
    assert save_new_text(path, "{}\n") == digest(path)
    assert seen(tmp_path) == {"new.json": b"{}\n"}


def test_a_file_that_is_there_is_never_written_over(path: Path) -> None:
    with pytest.raises(SaveError, match="is there already"):
        save_new_text(path, "new")
    assert seen(path.parent) == {"zones.toml": OLD.encode()}


def test_a_file_made_while_we_wrote_is_never_written_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "new.json"
    sync = os.fsync

    def slow_disk(handle: int) -> None:
        sync(handle)
        path.write_text("theirs", encoding="utf-8")

    monkeypatch.setattr(os, "fsync", slow_disk)
    with pytest.raises(SaveError, match="is there already"):
        save_new_text(path, "ours")
    assert seen(tmp_path) == {"new.json": b"theirs"}


def test_a_disk_without_hard_links_gets_the_file_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "link", failing(errno.EPERM))
    save_new_text(tmp_path / "new.json", "{}\n")
    assert seen(tmp_path) == {"new.json": b"{}\n"}


def test_a_disk_that_fails_leaves_nothing_of_a_new_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "link", failing(errno.EPERM))
    monkeypatch.setattr(os, "replace", failing(errno.ENOSPC))
    with pytest.raises(SaveError, match=r"new\.toml: .*free some space"):
        save_new_text(tmp_path / "new.toml", "x = 1\n")
    assert seen(tmp_path) == {}


def test_a_new_file_in_a_missing_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SaveError, match="check that the folder is still there"):
        save_new_text(tmp_path / "gone" / "new.json", "{}\n")
