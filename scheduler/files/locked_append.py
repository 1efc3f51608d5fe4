"""Lines in; a text file that several people append to at once, without a loss, out.

The file itself is locked while it is written, by `fcntl` on POSIX and `msvcrt` on
Windows, and each append is one write that is on the disk before the lock is let go. A
program killed in the middle leaves a last line that was cut short; the next append
begins on a fresh line behind it.
"""

import contextlib
import os
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import BinaryIO

from scheduler.errors import SaveError
from scheduler.files.file_lock import TAKEN, is_there_still
from scheduler.files.file_lock import let_go as _let_go
from scheduler.files.file_lock import take as _take
from scheduler.files.save import sync_folder, trouble

PATIENCE_S = 10.0
_PAUSE_S = 0.02
_ODD_STARTS = (b"\xff\xfe", b"\xfe\xff", b"PK\x03\x04")


def append_lines(
    path: Path, lines: Sequence[str], heading: Callable[[bytes], Sequence[str]]
) -> None:
    """Append lines to a text file, which is made if it is not there.

    Parameters
    ----------
    path : Path
        The file; its folder must exist.
    lines : sequence of str
        Without line ends.
    heading : callable
        What the file holds in; lines that must stand before the new ones out.

    Raises
    ------
    SaveError
        If it cannot be written, or somebody else keeps it locked; the file is then as
        before, or has a last line that was cut short.
    """
    with _locked(path) as file:
        before = file.read()
        if before.startswith(_ODD_STARTS):
            what = "is no plain text file"
            raise SaveError(what, "save it as UTF-8 text", str(path))
        data = _encoded([*heading(before), *lines], before)
        _write(file, len(before), data, path)
    sync_folder(path.parent)


def take_back_lines(path: Path, lines: Sequence[str]) -> None:
    """Take the last lines out of a text file, if they are still the last.

    Parameters
    ----------
    path : Path
        The file.
    lines : sequence of str
        The last lines that are not blank, as they were read.

    Raises
    ------
    SaveError
        If others stand there by now, or the file cannot be written.
    """
    with _locked(path, must_be=True) as file:
        before = file.read()
        at = _start_of(before, lines)
        if at is None:
            what = "was changed by somebody else since it was read"
            fix = "look at its last lines, then repeat the change"
            raise SaveError(what, fix, str(path))
        try:
            file.truncate(at)
            os.fsync(file.fileno())
        except OSError as problem:
            with contextlib.suppress(OSError):  # the file as it was
                file.truncate(at)
                os.write(file.fileno(), before[at:])
            raise SaveError(*trouble(problem), str(path)) from problem


def _start_of(data: bytes, lines: Sequence[str]) -> int | None:
    """Where the last lines begin, or None when others stand there."""
    end = len(data)
    for line in reversed(lines):
        end = len(data[:end].rstrip(b"\r\n \t"))
        start = max(data.rfind(b"\n", 0, end), data.rfind(b"\r", 0, end)) + 1
        if not _is_same(data[start:end], line):
            return None
        end = start
    return end


def _is_same(data: bytes, line: str) -> bool:
    plain = data.removeprefix(b"\xef\xbb\xbf").replace(b"\0", b"?")
    wanted = line.rstrip()
    return wanted in (
        plain.decode("utf-8", errors="replace"),
        plain.decode("cp1252", errors="replace"),
    )


def _encoded(lines: Sequence[str], before: bytes) -> bytes:
    """The bytes to add, with the line ends that the file has."""
    end = "\r\n" if b"\r\n" in before else "\n"
    text = "".join(f"{line}{end}" for line in lines)
    is_ended = not before or before.endswith((b"\n", b"\r"))
    return (text if is_ended else end + text).encode("utf-8")


def _write(file: BinaryIO, at: int, data: bytes, path: Path) -> None:
    """Write behind what was there; what the disk refuses is taken out again."""
    try:
        left = memoryview(data)
        while left:
            left = left[os.write(file.fileno(), left) :]
        os.fsync(file.fileno())
    except OSError as problem:
        with contextlib.suppress(OSError):
            file.truncate(at)
        raise SaveError(*trouble(problem), str(path)) from problem


@contextlib.contextmanager
def _locked(path: Path, *, must_be: bool = False) -> Iterator[BinaryIO]:
    """Open the file for appending and keep everybody else from it."""
    until = time.monotonic() + PATIENCE_S
    while True:
        file = _opened(path, must_be=must_be)
        try:
            _take(file)
        except OSError as problem:
            file.close()
            if problem.errno not in TAKEN:  # a disk that knows no locks
                raise SaveError(*trouble(problem), str(path)) from problem
            if time.monotonic() > until:
                what = "is being written by another program"
                fix = "close that program, or wait a moment and repeat"
                raise SaveError(what, fix, str(path)) from problem
            time.sleep(_PAUSE_S)
            continue
        # an editor may have put another file in its place while we waited
        if is_there_still(path, file):
            break
        file.close()
    try:
        yield file
    finally:
        with contextlib.suppress(OSError):
            _let_go(file)
        file.close()


def _opened(path: Path, *, must_be: bool) -> BinaryIO:
    try:
        if path.exists() and not path.is_file():  # a pipe would never open
            raise SaveError("is not a plain file", "put a text file there", str(path))
        if must_be and not path.exists():
            raise SaveError("is not there", "there is nothing to take back", str(path))
        file = path.open("a+b", buffering=0)
        file.seek(0)
    except (OSError, ValueError) as problem:
        if isinstance(problem, OSError):
            raise SaveError(*trouble(problem), str(path)) from problem
        raise SaveError(str(problem), "name another folder", str(path)) from problem
    return file
